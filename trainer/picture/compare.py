"""The roof as built beside the reference: which trusses stand elsewhere, the wrong way round, or not at all."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

from trainer.layout import Member
from trainer.picture.as_built import LyingPiece, lying
from trainer.picture.falling import down
from trainer.picture.frame import Framed
from trainer.picture.measures import figure
from trainer.picture.model import Item, Line, Text
from trainer.picture.solids import Solid
from trainer.picture.space import Turn
from trainer.picture.trusses import strip
from trainer.plan import Point
from trainer.site.model import Site

DASH = (8.0, 5.0)
What = Literal["missing", "off", "turned", "other", "astray"]


@dataclass(frozen=True, slots=True)
class Difference:
    """One truss that is not as the reference has it. ``place`` is the member whose place it is about.

    ``tag`` is the truss that stands there, if one does; ``off`` is how far an end is out, mm.
    """

    what: What
    place: Member
    tag: str = ""
    off: float = 0.0


def differences(site: Site) -> tuple[Difference, ...]:
    """Return what differs from the reference by more than the level's own tolerance."""
    return tuple(_differences(site))


def _differences(site: Site) -> Iterator[Difference]:
    fell = down(site)
    for place in site.layout.members:
        tag = site.at_place.get(place.tag)
        if tag is None or tag in fell:
            if place.tag not in site.astray:
                yield Difference("missing", place)
            continue
        stood = site.stood[tag]
        off = max(math.hypot(end.along, end.across) for end in stood.off)
        if stood.turned:
            yield Difference("turned", place, tag)
        elif site.layout.by_tag[stood.piece or tag].like != place.like:
            yield Difference("other", place, tag)
        elif off > site.job.station_tolerance:
            yield Difference("off", place, tag, off)
    for tag in sorted(site.astray):
        yield Difference("astray", site.layout.by_tag[tag], tag)


def on_plan(found: Iterable[Difference], site: Site) -> list[Item]:
    """Return the reference over the plan where it differs: its outline dashed, and how far the truss is from it."""
    items: list[Item] = []
    words: list[Text] = []
    for one in found:
        lies = LyingPiece(one.place.start, one.place.finish)
        first, last = one.place.top[0][0], one.place.top[-1][0]
        outline = strip(lies.at(min(0.0, first)), lies.at(max(lies.length, last)), one.place.width + 60)
        items.append(Line((*outline, outline[0]), "mark", 2.0, "px", DASH))
        if one.tag in site.stood:
            here = lying(site.stood[one.tag])
            items.append(Line((here.at(here.length / 2), lies.at(lies.length / 2)), "mark", 2.0))
        at, *places = [lies.at(lies.length * part) for part in (0.62, 0.5, 0.74, 0.38, 0.26)]
        words.append(_label(one, at, places=tuple(places)))
    return [*items, *words]


def _short(one: Difference) -> str:
    return f"{one.place.tag} {figure(round(one.off))}" if one.what == "off" else one.place.tag


def in_space(found: Iterable[Difference], framed: dict[str, Framed], turn: Turn) -> list[Item]:
    """Return the reference in the angled view where it differs: the outline of each truss where it belongs, dashed."""
    items: list[Item] = []
    words: list[Text] = []
    for one in found:
        solid = Solid(one.place.tag, framed[one.place.tag], one.place.start, one.place.finish)
        items.append(Line(turn.all_flat(solid.rim), "mark", 2.0, "px", DASH))
        words.append(_label(one, turn.flat(solid.apex), rows=4))
    return [*items, *words]


def _label(one: Difference, at: Point, places: tuple[Point, ...] = (), rows: int = 0) -> Text:
    """Return a word on a difference; that of a truss which is missing may wait for room."""
    missing = one.what == "missing"
    return Text(at, _short(one), "mark", 13.0, "px", bold=True, ground="paper", places=places, rows=rows, spare=missing)
