"""A second opinion on every family of worked questions.

Each check reads the question as a learner does: its text, and the plan as drawn (the outline, and where each
truss's line lies). From these it works the answer out by a closed form of the trade brief, by measuring the
plan, or by trying it out, and never by the product's own reckoning of that measure. It also holds the
numbers in the text against the plan, so that a question about a number that isn't there is found.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from itertools import pairwise

from attempts import set_up
from shapely import LineString, Point, Polygon
from soundness import Build

from trainer.layout.model import Member
from trainer.quiz.judge import options
from trainer.quiz.question import Amount, Asked, InOrder, OneOf, Pairs, PointAt, SomeOf, SpotFault
from trainer.quiz.worked import Subject
from trainer.site import Brace

Check = Callable[[Asked, Subject], None]
CHECKS: dict[str, Check] = {}
TAG = r"\b(?:TG|GT|ST|G|T|H|J|C|S)\d+\b"
NEAR = 0.011
KINDS = {
    "TG": "truncated girder", "GT": "gable truss", "ST": "standard truss", "G": "girder truss", "T": "truncated truss",
    "H": "hip truss", "J": "jack truss", "C": "creeper truss", "S": "saddle truss",
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
    """What a tape from a wall's first corner shows where a truss's line crosses it."""
    a, b = wall_ends(s, wall)
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
            inside = outline(s).exterior.distance(Point(end)) > 1
            # A hip of a stub wing ends at the middle of a girder that is a little past its apex.
            near = 60.0 if letters(other.tag) == "H" else 0.6
            if inside and line(s, other.tag).distance(Point(end)) < near:
                found.add(other.tag)
    return found


# set-out


@check("station-of-truss")
def _(q: Asked, s: Subject) -> None:
    girder, truss = tags(q.text)
    (wall,) = walls_in(q.text)
    first, spacing, bays = numbers(q.text)
    assert abs(from_wall(s, girder, wall) - first) < NEAR
    agrees(q, first + spacing * bays)
    agrees(q, from_wall(s, truss, wall))


@check("running-mark")
def _(q: Asked, s: Subject) -> None:
    first, truss = tags(q.text)
    (wall,) = walls_in(q.text)
    total = numbers(q.text.split("shows")[1])[0]
    assert abs(tape(s, first, wall) - total) < 0.051
    for count, bay in re.findall(r"(?:(\d+) bays|one bay) of (\d+(?:\.\d+)?)", q.text):
        total += int(count or 1) * float(bay)
    agrees(q, total)
    agrees(q, tape(s, truss, wall))


@check("tape-from-other-end")
def _(q: Asked, s: Subject) -> None:
    (truss,), (wall,) = tags(q.text), walls_in(q.text)
    length, at = numbers(q.text)
    assert length == wall_length(s, wall)
    assert abs(tape(s, truss, wall) - at) < 0.051
    agrees(q, length - at)


@check("closing-bay")
def _(q: Asked, s: Subject) -> None:
    first, last = tags(q.text)
    (wall,) = walls_in(q.text)
    a, b, spacing = numbers(q.text)
    assert abs(tape(s, first, wall) - a) < 0.051 and abs(tape(s, last, wall) - b) < 0.051
    agrees(q, math.fmod(b - a, spacing))


@check("trusses-between")
def _(q: Asked, s: Subject) -> None:
    (wall,) = walls_in(q.text)
    a, b, spacing = numbers(q.text)
    agrees(q, round((b - a) / spacing) - 1)
    begin, end = wall_ends(s, wall)
    low = 0 if begin[1] == end[1] else 1
    way = 1 if end[low] > begin[low] else -1
    ends = [p for m in s.layout.members if letters(m.tag) not in ("H", "S") for p in (m.start, m.finish)]
    on = {round((p[low] - begin[low]) * way, 1) for p in ends if abs(p[1 - low] - begin[1 - low]) < NEAR}
    agrees(q, sum(a + 1 < v < b - 1 for v in on))


@check("gap-as-stood")
def _(q: Asked, s: Subject) -> None:
    a, b, spacing = numbers(q.text)
    assert spacing == s.level.trusses.spacing
    agrees(q, b - a)
    near = s.level.tolerances.station
    assert spacing < b - a <= spacing + 2 * max(near, 2)


@check("within-tolerance")
def _(q: Asked, s: Subject) -> None:
    (truss,), (wall,) = tags(q.text), walls_in(q.text)
    at, near = numbers(q.text)
    assert near == s.level.tolerances.station and abs(tape(s, truss, wall) - at) < NEAR
    assert all(abs(numbers(choice)[0] - at) <= near for choice in right(q))
    assert all(abs(numbers(choice)[0] - at) > near for choice in wrong(q))


# girders


@check("girder-line")
def _(q: Asked, s: Subject) -> None:
    (girder,) = tags(q.text)
    plies, thickness = numbers(q.text)
    assert (plies, thickness) == (s.level.trusses.girder_plies, s.level.trusses.thickness)
    agrees(q, plies * thickness / 2)
    # Its line lies that far from the line of some wall, and inside the plan.
    apart = [
        from_wall(s, girder, w.name) for w in s.layout.house.plan.walls
        if bool(w.along[0]) == (abs(line(s, girder).coords[0][1] - line(s, girder).coords[1][1]) < NEAR)
    ]  # fmt: skip
    assert min(abs(d - answer(q)) for d in apart) < 0.06


@check("face-of-girder")
def _(q: Asked, s: Subject) -> None:
    (girder,), (wall, *_rest) = tags(q.text), walls_in(q.text)
    station, plies, thickness = numbers(q.text)
    assert abs(from_wall(s, girder, wall) - station) < 0.051
    agrees(q, station - plies * thickness / 2)


@check("mark-on-girder")
def _(q: Asked, s: Subject) -> None:
    truss, girder = tags(q.text)
    (wall,) = walls_in(q.text)
    at, begins = numbers(q.text)
    assert abs(tape(s, truss, wall) - at) < 0.051
    agrees(q, at - begins)
    crossing = line(s, truss).intersection(line(s, girder).buffer(0.6)).centroid
    a, b = wall_ends(s, wall)
    low = 0 if a[1] == b[1] else 1
    ends = line(s, girder).coords
    nearest = min(abs(e[low] - a[low]) for e in ends)
    assert abs(abs((crossing.x, crossing.y)[low] - a[low]) - nearest - answer(q)) < 1


@check("diagonal-for-square")
def _(q: Asked, s: Subject) -> None:
    a, b = numbers(re.sub(r"wing W\d+", "", q.text))
    agrees(q, (a * a + b * b) ** 0.5)
    (wing,) = [w for w in s.layout.wings if f"wing {w.id} " in q.text]
    x0, y0, x1, y1 = wing.rect
    assert {a, b} == {x1 - x0, y1 - y0}
    assert outline(s).buffer(0.1).covers(Polygon([(x0, y0), (x1, y0), (x1, y1), (x0, y1)]))


@check("span-over-plates")
def _(q: Asked, s: Subject) -> None:
    (truss,) = tags(q.text)
    inside, plate = numbers(q.text)
    assert plate == s.level.plates.width
    agrees(q, inside + 2 * plate)
    agrees(q, line(s, truss).length)


# heights


@check("truncated-height")
def _(q: Asked, s: Subject) -> None:
    (truss,) = tags(q.text)
    pitch, heel, station = numbers(q.text)
    assert (pitch, heel) == (s.level.roof.pitch, s.level.roof.heel)
    agrees(q, heel + station * math.tan(math.radians(pitch)), 0.6)
    assert any(abs(from_wall(s, truss, w.name) - station) < 0.06 for w in _along_walls(s, truss))


def _along_walls(s: Subject, tag: str):
    a, b = line(s, tag).coords
    return [w for w in s.layout.house.plan.walls if bool(w.along[0]) == (abs(a[1] - b[1]) < NEAR)]


@check("apex-height")
def _(q: Asked, s: Subject) -> None:
    (truss,) = tags(q.text)
    pitch, heel, span = numbers(q.text)
    assert (pitch, heel) == (s.level.roof.pitch, s.level.roof.heel)
    assert abs(line(s, truss).length - span) < 0.051 or hangs_on(s, truss)
    agrees(q, heel + span / 2 * math.tan(math.radians(pitch)), 0.6)


@check("flat-top-length")
def _(q: Asked, s: Subject) -> None:
    (truss,) = tags(q.text)
    station, span = numbers(q.text)
    assert abs(line(s, truss).length - span) < 0.051
    agrees(q, span - 2 * station)


@check("which-truncated")
def _(q: Asked, s: Subject) -> None:
    flat, span = numbers(re.sub(r"wing W\d+", "", q.text))
    agrees(q, (span - flat) / 2)


@check("eave-drop")
def _(q: Asked, s: Subject) -> None:
    pitch, overhang = numbers(q.text)
    assert (pitch, overhang) == (s.level.roof.pitch, s.level.roof.overhang)
    agrees(q, overhang * math.tan(math.radians(pitch)), 0.6)


@check("gable-truss-lower")
def _(q: Asked, s: Subject) -> None:
    depth, pitch = numbers(q.text)
    assert (depth, pitch) == (s.level.trusses.outrigger_depth, s.level.roof.pitch)
    agrees(q, depth / math.cos(math.radians(pitch)))


# lengths


@check("hip-run")
def _(q: Asked, s: Subject) -> None:
    hip, girder = tags(q.text)
    (side,) = numbers(q.text)
    agrees(q, side * 2**0.5, 0.6)
    corner = line(s, hip).coords[0]
    assert any(math.dist(corner, p) < NEAR for p in s.level.plates.outline)
    assert abs(line(s, girder).distance(Point(corner)) - min(side, line(s, girder).distance(Point(corner)))) < 1
    agrees(q, line(s, hip).length, 0.6)


@check("hip-length")
def _(q: Asked, s: Subject) -> None:
    pitch, degrees, side = numbers(q.text)
    assert (pitch, degrees) == (s.level.roof.pitch, 45)
    # A hip's slope is tan(pitch)/√2 over √2 times the run: the trade brief, as in the published bridge measures.
    agrees(q, side * (2 + math.tan(math.radians(pitch)) ** 2) ** 0.5, 1.1)


@check("hip-pitch")
def _(q: Asked, s: Subject) -> None:
    (pitch,) = numbers(q.text)
    assert pitch == s.level.roof.pitch
    agrees(q, math.degrees(math.atan(math.tan(math.radians(pitch)) / 2**0.5)))


@check("hip-tail")
def _(q: Asked, s: Subject) -> None:
    (overhang,) = numbers(q.text)
    assert overhang == s.level.roof.overhang
    agrees(q, overhang * 2**0.5, 0.6)


@check("jack-reach")
def _(q: Asked, s: Subject) -> None:
    (jack,), (wall,) = tags(q.text), walls_in(q.text)
    reach, overhang = numbers(q.text)
    at = tape(s, jack, wall)
    assert overhang == s.level.roof.overhang
    assert abs(min(at, wall_length(s, wall) - at) - reach) < 0.051
    agrees(q, reach + overhang)


@check("creeper-span")
def _(q: Asked, s: Subject) -> None:
    creeper, hip = tags(q.text)
    (wall,) = walls_in(q.text)
    (along_wall,) = numbers(q.text)
    at = tape(s, creeper, wall)
    assert abs(min(at, wall_length(s, wall) - at) - along_wall) < 0.051
    assert line(s, hip).distance(Point(line(s, creeper).coords[1])) < 0.6
    agrees(q, line(s, creeper).length)


@check("creeper-step")
def _(q: Asked, s: Subject) -> None:
    short, long = tags(q.text)
    pitch, spacing = numbers(q.text)
    assert (pitch, spacing) == (s.level.roof.pitch, s.level.trusses.spacing)
    assert abs(line(s, long).length - line(s, short).length - spacing) < NEAR
    agrees(q, spacing / math.cos(math.radians(pitch)), 0.6)


@check("top-chord-length")
def _(q: Asked, s: Subject) -> None:
    span, overhang, pitch = numbers(q.text)
    assert (overhang, pitch) == (s.level.roof.overhang, s.level.roof.pitch)
    agrees(q, (span / 2 + overhang) / math.cos(math.radians(pitch)), 1.1)


@check("valley-length")
def _(q: Asked, s: Subject) -> None:
    a, b = re.search(r"walls (\w+) and (\w+)", q.text).groups()  # type: ignore[union-attr]
    side, pitch = numbers(q.text)
    assert wall_ends(s, a)[1] == wall_ends(s, b)[0]
    corner = wall_ends(s, b)[0]
    # An inside corner: three quarters round it are house.
    assert outline(s).intersection(Point(corner).buffer(10)).area > 200
    agrees(q, side * (2 + math.tan(math.radians(pitch)) ** 2) ** 0.5, 1.1)


@check("ridge-length")
def _(q: Asked, s: Subject) -> None:
    whole, span = numbers(q.text)
    x0, y0, x1, y1 = outline(s).bounds
    assert sorted((whole, span)) == sorted((x1 - x0, y1 - y0))
    hips = 2 - sum(abs(math.dist(*wall_ends(s, g)) - span) < NEAR for g in s.level.gables)
    agrees(q, whole - hips * span / 2)


@check("roof-area")
def _(q: Asked, s: Subject) -> None:
    plan, pitch = numbers(q.text.replace("m²", ""))
    grown = outline(s).buffer(s.level.roof.overhang, join_style="mitre", mitre_limit=10)
    assert abs(grown.area / 1e6 - plan) < 0.006, "the plan area, eaves included, by another library"
    agrees(q, grown.area / 1e6 / math.cos(math.radians(pitch)), 0.06)


@check("plan-area")
def _(q: Asked, s: Subject) -> None:
    a, b, over = numbers(q.text.replace("m²", ""))
    grown = outline(s).buffer(s.level.roof.overhang, join_style="mitre", mitre_limit=10)
    agrees(q, (a + 2 * over) * (b + 2 * over), 0.06)
    agrees(q, grown.area / 1e6, 0.06)


# saddles and gables


@check("saddle-base")
def _(q: Asked, s: Subject) -> None:
    (saddle,) = tags(q.text)
    opening, inward = numbers(q.text)
    agrees(q, opening - 2 * inward)
    agrees(q, line(s, saddle).length)


@check("saddle-count")
def _(q: Asked, s: Subject) -> None:
    opening, spacing, *least = numbers(q.text)
    bases = [opening - 2 * spacing * k for k in range(1, 200)]
    agrees(q, sum(base > (least[0] if least else 0) for base in bases))


@check("saddle-under")
def _(q: Asked, s: Subject) -> None:
    (saddle,) = tags(q.text)
    strip = line(s, saddle)
    reach = s.level.trusses.spacing + 1
    for tag in right(q):
        # Crossed by the saddle, or one of the two that a trimmer under its end spans between.
        assert whole_line(s, tag).distance(strip) < reach, (q.text, tag)
    for tag in wrong(q):
        assert not whole_line(s, tag).crosses(strip), (q.text, tag)


@check("gable-truss-place")
def _(q: Asked, s: Subject) -> None:
    (gable,), (wall,) = tags(q.text), walls_in(q.text)
    thickness, plate = numbers(q.text)
    inside = "inside of the plate" in q.text
    assert inside == (s.level.trusses.gable_stands == "inside plate")
    agrees(q, (plate if inside else 0) + thickness / 2)
    agrees(q, from_wall(s, gable, wall))


@check("outrigger-count")
def _(q: Asked, s: Subject) -> None:
    (gable,) = tags(q.text)
    span, spacing = numbers(q.text)
    assert abs(line(s, gable).length - span) < 0.051
    one_side = {k * spacing for k in range(200) if k * spacing <= span / 2 + 1e-6}
    agrees(q, len({round(v, 3) for v in one_side | {span - v for v in one_side}}))


@check("outrigger-length")
def _(q: Asked, s: Subject) -> None:
    (mate,), (wall, *_rest) = tags(q.text), walls_in(q.text)
    overhang, back = numbers(q.text)
    assert overhang == s.level.roof.overhang
    assert abs(from_wall(s, mate, wall) - back) < 0.051
    agrees(q, overhang + back)


# what carries what


@check("who-carries")
def _(q: Asked, s: Subject) -> None:
    truss = tags(q.text)[0]
    (carrier,) = tags(right(q)[0])
    assert carrier in hangs_on(s, truss)
    assert not {tags(choice)[0] for choice in wrong(q)} & hangs_on(s, truss)


@check("what-hangs")
def _(q: Asked, s: Subject) -> None:
    (girder,) = tags(q.text)
    assert all(girder in hangs_on(s, tag) for tag in right(q))
    assert not any(girder in hangs_on(s, tag) for tag in wrong(q))


@check("match-carriers")
def _(q: Asked, s: Subject) -> None:
    assert isinstance(q.task, Pairs)
    for left, i in zip(q.task.left, q.task.right, strict=True):
        assert tags(q.task.others[i])[0] in hangs_on(s, tags(left)[0])


@check("count-of-kind")
def _(q: Asked, s: Subject) -> None:
    kind = re.search(r"How many (.+?)(?:es|s) has", q.text)[1].removesuffix("e")  # type: ignore[index]
    ours = [m for m in s.layout.members if KINDS[letters(m.tag)] in (kind, kind + "e")]
    agrees(q, len(ours))


@check("delivery-short")
def _(q: Asked, s: Subject) -> None:
    packs = {name: int(n) for n, name in re.findall(r"(\d+) ([a-z ]+?(?:truss|girder))(?:es|s)?\b", q.text)}
    plan = {name: sum(KINDS[letters(m.tag)] == name for m in s.layout.members) for name in packs}
    short = [name for name in packs if packs[name] < plan[name]]
    assert short == right(q)
    assert all(packs[name] == plan[name] for name in packs if name not in short)


def _has_eave(s: Subject, member: Member, end: int) -> bool:
    """Whether just past an end, along the truss, it is outdoors."""
    at, other = (member.start, member.finish) if end == 1 else (member.finish, member.start)
    length = math.dist(at, other)
    beyond = Point(at[0] + (at[0] - other[0]) / length * 5, at[1] + (at[1] - other[1]) / length * 5)
    on_wall = outline(s).exterior.distance(Point(at)) < NEAR
    return on_wall and not outline(s).buffer(0.01).covers(beyond)


@check("one-tail-only")
def _(q: Asked, s: Subject) -> None:
    for tag in right(q):
        member = s.layout.by_tag[tag]
        assert not all(_has_eave(s, member, end) for end in (1, 2)) or s.level.roof.overhang == 0, (q.text, tag)
    for tag in wrong(q):
        assert all(_has_eave(s, s.layout.by_tag[tag], end) for end in (1, 2)), (q.text, tag)


@check("which-way-round")
def _(q: Asked, s: Subject) -> None:
    member = s.layout.by_tag[tags(q.text)[0]]
    (end,) = [end for end in (1, 2) if member.ends[end - 1].tail > 0]
    (told,) = walls_in(right(q)[0])
    a, b = wall_ends(s, told)
    at = member.start if end == 1 else member.finish
    assert LineString([a, b]).distance(Point(at)) < NEAR
    assert _has_eave(s, member, end)


@check("extension-over")
def _(q: Asked, s: Subject) -> None:
    (tag,) = tags(q.text)
    member = s.layout.by_tag[tag]
    ux, uy = member.direction
    run = member.top[-1][0]
    stop = (member.start[0] + ux * run, member.start[1] + uy * run)
    extension = LineString([member.finish, stop])
    for other in right(q):
        # "Fixed there to each other and to the next full-height truss": at the apex that one may stand a little on.
        near = s.level.trusses.spacing if letters(other) == "ST" else 0.6
        assert whole_line(s, other).distance(extension) <= near, (q.text, other)
    for other in wrong(q):
        met = whole_line(s, other).distance(extension) < 0.6 and line(s, other).distance(Point(member.finish)) > 1
        # At the apex several meet: there it is fixed to the next full-height truss, and told by that one.
        assert not met or Point(stop).distance(line(s, other)) < 0.6, (q.text, other)


@check("which-bracket")
def _(q: Asked, s: Subject) -> None:
    truss = tags(q.text)[0]
    on_wall = "on wall" in q.text
    schedule = s.level.fixings.model_dump()
    kind = KINDS[letters(truss)].removesuffix(" truss").replace(" ", "_")
    hung = "hung_girder" if letters(truss) in ("G", "TG") else "hung"
    assert right(q) == [schedule[kind if on_wall else hung]]
    if not on_wall:
        assert tags(q.text)[1] in hangs_on(s, truss)


# loads and limits


@check("roof-on-bearing")
def _(q: Asked, s: Subject) -> None:
    (truss,) = tags(q.text)
    span, tail, width = numbers(q.text.replace("m²", ""))
    assert abs(line(s, truss).length - span) < 0.051 and tail == s.level.roof.overhang
    agrees(q, (span / 2 + tail) * width / 1e6, 0.006)
    # Brute force over the plan: of fine points across half a truss, how wide a strip is nearest to this one?
    member, (a, b) = s.layout.by_tag[truss], line(s, truss).coords
    middle = ((a[0] + b[0]) / 2 * 0.4 + a[0] * 0.6, (a[1] + b[1]) / 2 * 0.4 + a[1] * 0.6)
    px, py = -member.direction[1], member.direction[0]
    row = [line(s, tag) for tag in s.layout.rows[member.row] if tag != truss]
    steps = [k * 5.0 for k in range(-260, 261)]
    near = sum(
        all(line(s, truss).distance(p) <= other.distance(p) for other in row)
        for p in (Point(middle[0] + px * t, middle[1] + py * t) for t in steps)
    )
    assert abs(near * 5.0 - width) <= 10


@check("uplift-at-bearing")
def _(q: Asked, s: Subject) -> None:
    area, pressure, *_one = numbers(q.text.replace("m²", ""))
    assert pressure == s.level.tie_down.net_pressure
    agrees(q, area * pressure, 0.006)


@check("which-holds")
def _(q: Asked, s: Subject) -> None:
    uplift, light, heavy = numbers(q.text)
    assert (light, heavy) == (s.level.tie_down.capacity.framing_anchor, s.level.tie_down.capacity.tie_down_strap)
    (told,) = right(q)
    want = "framing anchor" if uplift <= light else "tie-down strap" if uplift <= heavy else "neither"
    assert want in told


@check("plumb-limit")
@check("bow-limit")
def _(q: Asked, s: Subject) -> None:
    (truss,) = tags(q.text)
    size, ratio, cap = numbers(q.text)
    limits = s.level.tolerances
    own = limits.plumb if "lean" in q.text else limits.bow
    assert (ratio, cap) == (own.ratio, own.cap)
    if "lean" not in q.text:
        assert abs(line(s, truss).length - size) <= 0.5
    # The trade brief: the lesser of height/50 and 50, of length/200 and 50, or the level's own.
    agrees(q, size / ratio if size / ratio < cap else cap)


@check("tie-rows")
def _(q: Asked, s: Subject) -> None:
    span, gap = numbers(re.sub(r"wing W\d+", "", q.text))
    assert gap == s.level.bracing.bottom_chord_ties
    agrees(q, next(rows for rows in range(99) if span / (rows + 1) <= gap + 1e-6))


@check("brace-angle")
def _(q: Asked, s: Subject) -> None:
    across, spacing, least, most = numbers(q.text)
    limits = s.level.bracing.steel_brace_angle
    assert (spacing, least, most) == (s.level.trusses.spacing, limits.least, limits.most)

    def angle(choice: str) -> float:
        return math.degrees(math.atan(numbers(choice)[0] * spacing / across))

    assert least <= angle(right(q)[0]) <= most
    assert all(not least <= angle(choice) <= most for choice in wrong(q))


# the order of work: tried out on a reckoner that knows neither the rules nor the graph


def _built(s: Subject, up: list[str]) -> Build:
    build = Build(s.layout)
    todo = list(up)
    while todo:  # carriers first: the text names them by their tags, not by their order
        ready = [t for t in todo if not set(s.layout.by_tag[t].carried_by) & set(todo)]
        order = sorted(ready, key=lambda t: (["G", "TG", "H", "T", "J", "C", "ST", "GT"].index(letters(t)), t))
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
        low, high = int(first.strip("TGSHJC")), int((last or first).strip("TGSHJC"))
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
            "opening": ("G",), "hips steady": ("TG",), "run over the truncated": ("T", "TG"),
            "finished hip end": ("H", "J", "C", "T", "TG"), "outermost tops": ("ST",),
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


def _roof(s: Subject, x: float, y: float) -> float:
    """Distance to the outside with mitred corners: the largest square round a place that fits in, gables opened."""
    shape = outline(s)
    for gable in s.level.gables:
        a, b = wall_ends(s, gable)
        nx, ny = (b[1] - a[1]) / math.dist(a, b), (a[0] - b[0]) / math.dist(a, b)
        far = 60_000
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
