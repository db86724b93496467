"""A house on the drawing table: the sheet with roof, trusses and faults at their places, and the views beside it."""

from __future__ import annotations

import math
from collections.abc import Iterable

from trainer.layout import Layout, Member
from trainer.picture.angled import Scene3, angled
from trainer.picture.as_built import square
from trainer.picture.higher_walls import ledgers
from trainer.picture.house import eave, plates, roof_lines
from trainer.picture.model import Box, Item, Line, Polygon, Text, flat
from trainer.picture.section import along_truss, section, section_box
from trainer.picture.solids import Solid, Stander
from trainer.picture.space import Turn
from trainer.picture.tags import tags
from trainer.picture.trusses import FILLS
from trainer.picture.verandah import beams_on_plan, posts_on_plan
from trainer.plan import Point
from trainer.table import Drawing, DrawnFault, Kind, Study
from trainer.table.as_level import corner_of
from trainer.terms import FAULTS
from trainer.words import _

METRE = 1000
LETTERS_PX = 15.0
OUT = 350.0
"""How far outside the eaves a wall's letter stands, mm."""
KIND_NAMES: dict[Kind, str] = {
    "eave": _("eave"), "gable": _("gable"), "dutch gable": _("dutch gable"), "beam": _("beam on posts"),
    "against": _("against a higher wall"),
}  # fmt: skip
OTHER_DANGERS = {"gust at noon": _("danger: gust at noon"), "unbraced wall": _("danger: unbraced wall")}
SHEET: Box = (-2000.0, -2000.0, 20_000.0, 12_000.0)
"""What is seen of an empty sheet, mm."""


def sheet_box(drawing: Drawing) -> Box:
    """Return the part of the sheet to be looked at: all of the house, with room to go on around it."""
    if not drawing.corners:
        return SHEET
    placed = [corner_of(danger.get("at")) for danger in drawing.at("site", "dangers") or ()]
    xs, ys = zip(*drawing.corners, *filter(None, placed), strict=True)
    left, low, right, high = min(xs), min(ys), max(xs), max(ys)
    overhang = drawing.at("roof", "overhang")
    eave = float(overhang) if isinstance(overhang, int | float) else 0.0
    edge = max(1800.0, eave + 2 * OUT)  # the walls' letters stand inside it
    if not drawing.closed:
        lows, highs = (min(SHEET[0], left - edge), min(SHEET[1], low - edge)), (right + edge, high + edge)
        return *lows, max(SHEET[2], highs[0]), max(SHEET[3], highs[1])
    return left - edge, low - edge, right + edge, high + edge


def sheet(study: Study, box: Box, *, tagged: bool = False) -> list[Item]:
    """Return all that keeps still on the sheet, in painting order; the trusses with their tags where ``tagged``."""
    drawing, layout = study.drawing, study.shown
    items: list[Item] = list(_ruling(box))
    if layout is not None and drawing.closed:
        items += _house(layout, bare=study.layout is None)
    elif layout is not None:
        items += flat(roof_lines(layout.roof))
    items += _outline(drawing)
    items += [Line(wall, "plate_edge", 4.0, "px", (2.0, 6.0)) for wall in drawing.inside]
    items += _dangers(drawing)
    items += _walls(study)
    if tagged and study.layout is not None:
        items += flat(tags(study.layout))
    items += _faults(study.faults) if drawing.closed else ()
    return items


def _ruling(box: Box) -> Iterable[Item]:
    """Yield a line each metre, every fifth one stronger."""
    left, low, right, high = (round(edge / METRE) for edge in box)
    for x in range(left - 5, right + 6):
        yield Line(((x * 1000.0, low * 1000.0 - 5000), (x * 1000.0, high * 1000.0 + 5000)), "grid", _stroke(x))
    for y in range(low - 5, high + 6):
        yield Line(((left * 1000.0 - 5000, y * 1000.0), (right * 1000.0 + 5000, y * 1000.0)), "grid", _stroke(y))


def _stroke(metre: int) -> float:
    return 2.0 if metre % 5 == 0 else 1.0


def _house(layout: Layout, *, bare: bool) -> list[Item]:
    house = layout.house
    groups = [
        eave(house.roof_plan, house.roof.overhang),
        plates(house.plan, {} if bare else ledgers(layout)),
        *beams_on_plan(house.plan),
    ]
    if house.plan.beams and not bare:
        groups.append(posts_on_plan(layout))
    items = [item for group in groups for item in flat(group)]
    items += [_truss(member) for member in layout.members]
    items += [Line((part.start, part.finish), "faint", 0.8) for part in layout.parts if part.start != part.finish]
    return [*items, *flat(roof_lines(layout.roof))]


def _truss(member: Member) -> Item:
    """Return a truss as one stroke, tails and extension with it."""
    (x, y), (dx, dy) = member.start, member.direction
    low, high = member.top[0][0], member.top[-1][0]
    wide = 2.6 if member.kind in FILLS and member.kind != "saddle" else 1.2
    role = "ghost" if member.kind == "saddle" else "timber_edge"
    return Line(((x + dx * low, y + dy * low), (x + dx * high, y + dy * high)), role, wide)


def _outline(drawing: Drawing) -> list[Item]:
    """Return the outline as it is drawn, its corners as squares; an open one with where it began."""
    if not drawing.corners:
        return []
    ring = (*drawing.corners, drawing.corners[0]) if drawing.closed else drawing.corners
    items: list[Item] = [Line(ring, "ink", 2.0)] if len(ring) > 1 else []
    items += [Polygon(square(at, 70.0), "paper", "ink", 1.4) for at in drawing.corners]
    if not drawing.closed:
        items.append(Polygon(square(drawing.corners[0], 130.0), None, "mark", 2.0))
    return items


def _walls(study: Study) -> list[Item]:
    """Return each wall's letter, length and kind outside it."""
    drawing = study.drawing
    out = OUT + (study.house.roof.overhang if study.house else 0)
    items: list[Item] = []
    for i, name in enumerate(drawing.names):
        (ax, ay), (bx, by) = drawing.ends(i)
        length = drawing.length(i)
        if not length:
            continue
        dx, dy = (bx - ax) / length, (by - ay) / length
        nx, ny = -dy, dx  # into the house
        kind = drawing.walls[i].kind
        at = ((ax + bx) / 2 - nx * out, (ay + by) / 2 - ny * out)
        along = ((at[0] + dx * share * length, at[1] + dy * share * length) for share in (-0.25, 0.25))
        turn = 0.0 if dx else 90.0
        items.append(
            Text(
                at,
                f"{name} {length}",
                "ink",
                LETTERS_PX,
                "px",
                turn=turn,
                bold=True,
                ground="paper",
                places=tuple(along),
            )
        )
        if kind != "eave":
            off = (-nx * 1.3, -ny * 1.3)
            items.append(
                Text(at, KIND_NAMES[kind], "faint", LETTERS_PX, "px", turn=turn, ground="paper", off=off, spare=True)
            )
    return items


def _dangers(drawing: Drawing) -> list[Item]:
    """Return the dangers of the day at their places, each with its name."""
    items: list[Item] = []
    for danger in drawing.at("site", "dangers") or ():
        place = corner_of(danger.get("at"))
        wall = danger.get("wall")
        if place is None and wall in drawing.names:
            (ax, ay), (bx, by) = drawing.ends(drawing.index(wall))
            place = ((ax + bx) // 2, (ay + by) // 2)
        if place is not None:
            x, y = place
            items.append(Polygon(((x - 260, y - 200), (x + 260, y - 200), (x, y + 280)), "paper", "rework", 2.4))
            what = fault_name(str(danger.get("what")))
            items.append(Text((x, y), what, "rework", LETTERS_PX, "px", ground="paper", off=(0.0, -1.4)))
    return items


def fault_name(what: str) -> str:
    """Return a fault of the site, or a danger, as a learner reads it."""
    return {**FAULTS, **OTHER_DANGERS}.get(what, what)


def _faults(faults: tuple[DrawnFault, ...]) -> list[Item]:
    """Return a ring with its number at the place of each fault."""
    items: list[Item] = []
    for number, fault in enumerate(faults, 1):
        if fault.at is not None:
            items.append(Polygon(square(fault.at, 260.0), None, "stop", 2.6))
            x, y = fault.at
            places = tuple((x + dx, y + dy) for dx, dy in ((-500, 500), (500, -500), (-500, -500)))
            said = Text((x + 500, y + 500), str(number), "stop", 17.0, "px", bold=True, ground="paper", places=places)
            items.append(said)
    return items


# beside the sheet


def at_an_angle(layout: Layout, turn: Turn, scale: float) -> list[Item]:
    """Return the roof with its planes, from above at an angle."""
    return angled(Scene3(layout, {}, ()), turn, scale, planes=True)


def middle_of(layout: Layout) -> Point:
    """Return the middle of a house, about which it is turned."""
    left, low, right, high = layout.house.plan.bounds
    return ((left + right) / 2, (low + high) / 2)


def truss_of(layout: Layout, wall: str) -> Member:
    """Return the truss that shows best what a wall is: of those that bear on it, or else run along it, the middle one.

    Over a dutch gable that is its girder.
    """
    of = layout.house.plan.by_name[wall]
    middle = ((of.a[0] + of.b[0]) / 2, (of.a[1] + of.b[1]) / 2)
    dutch = any(each.wall == wall for each in layout.house.plan.dutch_gables)

    def off(member: Member) -> tuple[bool, bool, float]:
        on = any(end.bears_on == f"plate {wall}" for end in member.ends)
        along = abs(member.direction[0] * of.inward[0] + member.direction[1] * of.inward[1]) < 0.5
        fits = member.is_dutch and along if dutch else along if wall in layout.house.plan.gables else on
        near = min(math.dist(place, middle) for place in (member.start, member.middle, member.finish))
        return not fits, member.kind == "saddle", near

    return min(layout.members, key=off)


def cut_along(layout: Layout, tag: str) -> tuple[list[Item], Box]:
    """Return the section along a truss, and the box that it fills."""
    member = layout.by_tag[tag]
    solid = Solid(tag, Stander(layout).framed(member), member.start, member.finish)
    line = along_truss(solid)
    return section(Scene3(layout, {tag: solid}, ()), line, {tag}), section_box(layout, line)
