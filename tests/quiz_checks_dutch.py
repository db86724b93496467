"""A second opinion on the questions about dutch gables."""

from __future__ import annotations

import math

from quiz_reading import agrees, check, line, numbers, right, tags, walls_in, whole_line, wrong
from shapely import LineString

from trainer.quiz.question import Asked
from trainer.quiz.worked import Subject


def face_from(s: Subject, girder: str, wall: str) -> float:
    """How far a girder's near face lies from the outside of a wall."""
    end = s.layout.house.roof_plan.by_name[wall]
    return line(s, girder).distance(LineString((end.a, end.b))) - s.layout.by_tag[girder].width / 2


@check("waling-plate-top")
def _(q: Asked, s: Subject) -> None:
    (girder,), (wall,) = tags(q.text), walls_in(q.text)
    face, pitch, heel, chord = numbers(q.text)
    assert abs(face - face_from(s, girder, wall)) < 0.051
    slope = math.radians(pitch)
    agrees(q, heel + face * math.tan(slope) - chord / math.cos(slope), near=1)


@check("waling-plate-length")
def _(q: Asked, s: Subject) -> None:
    (girder,), (wall,) = tags(q.text), walls_in(q.text)
    width, face = numbers(q.text)
    assert abs(face - face_from(s, girder, wall)) < 0.051
    assert width == s.layout.house.roof_plan.by_name[wall].length
    agrees(q, width - 2 * face)


@check("lands-on-waling-plate")
def _(q: Asked, s: Subject) -> None:
    (girder,) = tags(q.text)
    at = line(s, girder)
    for told in right(q):
        assert whole_line(s, tags(told)[0]).distance(at) < 1
    for told in wrong(q):
        (tag,) = tags(told)
        assert whole_line(s, tag).distance(at) > 1
