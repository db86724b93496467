"""What a level may say that it teaches: the rules that are about what occurs in its house and on its site.

A suggestion for whoever makes the lesson, common practice, no source; at most so many that one can read them.
"""

from __future__ import annotations

from trainer.coverage.houses import (
    Asks,
    at_higher_wall,
    delivery_found,
    hung,
    kinds,
    on_beams,
    openings,
    parts,
    walls_found,
    windy,
)
from trainer.layout import Layout
from trainer.level import Level

MOST = 12


def _danger(*whats: str) -> Asks:
    return lambda level, _layout: any(danger.what in whats for danger in level.site.dangers)


def _dutch(_level: Level, layout: Layout) -> bool:
    return any(member.is_dutch for member in layout.members)


SUGGESTED: tuple[tuple[Asks, tuple[str, ...]], ...] = (
    (_danger("service line"), ("service-line-in-reach",)),
    (_danger("open stair void"), ("stair-void-open",)),
    (_danger("missing rail", "missing platform"), ("edge-left-open",)),
    (_danger("people in the exclusion zone"), ("people-under-the-lift",)),
    (_danger("gust at noon"), ("lifted-in-gust",)),
    (_danger("beam propped"), ("beam-propped",)),
    (_danger("post not braced"), ("post-not-braced",)),
    (delivery_found, ("damaged-truss-stood", "wrong-truss-for-place")),
    (walls_found("bowed wall", "plate out of level", "wrong length", "out of square"), ("plate-out-of-true",)),
    (windy, ("row-left-unsafe-overnight",)),
    (_dutch, ("dutch-girder-off-station", "waling-plate-missing")),
    (at_higher_wall, ("wall-tie-missing", "ledger-not-on-studs")),
    (on_beams, ("beam-not-bolted-down", "braced-to-beam")),
    (openings, ("girder-off-plate-line", "carried-before-carrier")),
    (kinds("saddle"), ("saddle-before-support",)),
    (hung, ("hanger-missing",)),
    (kinds("hip"), ("hip-before-truncated-girder", "extension-not-fixed")),
    (parts("outrigger"), ("outriggers-missing",)),
    (kinds("standard"), ("off-station", "spacing-too-wide", "end-brace-missing")),
)
"""What occurs, and the rules that are about it; what is seldom comes first."""


def teaches(level: Level, layout: Layout) -> tuple[str, ...]:
    """Return the names of rules that a level may say it teaches."""
    found = (rule for occurs, rules in SUGGESTED if occurs(level, layout) for rule in rules)
    return tuple(dict.fromkeys(found))[:MOST]
