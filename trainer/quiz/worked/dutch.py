"""Questions of dutch gables: the waling plate on the girder's face, and what lands on it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from trainer.layout import Member
from trainer.layout.dutch import end_of
from trainer.layout.model import Part
from trainer.layout.webs import TOP_CHORD
from trainer.plan import Wall
from trainer.quiz.worked.family import QuestionChance, QuestionDraft, family, number, some_of
from trainer.quiz.worked.subject import Subject
from trainer.quiz.worked.wording import called, degrees, num
from trainer.rules import PRACTICE
from trainer.words import _, listed

ENOUGH = 4
"""So many trusses that do not land there stand beside those that do."""


def _girders(subject: Subject) -> Iterator[tuple[Member, Wall, float, Part]]:
    """(girder, its end wall, how far in its outer face is, its waling plate) of each dutch gable."""
    house = subject.layout.house
    for girder in subject.layout.members:
        end = end_of(house, girder)
        if end is not None:
            plate = next(p for p in subject.layout.parts if (p.part, p.on) == ("waling plate", girder.tag))
            yield girder, house.roof_plan.by_name[end.wall], end.at - girder.width / 2, plate


@family(
    topic="gables and verges",
    difficulty=3,
    serves=("erecting", "plan"),
    rules=("waling-plate-missing",),
    why=_("Hips and jacks rest on the waling plate. Too high, they lift off the roof line; too low, they sag."),
    source=PRACTICE,
)
def waling_plate_top(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """How high the top of a waling plate is over the wall plate."""
    found = list(_girders(subject))
    girder, wall, face, plate = draw.pick(found, "girder")
    roof = subject.layout.house.roof
    height, deep = plate.top or 0.0, TOP_CHORD / math.cos(math.radians(roof.pitch))
    line = roof.heel + face * subject.slope
    text = _(
        "The outer face of {girder} is {face} in from the outside of wall {wall}. "
        "The pitch is {pitch}, the heel {heel}. Top chords are {chord} deep, square to the slope. "
        "How high over the wall plate is the top of its waling plate?"
    ).format(
        girder=called(girder), face=num(face, 1), wall=wall.name, pitch=degrees(roof.pitch), heel=roof.heel,
        chord=num(TOP_CHORD),
    )  # fmt: skip
    working = (
        _("At that face the roof line is {heel} + {face} × tan {pitch} = {line}.").format(
            heel=roof.heel, face=num(face, 1), pitch=degrees(roof.pitch), line=num(line, 1)
        ),
        _("Plumb, a top chord is {chord} ÷ cos {pitch} = {deep} deep.").format(
            chord=num(TOP_CHORD), pitch=degrees(roof.pitch), deep=num(deep, 1)
        ),
        _("The chord sits on the plate: {line} - {deep} = {height}.").format(
            line=num(line, 1), deep=num(deep, 1), height=num(height, 1)
        ),
    )
    slips = (
        (line, _("That is the roof line itself. The chord lies between it and the waling plate.")),
        (line - TOP_CHORD, _("That takes the depth square to the slope. Plumb it is more.")),
        (height - roof.heel, _("That leaves out the heel.")),
        (line + deep, _("That puts the waling plate over the roof.")),
        (
            height + (girder.width / 2) * subject.slope,
            _("That measures to the girder's middle. The plate is on its face."),
        ),
    )
    return number(text, height, working, slips, (girder.tag,), tolerance=1)


@family(
    topic="gables and verges",
    difficulty=2,
    serves=("materials", "plan"),
    rules=("waling-plate-missing",),
    why=_("The hips come in at 45 degrees in plan. So between them the face gets shorter by the same from both sides."),
    source=PRACTICE,
)
def waling_plate_length(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """How long a waling plate is, from hip to hip."""
    found = list(_girders(subject))
    girder, wall, face, _plate = draw.pick(found, "girder")
    length = wall.length - 2 * face
    text = _(
        "Wall {wall} is {width} long, with a hip at each corner. The outer face of {girder} is {face} in from it. "
        "How long is the waling plate on that face, from the middle of one hip to the other's?"
    ).format(wall=wall.name, width=num(wall.length), girder=called(girder), face=num(face, 1))
    working = (
        _("A hip runs at 45 degrees: {face} in, it is {face} along the wall as well.").format(face=num(face, 1)),
        _("{width} - 2 × {face} = {length}.").format(width=num(wall.length), face=num(face, 1), length=num(length, 1)),
    )
    slips = (
        (wall.length - face, _("That takes off one hip. There is one on each side.")),
        (wall.length - 2 * (face + girder.width), _("That measures to the girder's far face.")),
        (wall.length - girder.width, _("That is nearly the whole wall. The hips have come in by then.")),
        (wall.length - 2 * face * math.sqrt(2), _("That takes the length of the hip for its run.")),
        (wall.length / 2 - face, _("That is half of it.")),
    )
    return number(text, length, working, slips, (girder.tag,), decimals=1)


@family(
    topic="gables and verges",
    difficulty=2,
    serves=("plan", "connections"),
    rules=("waling-plate-missing", "extension-not-fixed"),
    why=_("The tops that reach the girder rest on its waling plate. Each of them is fixed there."),
    source=PRACTICE,
)
def lands_on_waling_plate(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Which trusses have their tops on a waling plate."""
    found = list(_girders(subject))
    girder = draw.pick(found, "girder")[0]
    over = sorted({c.over for c in subject.layout.crossings if c.under == girder.tag})
    rows = {subject.layout.by_tag[tag].row for tag in over}
    others = [m for m in subject.layout.members if m.row in rows and m.tag not in over]
    others += [m for m in subject.layout.members if m.row == girder.row and m is not girder]
    right = draw.shuffled(over, "right")[:ENOUGH]
    wrong = [(called(m), _why_not(m)) for m in draw.shuffled(others, "wrong")[:ENOUGH]]
    text = _("Which of these have their tops on the waling plate of {girder}?").format(girder=called(girder))
    names = [called(subject.layout.by_tag[tag]) for tag in right]
    working = (_("On the plan these run up to the girder: {tags}.").format(tags=listed(right)),)
    return some_of(text, names, wrong, working, (girder.tag, *right))


def _why_not(member: Member) -> str:
    if member.kind == "creeper":
        return _("It ends at the hip truss, well before the girder.")
    if member.kind in ("hip", "jack"):
        return _("Its top ends at the hip, before it gets to the girder.")
    return _("It stands beside the girder, from wall to wall. It does not run up to it.")
