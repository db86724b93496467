"""What comes of a drawing: its level, roof and layout as far as there are any, and every fault at its place.

A roof is shown as soon as the outline is one, whatever else is wrong: what has a fault (a gable, say) is left out of
it. The layout is shown only where the whole level is sound.
"""

from __future__ import annotations

import re
from collections.abc import Generator, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

from trainer.layout import House, Layout, LayoutRefused, Refusal, all_steps, lay_out_in_steps
from trainer.level import Level, level_of
from trainer.level.parse import FASCIA, NO_STYLES
from trainer.level.style import Styles
from trainer.plan import DutchGable, PlatePlan, Point, beams_of, dutch_faults, plan_faults, wall_name
from trainer.plan.beams import beam_faults
from trainer.plan.faults import NO_CORNER
from trainer.read import Document, Faulty, Where
from trainer.read.document import Lines
from trainer.roof import RoofSpec
from trainer.session import site_faults
from trainer.table.as_level import corner_of, level_data
from trainer.table.drawing import CannotDraw, Corner, Drawing, step
from trainer.table.outline_acts import Close
from trainer.words import _

SHEET = "drawing"
"""What stands for a file's name in the faults of what is no file yet."""
_PARTS = re.compile(r"\[(\d+)\]|([^.\[\]]+)")
_CUT = _(
    "A wall is cut in two here. Draw one part of it in or out, or take a part out to have it whole again. "
    "A beam along part of a wall wants no cut: undo this, make the wall a beam, and set Beam from and to."
)
LEAST_PITCH, MOST_PITCH = 5.0, 60.0


@dataclass(frozen=True, slots=True)
class DrawnFault:
    """One thing wrong: ``where`` is the way to it in the level, ``at`` its place on the sheet, if it has one.

    ``wall`` is the wall that it is about, ``corner`` the corner.
    """

    where: Where
    what: str
    at: Point | None = None
    wall: str = ""
    corner: int | None = None


@dataclass(frozen=True)
class Study:
    """A drawing, and what comes of it. ``house`` is what the roof is drawn of, none where the outline is none yet."""

    drawing: Drawing
    level: Level | None
    house: House | None
    layout: Layout | None
    faults: tuple[DrawnFault, ...]

    @cached_property
    def shown(self) -> Layout | None:
        """The layout, or where there is none the bare roof."""
        if self.layout is not None or self.house is None:
            return self.layout
        return Layout(self.house, (), (), (), ())

    @property
    def sound(self) -> bool:
        """Whether somebody can work on it."""
        return self.layout is not None and not self.faults


def study(drawing: Drawing, styles: Styles = NO_STYLES, before: Study | None = None) -> Study:
    """Return what comes of a drawing. Takes any; faults are listed, never raised.

    What came of the one ``before`` it saves laying out again a house that is the same.
    """
    found = all_steps(glance(drawing, styles, before))
    if found.level is None or found.layout is None:
        return found
    faults = site_faults(found.level, found.layout)
    return replace(found, faults=tuple(dict.fromkeys(_placed(drawing, where, what) for where, what in faults)))


def glance(
    drawing: Drawing, styles: Styles = NO_STYLES, before: Study | None = None
) -> Generator[None, None, Study]:  # fmt: skip
    """Return the same without the faults of its site, in short steps: for what is held and still moves."""
    if not drawing.closed:
        return Study(drawing, None, _roof_if_closed(drawing), None, (_open(drawing),))
    document = Document(SHEET, level_data(drawing), Lines(1))
    try:
        level = level_of(document, styles)
    except Faulty as faulty:
        faults = tuple(_placed(drawing, _way(fault.path), fault.what) for fault in faulty.faults)
        return Study(drawing, None, roof_of(drawing), None, faults)
    house = level.house()
    try:
        known = before.layout if before is not None and before.house == house else None
        layout = known or (yield from lay_out_in_steps(house))
    except LayoutRefused as refused:
        faults = tuple(_refused(drawing, reason) for reason in refused.reasons)
        return Study(drawing, level, replace(house, changes=()), None, faults)
    return Study(drawing, level, house, layout, ())


def _open(drawing: Drawing) -> DrawnFault:
    if not drawing.corners:
        text = _("Nothing is drawn yet. Press where the first corner is, or type how the walls run.")
    else:
        text = _("The outline is open. Go on. Press on the first corner, or C, to close it.")
    at = drawing.corners[-1] if drawing.corners else None
    return DrawnFault(("plates", "outline"), text, at, corner=len(drawing.corners) - 1 if at else None)


def _roof_if_closed(drawing: Drawing) -> House | None:
    """Return the house that an open outline would be if it were closed now, if any."""
    try:
        return roof_of(Close().on(drawing))
    except CannotDraw:
        return None


def _refused(drawing: Drawing, reason: Refusal) -> DrawnFault:
    if reason.change is not None:
        return DrawnFault(("layout", reason.change), f"{reason.place}: {reason.why}", reason.at)
    text = _("This can't be laid out: {why}").format(why=reason.why)
    return DrawnFault(("plates", "outline"), text, reason.at)


def _way(path: str) -> Where:
    """Return the way that a fault's path says."""
    return tuple(int(number) if number else key for number, key in _PARTS.findall(path))


def _placed(drawing: Drawing, where: Where, what: str) -> DrawnFault:
    """Return a fault with its place on the sheet, as far as the way to it says one."""
    wall, at = _wall_of(drawing, where), None
    corner: int | None = None
    match where:
        case ("plates", "outline", int(i), *_rest) if i < len(drawing.corners):
            corner, at = i, drawing.corners[i]
            what = _CUT if what == NO_CORNER else what
        case ("internal_walls", int(i), *rest) if i < len(drawing.inside):
            inside = drawing.inside[i]
            at = inside[rest[0] if rest and isinstance(rest[0], int) and rest[0] < len(inside) else 0]
        case ("site", "dangers", int(i), *_rest):
            at = corner_of(drawing.at("site", "dangers", i, "at"))
    if at is None and wall in drawing.names:
        (ax, ay), (bx, by) = drawing.ends(drawing.index(wall))
        at = (ax + bx) // 2, (ay + by) // 2
    elif wall not in drawing.names:
        wall = ""
    return DrawnFault(where, what, at, wall, corner)


def _wall_of(drawing: Drawing, where: Where) -> str:
    """Return the wall that a fault is about, if it is about one."""
    data = level_data(drawing)
    match where:
        case ("gables" | "against" | "beams" as key, int(i), *_rest):
            named = data.get(key, [])
            return str(named[i]) if isinstance(named, list) and i < len(named) else ""
        case ("dutch_gables" | "beams" | "posts", str(name), *_rest):
            return name
        case ("site", "walls" | "dangers" as key, int(i), *_rest):
            return str(drawing.at("site", key, i, "wall") or "")
    return ""


def roof_of(drawing: Drawing) -> House | None:
    """Return a house of what of a drawing is sound, for its roof alone; None where its outline is no outline."""
    names = [wall_name(i) for i in range(len(drawing.corners))]
    staying = [i for i in range(len(names)) if not _on_the_way(drawing.corners, i)]
    corners = tuple(drawing.corners[i] for i in staying)
    if plan_faults(corners, (), ()):
        return None
    known = [names[i] for i in staying]
    walls = {name: drawing.walls[i] for i, name in zip(staying, known, strict=True)}
    letters = dict(zip(known, map(wall_name, range(len(known))), strict=True))
    gables = [letters[name] for name, wall in walls.items() if wall.gable]
    against = [letters[name] for name, wall in walls.items() if wall.against]
    wrong = plan_faults(corners, gables, (), against)
    gables = [wall for i, wall in enumerate(gables) if not _at(wrong, "gables", i)]
    against = [wall for i, wall in enumerate(against) if not _at(wrong, "against", i)]
    if plan_faults(corners, gables, (), against):
        gables, against = [], []
    inside = tuple(wall for wall in drawing.inside if not plan_faults(corners, (), [wall]))
    plan = PlatePlan(corners, _number(drawing, ("plates", "width"), 90, 45, 300), frozenset(gables), inside)
    height = _number(drawing, ("plates", "height"), 2400, 2100, 4200)
    plan = replace(plan, against=frozenset(against), height=float(height))
    beams = {letters[name]: wall.stretch for name, wall in walls.items() if wall.beam}
    bad = {where[1] for where, _what in beam_faults(corners, [*gables, *against], beams, {})}
    beams = {wall: stretch for wall, stretch in beams.items() if wall not in bad and wall not in against}
    spec = _roof(drawing)
    plan = replace(plan, beams=beams_of(plan, beams, {}), dutch_gables=_dutch(drawing, plan, spec, letters))
    return House(_lettered(plan, known), spec)


def _lettered(plan: PlatePlan, known: list[str]) -> PlatePlan:
    """Return a plan whose walls have the letters of the drawing, also where a cut was left out between them."""
    if list(plan.by_name) == known:
        return plan
    new = dict(zip(plan.by_name, known, strict=True))
    return replace(
        plan, names=tuple(known), gables=frozenset(new[wall] for wall in plan.gables),
        against=frozenset(new[wall] for wall in plan.against),
        dutch_gables=tuple(replace(dutch, wall=new[dutch.wall]) for dutch in plan.dutch_gables),
        beams=tuple(replace(beam, wall=new[beam.wall]) for beam in plan.beams),
    )  # fmt: skip


def _on_the_way(corners: tuple[Corner, ...], i: int) -> bool:
    """Whether a corner is the next one again, or lies on a straight wall."""
    before, here, after = corners[i - 1], corners[i], corners[(i + 1) % len(corners)]
    return step(before, here) == step(here, after) or here == after


def _at(wrong: list[Any], key: str, i: int) -> bool:
    return any(fault.path[:2] == (key, i) for fault in wrong)


def _dutch(drawing: Drawing, plan: PlatePlan, spec: RoofSpec, letters: Mapping[str, str]) -> tuple[DutchGable, ...]:
    """Return the dutch gables that nothing is wrong with."""
    sizes = {
        letters[name]: (float(wall.dutch[0]), float(300 if wall.dutch[1] is None else wall.dutch[1]))
        for name, wall in zip(drawing.names, drawing.walls, strict=False)
        if wall.dutch and name in letters
    }
    setback = _number(drawing, ("trusses", "setback"), 1800, 300, 3600)
    wrong = {fault.path[1] for fault in dutch_faults(plan, spec.straight_fascia, setback, sizes)}
    return tuple(DutchGable(wall, at, verge) for wall, (at, verge) in sizes.items() if wall not in wrong)


def _roof(drawing: Drawing) -> RoofSpec:
    """Return the roof's sizes, brought within what a roof can have."""
    pitch = drawing.at("roof", "pitch")
    pitch = float(pitch) if type(pitch) in (int, float) else 22.5
    return RoofSpec(
        min(MOST_PITCH, max(LEAST_PITCH, pitch)),
        _number(drawing, ("roof", "overhang"), 450, 0, 1500),
        _number(drawing, ("roof", "heel"), 90, 0, 600),
        _number(drawing, ("roof", "straight_fascia"), FASCIA, 0, 1500),
    )


def _number(drawing: Drawing, way: tuple[str, ...], usual: int, least: int, most: int) -> int:
    found = drawing.at(*way)
    return min(most, max(least, found)) if type(found) is int else usual


def moved_by_hand(drawing: Drawing, styles: Styles = NO_STYLES) -> Iterator[tuple[str, float, float]]:
    """Yield (tag, station by the rules, station by hand) of each truss that the layout block moves, mm."""
    entries = drawing.at("layout") or ()
    plain = replace(drawing, values={key: value for key, value in drawing.values.items() if key != "layout"})
    layout = study(plain, styles).layout if entries else None
    for entry in entries if layout else ():
        member = layout.by_tag.get(str(entry.get("truss"))) if layout and isinstance(entry, Mapping) else None
        if member is not None and entry.get("station") is not None:
            yield member.tag, member.station, float(entry["station"])
