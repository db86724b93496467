"""Plate plans drawn at random for tests, the same for the same seed, and the eight ways to turn one over.

Nothing here knows the product's geometry: plans are grown cell by cell, or are unions of rectangles.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace
from itertools import accumulate

from shapely import Polygon, box, set_precision, union_all

from trainer.plan import PlatePlan, wall_name

Corners = list[tuple[int, int]]
Turn = Callable[[int, int], tuple[int, int]]

TURNS: dict[str, Turn] = {
    "as it is": lambda x, y: (x, y),
    "quarter turn": lambda x, y: (-y, x),
    "half turn": lambda x, y: (-x, -y),
    "three quarters": lambda x, y: (y, -x),
    "mirrored across": lambda x, y: (-x, y),
    "mirrored up": lambda x, y: (x, -y),
    "mirrored on the diagonal": lambda x, y: (y, x),
    "mirrored on the other diagonal": lambda x, y: (-y, -x),
}
SHORTEST_SIDE = 2400
NARROWEST_WING = 3900
FEWEST_CORNERS = 4
_RING = [(1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1)]
_Cell = tuple[int, int]


def random_plan(seed: int, corners: int = 12, gables: bool = False, least: int = 300, most: int = 5000) -> PlatePlan:
    """Return a plan with exactly this even number of corners and no regard for how houses look.

    Bays are ``least`` to ``most`` mm; a third of the plans have all bays alike, a third bays from a short
    list, so that equal spans, walls in line and meetings of many planes are common. With ``gables``, some
    of the walls that may be gables are.
    """
    dice = random.Random(f"plan {seed} {corners}")
    cells = _grown(dice, corners)
    lines = []
    for side in (0, 1):
        low, high = min(cell[side] for cell in cells), max(cell[side] for cell in cells)
        bays = _bays(dice, seed % 3, high - low + 1, least, most)
        lines.append(dict(zip(range(low, high + 2), accumulate(bays, initial=0), strict=True)))
    outline = [(lines[0][x], lines[1][y]) for x, y in _walk_round(cells)]
    return PlatePlan(tuple(outline), 90, _some_gables(dice, outline) if gables else frozenset())


def house_like_plan(seed: int, gables: bool = True) -> PlatePlan:
    """Return a main rectangle with one to five wings: every side at least 2400, every wing at least 3900 wide."""
    dice = random.Random(f"house {seed}")
    while True:
        length, width = sorted((_size(dice, 5400, 12000), _size(dice, 9000, 21000)), reverse=True)
        shape = box(0, 0, length, width)
        for _ in range(dice.randint(1, 5)):
            shape = union_all([shape, _wing(dice, length, width)])
        outline = _outline(shape)
        if outline and min(_lengths(outline)) >= SHORTEST_SIDE and _is_wide(shape):
            return PlatePlan(tuple(outline), 90, _some_gables(dice, outline) if gables else frozenset())


def turned(plan: PlatePlan, turn: Turn, shift: tuple[int, int] = (0, 0)) -> PlatePlan:
    """Return the plan turned or mirrored, then shifted; a mirrored outline is walked the other way round.

    Wall names follow the walls' new places in the outline; gables stay gables, dutch gables dutch gables.
    """
    outline = [(x + shift[0], y + shift[1]) for x, y in (turn(*corner) for corner in plan.outline)]
    new = {wall_name(index): index for index in range(len(outline))}
    if _twice_area(outline) < 0:
        outline.reverse()
        new = {name: (len(outline) - 2 - index) % len(outline) for name, index in new.items()}
    gables, against = (frozenset(wall_name(new[name]) for name in named) for named in (plan.gables, plan.against))
    dutch = tuple(replace(gable, wall=wall_name(new[gable.wall])) for gable in plan.dutch_gables)
    return PlatePlan(tuple(outline), plan.plate_width, gables, against=against, dutch_gables=dutch)


def may_be_gable(outline: Corners, index: int) -> bool:
    """Whether the wall from corner ``index`` stands between two outside corners."""
    return _turns_left(outline, index) and _turns_left(outline, (index + 1) % len(outline))


def _grown(dice: random.Random, corners: int) -> set[_Cell]:
    """Add one cell after another, with no hole and nothing touching at a corner only, to the wanted corners."""
    assert corners >= FEWEST_CORNERS and corners % 2 == 0, "a plan of right angles has an even number of corners"
    cells = {(0, 0)}
    edge = {(1, 0), (0, 1), (-1, 0), (0, -1)}
    count = FEWEST_CORNERS
    enough = dice.randint(1, 1 + corners // 4)
    while count != corners or len(cells) < enough:
        x, y = dice.choice(sorted(edge)) if len(edge) < 40 else dice.choice(tuple(edge))
        ring = [(x + dx, y + dy) in cells for dx, dy in _RING]
        blocks = sum(here and not ring[i - 1] for i, here in enumerate(ring))
        change = _corner_change(ring)
        if (blocks != 1 and not all(ring)) or any(_only_diagonal(ring, i) for i in (1, 3, 5, 7)):
            continue
        if count + change > corners:
            continue
        cells.add((x, y))
        count += change
        edge.discard((x, y))
        edge |= {(x + dx, y + dy) for dx, dy in _RING[::2]} - cells
    return cells


def _only_diagonal(ring: list[bool], i: int) -> bool:
    return ring[i] and not ring[i - 1] and not ring[(i + 1) % 8]


def _corner_change(ring: list[bool]) -> int:
    """How many corners more the outline has once the cell in the middle of the ring is filled."""
    before = after = 0
    for i in (1, 3, 5, 7):
        around = ring[i - 1] + ring[i] + ring[(i + 1) % 8]
        before += around % 2
        after += (around + 1) % 2
    return after - before


def _walk_round(cells: set[_Cell]) -> Corners:
    """Follow the edges of the cells anticlockwise and keep the corners."""
    follows: dict[_Cell, _Cell] = {}
    for x, y in cells:
        for (dx, dy), start, end in (
            ((0, -1), (x, y), (x + 1, y)),
            ((1, 0), (x + 1, y), (x + 1, y + 1)),
            ((0, 1), (x + 1, y + 1), (x, y + 1)),
            ((-1, 0), (x, y + 1), (x, y)),
        ):
            if (x + dx, y + dy) not in cells:
                follows[start] = end
    first = min(follows)
    ring = [first]
    while (after := follows[ring[-1]]) != first:
        ring.append(after)
    return [
        b
        for a, b, c in zip([ring[-1], *ring[:-1]], ring, [*ring[1:], ring[0]], strict=True)
        if (a[0] == b[0]) != (b[0] == c[0])
    ]


def _bays(dice: random.Random, how: int, count: int, least: int, most: int) -> list[int]:
    if how == 0:
        return [dice.randint(least, most)] * count
    if how == 1:
        short_list = [dice.randint(least, most) for _ in range(3)]
        return [dice.choice(short_list) for _ in range(count)]
    return [dice.randint(least, most) for _ in range(count)]


def _some_gables(dice: random.Random, outline: Corners) -> frozenset[str]:
    wanted = dice.random()
    taken: set[int] = set()
    count = len(outline)
    for index in dice.sample(range(count), count):
        free = (index - 1) % count not in taken and (index + 1) % count not in taken
        if free and may_be_gable(outline, index) and dice.random() < wanted:
            taken.add(index)
    return frozenset(map(wall_name, taken))


def _size(dice: random.Random, least: int, most: int) -> int:
    step = dice.choice((100, 300, 600))
    return dice.randrange(-(-least // step), most // step + 1) * step


def _wing(dice: random.Random, length: int, width: int) -> Polygon:
    """A rectangle that runs through one side of the main one, sometimes through both, sometimes flush with an end."""
    across, along = dice.choice(((length, width), (width, length)))
    broad = min(_size(dice, NARROWEST_WING, 7800), across)
    start = dice.choice((0, across - broad, _size(dice, 0, max(across - broad, 0))))
    start = min(start, across - broad)
    out = _size(dice, SHORTEST_SIDE, 7200)
    low, high = dice.choice(((-out, along // 2), (along // 2, along + out), (-out, along + out)))
    return box(start, low, start + broad, high) if across == length else box(low, start, high, start + broad)


def _outline(shape: Polygon) -> Corners:
    if shape.geom_type != "Polygon" or shape.interiors:
        return []
    ring = [(round(x), round(y)) for x, y in set_precision(shape, 1).normalize().exterior.coords[:-1]]
    ring = ring if _twice_area(ring) > 0 else ring[::-1]
    return [b for i, b in enumerate(ring) if not _straight(ring[i - 1], b, ring[(i + 1) % len(ring)])]


def _is_wide(shape: Polygon) -> bool:
    """Whether every part is as wide as a wing must be: opened by a square of that width, nothing is lost."""
    half = (NARROWEST_WING - 1) / 2
    opened = shape.buffer(-half, join_style="mitre").buffer(half, join_style="mitre")
    return bool(shape.difference(opened).area < 1)


def _straight(a: tuple[int, int], b: tuple[int, int], c: tuple[int, int]) -> bool:
    return a[0] == b[0] == c[0] or a[1] == b[1] == c[1]


def _lengths(outline: Corners) -> list[int]:
    return [abs(a[0] - b[0]) + abs(a[1] - b[1]) for a, b in zip(outline, outline[1:] + outline[:1], strict=True)]


def _turns_left(outline: Corners, index: int) -> bool:
    (px, py), (x, y), (nx, ny) = outline[index - 1], outline[index], outline[(index + 1) % len(outline)]
    return (x - px) * (ny - y) - (y - py) * (nx - x) > 0


def _twice_area(outline: Corners) -> int:
    return sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(outline, outline[1:] + outline[:1], strict=True))
