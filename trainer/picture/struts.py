"""Where bracing and string lines run in space, from truss to truss as they stand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from trainer.layout.bracing import RestraintKind
from trainer.picture.bodies import Body
from trainer.roof.model import Point3
from trainer.site.batten_rows import row_runs, spacing_of
from trainer.site.model import Bracing, Restrained, Site

PROP_AT, PROP_OUT = 0.62, 600.0
"""Where along a truss its solid brace takes hold, and how far out that stands, mm; a look only."""
RIDGE_GAP = 300.0
"""How far below the ridge a strap ends as drawn, mm."""
Run = Literal["batten", "steel brace", "prop", "string", "roof brace", "tie"]


@dataclass(frozen=True, slots=True)
class Strut:
    """One straight length from place to place in space; ``of`` are the trusses that it touches."""

    run: Run
    a: Point3
    b: Point3
    of: tuple[str, ...]


def struts(site: Site, bodies: Mapping[str, Body]) -> list[Strut]:
    """Return all bracing and all string lines of the site."""
    found: list[Strut] = []
    for brace in site.bracing:
        tags = [tag for tag in brace.tags if tag in bodies]
        if brace.kind in {"solid", "prop"}:
            found += [_prop(tag, bodies[tag]) for tag in tags]
        elif brace.kind == "batten":
            found += _battens(site, brace, _in_line(tags, bodies), bodies)
        else:
            found += _strap(_in_line(tags, bodies), bodies)
    for one, other in site.strings:
        if one in bodies and other in bodies:
            found.append(Strut("string", bodies[one].apex, bodies[other].apex, (one, other)))
    for piece in site.permanent:
        found += _permanent(site, piece, bodies)
    return found


def _permanent(site: Site, piece: Restrained, bodies: Mapping[str, Body]) -> Iterator[Strut]:
    """Return a piece of permanent bracing from truss to truss, at the height at which its kind lies."""
    places = []
    for tag, run in piece.crosses:
        if tag in bodies:
            own = bodies[tag].member.span - run if site.stood[tag].flipped else run
            places.append((tag, _high(piece.kind, bodies[tag], own)))
    sort: Run = "roof brace" if piece.kind == "roof brace" else "tie"
    for (one, a), (other, b) in pairwise(places):
        yield Strut(sort, a, b, (one, other))


def _high(kind: RestraintKind, body: Body, run: float) -> Point3:
    """Return where a piece of permanent bracing lies on a truss: on its top chord, on its bottom chord, or between."""
    if kind in {"roof brace", "top-chord tie"}:
        return body.top(run)
    low = body.framed.base + body.framed.frame.bottom_depth
    return body.at(run, low if kind == "bottom-chord tie" else (low + body.framed.roof(run)) / 2)


def _prop(tag: str, body: Body) -> Strut:
    """Return what holds a truss to something solid: from its top chord down and out to its left."""
    run = body.member.span * PROP_AT
    high = body.framed.roof(run) * 0.8
    x, y, _z = body.at(run, 0.0, PROP_OUT)
    return Strut("prop", body.at(run, high), (x, y, 0.0), (tag,))


def _in_line(tags: list[str], bodies: Mapping[str, Body]) -> list[str]:
    """Return trusses in the order in which they stand side by side."""
    if len(tags) < 2:
        return tags
    ux, uy = bodies[tags[0]].unit

    def place(tag: str) -> float:
        x, y, _z = bodies[tag].at(bodies[tag].member.span / 2, 0.0)
        return x * -uy + y * ux

    return sorted(tags, key=place)


def _battens(site: Site, brace: Bracing, tags: list[str], bodies: Mapping[str, Body]) -> Iterator[Strut]:
    """Return battens from truss to truss in rows, told from the ridge of the truss that reaches furthest."""
    if not tags:
        return
    widest = max((bodies[tag] for tag in tags), key=lambda body: body.member.span)
    runs = row_runs(widest.member.span, sum(widest.framed.peaks) / 2, spacing_of(site, brace))
    for run in runs:
        x, y, _z = widest.top(run)
        places = [(tag, bodies[tag].top(bodies[tag].nearest_run((x, y)))) for tag in tags]
        for (one, a), (other, b) in pairwise(places):
            yield Strut("batten", a, b, (one, other))


def _strap(tags: list[str], bodies: Mapping[str, Body]) -> Iterator[Strut]:
    """Return a strap that rises from the heel towards the ridge, from truss to truss."""
    places: list[Point3] = []
    for number, tag in enumerate(tags):
        body, first = bodies[tag], bodies[tags[0]]
        ridge = max(min(body.framed.peaks[0], body.member.span) - RIDGE_GAP, body.member.span * 0.1)
        own = ridge * (0.15 + 0.85 * number / max(1, len(tags) - 1))
        flipped = body.unit[0] * first.unit[0] + body.unit[1] * first.unit[1] < -0.5
        places.append(body.top(body.member.span - own if flipped else own))
    for (a, b), (one, other) in zip(pairwise(places), pairwise(tags), strict=True):
        yield Strut("steel brace", a, b, (one, other))
