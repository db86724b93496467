"""The ends of a beam on posts, drawn along their wall by mouse: their handles, and the beam as it would be."""

from __future__ import annotations

from trainer.picture.model import Item, Line, Polygon, Text
from trainer.plan import Point
from trainer.table import Act, Drawing, SetBeam
from trainer.table.drawing import step

FIGURE_PX, SIZE_PX = 17.0, 9.0


def beam_handles(drawing: Drawing, wall: str, inside: float) -> tuple[Point, ...]:
    """Return where the ends of a wall's beam are taken hold of, ``inside`` mm within the wall; none without a beam."""
    kind = drawing.walls[drawing.index(wall)]
    if not kind.beam:
        return ()
    ends = kind.stretch or (0, drawing.length(drawing.index(wall)))
    return tuple(_place(drawing, wall, run, inside) for run in ends)


def _place(drawing: Drawing, wall: str, run: float, inside: float = 0.0) -> Point:
    """Return the place so far along a wall and so far inside it, mm."""
    a, b = drawing.ends(drawing.index(wall))
    dx, dy = step(a, b)
    return a[0] + dx * run - dy * inside, a[1] + dy * run + dx * inside


def moved_end(drawing: Drawing, wall: str, end: int, run: int, least: int) -> Act | None:
    """Return what lets an end of a beam be ``run`` mm along its wall; a beam is ``least`` mm long at least."""
    index = drawing.index(wall)
    kind, length = drawing.walls[index], drawing.length(index)
    low, high = kind.stretch or (0, length)
    if end == 0:
        low = max(0, min(run, high - least))
    else:
        high = min(length, max(run, low + least))
    stretch = (low, high) if (low, high) != (0, length) else None
    return SetBeam(wall, stretch, kind.posts) if stretch != kind.stretch else None


def handles_drawn(handles: tuple[Point, ...], mm_per_px: float) -> list[Item]:
    """Return the handles as diamonds, which no corner of a house looks like, with the beam's length between them."""
    if not handles:
        return []
    (ax, ay), (bx, by) = handles
    long, size = abs(bx - ax) + abs(by - ay), SIZE_PX * mm_per_px
    middle = ((ax + bx) / 2, (ay + by) / 2)
    return [
        Line(handles, "mark", 2.0, "px", (8.0, 5.0)),
        Text(middle, f"{long:g}", "mark", FIGURE_PX, "px", turn=0.0 if ay == by else 90.0, bold=True, ground="paper"),
        *(
            Polygon(((x - size, y), (x, y - size), (x + size, y), (x, y + size)), "paper", "mark", 2.4)
            for x, y in handles
        ),
    ]


def beam_preview(drawing: Drawing, act: Act) -> list[Item]:
    """Return the beam as an act would leave it, with its length and where it ends; nothing for any other act."""
    if not isinstance(act, SetBeam):
        return []
    index = drawing.index(act.wall)
    whole = (0, drawing.length(index))
    (low, high), before = act.stretch or whole, drawing.walls[index].stretch or whole
    ends = (_place(drawing, act.wall, low), _place(drawing, act.wall, high))
    figures = [((low + high) / 2, f"{high - low}"), *((run, f"{run}") for run in (low, high) if run not in before)]
    items: list[Item] = [Line(ends, "mark", 9.0)]
    for run, said in figures:
        at = _place(drawing, act.wall, run)
        items.append(Text(at, said, "mark", FIGURE_PX, "px", bold=True, ground="paper", off=(0.0, 1.2)))
    return items
