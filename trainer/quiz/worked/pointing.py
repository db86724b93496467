"""Questions answered on the plan: a truss, or a line of the roof, among labelled places."""

from __future__ import annotations

import math
from collections.abc import Iterable

from trainer.layout import Member
from trainer.plan import Point
from trainer.quiz.question import Drawing, LabelledPlace, PointAt, Slip
from trainer.quiz.worked.family import QuestionChance, QuestionDraft, family, needs
from trainer.quiz.worked.subject import Subject
from trainer.quiz.worked.wording import find
from trainer.roof.model import Crease
from trainer.rules import PRACTICE
from trainer.terms import KIND_NAMES, TrussKind
from trainer.words import _, listed

MOST_PLACES = 6
CLEAR = 250.0
"""Labelled places are further apart than this, mm, so that a pointer hits one of them."""


def _places(found: list[tuple[tuple[float, float], str]]) -> tuple[LabelledPlace, ...]:
    """Number places from left to right, then upwards: letters are the walls'."""
    ordered = sorted(found, key=lambda each: (round(each[0][0]), round(each[0][1])))
    return tuple(LabelledPlace(str(i + 1), at, words) for i, (at, words) in enumerate(ordered))


def _clear(found: Iterable[tuple[tuple[float, float], str]]) -> list[tuple[tuple[float, float], str]]:
    """Leave out what is too near to one before it, or with the same words."""
    kept: list[tuple[tuple[float, float], str]] = []
    for at, words in found:
        if all(math.dist(at, other) > CLEAR and words != named for other, named in kept):
            kept.append((at, words))
    return kept


def _on_truss(member: Member) -> tuple[float, float]:
    """A place on a truss a third along it, where a row's places stay clear of the middle."""
    return (
        member.start[0] + (member.finish[0] - member.start[0]) / 3,
        member.start[1] + (member.finish[1] - member.start[1]) / 3,
    )


KNOWN_BY: dict[TrussKind, str] = {
    "standard": _("It runs from side to side, beyond the hip end, at full height."),
    "girder": _("It spans the opening where a wing joins, in line with the plates."),
    "truncated_girder": _("It is the first truss across, at the setback, with jacks and hips on it."),
    "truncated": _("It runs from side to side between the truncated girder and the full-height trusses."),
    "hip": _("It runs at 45 degrees from a corner."),
    "jack": _("It runs from the end wall to the truncated girder."),
    "creeper": _("It runs from a wall to the hip, and no further."),
    "gable": _("It is the last truss across, at a gable wall."),
    "saddle": _("It lies over other trusses, between two valleys."),
    "half": _("It runs from an eave up to the face of the higher wall."),
}


def _known_by(subject: Subject, member: Member) -> str:
    """What a truss is known by on a plan; a hip end at a dutch gable has another girder."""
    if member.is_dutch:
        return _("It is as high as the ridge, and a hip end runs up to it. A small gable stands on it.")
    if member.kind == "jack" and any(subject.layout.by_tag[tag].is_dutch for tag in member.carried_by):
        return _("It runs from the end wall to the girder of the dutch gable.")
    return KNOWN_BY[member.kind]


@family(
    topic="terms",
    difficulty=1,
    serves=("materials", "plan"),
    rules=("wrong-truss-for-place",),
    why=_("On site the plan is your list of who stands where. Know each kind by where it runs."),
    source=PRACTICE,
)
def point_at_truss(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Point at a truss of a kind, on a plan without tags."""
    by_kind: dict[TrussKind, list[Member]] = {}
    for member in subject.layout.members:
        if member.kind != "saddle" or member.span > 2 * CLEAR:
            by_kind.setdefault(member.kind, []).append(member)
    needs(len(by_kind) >= 3)
    kinds = draw.shuffled(sorted(by_kind), "kinds")[:MOST_PLACES]
    chosen = [draw.pick(by_kind[kind], "one", kind) for kind in kinds]
    found = _clear((_on_truss(m), find(subject, m)) for m in chosen)
    needs(len(found) >= 3)
    wanted = chosen[0]
    places = _places(found)
    right = next(i for i, place in enumerate(places) if place.at == _on_truss(wanted))
    by_words = {find(subject, m): m for m in chosen}
    slips = tuple(
        Slip(place.words, _("That is a {kind}.").format(kind=KIND_NAMES[by_words[place.words].kind]))
        for i, place in enumerate(places)
        if i != right
    )
    text = _("Point at the {kind} on the plan.").format(kind=KIND_NAMES[wanted.kind])
    working = (_known_by(subject, wanted), _("So it is place {label}.").format(label=places[right].label))
    return QuestionDraft(
        text, PointAt(places, right), working, slips, (wanted.tag,), Drawing(subject.layout, tags=False)
    )


@family(
    topic="terms",
    difficulty=1,
    serves=("plan",),
    why=_("A hip runs out to an outside corner, a valley to an inside one. A ridge is level and runs to neither."),
    source=PRACTICE,
)
def point_at_line(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Point at a ridge, a hip or a valley."""
    roof = subject.layout.roof
    lines = {_("ridge"): roof.ridges, _("hip"): roof.hips, _("valley"): roof.valleys}
    named = {name: [(c, w) for c in creases if (w := _line_words(subject, c))] for name, creases in lines.items()}
    named = {name: creases for name, creases in named.items() if creases}
    needs(len(named) > 2 or (len(named) == 2 and sum(map(len, named.values())) >= 3))
    name = draw.pick(sorted(named), "line")
    crease, words = draw.pick(named[name], "one")
    others = [(c, w, other) for other, creases in named.items() if other != name for c, w in creases]
    rest = draw.shuffled(others, "others")[: MOST_PLACES - 2]
    found = _clear([(_middle(crease), words), *((_middle(c), w) for c, w, _other in rest)])
    needs(len(found) >= 3)
    places = _places(found)
    right = next(i for i, place in enumerate(places) if place.words == words)
    kinds = {w: other for _c, w, other in rest}
    slips = tuple(
        Slip(place.words, _("That is a {line}.").format(line=kinds[place.words]))
        for place in places
        if place.words != words
    )
    text = _("Point at a {line} on the plan.").format(line=name)
    working = (_known_line(name), _("So it is place {label}.").format(label=places[right].label))
    return QuestionDraft(text, PointAt(places, right), working, slips, (), Drawing(subject.layout, tags=False))


def _known_line(name: str) -> str:
    return {
        _("ridge"): _("A ridge is level: it does not start at a corner."),
        _("hip"): _("A hip runs at 45 degrees from an outside corner."),
        _("valley"): _("A valley runs at 45 degrees from an inside corner."),
    }[name]


def _middle(crease: Crease) -> tuple[float, float]:
    (ax, ay, _az), (bx, by, _bz) = crease
    return ((ax + bx) / 2, (ay + by) / 2)


def _line_words(subject: Subject, crease: Crease) -> str:
    """How to find a line without a picture: by the roof that it is on, or the corner that it starts at; else nothing.

    It says nothing of what kind of line it is.
    """
    (_ax, ay, az), (_bx, by, bz) = crease
    if abs(az - bz) < 1:
        roof = _roof_under(subject, _middle(crease), "x" if ay == by else "y")
        return _("the line along the middle of {roof}").format(roof=roof) if roof else ""
    for end in crease:
        corner = subject.corner_at(end[:2])
        if corner:
            convex = subject.layout.house.plan.convex(corner[1].index)
            kind = _("outside") if convex else _("inside")
            return _("the line from the {kind} corner of walls {a} and {b}").format(
                kind=kind, a=corner[0].name, b=corner[1].name
            )
    return ""


def _roof_under(subject: Subject, at: Point, axis: str) -> str:
    """What a person calls the roof whose ridge a place is on: the main one, or a wing by the wall at its end."""
    across, along = (1, 0) if axis == "x" else (0, 1)
    plan = subject.layout.house.roof_plan
    for number, wing in enumerate(subject.layout.wings):
        low, high = wing.rect[:2], wing.rect[2:]
        on = wing.axis == axis and low[along] <= at[along] <= high[along]
        if not on or abs((low[across] + high[across]) / 2 - at[across]) > 1:
            continue
        if number == 0:
            return _("the main roof")
        ends = [
            wall.name
            for wall in plan.walls
            if wall.along[along] == 0 and wall.a[along] in (low[along], high[along])
            and all(low[across] <= end[across] <= high[across] for end in (wall.a, wall.b))
        ]  # fmt: skip
        if ends:
            return _("the wing that ends at wall {wall}").format(wall=listed(ends))
    return ""
