"""What would make a carpenter laugh at a layout; common practice, no source."""

import math
from collections.abc import Iterator
from itertools import pairwise

from trainer.layout import End, Layout, Member
from trainer.layout.bays import Bay, bays
from trainer.level import Level

SIDE_BY_SIDE = 150
"""Parallel trusses nearer than this, mm."""
UNDER = 60
"""An inside wall this near the middle of a truss, or the ridge line, is hidden by it, mm."""


def laughs(level: Level, layout: Layout) -> Iterator[str]:
    """Say what is silly: a truss on the very corner of an opening, one hard beside its like, a splinter of a saddle."""
    for member in layout.members:
        for end in member.ends:
            bare = end.on_plate and level.roof.overhang and member.kind != "girder" and not end.tail
            if bare and not _beside_a_girders_end(layout, member, end):
                yield f"{member.tag} ends at the very end of {end.bears_on}"
        if member.kind == "saddle" and member.span < 2 * SIDE_BY_SIDE:
            yield f"{member.tag} is {member.span:g} wide"
    for own in bays(layout).values():
        for bay in own:
            if bay.gap < SIDE_BY_SIDE and not _at_a_gables_face(layout, bay):
                yield f"{bay.first} and {bay.second} are {bay.gap:g} apart"


def _beside_a_girders_end(layout: Layout, member: Member, end: End) -> bool:
    """Whether a truss stands hard against the end of an opening's girder, where there is no room for a tail."""
    girders = [girder for girder in layout.members if girder.kind == "girder"]
    return any(math.dist(end.at, g.at) <= girder.width + member.width for girder in girders for g in girder.ends)


def _at_a_gables_face(layout: Layout, bay: Bay) -> bool:
    """Whether two stand on either side of the face of a gable that goes on over the house: each ends its own roof."""
    pair = [layout.by_tag[tag] for tag in (bay.first, bay.second)]
    return pair[0].row != pair[1].row and "gable" in {member.kind for member in pair}


def hidden_walls(level: Level, layout: Layout) -> Iterator[str]:
    """Say which inside wall runs right under a truss, or along the ridge line."""
    lines = [(member.start, member.finish) for member in layout.members]
    lines += [(a[:2], b[:2]) for a, b in layout.roof.ridges]
    for wall in level.internal_walls:
        for a, b in pairwise(wall):
            for p, q in lines:
                axis = next((i for i in (0, 1) if a[i] == b[i] and p[i] == q[i]), None)
                if axis is None:
                    continue
                along = 1 - axis
                shared = min(max(a[along], b[along]), max(p[along], q[along])) - max(
                    min(a[along], b[along]), min(p[along], q[along])
                )
                if abs(a[axis] - p[axis]) <= UNDER and shared > 0:
                    yield f"{wall} under {p} to {q}"
