"""A straight fascia: shallow steps and recesses do not break the roof, so its outline runs straight past them.

The plates stay where they are. A step's depth is total, from the outermost wall of that side. Gable walls,
the faces of higher walls, steps that meet the corner of either, and walls that would move one, are left as they are.
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from types import MappingProxyType

from trainer.plan.faults import plan_faults
from trainer.plan.model import PlatePlan, Wall


@dataclass(frozen=True, slots=True)
class Plate:
    """One wall's plate under a straightened line: how far it stands back, and from where to where it runs, mm."""

    wall: str
    depth: float
    low: float
    high: float


@dataclass(frozen=True)
class Straightened:
    """The outline that a roof rises from: a ``plan`` whose walls have the names of the first plate on each line.

    ``plates`` are those under each of its walls, in order along x or y.
    """

    plan: PlatePlan
    plates: Mapping[str, tuple[Plate, ...]]


@lru_cache(maxsize=64)
def straightened(plan: PlatePlan, limit: float) -> Straightened:
    """Return the outline of the roof over a sound plan, straight past steps no deeper than ``limit`` (mm; 0: none)."""
    lines = [_line(wall) for wall in plan.walls]
    for chain in _chains(plan, limit) if limit else ():
        _level(plan, chain, limit, lines)
    if lines == [_line(wall) for wall in plan.walls]:
        return _unchanged(plan)
    return _redrawn(plan, lines) or _unchanged(plan)


def _line(wall: Wall) -> float:
    return wall.a[0] if wall.inward[0] else wall.a[1]


def _unchanged(plan: PlatePlan) -> Straightened:
    return Straightened(plan, MappingProxyType({wall.name: (_plate(wall, _line(wall)),) for wall in plan.walls}))


def _plate(wall: Wall, line: float) -> Plate:
    along = 1 if wall.inward[0] else 0
    low, high = sorted((wall.a[along], wall.b[along]))
    return Plate(wall.name, abs(_line(wall) - line), low, high)


def _chains(plan: PlatePlan, limit: float) -> Iterator[list[int]]:
    """Runs of walls that face one way, each joined to the next by a short return; their indices in order."""
    walls, count = plan.walls, len(plan.walls)

    def joined(i: int) -> bool:
        before, here, after = walls[i - 1], walls[i], walls[(i + 1) % count]
        eaves = before.eave and here.eave and after.eave
        return here.length <= limit and before.inward == after.inward and eaves

    for i in range(count):
        if joined((i + 1) % count) and not joined(i - 1):
            chain = [i]
            while joined((chain[-1] + 1) % count) and len(chain) < count:
                chain.append((chain[-1] + 2) % count)
            yield chain


def _level(plan: PlatePlan, chain: list[int], limit: float, lines: list[float]) -> None:
    """Bring the walls beside the outermost one of a chain out to its line, as far as they lie within the limit."""
    if len(chain) < 2:
        return
    walls = plan.walls
    outward = -sum(walls[chain[0]].inward)
    outermost = max(range(len(chain)), key=lambda k: outward * _line(walls[chain[k]]))
    line = _line(walls[chain[outermost]])

    def moves(k: int) -> bool:
        i = chain[k]
        depth = outward * (line - _line(walls[i]))
        free = walls[i - 1].eave and walls[(i + 1) % len(walls)].eave
        return depth <= limit and (free or not depth)

    first = last = outermost
    while first and moves(first - 1):
        first -= 1
    while last + 1 < len(chain) and moves(last + 1):
        last += 1
    for i in chain[first : last + 1]:
        lines[i] = line
    _level(plan, chain[:first], limit, lines)
    _level(plan, chain[last + 1 :], limit, lines)


def _redrawn(plan: PlatePlan, lines: list[float]) -> Straightened | None:
    """The outline with its walls on new lines; None where it would no longer be a sound one."""
    walls, count = plan.walls, len(plan.walls)
    stay = [
        i for i in range(count)
        if not (walls[i - 1].inward == walls[(i + 1) % count].inward and lines[i - 1] == lines[(i + 1) % count])
    ]  # fmt: skip
    groups: list[list[int]] = []
    for i in stay:
        if groups and walls[groups[-1][-1]].inward == walls[i].inward and lines[groups[-1][-1]] == lines[i]:
            groups[-1].append(i)
        else:
            groups.append([i])
    first, last = groups[0], groups[-1]
    if len(groups) > 1 and walls[last[-1]].inward == walls[first[0]].inward and lines[last[-1]] == lines[first[0]]:
        groups[0] = groups.pop() + first
    outline = tuple(_corner(walls, lines, groups[k - 1][0], groups[k][0]) for k in range(len(groups)))
    names = tuple(walls[group[0]].name for group in groups)
    if plan_faults(outline, (), ()):
        return None
    first_of = {walls[i].name: walls[group[0]].name for group in groups for i in group}
    dutch = tuple(replace(d, wall=first_of.get(d.wall, d.wall)) for d in plan.dutch_gables)
    new = replace(plan, outline=outline, names=names, dutch_gables=dutch)
    if any(new.by_name[walls[i].name].along != walls[i].along for group in groups for i in group[:1]):
        return None
    plates = {names[k]: [_plate(walls[i], lines[i]) for i in group] for k, group in enumerate(groups)}
    for i in set(range(count)) - set(stay):
        # A return that no roof rises from still has a plate, on the line of a wall beside it.
        own = _plate(walls[i], lines[i])
        for k, group in enumerate(groups):
            same_line = walls[group[0]].inward == walls[i].inward and lines[group[0]] == lines[i]
            if same_line and any({own.low, own.high} & {p.low, p.high} for p in plates[names[k]]):
                plates[names[k]].append(own)
                break
    plates_in_order = {name: tuple(sorted(found, key=lambda plate: plate.low)) for name, found in plates.items()}
    return Straightened(new, MappingProxyType(plates_in_order))


def _corner(walls: tuple[Wall, ...], lines: list[float], before: int, after: int) -> tuple[int, int]:
    x, y = (before, after) if walls[before].inward[0] else (after, before)
    return int(lines[x]), int(lines[y])
