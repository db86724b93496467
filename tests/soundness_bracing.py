"""Permanent bracing: read from the trade brief a second time, beside ``soundness.py``, with shapely for its geometry.

Knows a level's bracing block, the layout and what was done, and neither the rules, the plan of bracing nor the
site's own state. Common practice, no source: every full-height truss is crossed by a roof brace on each slope, and
"on each slope steel braces run both ways": "a row of length 1.16 h or more takes a V (or more than one), one of 0.58 h
to 1.16 h a cross, a shorter one what the level's sheet says". "It locks the row as it stands: a truss is not plumbed
through it afterwards". "Strap is tensioned until it is straight and no further".
"""

import math
from functools import cache
from itertools import pairwise

from shapely.geometry import LineString, Point, Polygon

from trainer.layout import Layout
from trainer.layout.webs import webs
from trainer.level import Level

STRAIGHT_ACROSS = ("standard", "truncated", "truncated_girder", "gable", "half", "girder")
FULL_HEIGHT = ("standard", "girder")
"""In a row of trusses a girder is a dutch gable's."""
NEAR = 60.0
PAST_END = 150.0
AT_RIDGE = 150.0
LAPPED = 200.0


class Battens:
    """ "About 3000 between top-chord … ties while erecting": the level's own value, on the level. Rows go from the
    ridge down each slope to the plate, which holds the ends; without a gap, as the job sheet says."""

    def __init__(self, level: Level, layout: Layout):
        self.layout, self.most = layout, level.bracing.top_chord_ties
        self.on: list[tuple[str, tuple[str, ...], int | None]] = []

    def leaves(self, tags, every):
        """The longest stretch between rows; of a slope shorter than the gap, all of it."""
        slopes = []
        for tag in tags:
            member = self.layout.by_tag[tag]
            peak = [run for run, z in member.top if z > max(z for _run, z in member.top) - 1]
            ridge = min(sum(peak[:1] + peak[-1:]) / 2, member.span)
            slopes.append(max(ridge, member.span - ridge))
        return min(every or self.most, max(slopes))

    def brace(self, action):
        """Too far apart, unless closer rows lie over the same trusses."""
        if action.kind == "batten" and self.leaves(action.tags, action.every) > self.most:
            over = [(tags, every) for kind, tags, every in self.on if kind == "batten" and {*action.tags} <= {*tags}]
            if not any(self.leaves(tags, every) <= self.most for tags, every in over):
                yield f"rows of battens too far apart over {', '.join(action.tags)}"
        self.on.append((action.kind, action.tags, action.every))

    def unbrace(self, action):
        same = [piece for piece in self.on if piece[:2] == (action.kind, action.tags)]
        self.on.remove(next((piece for piece in same if piece[2] == action.every), same[0]))


class Row:
    """One row of parallel trusses."""

    def __init__(self, layout: Layout, members):
        self.members = members
        self.along = 0 if members[0].start[0] == members[0].finish[0] else 1
        self.members.sort(key=lambda m: m.start[self.along])
        rect = next(w.rect for w in layout.wings if w.id == members[0].wing)
        self.eaves = (rect[1 - self.along], rect[3 - self.along])
        self.ridge = sum(self.eaves) / 2
        ends = [end for m in members for end in m.ends if end.bears_on.startswith("ledger ")]
        if ends:  # "lay out the wing doubled by its mirror image and keep half": one slope, up to the higher wall
            self.ridge = ends[0].at[1 - self.along]
            self.eaves = tuple(eave for eave in self.eaves if eave != self.ridge)

    def of(self, *kinds):
        return [m for m in self.members if (m.half_of or m.kind) in kinds]


class Permanent:
    """The permanent bracing of one attempt: (kind, ends, row, {truss: place across the row}) for each piece."""

    def __init__(self, level: Level, layout: Layout):
        self.level, self.layout, self.spec = level, layout, level.bracing
        names = dict.fromkeys(m.row for m in layout.members)
        rows = [[m for m in layout.members if m.row == name and m.kind in STRAIGHT_ACROSS] for name in names]
        self.rows = [Row(layout, members) for members in rows if len(members) > 1]
        plan = layout.house.plan
        outside = Polygon(plan.outline)
        self.plates = outside.buffer(100, join_style="mitre") - outside.buffer(
            -plan.plate_width - 100, join_style="mitre"
        )
        self.pieces = []
        self.held_with = {}
        self.known = {}
        self.changes = 0
        self.held_before = ((), set())
        self.ends_before = ((), {})
        self.girders = [m for m in layout.members if m.kind == "girder"]
        self.asked = level.bracing.permanent if "brace" in level.lesson.stages else ()

    def restrain(self, action, build):
        ends = (tuple(action.start), tuple(action.finish))
        line = LineString(ends)
        self.changes += 1
        crossed = {}
        for row in self.rows:
            for member in row.members:
                tag = build.in_place.get(member.tag)
                if tag is None:
                    continue
                truss = LineString(build.stood[tag])
                if line.distance(truss) <= PAST_END:
                    at = line.intersection(truss) if line.intersects(truss) else nearest_on(truss, line)
                    if isinstance(at, Point):
                        crossed.setdefault(id(row), {})[tag] = (at.x, at.y)[1 - row.along]
        best = max(self.rows, key=lambda row: len(crossed.get(id(row), {})))
        if action.kind == "roof brace":
            own = lean(ends, best)
            against = {(side, -way) for side, way in own}
            if action.tension == "hard" and not against <= self.leans(best, build, sound=True):
                yield f"roof brace over {', '.join(crossed.get(id(best), {}))} pulled too hard"
            for tag in crossed.get(id(best), {}):
                if "stand" in self.level.lesson.stages and not self.locked(tag) and not build.straight(tag):
                    yield f"{tag} braced for good while it was crooked"
        self.pieces.append((action.kind, ends, best, crossed.get(id(best), {})))
        if action.kind == "roof brace" and self.complete(best, build):
            # What its row's own braces hold at that moment: a truss stood beside them later is not tied to them.
            # A gable truss, which no brace crosses, is held by its tie to the row alone.
            inside = [m.tag for m in best.members if m.kind != "gable"]
            tags = [build.in_place[tag] for tag in inside if tag in build.in_place]
            self.held_with.setdefault(id(best), set()).update(tags)
        if action.kind == "roof brace" and not self.right_angle(ends, best):
            yield f"roof brace over {', '.join(crossed.get(id(best), {}))} at a wrong angle"

    def taken_down(self, tag):
        self.changes += 1
        for *_rest, crossed in self.pieces:
            crossed.pop(tag, None)

    def released(self, tags):
        """Every roof brace over all of these is taken off; its row is then held by no more than it still has."""
        self.changes += 1
        gone = [piece for piece in self.pieces if piece[0] == "roof brace" and {*tags} <= {*piece[3]}]
        self.pieces = [piece for piece in self.pieces if piece not in gone]
        for piece in gone:
            self.held_with.pop(id(piece[2]), None)

    def locked(self, tag):
        return any(piece[0] == "roof brace" and tag in piece[3] for piece in self.pieces)

    def leans(self, row, build, *, sound):
        """(slope, way) of the roof braces over a row: which side they are on, and which way along it they rise."""
        found = set()
        for piece in self.pieces:
            works = not sound or (self.right_angle(piece[1], row) and all(self.ends_held(piece, build)))
            if piece[0] == "roof brace" and piece[2] is row and works:
                found |= lean(piece[1], row)
        return found

    def one_way(self, row, build, *, sound):
        """The slopes of a row long enough for both ways, at the level's least angle, that have not got them."""
        standards, half = row.of(*FULL_HEIGHT), abs(row.eaves[0] - row.ridge)
        if len(standards) < 2:
            return
        length = standards[-1].start[row.along] - standards[0].start[row.along]
        if length < half * math.tan(math.radians(self.spec.steel_brace_angle.least)) - 1:
            return
        there = self.leans(row, build, sound=sound)
        sides = [-1 if eave < row.ridge else 1 for eave in row.eaves]
        yield from (side for side in sides if not {(side, -1), (side, 1)} <= there)

    def right_angle(self, ends, row):
        (ax, ay), (bx, by) = ends
        du, dv = (abs(bx - ax), abs(by - ay)) if row.along == 0 else (abs(by - ay), abs(bx - ax))
        angles = self.spec.steel_brace_angle
        return angles.least - 0.5 <= math.degrees(math.atan2(du, dv)) <= angles.most + 0.5

    def ends_held(self, piece, build):
        """Whether a brace's lower end is tied down, and whether its upper end is fixed; read again after changes."""
        now = (self.changes, len(self.pieces), tuple(build.in_place.get(m.tag) for m in self.girders))
        if now != self.ends_before[0]:
            self.ends_before = (now, {})
        known = self.ends_before[1]
        if id(piece) not in known:
            known[id(piece)] = self.ends_held_now(piece, build)
        return known[id(piece)]

    def ends_held_now(self, piece, build):
        row = piece[2]
        braces = [other for other in self.pieces if other[0] == "roof brace" and other is not piece]
        others = [spot for other in braces for spot in other[1]]
        held = []
        for i, end in enumerate(sorted(piece[1], key=lambda end: -abs(end[1 - row.along] - row.ridge))):
            at_ridge = i == 1 and abs(end[1 - row.along] - row.ridge) <= AT_RIDGE
            at_another = any(math.dist(end, spot) <= 150 for spot in others)
            held.append(at_ridge or at_another or self.on_plates(end) or self.on_girder(end, build))
        return held

    def on_plates(self, end):
        if end not in self.known:
            self.known[end] = self.plates.covers(Point(end))
        return self.known[end]

    def on_girder(self, end, build):
        up = [m for m in self.girders if m.tag in build.in_place]
        return any(from_line(build.stood[build.in_place[m.tag]], end) <= m.width / 2 + 100 for m in up)

    def over(self, row, kind, build, *, sound):
        """For each truss of a row, where across the row pieces of a kind cross it."""
        found = {}
        for piece in self.pieces:
            if piece[0] != kind or piece[2] is not row:
                continue
            if sound and not (self.right_angle(piece[1], row) and all(self.ends_held(piece, build))):
                continue
            for tag, v in piece[3].items():
                found.setdefault(tag, []).append(on_its_slope(v, piece[1], row) if kind == "roof brace" else v)
        return found

    def uncrossed(self, row, build, *, sound):
        """Full-height trusses with a slope that no roof brace crosses."""
        over = self.over(row, "roof brace", build, sound=sound)
        for member in row.of(*FULL_HEIGHT):
            tag = build.in_place.get(member.tag)
            for eave in row.eaves:
                if tag and not any((v - row.ridge) * (eave - row.ridge) > 0 for v in over.get(tag, ())):
                    yield tag

    def held(self, build):
        """Trusses crossed on both slopes, and whole rows once all of it is in; read again where anything changed."""
        now = (self.changes, tuple(build.in_place.items()), tuple(build.stood.items()))
        if now != self.held_before[0]:
            self.held_before = (now, self.held_now(build))
        return self.held_before[1]

    def held_now(self, build):
        if "roof brace" not in self.asked:
            return set()
        found = set()
        for row in self.rows:
            standards = row.of(*FULL_HEIGHT)
            if len(standards) < 2 or not any(piece[2] is row for piece in self.pieces):
                continue
            if any(self.one_way(row, build, sound=True)):
                continue
            left = set(self.uncrossed(row, build, sound=True))
            up = {build.in_place[m.tag] for m in standards if m.tag in build.in_place}
            if self.complete(row, build):
                up |= self.held_with.get(id(row), set()) & set(build.stood)
            found |= up - left
        return found

    def complete(self, row, build):
        """Whether all full-height trusses of a row stand, and a roof brace that does its work crosses each slope."""
        standards = row.of(*FULL_HEIGHT)
        up = [m for m in standards if m.tag in build.in_place]
        crossed = len(up) == len(standards) > 1 and not list(self.uncrossed(row, build, sound=True))
        return crossed and not any(self.one_way(row, build, sound=True))

    def whole(self, name, build):
        """Whether all roof braces that the row called ``name`` needs are in, and do their work."""
        row = next((row for row in self.rows if row.members[0].row == name), None)
        if row is None or "roof brace" not in self.asked or len(row.of(*FULL_HEIGHT)) < 2:
            return True
        return not list(self.uncrossed(row, build, sound=True)) and not any(self.one_way(row, build, sound=True))

    def hand_over(self, build):
        for row in self.rows:
            yield from self.row_faults(row, build)

    def row_faults(self, row, build):
        standing = [m for m in row.members if m.tag in build.in_place]
        if "roof brace" in self.asked and len(row.of(*FULL_HEIGHT)) > 1:
            for tag in self.uncrossed(row, build, sound=False):
                yield f"no roof brace over {tag}"
            if any(m.tag in build.in_place for m in row.of(*FULL_HEIGHT)):
                yield from (
                    f"roof braces one way on a slope of {row.members[0].row}"
                    for _ in self.one_way(row, build, sound=False)
                )
        for piece in self.pieces:
            if piece[2] is not row:
                continue
            if piece[0] == "roof brace" and not all(self.ends_held(piece, build)):
                yield f"roof brace over {', '.join(piece[3])} not held at an end"
            if piece[0] in ("bottom-chord tie", "web tie"):
                yield from self.tie_ends(piece, row, standing, build)
        if "bottom-chord tie" in self.asked:
            yield from self.gaps(row, build, "bottom-chord tie", self.spec.bottom_chord_ties, bottom_chord)
        if "web tie" in self.asked:
            yield from self.long_webs(row, build)
        if "top-chord tie" in self.asked:
            for chord in self.covered_chords(row):
                yield from self.gaps(row, build, "top-chord tie", self.spec.under_saddles, chord)
        if "end brace" in self.asked:
            yield from self.end_bays(row, build)

    def gaps(self, row, build, kind, most, chord):
        over = self.over(row, kind, build, sound=False)
        for member in row.of("standard", "truncated"):
            tag = build.in_place.get(member.tag)
            stretch = chord(member, row)
            if tag is None or stretch is None:
                continue
            low, high = sorted(stretch)
            stops = [low, *sorted(v for v in over.get(tag, ()) if low <= v <= high), high]
            if any(b - a > most + NEAR for a, b in pairwise(stops)):
                yield f"{kind}s too far apart on {tag}"

    def long_webs(self, row, build):
        over = self.over(row, "web tie", build, sound=False)
        standards = row.of("standard")
        for member in standards if len(standards) > 1 else ():
            tag = build.in_place.get(member.tag)
            for web in webs(member, self.layout.house).webs:
                if tag is None or web.length <= self.spec.web_ties_over:
                    continue
                (x, y), (ux, uy) = member.start, member.direction
                middle = (y + uy * web.middle[0]) if row.along == 0 else (x + ux * web.middle[0])
                reach = abs(web.high[0] - web.low[0]) / 6 + 2 * NEAR
                if not any(abs(v - middle) <= reach for v in over.get(tag, ())):
                    yield f"a long web of {tag} not tied"

    def has_long_web(self, member):
        return any(web.length > self.spec.web_ties_over for web in webs(member, self.layout.house).webs)

    def covered_chords(self, row):
        """What of each top chord lies under the saddles of one opening: from the opening in to the valley."""
        for name in dict.fromkeys(m.row for m in self.layout.members if m.kind == "saddle"):
            saddles = [m for m in self.layout.members if m.row == name]
            under = {
                c.under for c in self.layout.crossings if c.over in {s.tag for s in saddles} and c.what == "saddle"
            }
            if not under & {m.tag for m in row.members}:
                continue
            line = min(row.eaves, key=lambda eave: abs(eave - saddles[0].start[1 - row.along]))
            rect = next(w.rect for w in self.layout.wings if w.id == saddles[0].wing)
            sides = rect[row.along], rect[row.along + 2]

            def chord(member, row, line=line, sides=sides):
                depth = min(abs(member.start[row.along] - side) for side in sides)
                if not sides[0] < member.start[row.along] < sides[1]:
                    return None
                top = max(z for _, z in member.top)
                flat = [
                    member.start[1 - row.along] + member.direction[1 - row.along] * run
                    for run, z in member.top
                    if z >= top - 0.5
                ]
                depth = min(depth, *(abs(v - line) for v in flat))
                return line, line + math.copysign(depth, row.ridge - line)

            yield chord

    def end_bays(self, row, build):
        for eave in row.eaves:
            over = self.over(row, "end brace", build, sound=False)
            held = [
                m
                for m in row.of("standard", "truncated", "truncated_girder", "girder")
                if min(m.ends, key=lambda end: abs(end.at[1 - row.along] - eave)).on_plate
            ]
            for member in {m.tag: m for m in (*held[:2], *held[-2:])}.values() if len(held) > 1 else ():
                tag = build.in_place.get(member.tag)
                if tag and not any(abs(v - eave) <= 400 + NEAR for v in over.get(tag, ())):
                    yield f"no end brace at {tag}"

    def tie_ends(self, piece, row, standing, build):
        kind, ends, _row, crossed = piece
        if kind == "web tie":
            standing = [m for m in standing if m.kind == "standard" and self.has_long_web(m)] or standing
        tags = [build.in_place[m.tag] for m in standing]
        there = [tag for tag in tags if tag in crossed]
        walls = [LineString(wall) for wall in self.layout.house.plan.internal_walls]
        for tag, last, step in ((there[0], tags[0], -1), (there[-1], tags[-1], 1)) if there else ():
            end = Point(max(ends, key=lambda spot: spot[row.along] * step))
            lapped = [
                other
                for other in self.pieces
                if other is not piece and other[0] == kind and other[2] is row
                if abs(other[3].get(tag, math.inf) - crossed[tag]) <= LAPPED
                if any((tags.index(t) - tags.index(tag)) * step > 0 for t in other[3] if t in tags)
            ]
            girders = [
                LineString(build.stood[build.in_place[m.tag]]).distance(end) <= m.width / 2 + 100
                for m in self.layout.members
                if m.kind == "girder" and m.tag in build.in_place
            ]
            at_wall = self.plates.covers(end) or any(wall.distance(end) <= LAPPED for wall in walls) or any(girders)
            if tag != last and not lapped and not at_wall:
                yield f"{kind} ends loose at {tag}"


@cache
def from_line(line, spot):
    """How far a spot is from a line, mm."""
    return LineString(line).distance(Point(spot))


def lean(ends, row):
    """{(slope, way)}: the side of the ridge that a roof brace is on, and which way along the row it rises there."""
    ends = [(end[1 - row.along] - row.ridge, end[row.along]) for end in ends]
    (low, at), (high, top) = sorted(ends, key=lambda end: -abs(end[0]))
    way = math.copysign(1, top - at)
    found = {(math.copysign(1, low), way)} if top != at else set()
    if abs(high) > AT_RIDGE and high * low < 0 and top != at:
        found.add((math.copysign(1, high), -way))
    return found


def on_its_slope(v, brace, row):
    """Where a brace crosses a truss: at the ridge, on the slope that the rest of it lies on."""
    ends = [end[1 - row.along] - row.ridge for end in brace]
    lower = max(ends, key=abs)
    over_the_ridge = any(abs(end) > AT_RIDGE and end * lower < 0 for end in ends)
    if over_the_ridge or (v - row.ridge) * lower > 0:
        return v
    return row.ridge + math.copysign(1.0, lower)


def bottom_chord(member, row):
    return member.start[1 - row.along], member.finish[1 - row.along]


def nearest_on(truss, line):
    """Where a truss would be crossed by a line that stops just short of it."""
    (ax, ay), (bx, by) = line.coords
    length = math.dist((ax, ay), (bx, by))
    ux, uy = (bx - ax) / length * NEAR, (by - ay) / length * NEAR
    longer = LineString([(ax - ux, ay - uy), (bx + ux, by + uy)])
    (px, py), (qx, qy) = truss.coords
    span = math.dist((px, py), (qx, qy))
    wx, wy = (qx - px) / span * PAST_END, (qy - py) / span * PAST_END
    return longer.intersection(LineString([(px - wx, py - wy), (qx + wx, qy + wy)]))
