"""A second opinion on the questions about a lower roof against a higher wall."""

from __future__ import annotations

import math

from quiz_reading import agrees, check, numbers, right, tags, taped_ends, walls_in

from trainer.quiz.question import Asked
from trainer.quiz.worked import Subject


@check("half-truss-height")
def _(q: Asked, s: Subject) -> None:
    (tag,) = tags(q.text)
    pitch, heel, run = numbers(q.text)
    truss, roof = s.layout.by_tag[tag], s.layout.house.roof
    assert (pitch, heel) == (roof.pitch, roof.heel)
    assert math.dist(truss.start, truss.finish) == run
    agrees(q, heel + run * math.tan(math.radians(pitch)))
    agrees(q, truss.top[-1][1])


@check("ledger-mark")
def _(q: Asked, s: Subject) -> None:
    (tag,) = tags(q.text)
    walls = dict.fromkeys(walls_in(q.text))
    length, here = numbers(q.text)
    agrees(q, length - here)
    truss, by_name = s.layout.by_tag[tag], s.layout.house.plan.by_name
    (plate, face) = (by_name[name] for name in walls)
    near, far = taped_ends(s, face.name)
    assert face.against and math.dist(taped_ends(s, plate.name)[0], truss.start) == here
    assert math.dist(near, truss.finish) == here, "both tapes from one end of the house show one measure"
    agrees(q, math.dist(far, truss.finish))


@check("tied-to-the-wall")
def _(q: Asked, s: Subject) -> None:
    (tag,) = tags(q.text)
    (name,) = set(walls_in(q.text))
    wall, truss = s.layout.house.plan.by_name[name], s.layout.by_tag[tag]
    nx, ny = wall.inward
    off = [(x - wall.a[0]) * nx + (y - wall.a[1]) * ny for x, y in (truss.start, truss.finish)]
    assert wall.against and (min(off) == 0 or set(off) == {truss.width / 2})
    (answer,) = right(q)
    held = "its top is tied" in q.text
    assert answer == "Let it go, and lift the next" if held else f"wall {name}" in answer
