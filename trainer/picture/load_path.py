"""Where the load of a truss goes: what each end bears, on what, whether it is fixed there, and on down to the walls."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from trainer.layout.posts import NEAR, SAME, Post, beam_under
from trainer.picture.cut import SectionLine
from trainer.picture.model import Anchor, Item, Line, Polygon, Text
from trainer.picture.solids import Solid
from trainer.plan import Point
from trainer.site import Flaw, Site, end_fixed, known, post_uplift
from trainer.site.load_path import crossed
from trainer.words import _

ARROW = 300.0
"""Length of the arrow at a bearing, mm."""
SMALL = 0.6
"""How large the arrows are where a truss passes over others."""
HEAD = 90.0
"""Half the width of an arrow's head, mm."""
INK = "habit"


@dataclass(frozen=True, slots=True)
class Bearing:
    """One end of a truss in its place: what it ``bears_on``, how much roof comes down there, m² in plan, and
    whether it is ``fixed`` as the site stands. Where a truss passes over another, ``end`` is 0 and it bears ``at`` a
    place of the plan.
    """

    tag: str
    end: int
    bears_on: str
    m2: float
    fixed: bool
    at: Point | None = None
    on_beam: bool = False


def path(site: Site, place: str) -> tuple[Bearing, ...]:
    """Return the bearings through which the load of a place goes, its own first, down to the walls."""
    found: list[Bearing] = []
    waiting, seen = [place], {place}
    while waiting:
        tag = waiting.pop(0)
        member = site.layout.by_tag[tag]
        if member.kind != "saddle":
            for number, (end, m2) in enumerate(zip(member.ends, site.job.loads[tag].ends_m2, strict=True), 1):
                over = beam_under(site.layout.house.plan, end) is not None
                found.append(Bearing(tag, number, end.bears_on, m2, end_fixed(site, tag, number), on_beam=over))
        found += _passing(site, tag)
        for carrier in dict.fromkeys((*member.carried_by, *site.job.loads[tag].crossings_m2)):
            if carrier not in seen:
                seen.add(carrier)
                waiting.append(carrier)
    return tuple(found)


def _passing(site: Site, tag: str) -> Iterator[Bearing]:
    """Yield what a truss bears on where it passes over others: a saddle, or an extension."""
    places = {c.under: c for c in site.layout.crossings if c.over == tag}
    # A saddle is fastened at its two ends, an extension at each crossing.
    held = all(end_fixed(site, tag, number) for number in (1, 2))
    for under, m2 in site.job.loads[tag].crossings_m2.items():
        crossing = places.get(under)
        fixed = held if crossing is None or crossing.what == "saddle" else crossed(site, crossing)
        yield Bearing(tag, 0, under, m2, fixed, None if crossing is None else crossing.at)


def in_words(bearings: tuple[Bearing, ...]) -> Iterator[str]:
    """Yield a line for each bearing: the truss, what it bears on, how much roof, and whether a fixing is missing."""
    for one in bearings:
        wall = one.bears_on.removeprefix("plate ")
        on = one.bears_on if wall == one.bears_on else _("wall {wall}").format(wall=wall)
        on = _("the beam on {wall}").format(wall=on) if one.on_beam else on
        line = _("{tag} → {on}: {m2:.1f} m² of roof") if one.fixed else _("{tag} → {on}: {m2:.1f} m², not fixed yet")
        yield line.format(tag=one.tag, on=on, m2=one.m2)


def down_from_beams(site: Site, bearings: tuple[Bearing, ...]) -> Iterator[str]:
    """Yield where the load goes on from each verandah beam: to the posts nearest on either side, and the ground."""
    layout, uplift = site.layout, post_uplift(site.job)
    walls, loose = layout.house.plan.by_name, [flaw for flaw in known(site) if flaw in site.flaws]
    for one in (one for one in bearings if one.on_beam):
        wall = walls[one.bears_on.removeprefix("plate ")]
        run = wall.run(layout.by_tag[one.tag].ends[one.end - 1].at)
        on_it = sorted((post for post in uplift if post.wall == wall.name), key=lambda post: abs(post.run - run))
        near = on_it[:1] if on_it and abs(on_it[0].run - run) <= SAME else on_it[:2]
        for post in sorted(near, key=lambda post: post.run):
            to = _("the end of the wall") if post.wall_end else _("its post at {run:g}").format(run=post.run)
            line = _("the beam on wall {wall} → {to} → the ground: wind lifts {kn:.1f} kN there")
            if any(_lets_go(flaw, post) for flaw in loose):
                line = _("the beam on wall {wall} → {to} → the ground: {kn:.1f} kN, not tied down there yet")
            yield line.format(wall=wall.name, to=to, kn=uplift[post])


def _lets_go(flaw: Flaw, post: Post) -> bool:
    """Whether a fault of the site, seen and not put right yet, breaks the way from the beam through a post."""
    if flaw.what == "post not tied down" and flaw.at is not None:
        return math.dist(flaw.at, post.at) <= NEAR
    return flaw.what == "beam not bolted down" and flaw.wall == post.wall


def arrows(bearings: tuple[Bearing, ...], solid: Solid, cut: SectionLine, *, flipped: bool) -> list[Item]:
    """Return an arrow down wherever the truss that a section shows bears, with the roof that comes down there.

    It is open while it is not fixed there.
    """
    items: list[Item] = []
    for one in bearings:
        if one.tag != bearings[0].tag:
            continue
        if not one.end:
            if one.at is not None:
                items += _arrow(one, cut.paper((*one.at, solid.framed.base)), SMALL, "start")
            continue
        at_start = (one.end == 1) != flipped
        x, z = cut.paper((*(solid.start if at_start else solid.finish), solid.framed.base))
        inward = 45.0 if cut.place(solid.start if not at_start else solid.finish)[0] > x else -45.0
        items += _arrow(one, (x + inward, z), 1.0, "start" if inward > 0 else "end")
    return items


def _arrow(one: Bearing, at: Point, size: float, anchor: Anchor) -> Iterator[Item]:
    """Yield one arrow down from a little under a place, and how much roof it stands for beside it."""
    (x, z), head = at, HEAD * size
    tail = z - 90.0
    tip = tail - ARROW * size
    yield Line(((x, tail), (x, tip + head)), INK, 3.0)
    fill = INK if one.fixed else "paper"
    yield Polygon(((x, tip), (x - head, tip + 2 * head), (x + head, tip + 2 * head)), fill, INK, 2.0)
    beside = (x + (135.0 * size if anchor == "start" else -135.0 * size), tail - ARROW * size / 2)
    yield Text(beside, f"{one.m2:.1f} m²", INK, 14.0, "px", anchor, bold=True, spare=True)
