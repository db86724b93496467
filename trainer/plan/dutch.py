"""What can be wrong with a dutch gable: the wall it is named for, and where its girder truss stands.

It stands on a hip end whose two hips run up to one point: the square on the wall fits in the house. Its girder
stands from the setback on, as the truncated girder does, and before the point where the hips meet. Common practice,
no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from trainer.plan.faults import PlanFault
from trainer.plan.model import DutchGable, PlatePlan, Wall
from trainer.plan.roof_parts import roof_parts
from trainer.plan.straight import straightened
from trainer.words import _

Sizes = tuple[float, float]
_At = tuple[tuple[str, ...], str]


def dutch_faults(plan: PlatePlan, limit: float, setback: float, dutch: Mapping[str, Sizes | None]) -> list[PlanFault]:
    """Return all that is wrong with the dutch gables of a sound plan: for each wall's name ``at`` and ``verge``, mm.

    None where these could not be read. ``limit`` is the depth of the steps that the fascia runs straight past,
    ``setback`` the level's own, mm.
    """
    found = [fault for name, sizes in dutch.items() for fault in _faults(plan, limit, setback, name, sizes)]
    sound = [name for name in dutch if not any(path[0] == name for path, _what in found)]
    found += [((name,), _meets(name, after)) for name in sound for after in sound if _after(plan, name) == after]
    return [PlanFault(("dutch_gables", *path), what) for path, what in found]


def _faults(plan: PlatePlan, limit: float, setback: float, name: str, sizes: Sizes | None) -> Iterator[_At]:
    wall = plan.by_name.get(name)
    if wall is None:
        yield (name,), _no_wall(name, [wall.name for wall in plan.walls])
        return
    if wall.gable:
        yield (name,), _("is a gable and a dutch gable both; take wall {wall} out of one of them").format(wall=name)
        return
    if wall.against:
        text = _("is the face of a higher wall, where no hip end is; take wall {wall} out of this or of against")
        yield (name,), text.format(wall=name)
        return
    roof = straightened(replace(plan, internal_walls=(), dutch_gables=(_given(name),)), limit).plan
    end = roof.by_name.get(roof.dutch_gables[0].wall)  # a short return, which the fascia runs past, is no end of a roof
    if end is None or not any(_is_hip_end(part, whole) for part in roof_parts(roof) for whole in _whole(part, end)):
        text = _("wall {wall} is no hip end; choose one where two hips rise from outside corners and meet")
        yield (name,), text.format(wall=name)
        return
    if sizes is None:
        return
    (at, verge), half = sizes, end.length / 2
    if not setback <= at < half:
        yield (name, "at"), _from_to(at, setback, half)
    elif verge >= at:
        text = _("is {verge}, as far out as the wall; keep it under at, {at}")
        yield (name, "verge"), text.format(verge=_mm(verge), at=_mm(at))


def _after(plan: PlatePlan, name: str) -> str:
    wall = plan.by_name.get(name)
    return plan.walls[(wall.index + 1) % len(plan.walls)].name if wall else ""


def _meets(name: str, after: str) -> str:
    text = _("walls {wall} and {after} meet at a corner, and the ridge runs to one of them; take the other one out")
    return text.format(wall=name, after=after)


def _given(name: str) -> DutchGable:
    return DutchGable(name, 0.0, 0.0)


def _no_wall(name: str, names: list[str]) -> str:
    if name.upper() in names:
        return _("did you mean '{name}'? Walls have capital letters").format(name=name.upper())
    return _("is no wall of this house; its walls are A to {last}").format(last=names[-1])


def _from_to(at: float, setback: float, half: float) -> str:
    if setback >= half:
        text = _("is {at}, but the hips meet {half} in, before the setback, {setback}; this end is too narrow for one")
    elif at < setback:
        text = _("is {at}, nearer the wall than the setback; make it {setback} or more, and less than {half}")
    else:
        text = _("is {at}, but the hips meet {half} in; make it less than half the span, and {setback} or more")
    return text.format(at=_mm(at), setback=_mm(setback), half=_mm(half))


def _mm(size: float) -> str:
    return f"{size:g}"


def _whole(part: PlatePlan, end: Wall) -> Iterator[Wall]:
    """A part's own wall of that name, where no line of a gable comes to it from inside."""
    yield from (wall for wall in part.walls if wall.name == end.name and wall.length == end.length)


def _is_hip_end(plan: PlatePlan, wall: Wall) -> bool:
    """Whether both hips of a wall run up to one point: its corners are outside ones and its square fits in the plan."""
    count = len(plan.walls)
    before, after = plan.walls[wall.index - 1], plan.walls[(wall.index + 1) % count]
    if not plan.convex(wall.index) or not plan.convex((wall.index + 1) % count) or not before.eave or not after.eave:
        return False
    (nx, ny), deep = wall.inward, wall.length
    corners = (wall.a, (wall.b[0] + nx * deep, wall.b[1] + ny * deep))
    low = tuple(min(corner[i] for corner in corners) for i in (0, 1))
    high = tuple(max(corner[i] for corner in corners) for i in (0, 1))
    return not any(_cuts(other, low, high) for other in plan.walls)


def _cuts(wall: Wall, low: tuple[float, ...], high: tuple[float, ...]) -> bool:
    """Whether a wall runs through the inside of a square."""
    return all(max(wall.a[i], wall.b[i]) > low[i] and min(wall.a[i], wall.b[i]) < high[i] for i in (0, 1))
