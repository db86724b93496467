"""Strings over bowed plates, and rows left for the night: read from the trade brief a second time, as soundness.py is.

Common practice, no source, as the sentences quoted are.
"""

TIPS_OVER = ("standard", "girder", "truncated_girder", "truncated", "gable", "half")
FEW = 3


def full_height(member):
    return member.kind == "standard" or member.is_dutch


class Strings:
    """ "Plates are rarely dead straight": lined up by a bowed plate, a top is off the line of the others."""

    def __init__(self, level, layout):
        self.layout = layout
        near = level.tolerances
        walls = [w for w in level.site.walls if w.fault == "bowed wall" and abs(w.by) <= near.plates]
        self.off = {m.tag for m in layout.members if full_height(m) and bow_at(layout, m, walls) > near.apex}
        self.lined: set[str] = set()
        self.up: set[tuple[str, str]] = set()

    def row(self, place):
        """The full-height trusses of a row, in order."""
        return [tag for tag in self.layout.rows[place.row] if full_height(self.layout.by_tag[tag])]

    def string(self, start, finish):
        self.up.add((start, finish))

    def over(self, tag, place):
        """Whether a string runs over a truss from one before it to one after it."""
        row = self.row(place)
        spans = [sorted(row.index(end) for end in ends) for ends in self.up if set(ends) <= set(row)]
        return tag in row and any(low < row.index(tag) < high for low, high in spans)

    def stand(self, place, in_place):
        """ "A string line from apex to apex of the outermost full-height trusses before the ones between"."""
        row = self.row(place)
        between = place.tag in row[1:-1] and place.tag in self.off
        ends_up = {row[0], row[-1]} <= in_place.keys() if row else False
        if between and ends_up and not any({in_place[row[0]], in_place[row[-1]]} == set(ends) for ends in self.up):
            yield f"{place.tag} stood with no string"

    def plumb(self, tag, place):
        """The outermost two are set from the corners, those between by a string; without one the plate misleads."""
        row = self.row(place)
        self.lined.discard(tag)
        if (row and place.tag in (row[0], row[-1])) or self.over(place.tag, place):
            self.lined.add(tag)

    def in_line(self, tag, place):
        return place is None or place.tag not in self.off or tag in self.lined


def bow_at(layout, member, walls):
    """How far its plates lead a truss along itself, mm: it does not stretch, so it comes midway between them."""
    return abs(sum(_led(layout, member, end, walls) for end in member.ends)) / 2


def _led(layout, member, end, walls):
    """How far the plate under an end is bowed along the truss, mm: most at the wall's middle, nothing at its ends."""
    wall = layout.house.plan.by_name.get(end.bears_on.removeprefix("plate "))
    if wall is None:
        return 0.0
    (ux, uy), (x, y) = wall.along, end.at
    t = ((x - wall.a[0]) * ux + (y - wall.a[1]) * uy) / wall.length
    way = wall.inward[0] * member.direction[0] + wall.inward[1] * member.direction[1]
    return sum(w.by for w in walls if w.wall == wall.name) * 4 * t * (1 - t) * way


class Nights:
    """ "Temporary bracing as each truss goes up, also left safe at the end of the day"."""

    def __init__(self, level, layout):
        self.layout = layout
        self.day = level.site.day if "brace" in level.lesson.stages else None
        self.seen: set[str] = set()
        self.today = 0

    def falls_before(self, tag):
        """Whether a night falls before this truss is stood: for the first time, with the day's work done."""
        if self.day is None or tag in self.seen:
            return False
        night = self.today >= self.day
        self.today = 1 if night else self.today + 1
        self.seen.add(tag)
        return night

    def unsafe(self, build):
        """Three or more of a row, tied together, that can rack: no diagonal, no steel brace, not two of them solid.

        "Temporary bracing stays until what replaces it is in: for a row its permanent bracing": that keeps it too, and
        so does "something solid (… a finished hip end)".
        """
        held, for_good = build.held(), build.permanent.held(build) | set(build.hip_ends_done())
        for row, places in self.layout.rows.items():
            tips = [
                build.in_place[p] for p in places if p in build.in_place and self.layout.by_tag[p].kind in TIPS_OVER
            ]
            solid = {tag for kind, tags in build.bracing if kind in ("solid", "wall tie") for tag in tags}
            for group in together(tips, build.bracing):
                across = any(
                    kind in ("diagonal", "steel brace") and len(set(tags) & group) > 1 for kind, tags in build.bracing
                )
                points = [t for t in group if t in solid or self.steadied(t, build, held)]
                if len(group) >= FEW and not across and not group & for_good and len(points) < 2:
                    yield f"{', '.join(sorted(group))} of row {row} left unsafe for the night"

    def steadied(self, tag, build, held):
        """ "Both truncated girders, then their hips, which steady them"."""
        place = build.place_of[tag][0]
        hips = [o for o in self.layout.carries[place.tag] if self.layout.by_tag[o].kind == "hip"]
        fast = all(build.in_place.get(hip) in held for hip in hips)
        return place.kind == "truncated_girder" and bool(hips) and fast


def together(tips, bracing):
    """The trusses of a row in the groups that ties make of them."""
    groups = [{tag} for tag in tips]
    for kind, tags in bracing:
        if kind in ("batten", "steel brace", "diagonal"):
            joined = [group for group in groups if group & set(tags)]
            groups = [group for group in groups if not group & set(tags)]
            groups += [set().union(*joined)] if joined else []
    return groups
