"""Words and numbers as worked questions have them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby, pairwise

from trainer.layout.model import Member
from trainer.plan import Wall
from trainer.plan.points import half
from trainer.quiz.measure import SIGNS, amount
from trainer.quiz.worked.subject import Subject
from trainer.rules.plain import called
from trainer.words import _, listed

__all__ = ["bay_sum", "called", "degrees", "find", "mm", "num", "rows_of_tags"]


def num(value: float, decimals: int = 0) -> str:
    """Return a number without unit and without noise."""
    return amount(value, "pieces", decimals)


def mm(value: float) -> str:
    """Return a length to the millimetre, or to half of one where it stands there."""
    return amount(value, "mm", 1 if abs(value * 2 - round(value * 2)) < 1e-6 else 0)


def degrees(value: float) -> str:
    """Return an angle as a level gives it."""
    return f"{value:g}{SIGNS['degrees']}"


def rows_of_tags(members: Sequence[Member]) -> str:
    """Return tags in a row, neighbours of a kind drawn together: ``TG1, H1, H2 and T1 to T4``."""
    runs: list[list[str]] = []
    for member in members:
        letters, number = _split(member.tag)
        if runs and _split(runs[-1][-1]) == (letters, number - 1):
            runs[-1].append(member.tag)
        else:
            runs.append([member.tag])
    parts: list[str] = []
    for run in runs:
        parts += run if len(run) < 3 else [_("{first} to {last}").format(first=run[0], last=run[-1])]
    return listed(parts)


def _split(tag: str) -> tuple[str, int]:
    letters = tag.rstrip("0123456789")
    return letters, int(tag[len(letters) :])


def bay_sum(marks: Sequence[float]) -> str:
    """Return a sum of bays from the first mark to the last: ``1800 + 3 × 600 + 430 = 4030``."""
    bays = [round(after - before, 1) for before, after in pairwise(marks)]
    parts = [num(marks[0], 1)]
    for bay, run in groupby(bays):
        count = len(list(run))
        parts.append(f"{count} × {num(bay, 1)}" if count > 1 else num(bay, 1))
    return f"{' + '.join(parts)} = {num(marks[-1], 1)}"


def find(subject: Subject, member: Member) -> str:
    """Return how to find a truss on the plan without its tag and without a picture."""
    length = mm(round(member.span))
    places = []
    for end, wall in subject.walls_under(member):
        at = subject.tape(member, end)[1]
        if not 0 <= at <= wall.length:
            return _by_place(subject, member, length)
        corner = subject.corner_at(member.ends[end - 1].at)
        if corner:
            places.append(_("the corner of walls {a} and {b}").format(a=corner[0].name, b=corner[1].name))
        else:
            places.append(_("wall {wall} at {at}").format(wall=wall.name, at=mm(half(at))))
    if len(places) == 2:
        return _("from {a} across to {b}").format(a=places[0], b=places[1])
    if places:
        return _("from {a} inwards, {length} long in plan").format(a=places[0], length=length)
    return _by_place(subject, member, length)


def _by_place(subject: Subject, member: Member, length: str) -> str:
    """By what a tape shows to its first end, square in from the two nearest walls that run each way."""
    x, y = member.start
    walls = subject.layout.house.plan.walls
    in_from = [(abs(y - wall.a[1]), wall.name) for wall in walls if wall.along[0] and _beside(wall, x, 0)]
    also = [(abs(x - wall.a[0]), wall.name) for wall in walls if wall.along[1] and _beside(wall, y, 1)]
    (off, one), (far, other) = min(in_from), min(also)
    return _("{length} long in plan, its first end {off} in from wall {one} and {far} in from wall {other}").format(
        length=length, off=mm(half(off)), one=one, far=mm(half(far)), other=other
    )


def _beside(wall: Wall, at: float, axis: int) -> bool:
    """Whether a wall runs past a place, as seen square to it."""
    return min(wall.a[axis], wall.b[axis]) <= at <= max(wall.a[axis], wall.b[axis])
