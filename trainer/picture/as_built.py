"""The site as it is, as a display list: plates and roof lines, marks, what stands, braces, brackets, fixings.

Drawn from the judged state alone; the reference layout lends only the sizes of the trusses.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from trainer.layout import Layout, Member
from trainer.picture.falling import down, in_words
from trainer.picture.higher_walls import LEDGER_WIDE, ledgers
from trainer.picture.house import eave, grown, plates, roof_lines
from trainer.picture.model import Box, Item, Line, Polygon, Text, flat
from trainer.picture.tags import naming, number_of
from trainer.picture.trusses import FILLS, PAINT_ORDER, strip
from trainer.picture.verandah import verandah
from trainer.plan import Point
from trainer.site.fastening import BRACKETS
from trainer.site.model import Site, Stood
from trainer.site.query import half_nailed

TAG_AT = {"girder": 0.5, "hip": 0.4, "jack": 0.5, "creeper": 0.5, "saddle": 0.5}
"""Where along a truss its tag is written; 0.32 for the rest, so that the tags of a row line up."""
NAME_AT = (0.5, 0.35, 0.65, 0.2, 0.8)
"""Where along a wall its letter may stand, as parts of its length: the first that is free."""
TAG_PX = 13.0
"""Size of tags at 100 %, px."""
TAG_ASIDE = 400.0
"""How far the tags of neighbours are set off from each other, mm."""
TAG_SHIFTS = (0.0, 0.12, -0.12, 0.24, 0.36, -0.2, 0.48, 0.06, 0.18, 0.3, 0.42)
"""Where else along a truss its tag may stand, as parts of its length."""


def ground(layout: Layout) -> list[Item]:
    """Return what was there before any truss: eave line, plates, internal walls, roof lines."""
    plan = layout.house.plan
    under = (plates(plan, ledgers(layout)), *verandah(layout))
    groups = (eave(layout.house.roof_plan, layout.house.roof.overhang), *under, roof_lines(layout.roof))
    return [item for group in groups for item in flat(group)]


def whole_box(layout: Layout) -> Box:
    """Return the box that shows the house with room for tapes and wall names."""
    corners = grown(layout.house.plan, layout.house.roof.overhang + 350, past_walls=True)
    xs, ys = zip(*corners, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def wall_names(layout: Layout) -> list[Item]:
    """Return the walls' letters outside the eaves, each beside its wall or not at all: elsewhere it names another."""
    items: list[Item] = []
    for wall in layout.house.plan.walls:
        (nx, ny), out = wall.inward, layout.house.roof.overhang + layout.house.set_back.get(wall.name, 0.0) + 190
        along = [wall.at(wall.length * part) for part in NAME_AT]
        at, *places = [(x - nx * far, y - ny * far) for far in (out, out + 600) for x, y in along]
        off = (-nx * 0.7, -ny * 0.7)
        items.append(Text(at, wall.name, "faint", 16.0, "px", bold=True, off=off, places=tuple(places), spare=True))
    return items


def marks(site: Site) -> list[Line]:
    """Return the chalk lines across plates, inwards, and those across girders."""
    items: list[Line] = []
    plan, fell = site.layout.house.plan, down(site)
    width = plan.plate_width
    for name, places in site.marks.items():
        if name in plan.by_name:
            wall = plan.by_name[name]
            nx, ny = wall.inward
            for at in places:
                x, y = wall.at(at)
                a, b = (x - nx * 70, y - ny * 70), (x + nx * (width + 70), y + ny * (width + 70))
                items.append(Line((a, b), "mark", 1.8))
        elif name in site.stood and name not in fell:
            stood = site.stood[name]
            half = site.layout.by_tag[name].width / 2 + 45
            for at in places:
                items.append(Line(lying(stood).across(at, half), "mark", 1.8))
    return items


@dataclass(frozen=True, slots=True)
class LyingPiece:
    """A straight piece in plan, from its ``from`` end to its ``to`` end."""

    start: Point
    finish: Point

    @property
    def length(self) -> float:
        """Length in plan, mm."""
        return math.dist(self.start, self.finish)

    @property
    def unit(self) -> tuple[float, float]:
        """The unit step from ``from`` to ``to``."""
        (ax, ay), (bx, by) = self.start, self.finish
        length = self.length or 1.0
        return ((bx - ax) / length, (by - ay) / length)

    def at(self, run: float, aside: float = 0.0) -> Point:
        """The place ``run`` mm from the ``from`` end, ``aside`` mm to the left."""
        (x, y), (ux, uy) = self.start, self.unit
        return (x + ux * run - uy * aside, y + uy * run + ux * aside)

    @property
    def middle(self) -> Point:
        """The place half way along it."""
        return self.at(self.length / 2)

    def across(self, run: float, half: float) -> tuple[Point, Point]:
        """A line across it."""
        return (self.at(run, -half), self.at(run, half))


def lying(stood: Stood) -> LyingPiece:
    """Return how a truss that stands lies in plan."""
    return LyingPiece(stood.start, stood.finish)


def body(member: Member, lies: LyingPiece, trim: tuple[float, float] = (0.0, 0.0)) -> list[Item]:
    """Return a truss from above where it lies, tails and extension with it; ``trim`` is cut off its ends."""
    span = lies.length
    first, last = member.top[0][0], member.top[-1][0]
    begin = trim[0] if first >= 0 else first
    finish = span - trim[1] if last >= span - 1 and not member.ends[1].tail else last
    items: list[Item] = []
    if member.kind in {"hip", "jack"} and last > span + 1:
        items.append(Polygon(strip(lies.at(span), lies.at(last), member.width), "paper", "timber_edge", 0.8))
        finish = span - trim[1]
    items.append(
        Polygon(strip(lies.at(begin), lies.at(finish), member.width), FILLS.get(member.kind, "timber"), "timber_edge")
    )
    for ply in range(1, member.plies):
        aside = (ply - member.plies / 2) * member.thickness
        items.append(Line((lies.at(begin, aside), lies.at(finish, aside)), "timber_edge", 0.7))
    return items


def standing(site: Site, tag: str) -> list[Item]:
    """Return one standing truss."""
    stood, member = site.stood[tag], site.layout.by_tag[tag]
    return body(member, lying(stood), _trim(site, member, stood))


def _trim(site: Site, member: Member, stood: Stood) -> tuple[float, float]:
    """Return what is cut off the ends where the truss comes against the face of one that carries it."""
    if member.kind == "saddle":
        return (0.0, 0.0)
    cuts = []
    ux, uy = lying(stood).unit
    for place, end in zip((stood.start, stood.finish), member.ends, strict=True):
        cut = 0.0
        for carrier in member.carried_by if not end.wall else ():
            other = site.stood.get(carrier)
            if other is None:
                continue
            vx, vy = lying(other).unit
            turn = abs(ux * vy - uy * vx)
            aside = abs((place[0] - other.start[0]) * -vy + (place[1] - other.start[1]) * vx)
            if turn > 0.1 and aside < 30:
                cut = site.layout.by_tag[carrier].width / 2 / turn
        cuts.append(cut)
    return (cuts[0], cuts[1])


def painting_order(site: Site) -> list[str]:
    """Return the standing trusses, the lowest first."""
    by_tag = site.layout.by_tag
    return sorted(site.stood, key=lambda tag: PAINT_ORDER.index(by_tag[tag].kind))


def tag_of(site: Site, tag: str) -> Text:
    """Return a standing truss's tag, written on it where there is room for it; one that fell or was struck says so."""
    stood, member = site.stood[tag], site.layout.by_tag[tag]
    lies = lying(stood)
    first = TAG_AT.get(member.kind, 0.32)
    # Neighbours are set off from each other, so that their tags don't meet.
    first += (number_of(tag) % 2) * min(0.1, TAG_ASIDE / (lies.length or 1.0))
    at, *places = [lies.at(lies.length * (first + by)) for by in TAG_SHIFTS if 0.1 < first + by < 0.92]
    # The truss that began a fall has its words in any case.
    spare = site.fall is None or tag != next(iter(site.fall.lying))
    words = in_words(site, tag)
    names = naming(site.layout, tag, lies.start, lies.finish)
    if words != tag:
        names = replace(names, row=words)  # it shares no text
    return Text(
        at, words, "ink", TAG_PX, "px", bold=True, ground="paper", places=tuple(places), spare=spare, names=names
    )


def fittings(site: Site) -> list[Item]:
    """Return brackets, and at each end whether it is fastened: a filled square, half of one where half the nails are
    in, or an open ring.
    """
    items: list[Item] = []
    fell = down(site)
    for tag, parts in site.fitted.items():
        brackets = [part.at for part in parts if part.part in BRACKETS and part.at is not None]
        if tag in site.layout.ledgers:
            items += [_on_ledger(site, tag, at) for at in brackets]
        elif tag in site.stood and tag not in fell:
            items += [_bracket(site, tag, at) for at in brackets]
    for tag, stood in site.stood.items():
        if tag in fell:
            continue
        half = dict(half_nailed(site, tag))
        for number in (1, 2):
            at = end_sign(stood, number)
            if number in half:
                items.append(Polygon(square(at, 30), "paper", "fastener", 1.4))
                items.append(Polygon((*square(at, 30)[1:], at), "fastener", "fastener", 1.0))
            elif site.fixed.get((tag, number)):
                items.append(Polygon(square(at, 30), "fastener", "paper", 1.0))
            else:
                items.append(Polygon(_ring(at, 30), "paper", "fastener", 1.4))
    for (tag, where), _what in site.fixed.items():
        if isinstance(where, tuple) and tag in site.stood and tag not in fell:
            items.append(Polygon(square(where, 26), "fastener", "paper", 1.0))
    return items


def end_sign(stood: Stood, number: int) -> Point:
    """Return where the sign for an end is drawn: a little in from it, so that trusses that meet show one each."""
    lies = lying(stood)
    return lies.at(60.0 if number == 1 else lies.length - 60.0)


def _bracket(site: Site, tag: str, at: float) -> Line:
    """Return a bracket as a U across its carrier."""
    reach = site.layout.by_tag[tag].width / 2 + 60
    lies = lying(site.stood[tag])
    return Line(
        (lies.at(at - 45, reach), lies.at(at - 45, -reach), lies.at(at + 45, -reach), lies.at(at + 45, reach)),
        "fastener",
        2.2,
    )


def _on_ledger(site: Site, ledger: str, at: float) -> Line:
    """Return a bracket as a U on the face of a higher wall."""
    wall = site.layout.house.plan.by_name[site.layout.ledgers[ledger]]
    nx, ny = wall.inward
    a, b = (wall.at(at + side) for side in (-45, 45))
    reach = LEDGER_WIDE + 60
    tips = [(x + nx * reach, y + ny * reach) for x, y in (a, b)]
    return Line((tips[0], a, b, tips[1]), "fastener", 2.2)


def square(at: Point, half: float) -> tuple[Point, ...]:
    """Return the corners of a square round a place."""
    x, y = at
    return ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))


def _ring(at: Point, radius: float) -> tuple[Point, ...]:
    return tuple(
        (at[0] + radius * math.cos(math.tau * i / 12), at[1] + radius * math.sin(math.tau * i / 12)) for i in range(12)
    )
