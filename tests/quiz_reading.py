"""How the second opinions on worked questions read them, and where they are listed.

Each check reads the question as a learner does: its text, and the plan as drawn (the outline, and where each
truss's line lies). From these it works the answer out by a closed form of the trade brief, by measuring the
plan, or by trying it out, and never by the product's own reckoning of that measure. It also holds the
numbers in the text against the plan, so that a question about a number that isn't there is found.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable

from shapely import LineString, Point, Polygon

from trainer.quiz.judge import options
from trainer.quiz.question import Amount, Asked, OneOf, SomeOf
from trainer.quiz.worked import Subject

Check = Callable[[Asked, Subject], None]
CHECKS: dict[str, Check] = {}
TAG = r"\b(?:TG|GT|ST|HF|G|T|H|J|C|S)\d+\b"
NEAR = 0.011
KINDS = {
    "TG": "truncated girder", "GT": "gable truss", "ST": "standard truss", "G": "girder truss", "T": "truncated truss",
    "H": "hip truss", "J": "jack truss", "C": "creeper truss", "S": "saddle truss",
    "HF": "half truss",
}  # fmt: skip


def check(name: str) -> Callable[[Check], Check]:
    def register(function: Check) -> Check:
        CHECKS[name] = function
        return function

    return register


# what a learner sees


def numbers(text: str) -> list[float]:
    """The numbers in a text, tags and wings left out."""
    return [float(n) for n in re.findall(r"(?<![A-Za-z\d])\d+(?:\.\d+)?", re.sub(TAG, "", text))]


def tags(text: str) -> list[str]:
    return re.findall(TAG, text)


def letters(tag: str) -> str:
    return tag.rstrip("0123456789")


def answer(q: Asked) -> float:
    """The number that is right, typed or chosen."""
    if isinstance(q.task, Amount):
        return q.task.value
    assert isinstance(q.task, OneOf)
    return numbers(q.task.choices[q.task.right])[0]


def right(q: Asked) -> list[str]:
    """The right choices."""
    assert isinstance(q.task, OneOf | SomeOf)
    chosen = (q.task.right,) if isinstance(q.task, OneOf) else q.task.right
    return [q.task.choices[i] for i in chosen]


def wrong(q: Asked) -> list[str]:
    good = right(q)
    return [choice for choice in options(q) if choice not in good]


def agrees(q: Asked, value: float, near: float = 0.051) -> None:
    """The answer is ``value`` as rounded by the question."""
    places = q.task.decimals if isinstance(q.task, Amount) else 0
    told = answer(q)
    if isinstance(q.task, OneOf):
        shown = q.task.choices[q.task.right]
        places = len(re.search(r"\d(?:\.(\d+))?", shown)[1] or "") if "." in shown else 0  # type: ignore[index]
        near = max(near, 0.5 * 10**-places + 1e-6)
    assert abs(told - value) <= max(near, 0.5 * 10**-places + 1e-6), (q.text, told, value)


# the plan as drawn


def outline(s: Subject) -> Polygon:
    return Polygon(s.level.plates.outline)


def wall_ends(s: Subject, name: str) -> tuple[tuple[int, int], tuple[int, int]]:
    corners = s.level.plates.outline
    index = 0
    for letter in name:
        index = index * 26 + ord(letter) - ord("A") + 1
    return corners[index - 1], corners[index % len(corners)]


def taped_ends(s: Subject, name: str) -> tuple[tuple[int, int], tuple[int, int]]:
    """A wall's ends, the one that a tape is hooked on first: all run from the end of the house where wall A begins."""
    begin = s.level.plates.outline[0]
    a, b = sorted(wall_ends(s, name), key=lambda end: math.dist(end, begin))
    return a, b


def line(s: Subject, tag: str) -> LineString:
    member = s.layout.by_tag[tag]
    return LineString([member.start, member.finish])


def whole_line(s: Subject, tag: str) -> LineString:
    """A truss's line with its extension."""
    member = s.layout.by_tag[tag]
    (x, y), (ux, uy), run = member.start, member.direction, max(member.span, member.top[-1][0])
    return LineString([member.start, (x + ux * run, y + uy * run)])


def from_wall(s: Subject, tag: str, wall: str) -> float:
    """How far a truss's line is from the line of a wall that it runs along."""
    a, b = wall_ends(s, wall)
    member = s.layout.by_tag[tag]
    across = 0 if a[0] == b[0] else 1
    assert abs(member.start[across] - member.finish[across]) < NEAR, "the truss runs along the wall"
    return abs(member.start[across] - a[across])


def tape(s: Subject, tag: str, wall: str) -> float:
    """What the tape along a wall shows where a truss's line crosses it."""
    a, b = taped_ends(s, wall)
    member = s.layout.by_tag[tag]
    low = 0 if a[1] == b[1] else 1
    ends = [p for p in (member.start, member.finish) if abs(p[1 - low] - a[1 - low]) < NEAR]
    assert ends, f"{tag} comes to wall {wall}"
    return (ends[0][low] - a[low]) * (1 if b[low] > a[low] else -1)


def wall_length(s: Subject, wall: str) -> float:
    return math.dist(*wall_ends(s, wall))


def walls_in(text: str) -> list[str]:
    return re.findall(r"\b[Ww]alls? ([A-Z]{1,2})\b(?!\d)", text)


def tan(s: Subject) -> float:
    return math.tan(math.radians(s.level.roof.pitch))


def cos(s: Subject) -> float:
    return math.cos(math.radians(s.level.roof.pitch))


def hangs_on(s: Subject, tag: str) -> set[str]:
    """The carriers that a truss's ends lie on, measured on the plan: an end inside the outline, on another's line."""
    found = set()
    for end in (s.layout.by_tag[tag].start, s.layout.by_tag[tag].finish):
        for other in s.layout.members:
            if other.tag == tag or letters(other.tag) not in ("G", "TG", "H"):
                continue
            if letters(other.tag) == "H" and min(math.dist(end, p) for p in (other.start, other.finish)) < 1:
                continue  # there the hip itself ends, on the same carrier
            shared = set(other.carried_by) & set(s.layout.by_tag[tag].carried_by)
            if letters(other.tag) == "H" and shared and math.dist(end, other.finish) < 60:
                continue  # beside it on one carrier, in a wing so narrow that the hips meet there
            inside = outline(s).exterior.distance(Point(end)) > 1
            # A hip of a stub wing ends at the middle of a girder that is a little past its apex.
            near = 60.0 if letters(other.tag) == "H" else 0.6
            if inside and line(s, other.tag).distance(Point(end)) < near:
                found.add(other.tag)
    return found
