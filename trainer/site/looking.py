"""Checking, measuring, reporting and inspecting: what is looked at, and what comes of saying so."""

from __future__ import annotations

import math
from dataclasses import replace

from trainer.chance import between
from trainer.level.as_found import OTHER_CHECKS
from trainer.plan import Point, Wall
from trainer.plan.points import half
from trainer.site.actions import Check, Inspect, Measure, Report
from trainer.site.conditions import LOOKED_AT, MEASURED, Flaw
from trainer.site.doing import does
from trainer.site.falling import to_clear
from trainer.site.model import Event, Reading, Refused, Site, changed
from trainer.site.on_the_day import is_there
from trainer.site.refusals import not_standing, unknown, unknown_truss
from trainer.site.shape import height, off_string, shape, string_over
from trainer.words import _

FAR = 20_000.0
"""What a measure shows where no line is near, mm."""
TAPE = 1.0
"""A single reading is off by up to this, mm; common practice, no source."""


@does(Check)
def check(site: Site, index: int, action: Check) -> tuple[Site, Event] | Refused:
    """Check a pre-start item of the level."""
    places = (*site.job.conditions.checks, *OTHER_CHECKS)
    if action.item not in places:
        return unknown(_("pre-start item"), action.item, dict.fromkeys(places))
    seen = tuple(flaw for flaw in site.flaws if action.item in LOOKED_AT.get(flaw.what, ()))
    return changed(site, checked=site.checked | {action.item}), Event(index, action, seen=seen)


@does(Measure)
def measure(site: Site, index: int, action: Measure) -> tuple[Site, Event] | Refused:
    """Read a wall's plate, a standing truss, or how near loads swing to a line."""
    if action.at is not None:
        return _clearance(site, index, action, action.at)
    walls = site.layout.house.plan.by_name
    if action.wall is not None:
        if action.wall not in walls:
            return unknown(_("wall"), action.wall, walls)
        true = _of_wall(site, action, walls[action.wall])
    else:
        tag = action.tag or ""
        if refused := not_standing(site, tag):
            return refused
        if action.what == "apex" and not string_over(site, tag):
            text = _("No string runs over {tag}. Pull one from a truss before it to one after it.")
            return Refused(text.format(tag=tag))
        true = _of_truss(site, action, tag)
    key = (action.what, action.wall or action.tag or "")
    turn = site.readings.get(key, 0)
    off = between(-TAPE, TAPE, site.job.seed, "reading", *key, turn)
    got, near = half(true.got + off), _allowed(site, action)
    worst = max(abs(got - true.want), abs(true.got - true.want))
    reading = Reading(got, true.want, near if worst <= near and site.job.undo_allowed else None)
    seen = tuple(
        flaw for flaw in site.flaws if action.wall is not None and _shows(site, action.what, action.wall, flaw)
    )
    return changed(site, readings={**site.readings, key: turn + 1}), Event(index, action, reading=reading, seen=seen)


def _allowed(site: Site, action: Measure) -> float:
    """How far off a reading may be, mm."""
    limits = site.job.limits
    if action.tag is None:
        return limits.plates
    member = site.layout.by_tag[action.tag]
    return {"plumb": limits.plumb(height(member)), "bow": limits.bow(member.span)}.get(action.what, limits.apex)


def _clearance(site: Site, index: int, action: Measure, at: Point) -> tuple[Site, Event]:
    """Measure how near loads swing to the nearest service line; where there is none, there is room enough."""
    lines = [flaw for flaw in site.flaws if flaw.is_called("service line", None, None, at)]
    nearest = min(lines, key=lambda flaw: flaw.clear, default=None)
    want = site.job.limits.clear_of_lines
    key = ("clearance", nearest.where if nearest else f"{at[0]:g}, {at[1]:g}")
    reading = Reading(nearest.clear if nearest else max(want, FAR), want)
    readings = {**site.readings, key: site.readings.get(key, 0) + 1}
    return changed(site, readings=readings), Event(index, action, reading=reading, seen=tuple(lines))


def known(site: Site) -> tuple[Flaw, ...]:
    """Return what has come to light so far of what is wrong on the site, whether or not it was put right."""
    return tuple(
        flaw
        for flaw in site.job.conditions.flaws
        if site.checked.intersection(LOOKED_AT.get(flaw.what, ()))
        or (flaw.after and is_there(site, flaw))
        or any(_shows(site, what, wall, flaw) for what, wall in site.readings)
    )


def looked(site: Site, fault: str, wall: str | None) -> bool:
    """Whether anybody has looked for such a fault, or could not: a wall is measured, the rest is looked at."""
    if fault in MEASURED:  # a diagonal is of all walls at once
        return any(what == MEASURED[fault] and (of == wall or what == "diagonals") for what, of in site.readings)
    if fault == "service line" and any(what == "clearance" for what, _of in site.readings):
        return True
    shown_at = LOOKED_AT.get(fault, ())
    if site.checked.intersection(shown_at):
        return True
    return not any(item in site.job.conditions.checks for item in shown_at)


def _shows(site: Site, what: str, wall: str, flaw: Flaw) -> bool:
    """Whether this reading of this wall shows a flaw that matters."""
    if what == "clearance":
        return flaw.what == "service line" and flaw.where == wall
    on_it = flaw.wall == wall or what == "diagonals"
    return MEASURED.get(flaw.what) == what and on_it and site.job.limits.matters(flaw)


@does(Report)
def report(site: Site, index: int, action: Report) -> tuple[Site, Event] | Refused:
    """Report a flaw, and one that is there is put right; or report a fall."""
    if action.fault == "a fall":
        return _report_fall(site, index, action)
    walls = site.layout.house.plan.by_name
    if action.wall is not None and action.wall not in walls:
        return unknown(_("wall"), action.wall, walls)
    if action.tag is not None and (refused := unknown_truss(site, action.tag)):
        return refused
    found = tuple(
        flaw
        for flaw in site.flaws
        if is_there(site, flaw) and flaw.is_called(action.fault, action.wall, action.tag, action.at)
    )
    for tag in (action.tag, *(tag for flaw in found for tag in (flaw.tag, flaw.other))):
        if tag in site.stood:
            return Refused(_("{tag} is standing. Take it down before it can be changed.").format(tag=tag))
    return changed(site, put_right=site.put_right.union(found)), Event(index, action, put_right=found)


def _report_fall(site: Site, index: int, action: Report) -> tuple[Site, Event] | Refused:
    """Report what fell, late too: once work has gone on around it."""
    if to_clear(site) is None:
        return Refused(_("Nothing has fallen. There is no fall to report."))
    fall = replace(site.fall, reported=True) if site.fall else None
    fell = {tag: replace(of, reported=True) for tag, of in site.fell.items()}
    return changed(site, fall=fall, fell=fell), Event(index, action)


@does(Inspect)
def inspect(site: Site, index: int, action: Inspect) -> tuple[Site, Event] | Refused:
    """Accept or reject a standing truss."""
    if refused := not_standing(site, action.tag):
        return refused
    return changed(site, inspected={**site.inspected, action.tag: action.accept}), Event(index, action)


def _of_wall(site: Site, action: Measure, wall: Wall) -> Reading:
    """The true value of a reading of a wall's plate."""
    if action.what == "diagonals":
        x0, y0, x1, y1 = site.layout.house.plan.bounds
        right = math.hypot(x1 - x0, y1 - y0)
        return Reading(right + _out(site, "out of square"), right)
    if action.what == "length":
        return Reading(wall.length + _out(site, "wrong length", wall), wall.length)
    if action.what == "straight":
        return Reading(_out(site, "bowed wall", wall) + _out(site, "bowed beam", wall), 0.0)
    return Reading(_out(site, "plate out of level", wall), 0.0)


def _out(site: Site, what: str, wall: Wall | None = None) -> float:
    """How much is still wrong in this way, mm: with one wall, or with the house."""
    return sum(flaw.by for flaw in site.flaws if flaw.what == what and (wall is None or flaw.wall == wall.name))


def _of_truss(site: Site, action: Measure, tag: str) -> Reading:
    """The true value of a reading of a truss; its apex is read against the string over it, straight or not."""
    if action.what == "apex":
        return Reading(off_string(site, tag), 0.0)
    found = shape(site, tag)
    return Reading(found.lean if action.what == "plumb" else found.bow, 0.0)
