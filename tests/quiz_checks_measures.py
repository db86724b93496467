"""A second opinion on the questions about measures: set-out, girders, heights, lengths, saddles and gables."""

from __future__ import annotations

import math
import re

from quiz_reading import (
    NEAR,
    agrees,
    answer,
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
    taped_ends,
    wall_ends,
    wall_length,
    walls_in,
    whole_line,
    wrong,
)
from shapely import Point, Polygon, intersection_all

from trainer.quiz.question import Asked
from trainer.quiz.worked import Subject

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
    for count, bay in re.findall(r"(\d+) bays? of (\d+(?:\.\d+)?)", q.text):
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
    assert abs(tape(s, first, wall) - a) < 0.051 and tape(s, last, wall) > a
    agrees(q, math.fmod(b - a, spacing))


@check("trusses-between")
def _(q: Asked, s: Subject) -> None:
    (wall,) = walls_in(q.text)
    a, b, spacing = numbers(q.text)
    agrees(q, round((b - a) / spacing) - 1)
    begin, end = taped_ends(s, wall)
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
    assert letters(girder) == "G"
    agrees(q, plies * thickness / 2)


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
    a, b = taped_ends(s, wall)
    low = 0 if a[1] == b[1] else 1
    ends = line(s, girder).coords
    nearest = min(abs(e[low] - a[low]) for e in ends)
    assert abs(abs((crossing.x, crossing.y)[low] - a[low]) - nearest - answer(q)) < 1


@check("diagonal-for-square")
def _(q: Asked, s: Subject) -> None:
    a, b = numbers(q.text)
    agrees(q, (a * a + b * b) ** 0.5)
    rects = [wing.rect for wing in s.layout.wings]
    x0, y0, x1, y1 = next(rect for rect in rects if {rect[2] - rect[0], rect[3] - rect[1]} == {a, b})
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
    span, flat = numbers(q.text)
    agrees(q, (span - flat) / 2)


@check("eave-drop")
def _(q: Asked, s: Subject) -> None:
    pitch, overhang = numbers(q.text)
    assert (pitch, overhang) == (s.level.roof.pitch, s.level.roof.overhang)
    agrees(q, overhang * math.tan(math.radians(pitch)), 0.6)


@check("gable-truss-lower")
def _(q: Asked, s: Subject) -> None:
    depth, pitch = numbers(q.text)
    assert pitch == s.level.roof.pitch
    agrees(q, depth / math.cos(math.radians(pitch)))


# lengths


@check("hip-run")
def _(q: Asked, s: Subject) -> None:
    hip, girder = tags(q.text)
    (side,) = numbers(q.text)
    agrees(q, side * 2**0.5, 0.6)
    corner = line(s, hip).coords[0]
    assert any(math.dist(corner, p) < NEAR for p in s.level.plates.outline)
    assert s.layout.by_tag[hip].carried_by[-1] == girder


@check("hip-length")
def _(q: Asked, s: Subject) -> None:
    pitch, degrees, side = numbers(q.text)
    assert (pitch, degrees) == (s.level.roof.pitch, 45)
    # A hip's slope is tan(pitch)/√2 over √2 times the run: the trade brief, as in the published bridge measures.
    agrees(q, side * (2 + math.tan(math.radians(pitch)) ** 2) ** 0.5, 1.1)


@check("hip-pitch")
def _(q: Asked, s: Subject) -> None:
    (pitch,) = numbers(q.text)
    agrees(q, math.degrees(math.atan(math.tan(math.radians(pitch)) / 2**0.5)))


@check("hip-tail")
def _(q: Asked, s: Subject) -> None:
    (overhang,) = numbers(q.text)
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
    assert pitch == s.level.roof.pitch
    assert abs(line(s, long).length - line(s, short).length - s.level.trusses.spacing) < NEAR
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
    beyond = []
    for name in s.level.against:  # the roof ends at the face of a higher wall
        (ax, ay), (bx, by) = wall_ends(s, name)
        ux, uy = (bx - ax) / math.dist((ax, ay), (bx, by)), (by - ay) / math.dist((ax, ay), (bx, by))
        far = 50_000
        a, b = (ax - ux * far, ay - uy * far), (bx + ux * far, by + uy * far)
        beyond.append(Polygon([a, b, (b[0] + uy * far, b[1] - ux * far), (a[0] + uy * far, a[1] - ux * far)]))
    if beyond:
        grown -= intersection_all(beyond)  # round a corner it is over what lies beyond both walls
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
    assert from_wall(s, gable, wall) < s.level.trusses.spacing


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
    assert abs(from_wall(s, mate, wall) - back) < 0.051
    agrees(q, overhang + back)
