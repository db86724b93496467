"""Where the posts of a verandah beam stand, what bears on the beam, and how much roof comes down at each post.

A post, or the wall's end, stands at both ends of the beam and under every girder and truncated girder that it
carries; between them are as few equal bays as keep to 3,600. What bears between two posts goes to them by the law
of the lever. Common practice, no source; who designs the beam decides.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from trainer.layout.model import End, Layout, Member
from trainer.layout.shares import loads
from trainer.plan import Beam, PlatePlan, Point

WIDEST = 3600.0
"""The widest bay between two posts, mm."""
SAME = 150.0
"""Two posts would stand so near to each other, mm, that one does for both."""
NEAR = 300.0
"""A fault of a post lies this near to its middle, mm."""
UNDER = ("girder", "truncated_girder")
"""The kinds of truss that have a post under them."""


@dataclass(frozen=True, slots=True)
class Post:
    """A post under the beam on ``wall``, ``run`` mm from the wall's first corner; ``at`` is its middle in plan.

    ``wall_end``: it is the end of the wall that the beam goes on from. ``under`` are the girders that it stands under.
    """

    wall: str
    run: float
    at: Point
    wall_end: bool
    under: tuple[str, ...] = ()


def beam_under(plan: PlatePlan, end: End) -> Beam | None:
    """Return the beam that an end of a truss bears on; none where it bears on anything else."""
    if not end.on_plate or not plan.beams:
        return None
    wall = plan.by_name[end.bears_on.removeprefix("plate ")]
    return next((beam for beam in plan.beams if beam.holds(wall, end.at)), None)


@lru_cache(maxsize=16)
def posts(layout: Layout) -> tuple[Post, ...]:
    """Return the posts of all beams, in order along each."""
    return tuple(post for beam in layout.house.plan.beams for post in _posts(layout, beam))


def free_posts(layout: Layout, wall: str = "") -> tuple[Post, ...]:
    """Return the posts that stand free of any wall, under the beam on ``wall``, or under all."""
    return tuple(post for post in posts(layout) if not post.wall_end and wall in {"", post.wall})


def _posts(layout: Layout, beam: Beam) -> Iterator[Post]:
    plan = layout.house.plan
    wall, half = plan.by_name[beam.wall], plan.plate_width / 2
    girders = [(wall.run(at), tag) for tag, at in _girder_ends(layout, beam)]
    runs = beam.posts if beam.posts is not None else _runs(beam, [run for run, _tag in girders])
    for run in runs:
        wall_end = (run == beam.low > 0) or (run == beam.high < wall.length)
        x, y = wall.at(min(max(run, half), wall.length - half))
        nx, ny = wall.inward
        under = tuple(tag for at, tag in girders if abs(at - run) <= SAME)
        yield Post(beam.wall, run, (x + nx * half, y + ny * half), wall_end, under)


def _girder_ends(layout: Layout, beam: Beam) -> Iterator[tuple[str, Point]]:
    for member, end in on_beam(layout, beam):
        if member.kind in UNDER:
            yield member.tag, member.ends[end - 1].at


def _runs(beam: Beam, girders: list[float]) -> tuple[float, ...]:
    """Both ends, under the girders, and equal bays between; whole mm."""
    fixed = [beam.low]
    for run in sorted(girders):
        if run - fixed[-1] > SAME and beam.high - run > SAME:
            fixed.append(run)
    fixed.append(beam.high)
    found = [beam.low]
    for a, b in pairwise(fixed):
        count = max(1, math.ceil((b - a) / WIDEST))
        found += [float(round(a + (b - a) * k / count)) for k in range(1, count)]
        found.append(b)
    return tuple(found)


def on_beam(layout: Layout, beam: Beam) -> Iterator[tuple[Member, int]]:
    """Yield (truss, its end, 1 or 2) for whatever bears on a beam."""
    for member in layout.members:
        for number, end in enumerate(member.ends, 1):
            if beam_under(layout.house.plan, end) == beam:
                yield member, number


def post_areas(layout: Layout, beam: Beam) -> tuple[tuple[Post, float], ...]:
    """Return each post of a beam with the plan area that comes down there, m²; together all that the beam bears."""
    mine = [post for post in posts(layout) if post.wall == beam.wall]
    if not mine:
        return ()
    areas = [0.0] * len(mine)
    wall, load = layout.house.plan.by_name[beam.wall], loads(layout)
    for member, end in on_beam(layout, beam):
        run, area = wall.run(member.ends[end - 1].at), load[member.tag].ends_m2[end - 1]
        after = next((i for i, post in enumerate(mine) if post.run >= run), len(mine) - 1)
        before = max(after - 1, 0)
        if before == after or run >= mine[after].run:
            areas[after] += area
            continue
        if run <= mine[before].run:
            areas[before] += area
            continue
        part = (run - mine[before].run) / (mine[after].run - mine[before].run)
        areas[before] += area * (1 - part)
        areas[after] += area * part
    return tuple(zip(mine, areas, strict=True))
