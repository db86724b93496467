"""A second opinion on the questions about the order of work, places on the plan, and what is wrong."""

from __future__ import annotations

import math
import re
from itertools import pairwise

from attempts import set_up
from quiz_reading import (
    KINDS,
    NEAR,
    TAG,
    check,
    from_wall,
    hangs_on,
    letters,
    line,
    numbers,
    outline,
    right,
    tags,
    tape,
    wall_ends,
    walls_in,
    whole_line,
    wrong,
)
from shapely import LineString, Point, Polygon
from soundness import Build

from trainer.quiz.question import Asked, InOrder, PointAt, SpotFault
from trainer.quiz.worked import Subject
from trainer.site import Brace

# the order of work: tried out on a reckoner that knows neither the rules nor the graph


def _built(s: Subject, up: list[str]) -> Build:
    build = Build(s.layout)
    todo = list(up)
    while todo:  # carriers first: the text names them by their tags, not by their order
        ready = [t for t in todo if not set(s.layout.by_tag[t].carried_by) & set(todo)]
        order = sorted(ready, key=lambda t: (["G", "TG", "H", "T", "J", "C", "ST", "HF", "GT"].index(letters(t)), t))
        for tag in order[:1]:
            for action in set_up(s.layout, tag):
                build.do(action)
            if any(c.over == tag and c.what == "extension" for c in s.layout.crossings):
                build.do(Brace(kind="prop", tags=(tag,)))
            todo.remove(tag)
    return build


def _tags_up(s: Subject, text: str) -> list[str]:
    sentence = text[: text.index(". ")]
    found: list[str] = []
    for first, last in re.findall(rf"({TAG})(?: to ({TAG}))?", sentence):
        low, high = int(first.strip("TGSHJCF")), int((last or first).strip("TGSHJCF"))
        found += [f"{letters(first)}{n}" for n in range(low, high + 1)]
    return found


def _faults_of(s: Subject, up: list[str], tag: str) -> list[str]:
    build = _built(s, up)
    before = len(build.faults)
    for action in set_up(s.layout, tag):
        build.do(action)
    return build.faults[before:]


@check("what-comes-next")
def _(q: Asked, s: Subject) -> None:
    up = _tags_up(s, q.text)
    assert not _faults_of(s, up, tags(right(q)[0])[0]), q.text
    for choice in wrong(q):
        assert _faults_of(s, up, tags(choice)[0]), (q.text, choice)


@check("what-must-wait")
def _(q: Asked, s: Subject) -> None:
    up = _tags_up(s, q.text)
    tag = tags(right(q)[0])[0]
    assert any("carrier" in fault or "not braced" in fault for fault in _faults_of(s, up, tag)), q.text
    for choice in wrong(q):
        assert not _faults_of(s, up, tags(choice)[0]), (q.text, choice)


@check("chain-of-work")
def _(q: Asked, s: Subject) -> None:
    assert isinstance(q.task, InOrder)
    chain = [tags(q.task.steps[i])[0] for i in q.task.right]
    for first, then in pairwise(chain):
        members = [m.tag for m in s.layout.members if m.tag not in (first, then)]
        build = Build(s.layout)
        build.in_place = {tag: tag for tag in members}  # all others up, so that only these two can be at fault
        build.place_of = {tag: (s.layout.by_tag[tag], False) for tag in members}
        build.stood = {tag: (s.layout.by_tag[tag].start, s.layout.by_tag[tag].finish) for tag in members}
        build.check_carriers(s.layout.by_tag[then])
        build.check_order(s.layout.by_tag[then])
        assert any(first in fault for fault in build.faults), (q.text, first, then)


@check("why-before")
def _(q: Asked, s: Subject) -> None:
    first, then = (s.layout.by_tag[tag] for tag in tags(q.text))
    (told,) = right(q)
    if "hangs on" in told:
        assert first.tag in hangs_on(s, then.tag)
    elif "sits on" in told:
        assert (
            letters(then.tag) == "S"
            and whole_line(s, first.tag).distance(line(s, then.tag)) <= s.level.trusses.spacing + 1
        )
    else:
        kinds = {
            "hang on it or land on it": ("G",), "run over the truncated": ("T", "TG", "HF"),
            "outermost full-height tops": ("ST", "G"),
            "finished hip end": ("H", "J", "C", "T", "TG", "HF"), "string runs over the standard trusses": ("ST",),
        }  # fmt: skip
        (fits,) = [kind for words, kind in kinds.items() if words in told]
        assert letters(first.tag) in fits, q.text


# on the plan


@check("point-at-truss")
def _(q: Asked, s: Subject) -> None:
    assert isinstance(q.task, PointAt)
    kind = re.search(r"Point at the (.+) on the plan", q.text)[1]  # type: ignore[index]
    for i, place in enumerate(q.task.places):
        kinds = {KINDS[letters(m.tag)] for m in s.layout.members if line(s, m.tag).distance(Point(place.at)) < 0.6}
        assert (kind in kinds) == (i == q.task.right) or (i != q.task.right and len(kinds) > 1), (q.text, place)


@check("point-at-line")
def _(q: Asked, s: Subject) -> None:
    assert isinstance(q.task, PointAt)
    kind = re.search(r"Point at a (.+) on the plan", q.text)[1]  # type: ignore[index]
    for i, place in enumerate(q.task.places):
        assert (_kind_of_line(s, place.at) == kind) == (i == q.task.right), (q.text, place)


def _kind_of_line(s: Subject, at: tuple[float, float]) -> str:
    """By how high the roof is on a small ring round the place: a valley is lower than its sides, a hip higher."""
    ring = [_roof(s, at[0] + 20 * math.cos(a), at[1] + 20 * math.sin(a)) for a in (k * math.pi / 4 for k in range(8))]
    here = _roof(s, *at)
    if max(ring) - here < 0.5:
        return "ridge"
    opposite = [(ring[k] + ring[k + 4]) / 2 - here for k in range(4)]
    return "valley" if max(opposite) > 0.5 else "hip"


def _at_inside_corner(s: Subject, corner: tuple[float, float]) -> bool:
    """Whether three quarters round a corner are house."""
    return outline(s).intersection(Point(corner).buffer(10)).area > 200


def _roof(s: Subject, x: float, y: float) -> float:
    """Distance to the outside with mitred corners: the largest square round a place that fits in, gables opened."""
    shape, far = outline(s), 60_000
    for gable in (*s.level.gables, *s.level.against):
        a, b = wall_ends(s, gable)
        nx, ny = (b[1] - a[1]) / math.dist(a, b), (a[0] - b[0]) / math.dist(a, b)
        if gable in s.level.gables and any(_at_inside_corner(s, end) for end in (a, b)):
            # It goes on straight over the house: what lies on the other side of its line is a roof by itself.
            side = 1 if (x - a[0]) * nx + (y - a[1]) * ny > 0 else -1
            ux, uy = -ny, nx
            a, b = (a[0] - ux * far, a[1] - uy * far), (a[0] + ux * far, a[1] + uy * far)
            nx, ny = -nx * side, -ny * side
            mine = Polygon([a, b, (b[0] - nx * far, b[1] - ny * far), (a[0] - nx * far, a[1] - ny * far)])
            shape = shape.intersection(mine).buffer(0)  # without the walls that only touch the line
            cut = shape.boundary.intersection(LineString([a, b]))
            low_x, low_y, high_x, high_y = cut.bounds
            a, b = (low_x, low_y), (high_x, high_y)
        shape = shape.union(Polygon([a, b, (b[0] + nx * far, b[1] + ny * far), (a[0] + nx * far, a[1] + ny * far)]))
    edges = shape.exterior
    low, high = 0.0, 40_000.0
    for _turn in range(40):
        half = (low + high) / 2
        square = Polygon([(x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half)])
        if square.intersection(edges).length < 1e-9 and not square.buffer(-1e-6).intersects(edges):
            low = half
        else:
            high = half
    return low


# spotting


@check("fault-in-row")
def _(q: Asked, s: Subject) -> None:
    assert isinstance(q.task, SpotFault)
    spacing = numbers(q.text)[0]
    readings = [numbers(text)[0] for text in q.task.lines]
    off = [
        i for i in range(len(readings))
        if sum(abs((readings[i] - r) - (i - j) * spacing) > NEAR for j, r in enumerate(readings)) > len(readings) / 2
    ]  # fmt: skip
    assert off == [q.task.right], q.task.lines
    wall = walls_in(q.task.lines[0])[0]
    for i, text in enumerate(q.task.lines):
        out = abs(readings[i] - tape(s, tags(text)[0], wall))
        assert (out > s.level.tolerances.station) == (i == q.task.right)


@check("fault-in-diary")
def _(q: Asked, s: Subject) -> None:
    """Read the page with the plan in hand: the first line that breaks a sentence of the brief is the fault."""
    assert isinstance(q.task, SpotFault)
    braced: set[str] = set()
    fixed: set[str] = set()
    brackets: set[str] = set()
    last: dict[str, str] = {}
    wrong_lines = []
    for i, text in enumerate(q.task.lines):
        found = tags(text)
        if text.startswith("Fit"):
            brackets.add(found[0])
        elif text.startswith("Brace"):
            braced.add(found[0])
        elif text.startswith("Tie"):
            braced |= {found[0]} if found[1] in braced else set()
        elif text.startswith("Fix"):
            fixed.add(found[0])
        elif text.startswith(("Notch", "Take out")):
            # "No cut, notch or hole inside the tails, ever"; "temporary bracing stays until the permanent … is in".
            wrong_lines.append(i)
        elif _stands_wrong(q, s, text, braced, fixed, brackets, last):
            wrong_lines.append(i)
    assert wrong_lines[0] == q.task.right, (q.text, q.task.lines, wrong_lines)


def _stands_wrong(
    q: Asked, s: Subject, text: str, braced: set[str], fixed: set[str], brackets: set[str], last: dict[str, str]
) -> bool:
    tag = tags(text)[0]
    row = s.layout.by_tag[tag].row
    before = last.get(row)
    last[row] = tag
    if before and (before not in braced if letters(before) in ("ST", "TG") else before not in fixed):
        return True
    carriers = hangs_on(s, tag)
    if carriers and (tag not in brackets or not carriers <= braced & fixed):
        return True
    if "its tail towards" in text:
        return True
    if " in from wall" in text:
        return abs(numbers(text)[0] - from_wall(s, tag, walls_in(text)[0])) > s.level.tolerances.station
    if " on wall" in text:
        return abs(numbers(text)[0] - tape(s, tag, walls_in(text)[0])) > s.level.tolerances.station
    return False
