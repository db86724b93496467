"""The yard: the packs that came, what lies in each, and what shows on looking at a truss there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import groupby

from trainer.chance import chance
from trainer.layout.model import Member
from trainer.level.as_found import PACK
from trainer.site.job import Job
from trainer.site.model import Site
from trainer.site.placing import same_both_ways
from trainer.terms import TrussKind

_TOGETHER: tuple[tuple[TrussKind, ...], ...] = (
    ("girder", "truncated_girder"),
    ("truncated",),
    ("hip", "jack", "creeper"),
    ("standard", "half", "gable"),
    ("saddle",),
)
"""Kinds that come together, in the order in which a wing needs them."""


@dataclass(frozen=True, slots=True)
class Pack:
    """One pack of the load: its ``number`` in the order they came, from 1, and the ``tags`` in it by its docket.

    ``on_wall`` is the wall that it was landed on, where it should not be; none: on bearers on the ground.
    """

    number: int
    tags: tuple[str, ...]
    on_wall: str = ""


def dockets(job: Job) -> tuple[tuple[str, ...], ...]:
    """Return the tags of each pack by the docket that came with the load: as the level has it, else as needed."""
    given = job.conditions.packs
    named = {tag for pack in given for tag in pack}
    return (*given, *_as_needed([m for m in job.layout.members if m.tag not in named]))


def _as_needed(members: Iterable[Member]) -> Iterator[tuple[str, ...]]:
    """Yield packs in the order of need, wing by wing."""
    for _wing, of_wing in groupby(members, key=lambda m: m.wing):
        lying = list(of_wing)
        for kinds in _TOGETHER:
            tags = [m.tag for m in lying if m.kind in kinds]
            yield from (tuple(tags[i : i + PACK]) for i in range(0, len(tags), PACK))


def lies_turned(job: Job, tag: str) -> bool:
    """Whether a truss lies in its pack end for end, as far as that can be told: by the seed, as packs are landed."""
    return not same_both_ways(job.layout.by_tag[tag]) and chance(job.seed, "lies turned", tag) < 1 / 2


def packs(site: Site) -> tuple[Pack, ...]:
    """Return the packs as they lie now; a truss that did not come, or stands, is in none."""
    gone = {flaw.tag for flaw in site.flaws if flaw.what == "missing truss"} | set(site.stood)
    walls = [flaw.wall for flaw in site.flaws if flaw.what == "pack landed badly"]
    return tuple(
        Pack(number, tuple(tag for tag in tags if tag not in gone), walls[number - 1] if number <= len(walls) else "")
        for number, tags in enumerate(dockets(site.job), 1)
    )


def shows(site: Site, tag: str) -> Iterator[str]:
    """Yield what a look at the truss that wears ``tag`` shows: a fault's name, for each that it has."""
    for flaw in site.flaws:
        if flaw.what == "swapped tag":
            if tag in (flaw.tag, flaw.other):
                yield flaw.what
        elif flaw.tag == tag:
            yield flaw.what
