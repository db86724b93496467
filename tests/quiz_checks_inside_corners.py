"""A second opinion on the questions about a gable over a lower roof, and about half girders."""

from __future__ import annotations

import math

from quiz_reading import (
    agrees,
    check,
    from_wall,
    line,
    numbers,
    right,
    tags,
    tape,
    taped_ends,
    wall_ends,
    walls_in,
    wrong,
)
from shapely import LineString, Point, Polygon, box

from trainer.quiz.question import Asked
from trainer.quiz.worked import Subject

FAR = 100_000


def gable(start: float, span: float, slope: float) -> Polygon:
    """A gable as seen from before it, over its plates."""
    return Polygon([(start, 0), (start + span / 2, span / 2 * slope), (start + span, 0)])


def own_wall_ends_inside(s: Subject, name: str) -> bool:
    """Whether a gable wall ends where the outline turns inward."""
    outline = Polygon(s.level.plates.outline)
    return any(outline.intersection(Point(end).buffer(50)).area > 0.6 * Point(end).buffer(50).area
               for end in wall_ends(s, name))  # fmt: skip


@check("gable-face-area")
def _(q: Asked, s: Subject) -> None:
    (name,) = walls_in(q.text)
    span, lower, pitch, *beside = (n for n in numbers(q.text.replace("m²", "")))
    assert own_wall_ends_inside(s, name) and beside[0] == LineString(wall_ends(s, name)).length
    slope, past = math.tan(math.radians(pitch)), beside[0]
    face = gable(0, span, slope) & box(past, -1, past + lower, FAR)
    agrees(q, (face - gable(past, lower, slope)).area / 1e6)


@check("ridge-over-ridge")
def _(q: Asked, s: Subject) -> None:
    span, lower, pitch = numbers(q.text)
    ridges = sorted(max(place[2] for place in ridge) for ridge in s.layout.roof.ridges)
    agrees(q, ridges[-1] - ridges[0], near=1)
    agrees(q, (gable(0, span, math.tan(math.radians(pitch))).bounds[3]
               - gable(0, lower, math.tan(math.radians(pitch))).bounds[3]), near=1)  # fmt: skip


@check("where-the-verge-ends")
def _(q: Asked, s: Subject) -> None:
    (name,) = walls_in(q.text)
    assert name in s.level.gables and own_wall_ends_inside(s, name)
    assert "inside corner" in right(q)[0] and not any("corner" in told for told in wrong(q))


@check("stands-under-the-face")
def _(q: Asked, s: Subject) -> None:
    (name,), (tag,) = walls_in(q.text), tags(right(q)[0])
    near = from_wall(s, tag, name)
    assert line(s, tag).length > LineString(wall_ends(s, name)).length
    for told in wrong(q):
        other = line(s, tags(told)[0])
        higher = other.length == line(s, tag).length
        assert not higher or from_wall(s, tags(told)[0], name) > near


@check("hangs-on-the-half-girder")
def _(q: Asked, s: Subject) -> None:
    girder = tags(q.text)[0]
    at = line(s, girder)
    half = s.layout.by_tag[girder].width / 2 + 1
    hung = [tag for told in right(q) for tag in tags(told)]
    assert all(any(at.distance(Point(end)) <= half for end in line(s, tag).coords) for tag in hung)
    assert all(min(at.distance(Point(end)) for end in line(s, tag).coords) > half for w in wrong(q) for tag in tags(w))


@check("half-girder-mark")
def _(q: Asked, s: Subject) -> None:
    girder = tags(q.text)[0]
    against, plate = walls_in(q.text)
    plies, thick, corner = numbers(q.text)[:3]
    face = LineString(wall_ends(s, against))
    foot = taped_ends(s, plate)[0]
    across = 0 if face.coords[0][0] == face.coords[1][0] else 1
    assert against in s.level.against and abs(face.coords[0][across] - foot[across]) == corner
    agrees(q, tape(s, girder, plate))
    assert abs(abs(tape(s, girder, plate) - corner) - plies * thick / 2) < 0.01
