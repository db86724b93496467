"""Dangers of the day for a new site, or for a drill: each where it could be."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from trainer.generate.draw import Draw
from trainer.layout import Layout
from trainer.layout.posts import free_posts
from trainer.level.dangers import LATE as COMES_LATER
from trainer.level.dangers import OF_BEAMS, OF_POSTS, Danger, DangerKind

INSIDE = ((0.25, 0.35), (0.4, 0.65), (0.6, 0.35), (0.75, 0.65))
"""Where a danger inside may lie, as parts of the widest wing's length and width."""
OUT = (600, 700, 800)
"""How far outside the house a service line hangs, mm."""
CLEAR = (800, 1200, 1600, 2000)
"""How near loads swing to a service line, mm: nearer than any level allows by itself."""
FROM_THE_START: tuple[DangerKind, ...] = (
    "service line", "open stair void", "missing rail", "missing platform", "people in the exclusion zone",
    "pack on a lintel", "gust forecast", "licence missing",
)  # fmt: skip
LATE: tuple[DangerKind, ...] = ("pack on a half-braced row", "gust at noon")
_INSIDE = ("open stair void", "missing platform", "people in the exclusion zone", "pack on a half-braced row")
EARLIEST = 3
"""Lifts after which the first danger of the day may come up."""


def some_dangers(
    draw: Draw, layout: Layout, count: int, kinds: Collection[DangerKind] | None = None
) -> tuple[Danger, ...]:
    """Return ``count`` dangers of as many kinds: of all that the house can have, where none are given."""
    if kinds is None:
        beams = of_beams(layout)
        late: tuple[DangerKind, ...] = ("post brace taken off",) if "post not braced" in beams else ()
        # Kinds that only beams have come last, so that houses without any draw as if there were none.
        kinds = (*FROM_THE_START, *LATE, *beams, *late)
    chosen = draw.shuffled(list(kinds), "dangers")[:count]
    spots = iter(draw.shuffled(INSIDE, "spots"))
    return tuple(_danger(draw, layout, kind, spots) for kind in chosen)


def of_beams(layout: Layout) -> tuple[DangerKind, ...]:
    """Return the dangers, there from the start, that the verandah beams of a house and their posts can have."""
    beams: tuple[DangerKind, ...] = ("beam not bolted down", "beam propped") if layout.house.plan.beams else ()
    free: tuple[DangerKind, ...] = ("post not braced", "post not tied down") if free_posts(layout) else ()
    return (*beams, *free)


def _danger(draw: Draw, layout: Layout, kind: DangerKind, spots: Iterator[tuple[float, float]]) -> Danger:
    after = draw.between(EARLIEST, max(EARLIEST, len(layout.members) // 2), 1, kind) if kind in COMES_LATER else None
    if kind in OF_BEAMS:
        return Danger(what=kind, wall=draw.pick([beam.wall for beam in layout.house.plan.beams], kind))
    if kind in OF_POSTS:
        return Danger(what=kind, at=draw.pick([_tens(*post.at) for post in free_posts(layout)], kind), after=after)
    if kind in _INSIDE:
        x0, y0, x1, y1 = layout.wings[0].rect
        along, across = next(spots)
        return Danger(what=kind, at=_tens(x0 + (x1 - x0) * along, y0 + (y1 - y0) * across), after=after)
    if kind == "service line":
        return Danger(what=kind, at=_outside(draw, layout), clear=draw.pick(CLEAR, "clear"))
    if kind in ("missing rail", "pack on a lintel"):
        walls = [wall.name for wall in layout.house.plan.walls]
        return Danger(what=kind, wall=draw.pick(walls, kind))
    return Danger(what=kind, after=after)


def _outside(draw: Draw, layout: Layout) -> tuple[int, int]:
    """A place outside the house, off the middle of one of its four sides."""
    x0, y0, x1, y1 = layout.house.plan.bounds
    far = draw.pick(OUT, "out")
    middle_x, middle_y = (x0 + x1) / 2, (y0 + y1) / 2
    sides = ((middle_x, y0 - far), (x1 + far, middle_y), (middle_x, y1 + far), (x0 - far, middle_y))
    return _tens(*draw.pick(sides, "side"))


def _tens(x: float, y: float) -> tuple[int, int]:
    return round(x / 10) * 10, round(y / 10) * 10
