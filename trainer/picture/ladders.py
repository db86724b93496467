"""The timbers of a verge ladder: a dutch gable's small verge is drawn as it is made."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from trainer.layout.model import Layout, Part
from trainer.plan import Point


def ladder(layout: Layout, part: Part) -> Iterator[Part]:
    """Yield the timbers of a verge ladder: one along the edge, one on the girder's face, and rungs; else the part."""
    yield part
    if part.part != "verge ladder":
        return
    girder = layout.by_tag[part.on]
    (ux, uy), (x, y) = girder.direction, part.start
    out = (x - girder.start[0]) * -uy + (y - girder.start[1]) * ux
    back = out - math.copysign(girder.width / 2 + girder.thickness / 2, out)

    def on_face(at: Point) -> Point:
        return at[0] + uy * back, at[1] - ux * back

    yield replace(part, start=on_face(part.start), finish=on_face(part.finish))
    rungs = max(2, math.ceil(math.dist(part.start, part.finish) / layout.house.trusses.spacing))
    for i in range(rungs + 1):
        (ax, ay), (bx, by) = part.start, part.finish
        at = (ax + (bx - ax) * i / rungs, ay + (by - ay) * i / rungs)
        yield replace(part, start=on_face(at), finish=at)
