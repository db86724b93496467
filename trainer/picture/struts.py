"""Where bracing and string lines run in space, from truss to truss as they stand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from trainer.layout.bracing import RestraintKind
from trainer.picture.falling import down
from trainer.picture.solids import Solid
from trainer.plan import inside
from trainer.roof.model import Point3
from trainer.site.batten_rows import row_runs, spacing_of
from trainer.site.model import Bracing, Restrained, Site
from trainer.words import _

SOLID_AT, SOLID_UP, SOLID_OUT = 0.62, 0.8, 560.0
"""Where along a truss its solid brace takes hold, how far up it, and how far out its foot is on a floor, mm; a look
only, short of the next truss."""
TO_WALL = 2700.0
"""A wall no further off than this is what a solid brace is drawn to, mm; else it goes down to the floor."""
PROP_OUT = 130.0
"""How far to the side of its truss the foot of a prop is drawn, mm, so that it shows from above."""
ALONG = 0.99
"""A wall that runs this nearly as a truss does lies beside it, as a cosine."""
TIE_LONG, TIE_IN = 260.0, 90.0
"""How far from a higher wall a tie to it begins as drawn, and how far it goes in, mm; a look only."""
RIDGE_GAP = 300.0
"""How far below the ridge a strap ends as drawn, mm."""
Run = Literal["batten", "steel brace", "solid", "prop", "string", "roof brace", "tie", "wall tie"]


@dataclass(frozen=True, slots=True)
class Strut:
    """One straight length from place to place in space; ``of`` are the trusses that it touches, ``to`` what its other
    end is fixed to, in words, where that is no truss.
    """

    run: Run
    a: Point3
    b: Point3
    of: tuple[str, ...]
    to: str = ""


def struts(site: Site, solids: Mapping[str, Solid]) -> list[Strut]:
    """Return all bracing and all string lines of the site, but what was on a truss that fell."""
    found: list[Strut] = []
    for brace in site.bracing:
        tags = [tag for tag in brace.tags if tag in solids]
        if brace.kind == "solid":
            found += [_solid(site, tag, solids[tag]) for tag in tags]
        elif brace.kind == "prop":
            found += [_prop(site, tag, solids[tag]) for tag in tags]
        elif brace.kind == "wall tie":
            found += [_wall_tie(site, tag, solids[tag]) for tag in tags]
        elif brace.kind == "batten":
            found += _battens(site, brace, _in_line(tags, solids), solids)
        else:
            found += _strap(_in_line(tags, solids), solids)
    for one, other in site.strings:
        if one in solids and other in solids:
            found.append(Strut("string", solids[one].apex, solids[other].apex, (one, other)))
    for piece in site.permanent:
        found += _permanent(site, piece, solids)
    fell = down(site)
    return [strut for strut in found if fell.isdisjoint(strut.of)]


def _permanent(site: Site, piece: Restrained, solids: Mapping[str, Solid]) -> Iterator[Strut]:
    """Return a piece of permanent bracing from truss to truss, at the height at which its kind lies."""
    places = []
    for tag, run in piece.crosses:
        if tag in solids:
            own = solids[tag].member.span - run if site.stood[tag].flipped else run
            places.append((tag, _high(piece.kind, solids[tag], own)))
    sort: Run = "roof brace" if piece.kind == "roof brace" else "tie"
    for (one, a), (other, b) in pairwise(places):
        yield Strut(sort, a, b, (one, other))


def _high(kind: RestraintKind, solid: Solid, run: float) -> Point3:
    """Return where a piece of permanent bracing lies on a truss: on its top chord, on its bottom chord, or between."""
    if kind in {"roof brace", "top-chord tie"}:
        return solid.top(run)
    low = solid.framed.base + solid.framed.frame.bottom_depth
    return solid.at(run, low if kind == "bottom-chord tie" else (low + solid.framed.roof(run)) / 2)


def _solid(site: Site, tag: str, solid: Solid) -> Strut:
    """Return what holds a truss to something solid: from high on it to a braced wall beside it, or to the floor."""
    plan, run = site.layout.house.plan, solid.member.span * SOLID_AT
    top = solid.at(run, solid.framed.roof(run) * SOLID_UP)
    (ux, uy), beside = solid.unit, []
    for wall in plan.walls:
        (ax, ay), (nx, ny) = wall.along, wall.inward
        off = (top[0] - wall.a[0]) * nx + (top[1] - wall.a[1]) * ny - plan.plate_width / 2
        along = (top[0] - wall.a[0]) * ax + (top[1] - wall.a[1]) * ay
        level = abs(ax * ux + ay * uy) > ALONG and wall.name not in {beam.wall for beam in plan.beams}
        if level and 0 < along < wall.length and SOLID_OUT / 2 < off <= TO_WALL:
            beside.append((off, wall.name, (top[0] - nx * off, top[1] - ny * off, 0.0)))
    if beside:
        _off, name, foot = min(beside)
        return Strut("solid", top, foot, (tag,), _("to wall {wall}").format(wall=name))
    # Its foot is on whichever side of the truss the floor is: beside an end wall the other is out of the house.
    feet = [solid.at(run, 0.0, out)[:2] for out in (SOLID_OUT, -SOLID_OUT)]
    x, y = next((foot for foot in feet if inside(plan.outline, *foot)), feet[0])
    return Strut("solid", top, (x, y, -plan.height), (tag,), _("to the floor"))


def _prop(site: Site, tag: str, solid: Solid) -> Strut:
    """Return a prop: from under the bottom chord straight down to the floor."""
    run = solid.member.span * SOLID_AT
    x, y, _z = solid.at(run, 0.0, PROP_OUT)
    return Strut("prop", solid.at(run, 0.0), (x, y, -site.layout.house.plan.height), (tag,), _("to the floor"))


def _wall_tie(site: Site, tag: str, solid: Solid) -> Strut:
    """Return a tie from the top of a truss to the higher wall that it stands at, and a little into that."""
    wall = site.layout.house.plan.by_name[site.layout.at_wall[site.stood[tag].place or tag]]
    nx, ny = wall.inward
    flipped = site.stood[tag].flipped
    ends = ((solid.member.span, solid.member.span - TIE_LONG), (0.0, TIE_LONG))[flipped]
    along = abs(nx * solid.unit[0] + ny * solid.unit[1]) > 0.5
    x, y, z = solid.top(ends[1]) if along else solid.apex
    to_wall = (x - wall.a[0]) * nx + (y - wall.a[1]) * ny + TIE_IN
    return Strut("wall tie", (x, y, z), (x - nx * to_wall, y - ny * to_wall, z + TIE_IN), (tag,))


def _in_line(tags: list[str], solids: Mapping[str, Solid]) -> list[str]:
    """Return trusses in the order in which they stand side by side."""
    if len(tags) < 2:
        return tags
    ux, uy = solids[tags[0]].unit

    def place(tag: str) -> float:
        x, y, _z = solids[tag].at(solids[tag].member.span / 2, 0.0)
        return x * -uy + y * ux

    return sorted(tags, key=place)


def _battens(site: Site, brace: Bracing, tags: list[str], solids: Mapping[str, Solid]) -> Iterator[Strut]:
    """Return battens from truss to truss in rows, measured from the ridge of the truss that reaches furthest."""
    if not tags:
        return
    widest = max((solids[tag] for tag in tags), key=lambda solid: solid.member.span)
    runs = row_runs(widest.member.span, sum(widest.framed.peaks) / 2, spacing_of(site, brace))
    for run in runs:
        x, y, _z = widest.top(run)
        places = [(tag, solids[tag].top(solids[tag].nearest_run((x, y)))) for tag in tags]
        for (one, a), (other, b) in pairwise(places):
            yield Strut("batten", a, b, (one, other))


def _strap(tags: list[str], solids: Mapping[str, Solid]) -> Iterator[Strut]:
    """Return a strap that rises from the heel towards the ridge, from truss to truss."""
    places: list[Point3] = []
    for number, tag in enumerate(tags):
        solid, first = solids[tag], solids[tags[0]]
        ridge = max(min(solid.framed.peaks[0], solid.member.span) - RIDGE_GAP, solid.member.span * 0.1)
        own = ridge * (0.15 + 0.85 * number / max(1, len(tags) - 1))
        flipped = solid.unit[0] * first.unit[0] + solid.unit[1] * first.unit[1] < -0.5
        places.append(solid.top(solid.member.span - own if flipped else own))
    for (a, b), (one, other) in zip(pairwise(places), pairwise(tags), strict=True):
        yield Strut("steel brace", a, b, (one, other))
