"""Where the load of a truss goes: what each end bears, on what, whether it is fixed there, and on down to the walls."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from trainer.picture.bodies import Body
from trainer.picture.model import Anchor, Item, Line, Polygon, Text
from trainer.picture.section import Cut
from trainer.site import Site, end_fixed
from trainer.words import _

ARROW = 300.0
"""Length of the arrow at a bearing, mm."""
HEAD = 90.0
"""Half the width of an arrow's head, mm."""
INK = "habit"


@dataclass(frozen=True, slots=True)
class Bearing:
    """One end of a truss in its place: what it ``bears_on``, how much roof comes down there, m² in plan, and
    whether it is ``fixed`` as the site stands.
    """

    tag: str
    end: int
    bears_on: str
    m2: float
    fixed: bool


def path(site: Site, place: str) -> tuple[Bearing, ...]:
    """Return the bearings through which the load of a place goes, its own two first, down to the walls."""
    found: list[Bearing] = []
    waiting, seen = [place], {place}
    while waiting:
        tag = waiting.pop(0)
        member = site.layout.by_tag[tag]
        for number, (end, m2) in enumerate(zip(member.ends, site.job.loads[tag].ends_m2, strict=True), 1):
            found.append(Bearing(tag, number, end.bears_on, m2, end_fixed(site, tag, number)))
        for carrier in member.carried_by:
            if carrier not in seen:
                seen.add(carrier)
                waiting.append(carrier)
    return tuple(found)


def in_words(bearings: tuple[Bearing, ...]) -> Iterator[str]:
    """Yield a line for each bearing: the truss, what it bears on, how much roof, and whether a fixing is missing."""
    for one in bearings:
        wall = one.bears_on.removeprefix("plate ")
        on = one.bears_on if wall == one.bears_on else _("wall {wall}").format(wall=wall)
        line = _("{tag} → {on}: {m2:.1f} m² of roof") if one.fixed else _("{tag} → {on}: {m2:.1f} m², not fixed yet")
        yield line.format(tag=one.tag, on=on, m2=one.m2)


def arrows(bearings: tuple[Bearing, ...], body: Body, cut: Cut, *, flipped: bool) -> list[Item]:
    """Return an arrow down at each end of the truss that a section shows, with the roof that comes down there.

    It is open while the end is not fixed.
    """
    items: list[Item] = []
    for one in bearings[:2]:
        at_start = (one.end == 1) != flipped
        x, z = cut.paper((*(body.start if at_start else body.finish), body.framed.base))
        inward = 45.0 if cut.place(body.start if not at_start else body.finish)[0] > x else -45.0
        x, tip = x + inward, z - 90.0 - ARROW
        items.append(Line(((x, z - 90.0), (x, tip + HEAD)), INK, 3.0))
        fill = INK if one.fixed else "paper"
        items.append(Polygon(((x, tip), (x - HEAD, tip + 2 * HEAD), (x + HEAD, tip + 2 * HEAD)), fill, INK, 2.0))
        anchor: Anchor = "start" if inward > 0 else "end"
        beside = (x + inward * 4, z - 90.0 - ARROW / 2)
        items.append(Text(beside, f"{one.m2:.1f} m²", INK, 14.0, "px", anchor, bold=True, spare=True))
    return items
