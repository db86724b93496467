"""The yard: the packs that came, what lies in each, and what shows on looking at a truss there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from trainer.layout import Layout
from trainer.layout.model import Kind
from trainer.site.model import Site

PACK = 12
"""As many trusses as are strapped in one pack; common practice, no source."""
_TOGETHER: tuple[tuple[Kind, ...], ...] = (
    ("girder", "truncated_girder"),
    ("truncated",),
    ("hip", "jack", "creeper"),
    ("standard", "gable"),
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


def dockets(layout: Layout) -> tuple[tuple[str, ...], ...]:
    """Return the tags of each pack by the docket that came with the load, in the order of need, wing by wing."""
    return tuple(
        tuple(tags[i : i + PACK])
        for wing in layout.wings
        for kinds in _TOGETHER
        for tags in [[m.tag for m in layout.members if m.wing == wing.id and m.kind in kinds]]
        for i in range(0, len(tags), PACK)
    )


def packs(site: Site) -> tuple[Pack, ...]:
    """Return the packs as they lie now; a truss that did not come, or stands, is in none."""
    gone = {flaw.tag for flaw in site.flaws if flaw.what == "missing truss"} | set(site.stood)
    walls = [flaw.wall for flaw in site.flaws if flaw.what == "pack landed badly"]
    return tuple(
        Pack(number, tuple(tag for tag in tags if tag not in gone), walls[number - 1] if number <= len(walls) else "")
        for number, tags in enumerate(dockets(site.layout), 1)
    )


def shows(site: Site, tag: str) -> Iterator[str]:
    """Yield what a look at the truss that wears ``tag`` shows: a fault's name, for each that it has."""
    for flaw in site.flaws:
        if flaw.what == "swapped tag":
            if tag in (flaw.tag, flaw.other):
                yield flaw.what
        elif flaw.tag == tag:
            yield flaw.what
