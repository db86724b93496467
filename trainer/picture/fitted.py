"""Where what is fitted on a truss lies on the plan: each piece of a set where the learner put it, right or wrong."""

from __future__ import annotations

import math
from collections.abc import Iterator

from trainer.layout import Layout
from trainer.layout.model import Part
from trainer.order.verge import FRAMED, ON_DUTCH
from trainer.picture.ladders import ladder
from trainer.plan import Point
from trainer.site.model import Fitted, Site
from trainer.site.verge import reach, set_spots, stud_spots


def pieces(site: Site, tag: str, fitted: Fitted) -> tuple[Part, ...]:
    """Return the pieces that something fitted on a standing truss is; none where it is no piece of framing.

    A set of outriggers or gable studs is as many as its spacing makes, and as long as it was put in.
    """
    if tag not in site.layout.by_tag:
        return ()  # a bracket on a ledger
    if fitted.part not in FRAMED:
        nearest = _nearest(site.layout, tag, fitted)
        return () if nearest is None else (nearest,)
    if tag not in site.stood:
        return ()
    if fitted.part in ("verge rafter", *ON_DUTCH):
        place = site.stood[tag].place or tag
        found = [part for part in site.layout.parts if (part.on, part.part) == (place, fitted.part)]
        return tuple(piece for part in found for piece in ladder(site.layout, part))
    return tuple(_set(site, tag, fitted))


def _set(site: Site, tag: str, fitted: Fitted) -> Iterator[Part]:
    """Yield the outriggers or the studs of a set along the truss as it stands."""
    stood = site.stood[tag]
    (ax, ay), (bx, by) = stood.start, stood.finish
    span = math.dist(stood.start, stood.finish) or 1.0
    ux, uy = (bx - ax) / span, (by - ay) / span
    if fitted.part == "gable stud":
        for run in stud_spots(span, fitted):
            at = (ax + ux * run, ay + uy * run)
            yield Part(fitted.part, tag, at, at)
        return
    place = stood.place or tag
    (nx, ny), out = _outward(site.layout, place, stood.start)
    back = reach(site, place) if fitted.back is None else fitted.back
    for run in dict.fromkeys(set_spots(span, fitted, one_slope=site.layout.by_tag[place].ends[1].on_ledger)):
        x, y = ax + ux * run, ay + uy * run
        yield Part(fitted.part, tag, (x + nx * out, y + ny * out), (x - nx * back, y - ny * back))


def _outward(layout: Layout, place: str, start: Point) -> tuple[Point, float]:
    """Return the way out through a gable, and how far its verge is out from a truss that stands at ``start``, mm.

    A gable whose verge does not hang out has no outriggers on the layout: they would end at its truss.
    """
    for part in layout.parts:
        if (part.on, part.part) == (place, "outrigger"):
            length = math.dist(part.start, part.finish) or 1.0
            way = ((part.start[0] - part.finish[0]) / length, (part.start[1] - part.finish[1]) / length)
            return way, (part.start[0] - start[0]) * way[0] + (part.start[1] - start[1]) * way[1]
    member = layout.by_tag[place]
    ux, uy = member.direction
    others = [layout.by_tag[tag].start for tag in layout.rows[member.row] if tag != place]
    side = sum((x - start[0]) * -uy + (y - start[1]) * ux for x, y in others)
    return ((uy, -ux) if side > 0 else (-uy, ux)), 0.0


def _nearest(layout: Layout, tag: str, fitted: Fitted) -> Part | None:
    """Return the part of the layout that something fitted on a truss is, the nearest to where it was put."""
    own = [part for part in layout.parts if part.on == tag and part.part == fitted.part]
    member = layout.by_tag[tag]
    (x, y), (ux, uy) = member.start, member.direction

    def off(part: Part) -> float:
        return min(abs((px - x) * ux + (py - y) * uy - (fitted.at or 0.0)) for px, py in (part.start, part.finish))

    return min(own, key=off, default=None)
