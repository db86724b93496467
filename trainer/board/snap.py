"""Where things in the hand go by themselves when they are nearly there: marks, faces, lines, whole measures.

These are the places a carpenter's eye and square find: nothing here knows where a truss belongs.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from trainer.board.aim import Aim, bears_on_a_wall, direction, from_wall, nearest_wall, on_wall, pointing_inward
from trainer.layout import Member
from trainer.plan import Point, Wall
from trainer.plan.points import half, to_half
from trainer.site.model import Site, Stood
from trainer.words import _

Segment = tuple[Point, Point]
BEYOND = 150.0
"""How far past a wall's end an end of a truss may still be measured from it, mm: a girder beside a corner is."""
CARRIERS = frozenset({"girder", "truncated_girder", "hip"})
"""Standing trusses whose line the end of one in the hand is caught by."""
LANDS = 300.0
"""How far from a plate or a carrier the other end of a truss may come and still be taken to land there, mm."""
REACH = 9.0
"""How near to a place one has to be to be caught by it, px."""
DROP_IN = 1.6
"""How many times as far a place reaches at which both ends come on lines: it is rarer, and what is mostly meant."""
PARALLEL = 0.1
"""Two lines that turn less than this from each other, as the sine of the angle, are taken to run the same way."""


@dataclass(frozen=True, slots=True)
class Caught:
    """A measure that something was caught at, and by what, in words; a ``mark`` catches before anything else."""

    value: float
    by: str
    mark: bool = False


def whole_step(mm_per_px: float) -> float:
    """Return the step of whole measures that suits a zoom: about five px, from 1 mm to 50 mm."""
    return next((step for step in (1.0, 5.0, 10.0, 25.0, 50.0) if step >= 5 * mm_per_px), 50.0)


def catch(value: float, places: Iterable[Caught], reach: float, step: float) -> Caught:
    """Return the nearest of ``places`` within ``reach`` mm, marks first, or else the nearest whole step."""
    near = [place for place in places if abs(place.value - value) <= reach]
    whole = Caught(round(value / step) * step, "")
    return min(near, key=lambda place: (not place.mark, abs(place.value - value)), default=whole)


def marks_on(site: Site, name: str) -> tuple[float, ...]:
    """Return the marks on a wall or truss, mm from its start."""
    return site.marks.get(name, ())


def wall_places(site: Site, wall: Wall, width: float) -> Iterator[Caught]:
    """Yield the measures along a wall at which a truss ``width`` mm thick, square to it, lines up with something."""
    layout = site.job.layout
    to_face = width / 2
    near_face = layout.house.trusses.stations_to == "near face"
    for at in marks_on(site, wall.name):
        if near_face:
            yield Caught(at + to_face, _("on the mark"), mark=True)
            yield Caught(at - to_face, _("on the mark"), mark=True)
        else:
            yield Caught(at, _("on the mark"), mark=True)
    yield from _faces(site, wall, to_face)


def _faces(site: Site, wall: Wall, to_face: float, *, at_ends: bool = True) -> Iterator[Caught]:
    """Yield the measures along a wall at which what reaches ``to_face`` mm to either side lies against another wall;
    only with ``at_ends`` inside the walls that it meets at outside corners.
    """
    plan = site.job.layout.house.plan
    for other in plan.walls:
        if other.along in {wall.along, (-wall.along[0], -wall.along[1])}:
            continue
        outside, _off = on_wall(wall, other.a)
        inner, _off = on_wall(
            wall, (other.a[0] + other.inward[0] * plan.plate_width, other.a[1] + other.inward[1] * plan.plate_width)
        )
        inside = 1 if inner > outside else -1
        # Wholly on the house's side of the wall line: face to the outside line, or to the plate's inner edge.
        half_of_it = _("half its thickness, {half}").format(half=f"{to_face:g}")
        flush, against = _("flush with wall {wall}: {half}, in"), _("against the plate of wall {wall}: {half}, past it")
        if at_ends or not 0 < inner < wall.length or outside not in (0, wall.length):
            yield Caught(outside + inside * to_face, flush.format(wall=other.name, half=half_of_it))
            yield Caught(inner + inside * to_face, against.format(wall=other.name, half=half_of_it))
        # On the other side of a re-entrant wall's line.
        beyond = _("in line with wall {wall}: {half}, out")
        yield Caught(outside - inside * to_face, beyond.format(wall=other.name, half=half_of_it))


def aim_for(
    site: Site, member: Member, point: Point, held: Aim, mm_per_px: float, drop_ins: Iterable[Point] = ()
) -> tuple[Aim, str]:
    """Return the aim for a truss held at a place on the plan, and what caught it, in words.

    A truss made for a plate has that end put on the wall nearest to the place; any other is held by its middle.
    """
    plan = site.job.layout.house.plan
    reach, step = REACH * mm_per_px, whole_step(mm_per_px)
    if not bears_on_a_wall(member):
        return _free(site, member, point, held, reach, step, drop_ins)
    wall = _wall_for(site, member, point, held, reach)
    along, _off = on_wall(wall, point)
    if held.lies == "square":
        places = list(wall_places(site, wall, member.width))
    else:
        places = [Caught(at, _("on the mark"), mark=True) for at in marks_on(site, wall.name)]
    places += [Caught(0.0, _("at the corner")), Caught(wall.length, _("at the corner"))]
    low, high = -BEYOND, wall.length + BEYOND
    caught = catch(min(max(along, low), high), places, reach, step)
    at = caught.value if caught.by else min(max(caught.value, low), high)  # a whole step is no way past the end either
    return pointing_inward(plan, member, replace(held, wall=wall.name, at=at, off=0.0)), caught.by


def _wall_for(site: Site, member: Member, point: Point, held: Aim, reach: float) -> Wall:
    """Return the wall that an end of a truss is put on. Pressed on a mark, that one's; inside the house, one from which
    its other end lands on something, on the line of a mark before any other.
    """
    plan = site.job.layout.house.plan
    nearest = nearest_wall(plan, point)
    if held.lies != "square":
        return nearest
    places = {wall.name: on_wall(wall, point) for wall in plan.walls}
    across = [wall for wall in plan.walls if 0 <= places[wall.name][1] <= member.span]
    marked = [w for w in across if any(abs(at - places[w.name][0]) <= reach for at in marks_on(site, w.name))]
    if nearest in marked and from_wall(nearest, point) <= plan.plate_width + reach:
        return nearest
    landing = [wall for wall in across if lands(site, member, wall, places[wall.name][0])]
    both = [wall for wall in landing if wall in marked]
    # The wall that it is measured from already, so that the tape does not jump halfway across the house.
    return min(both or landing or marked, key=lambda w: (w.name != held.wall, places[w.name][1]), default=nearest)


def lands(site: Site, member: Member, wall: Wall, at: float) -> bool:
    """Whether a truss square to a wall comes down there with its other end: on a plate across, or on what stands."""
    if not 0 <= at <= wall.length:
        return False
    (x, y), (nx, ny) = wall.at(at), wall.inward
    far = (x + nx * member.span, y + ny * member.span)
    plan = site.job.layout.house.plan
    if any(other.along == (-wall.along[0], -wall.along[1]) and from_wall(other, far) <= LANDS for other in plan.walls):
        return True
    carriers = (one for one in site.stood.values() if site.layout.by_tag[one.tag].kind in CARRIERS)
    return any(abs(_cross(_unit((one.start, one.finish)), wall.inward)) > PARALLEL
               and nearest_truss([one], far, LANDS) is not None for one in carriers)  # fmt: skip


def _free(
    site: Site, member: Member, middle: Point, held: Aim, reach: float, step: float, drop_ins: Iterable[Point]
) -> tuple[Aim, str]:
    plan = site.job.layout.house.plan
    wall = plan.by_name[held.wall]
    dx, dy = direction(wall, held.lies)
    start = (middle[0] - dx * member.span / 2, middle[1] - dy * member.span / 2)
    near = min(drop_ins, key=lambda place: math.dist(place, start), default=None)
    if near is not None and math.dist(near, start) <= DROP_IN * reach:
        along, off = on_wall(wall, near)
        return replace(held, at=half(along), off=half(off)), _("both ends on a line or a mark")
    along, off = on_wall(wall, start)
    caught = catch(along, wall_places(site, wall, member.width) if held.lies == "square" else (), reach, step)
    return replace(held, at=caught.value, off=round(off / step) * step), caught.by


def drop_in_places(site: Site, member: Member, held: Aim) -> list[Point]:
    """Return the places for the near end of a truss at which both its ends come on lines that are there.

    Lines are walls, girders and hips that stand, and the roof's own lines, save those that lie the way the truss does.
    """
    layout = site.job.layout
    way = direction(layout.house.plan.by_name[held.wall], held.lies)
    slanting = held.lies in {"on", "back"}
    lines = [line for line in _lines(site, slanting=slanting) if abs(_cross(way, _unit(line))) > PARALLEL]
    vector = (way[0] * member.span, way[1] * member.span)
    found: list[Point] = []
    for one in lines:
        for other in lines:
            place = _both(one, other, vector)
            if place is not None:
                found.append(place)
    return [*found, *_on_marks(site, vector, lines)]


def _on_marks(site: Site, vector: Point, lines: Sequence[Segment]) -> Iterator[Point]:
    """Yield the places for the near end at which one end is on a mark of a standing truss, the other on a line."""
    for stood in site.stood.values():
        (ax, ay), (ux, uy) = stood.start, _unit((stood.start, stood.finish))
        if abs(_cross(_unit(((0.0, 0.0), vector)), (ux, uy))) <= PARALLEL:
            continue
        for at in marks_on(site, stood.tag):
            mark = (ax + ux * at, ay + uy * at)
            for near, far in (
                (mark, (mark[0] + vector[0], mark[1] + vector[1])),
                ((mark[0] - vector[0], mark[1] - vector[1]), None),
            ):
                if any(_from_line(line, far or near) <= LANDS for line in lines):
                    yield near


def _from_line(line: Segment, point: Point) -> float:
    """Return how far a place is from a line, mm."""
    (ax, ay), (ux, uy) = line[0], _unit(line)
    dx, dy = point[0] - ax, point[1] - ay
    run = min(max(dx * ux + dy * uy, 0.0), math.dist(*line))
    return math.hypot(dx - run * ux, dy - run * uy)


def _lines(site: Site, *, slanting: bool) -> list[Segment]:
    layout = site.job.layout
    lines: list[Segment] = [(wall.a, wall.b) for wall in layout.house.plan.walls]
    if not slanting:
        lines += [((a[0], a[1]), (b[0], b[1])) for a, b in (*layout.roof.valleys, *layout.roof.hips)]
    for stood in site.stood.values():
        member = layout.by_tag[stood.tag]
        if member.kind in CARRIERS:
            # An extension runs on in the same line, and saddles sit on it too.
            (x, y), (ux, uy) = stood.start, _unit((stood.start, stood.finish))
            reach = max(member.span, member.top[-1][0])
            lines.append((stood.start, (x + ux * reach, y + uy * reach)))
    return lines


def _unit(line: Segment) -> tuple[float, float]:
    (ax, ay), (bx, by) = line
    length = math.hypot(bx - ax, by - ay) or 1.0
    return ((bx - ax) / length, (by - ay) / length)


def _cross(a: tuple[float, float], b: tuple[float, float]) -> float:
    return a[0] * b[1] - a[1] * b[0]


def _both(one: Segment, other: Segment, vector: tuple[float, float]) -> Point | None:
    """Return the place on ``one`` from which ``vector`` ends on ``other``; None if there is none, or many."""
    u, v = _unit(one), _unit(other)
    turn = _cross(u, v)
    if abs(turn) < PARALLEL:
        return None
    gap = (other[0][0] - vector[0] - one[0][0], other[0][1] - vector[1] - one[0][1])
    run, reach = _cross(gap, v) / turn, _cross(gap, u) / turn
    if not (-1 <= run <= math.dist(*one) + 1 and -1 <= reach <= math.dist(*other) + 1):
        return None
    return (one[0][0] + u[0] * run, one[0][1] + u[1] * run)


def mark_places(site: Site, wall: Wall) -> Iterator[Caught]:
    """Yield the measures along a wall that catch a new mark: marks there and across the house, corners, and where a
    truss or a girder would lie against another wall. Of those no girder's is inside an end wall: none stands there, and
    it would be a pixel or two from a single truss's.
    """
    for at in marks_on(site, wall.name):
        yield Caught(at, _("on a mark"), mark=True)
    plan = site.job.layout.house.plan
    for other in plan.walls:
        if other.along == (-wall.along[0], -wall.along[1]):
            for at in marks_on(site, other.name):
                across, _off = on_wall(wall, other.at(at))
                if 0 < across < wall.length:
                    yield Caught(across, _("carried across from wall {wall}").format(wall=other.name))
    yield Caught(0.0, _("at the corner"))
    yield Caught(wall.length, _("at the corner"))
    trusses = site.job.layout.house.trusses
    plies = (0,) if trusses.stations_to == "near face" else (1, trusses.girder_plies)
    for each in plies:
        yield from (
            face
            for face in _faces(site, wall, each * trusses.thickness / 2, at_ends=each <= 1)
            if -BEYOND <= face.value <= wall.length + BEYOND
        )


def carrier_places(site: Site, carrier: Stood) -> Iterator[Caught]:
    """Yield the measures along a standing truss that catch: its marks, and wall marks carried across."""
    for at in marks_on(site, carrier.tag):
        yield Caught(at, _("on the mark"), mark=True)
    (ax, ay), (ux, uy) = carrier.start, _unit((carrier.start, carrier.finish))
    length = math.dist(carrier.start, carrier.finish)
    for wall in site.job.layout.house.plan.walls:
        if abs(_cross((ux, uy), wall.along)) > PARALLEL:
            continue
        for at in marks_on(site, wall.name):
            x, y = wall.at(at)
            run = (x - ax) * ux + (y - ay) * uy
            if 0 < run < length:
                yield Caught(run, _("carried across from wall {wall}").format(wall=wall.name))
    to_face = site.layout.by_tag[carrier.tag].width / 2
    for run in (to_face, length - to_face):
        yield Caught(run, _("half its thickness from its end"))


def along_truss(stood: Stood, point: Point) -> tuple[float, float]:
    """Return (mm along a standing truss from its ``from`` end, mm aside) of a place."""
    (ax, ay), (ux, uy) = stood.start, _unit((stood.start, stood.finish))
    dx, dy = point[0] - ax, point[1] - ay
    return (dx * ux + dy * uy, dx * -uy + dy * ux)


def crossed_at(site: Site, start: Point, way: tuple[float, float]) -> Iterator[float]:
    """Yield how far along a line from ``start`` each standing truss crosses it, with its extension, mm."""
    for stood in site.stood.values():
        (ax, ay), (ux, uy) = stood.start, _unit((stood.start, stood.finish))
        gap, turn = (ax - start[0], ay - start[1]), _cross(way, (ux, uy))
        member = site.layout.by_tag[stood.tag]
        if abs(turn) > PARALLEL and -1 <= _cross(gap, way) / turn <= max(member.span, member.top[-1][0]) + 1:
            yield _cross(gap, (ux, uy)) / turn


def nearest_truss(stood: Iterable[Stood], point: Point, reach: float, chosen: str = "") -> Stood | None:
    """Return the standing truss nearest to a place, within ``reach`` mm; where several meet, the ``chosen`` one."""
    best, least = None, reach
    for one in stood:
        run, aside = along_truss(one, point)
        length = math.dist(one.start, one.finish)
        gap = math.hypot(run - min(max(run, 0.0), length), aside) - (reach * 0.2 if one.tag == chosen else 0.0)
        if gap < least:
            best, least = one, gap
    return best


def tape_places(site: Site) -> Iterator[tuple[Point, str]]:
    """Yield the places of the plan that the board's own tape is caught by before any other: corners and marks."""
    plan = site.layout.house.plan
    for wall in plan.walls:
        yield wall.a, _("at the corner")
        for at in marks_on(site, wall.name):
            yield wall.at(at), _("on a mark")


def ends_of_trusses(site: Site) -> Iterator[tuple[Point, str]]:
    """Yield the ends of the trusses that stand."""
    for stood in site.stood.values():
        yield stood.start, _("end 1 of {tag}").format(tag=stood.tag)
        yield stood.finish, _("end 2 of {tag}").format(tag=stood.tag)


def tape_point(site: Site, place: Point, reach: float, step: float) -> tuple[Point, str]:
    """Return where the tape is held at a place: on what is near, on a wall's line, or at whole measures."""
    near = min(tape_places(site), key=lambda found: math.dist(found[0], place))
    if math.dist(near[0], place) <= reach:
        return near
    ends = min(ends_of_trusses(site), key=lambda found: math.dist(found[0], place), default=near)
    if math.dist(ends[0], place) <= min(reach, LANDS / 2):
        return ends
    wall = nearest_wall(site.layout.house.plan, place)
    along, off = on_wall(wall, place)
    at_wall = abs(off) if 0 <= along <= wall.length else math.inf
    truss = nearest_truss(site.stood.values(), place, min(reach, LANDS / 2, at_wall))
    if truss is not None:
        return _along_centre(truss, place, step), _("on {tag}").format(tag=truss.tag)
    if at_wall <= reach:
        return wall.at(round(along / step) * step), _("on the outside of wall {wall}").format(wall=wall.name)
    return (round(place[0] / step) * step, round(place[1] / step) * step), ""


def _along_centre(truss: Stood, place: Point, step: float) -> Point:
    """Return where on the centre line of a truss a place is, at a whole measure of the plan along it."""
    (ax, ay), (ux, uy) = truss.start, _unit((truss.start, truss.finish))
    run = (place[0] - ax) * ux + (place[1] - ay) * uy
    x, y = ax + ux * run, ay + uy * run
    level, upright = abs(uy) <= PARALLEL, abs(ux) <= PARALLEL
    return to_half((round(x / step) * step if level else x, round(y / step) * step if upright else y))
