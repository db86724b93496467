"""Verandah beams and their posts, apart from the plates of walls: in plan, in space and in a section."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Sequence

from trainer.layout import Layout
from trainer.layout.posts import free_posts
from trainer.picture.model import MEDIUM, THIN, Group, Item, Line, Polygon
from trainer.picture.space import Turn
from trainer.plan import Beam, PlatePlan, Point

DEEP = 240.0
"""Depth of a beam as drawn, mm."""
FOOT = -700.0
"""How far down from the plates a post is drawn, mm: it goes on to its footing."""
BRACE = 480.0
"""How far out the brace of a post stands as drawn, mm."""
AT_POST = 300.0
"""What lies this near to a post is of it, mm."""
POST_EDGE = 40.0
"""How far a post is drawn in plan past the edges of its beam, mm."""
FILL, EDGE = "timber_shade", "timber_edge"


def corners(plan: PlatePlan, beam: Beam) -> tuple[Point, ...]:
    """Return the four corners of a beam in plan, from its first end along the outside; mitred like the plates."""
    wall, wide = plan.by_name[beam.wall], float(plan.plate_width)
    (nx, ny), (dx, dy) = wall.inward, wall.along
    a, b = wall.at(beam.low), wall.at(beam.high)
    first = wide if beam.low == 0 and plan.convex(wall.index) else 0.0
    last = wide if beam.high == wall.length and plan.convex((wall.index + 1) % len(plan.walls)) else 0.0
    inner_b = (b[0] + nx * wide - dx * last, b[1] + ny * wide - dy * last)
    inner_a = (a[0] + nx * wide + dx * first, a[1] + ny * wide + dy * first)
    return a, b, inner_b, inner_a


def verandah(layout: Layout) -> tuple[Group, ...]:
    """Return what a plan shows of beams and posts; nothing for a house without."""
    return (*beams_on_plan(layout.house.plan), posts_on_plan(layout)) if layout.house.plan.beams else ()


def beams_on_plan(plan: PlatePlan) -> tuple[Group, ...]:
    """Return the beams, each with the line down its middle that tells it from a plate; nothing where there is none."""
    groups: list[Item | Group] = []
    for beam in plan.beams:
        a, b, c, d = corners(plan, beam)
        middle = (((a[0] + d[0]) / 2, (a[1] + d[1]) / 2), ((b[0] + c[0]) / 2, (b[1] + c[1]) / 2))
        groups.append(Group("beams", (Polygon((a, b, c, d), FILL, EDGE, MEDIUM), Line(middle, EDGE, THIN)), beam.wall))
    return (Group("beams", tuple(groups)),) if groups else ()


def posts_on_plan(layout: Layout) -> Group:
    """Return the posts as squares crossed from corner to corner; where the wall's end carries, there is none."""
    half = layout.house.plan.plate_width / 2 + POST_EDGE
    items: list[Item] = []
    for x, y in _places(layout):
        square = ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))
        items.append(Polygon(square, "paper", "ink", MEDIUM))
        items += [Line((square[0], square[2]), "ink", THIN), Line((square[1], square[3]), "ink", THIN)]
    return Group("posts", tuple(items))


def _places(layout: Layout) -> tuple[Point, ...]:
    """Where posts stand free, each once: two beams share one at a corner."""
    return tuple(dict.fromkeys(post.at for post in free_posts(layout)))


def in_space(
    layout: Layout, turn: Turn, floor: float = FOOT, bare: Sequence[Point] = (), walls: Collection[str] | None = None
) -> list[Item]:
    """Return the posts with their braces, and the beams on them; all of it lies under every truss.

    The posts stand on ``floor``, mm under the plates. Those at the places ``bare`` have no braces. With ``walls``, only
    what stands along them.
    """
    plan, items = layout.house.plan, list[Item]()
    beams = [beam for beam in plan.beams if walls is None or beam.wall in walls]
    along = {beam.wall for beam in beams}
    for x, y in dict.fromkeys(post.at for post in free_posts(layout) if post.wall in along) if beams else ():
        braced = not any(math.dist((x, y), at) <= AT_POST for at in bare)
        for dx, dy in _inwards(plan, (x, y)) if braced else ():
            items.append(Line(turn.all_flat(((x, y, -DEEP), (x + dx * BRACE, y + dy * BRACE, FOOT))), "brace", 1.6))
        items.append(Line(turn.all_flat(((x, y, -DEEP), (x, y, floor))), EDGE, 5.0))
    for beam in beams:
        outline = corners(plan, beam)
        for a, b in zip(outline, outline[1:] + outline[:1], strict=True):
            side = ((*b, 0.0), (*a, 0.0), (*a, -DEEP), (*b, -DEEP))
            if not turn.sees(*side[:3]):
                items.append(Polygon(turn.all_flat(side), FILL, EDGE, 1.0))
        items.append(Polygon(turn.all_flat(tuple((*corner, 0.0) for corner in outline)), FILL, EDGE, 1.2))
    return items


def _inwards(plan: PlatePlan, at: Point) -> tuple[tuple[int, int], tuple[int, int]]:
    """The two ways, square to each other, in which a post's braces run down: towards the middle of the house."""
    x0, y0, x1, y1 = plan.bounds
    return (1 if at[0] < (x0 + x1) / 2 else -1, 0), (0, 1 if at[1] < (y0 + y1) / 2 else -1)


def in_section(left: float, right: float, posts_at: tuple[float, ...]) -> Iterator[Item]:
    """Yield a beam between two places of a section, and the posts under it; end grain where the line cuts across."""
    yield Polygon(((left, -DEEP), (right, -DEEP), (right, 0.0), (left, 0.0)), FILL, EDGE, 1.4)
    if right - left < 2 * DEEP:
        yield Line(((left, -DEEP), (right, 0.0)), EDGE, 0.8)
        yield Line(((left, 0.0), (right, -DEEP)), EDGE, 0.8)
    for x in posts_at:
        yield Polygon(((x - 45, FOOT), (x + 45, FOOT), (x + 45, -DEEP), (x - 45, -DEEP)), "paper", EDGE, 1.2)
