"""Where the load of a truss goes: what each end bears, on what, and on down to the walls."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from trainer.layout import Layout
from trainer.layout.shares import Load
from trainer.picture.bodies import Body
from trainer.picture.model import Anchor, Item, Line, Polygon, Text
from trainer.picture.section import Cut
from trainer.words import _

ARROW = 300.0
"""Length of the arrow at a bearing, mm."""
HEAD = 90.0
"""Half the width of an arrow's head, mm."""
INK = "habit"


@dataclass(frozen=True, slots=True)
class Bearing:
    """One end of a truss in its place: what it ``bears_on``, and how much roof comes down there, m² in plan."""

    tag: str
    end: int
    bears_on: str
    m2: float


def path(layout: Layout, loads: Mapping[str, Load], place: str) -> tuple[Bearing, ...]:
    """Return the bearings through which the load of a place goes, its own two first, down to the walls."""
    found: list[Bearing] = []
    waiting, seen = [place], {place}
    while waiting:
        tag = waiting.pop(0)
        member = layout.by_tag[tag]
        for number, (end, m2) in enumerate(zip(member.ends, loads[tag].ends_m2, strict=True), 1):
            found.append(Bearing(tag, number, end.bears_on, m2))
        for carrier in member.carried_by:
            if carrier not in seen:
                seen.add(carrier)
                waiting.append(carrier)
    return tuple(found)


def in_words(bearings: tuple[Bearing, ...]) -> Iterator[str]:
    """Yield a line for each bearing: the truss, what it bears on, and how much roof."""
    for one in bearings:
        wall = one.bears_on.removeprefix("plate ")
        on = one.bears_on if wall == one.bears_on else _("wall {wall}").format(wall=wall)
        yield _("{tag} → {on}: {m2:.1f} m² of roof").format(tag=one.tag, on=on, m2=one.m2)


def arrows(bearings: tuple[Bearing, ...], body: Body, cut: Cut, *, flipped: bool) -> list[Item]:
    """Return an arrow down at each end of the truss that a section shows, with the roof that comes down there."""
    items: list[Item] = []
    for one in bearings[:2]:
        at_start = (one.end == 1) != flipped
        x, z = cut.paper((*(body.start if at_start else body.finish), body.framed.base))
        inward = 45.0 if cut.place(body.start if not at_start else body.finish)[0] > x else -45.0
        x, tip = x + inward, z - 90.0 - ARROW
        items.append(Line(((x, z - 90.0), (x, tip + HEAD)), INK, 3.0))
        items.append(Polygon(((x, tip), (x - HEAD, tip + 2 * HEAD), (x + HEAD, tip + 2 * HEAD)), INK))
        anchor: Anchor = "start" if inward > 0 else "end"
        beside = (x + inward * 4, z - 90.0 - ARROW / 2)
        items.append(Text(beside, f"{one.m2:.1f} m²", INK, 14.0, "px", anchor, bold=True))
    return items
