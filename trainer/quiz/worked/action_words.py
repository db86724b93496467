"""What a crew did, as a line of a list: a truss by its mark, a brace by what it joins, a fault by its name."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any

from trainer.layout import Member
from trainer.plan import Point, taped
from trainer.quiz.worked.subject import Subject
from trainer.quiz.worked.wording import mm
from trainer.site import Site
from trainer.site.actions import (
    AnyAction,
    Brace,
    Cut,
    Fit,
    Fix,
    Inspect,
    Load,
    Mark,
    Measure,
    Plan,
    Report,
    Restrain,
    Stand,
    Unbrace,
)
from trainer.terms import CUTS, FAULTS, KIND_PLURALS, LOADS, READINGS, done_line, thing
from trainer.words import _, listed, ngettext

NEAR = 60.0
"""A place nearer than this to a wall's outside or to a truss is at it, mm."""


def action_line(subject: Subject, action: AnyAction, site: Site, *, places: bool = False) -> str:
    """Say what was done on a site; with ``places``, also where on the plates and which way round a truss stood."""
    if isinstance(action, Fix):
        return _fixed(subject, action, site)
    if places and isinstance(action, Stand):
        return _("Stood {tag}").format(tag=action.tag) + _stood_at(subject, action)
    line = _LINES.get(type(action))
    return line(subject, action) if line else done_line(action.model_dump(by_alias=True, exclude_none=True))


def _marked(_subject: Subject, action: Mark) -> str:
    where = _("wall {wall}").format(wall=action.wall) if action.wall else action.on or ""
    line = _("Marked {where} at {at}").format(where=where, at=mm(action.at))
    if action.measured_from is None:
        return line
    return _("{line}, measured on from the mark at {at}").format(line=line, at=mm(action.measured_from))


def _measured(_subject: Subject, action: Measure) -> str:
    of = action.tag or (_("wall {wall}").format(wall=action.wall) if action.wall else _("a place"))
    return _("Measured {of}: {what}").format(of=of, what=READINGS[action.what])


def _inspected(_subject: Subject, action: Inspect) -> str:
    return (_("Accepted {tag}") if action.accept else _("Rejected {tag}")).format(tag=action.tag)


def _cut(_subject: Subject, action: Cut) -> str:
    return _("Cut {tag} at {where}").format(tag=action.tag, where=CUTS[action.where])


def _loaded(_subject: Subject, action: Load) -> str:
    if action.pattern:
        return _("Agreed where the first packs land: {pattern}").format(pattern=thing(action.pattern))
    return _("Loaded the roof with {what}").format(what=LOADS[action.what])


def belongs(subject: Subject, tag: str) -> str:
    """Say where on the plates a truss belongs, by each end that it has on one."""
    member = subject.layout.by_tag[tag]
    places = [
        _("at {at} on wall {wall}").format(at=mm(round(subject.tape(member, end)[1] * 2) / 2), wall=wall.name)
        for end, wall in subject.walls_under(member)
    ]
    return _("{tag} {places}").format(tag=tag, places=listed(places)) if places else tag


def _stood_at(subject: Subject, action: Stand) -> str:
    """Say where on a wall a truss was stood, and where its tail points if it has but one."""
    member = subject.layout.by_tag[action.tag]
    said = ""
    for end, wall in subject.walls_under(member):
        depth = abs(_off(member.ends[end - 1].at, wall.a, wall.inward))
        for point in (action.start, action.finish):
            along = taped(subject.layout.house.plan, wall, wall.run(point))
            if not said and abs(_off(point, wall.a, wall.inward)) < NEAR + depth and 0 < along < wall.length:
                said = _(", at {at} on wall {wall}").format(at=mm(round(along * 2) / 2), wall=wall.name)
    if not said or member.kind == "girder":
        said = _in_from(subject, member, action.start)
    tails = [end.tail > 0 for end in member.ends]
    if tails[0] != tails[1]:
        turned = math.dist(action.start, member.start) > math.dist(action.start, member.finish)
        at = member.ends[tails.index(True) ^ turned].bears_on
        said += _(", its tail at {place}").format(place=at)
    return said


def _off(point: Point, corner: Point, inward: Point) -> float:
    return (point[0] - corner[0]) * inward[0] + (point[1] - corner[1]) * inward[1]


def _in_from(subject: Subject, member: Member, point: Point) -> str:
    """Say how far in from the nearest wall along it a truss stands that reaches no plate."""
    across = 0 if member.start[0] == member.finish[0] else 1
    beside = [
        (abs(point[across] - wall.a[across]), wall.name)
        for wall in subject.layout.house.plan.walls
        if wall.a[across] == wall.b[across]
    ]
    off, name = min(beside)
    return _(", {off} in from wall {wall}").format(off=mm(round(off * 2) / 2), wall=name)


def _braced(_subject: Subject, action: Brace | Unbrace) -> str:
    tags, off = listed(list(action.tags), 3), isinstance(action, Unbrace)
    if action.kind == "solid":
        if action.to:
            line = _("Took the brace to the beam off {tags}") if off else _("Braced {tags} to the verandah beam")
        else:
            line = _("Took the brace to something solid off {tags}") if off else _("Braced {tags} to something solid")
        return line.format(tags=tags)
    if action.kind == "prop":
        return (_("Took the prop out from {tags}") if off else _("Propped {tags}")).format(tags=tags)
    if action.kind == "wall tie":
        line = (
            _("Took {tags} off the studs of the wall") if off else _("Tied the top of {tags} to the studs of the wall")
        )
        return line.format(tags=tags)
    if off:
        line = _("Took the {kind} off {tags}")
    else:
        line = _("Tied {tags} together with battens") if action.kind == "batten" else _("Put a {kind} on {tags}")
    line = line.format(kind=thing(action.kind), tags=tags)
    if action.every and not off:
        line = _("{line}, in rows {every} apart").format(line=line, every=mm(action.every))
    return line


def _fixed(subject: Subject, action: Fix, site: Site) -> str:
    what = thing(action.with_) if action.count == 1 else f"{action.count} × {thing(action.with_)}"
    where = _("end {end}").format(end=action.end) if action.end else _("a crossing")
    if action.end:
        # A truss may stand the other way round than drawn: then its own first end is at the place's second.
        stood = site.stood.get(action.tag)
        place, end = (stood.place or action.tag, stood.own_end(action.end)) if stood else (action.tag, action.end)
        where = _("the end on {place}").format(place=subject.layout.by_tag[place].ends[end - 1].bears_on)
    elif action.at is not None:
        walls = [spot for spot in subject.job.wall_spots if math.dist(spot.at, action.at) <= NEAR]
        under = [
            crossing.under
            for crossing in subject.layout.crossings
            if crossing.over == action.tag and math.dist(crossing.at, action.at) <= NEAR
        ]
        where = _("where it crosses {under}").format(under=under[0]) if under else where
        where = _("where it passes over an inside wall") if walls and not under else where
    line = _("Fixed {tag}, {where}, with {what}").format(tag=action.tag, where=where, what=what)
    return _("{line}, every second nail hole left empty").format(line=line) if action.nails == "half" else line


def _fitted(_subject: Subject, action: Fit) -> str:
    if action.part == "plies joined":
        return _("Joined the plies of {on}").format(on=action.on)
    line = _("Fitted to {on}: {part}").format(on=action.on, part=thing(action.part))
    if action.at is not None:
        line = _("{line}, at {at}").format(line=line, at=mm(round(action.at * 2) / 2))
    if action.every is not None:
        line = _("{line}, every {every}").format(line=line, every=mm(round(action.every * 2) / 2))
    if action.back is not None:
        line = _("{line}, {back} in past its centre").format(line=line, back=mm(round(action.back * 2) / 2))
    return line


def _restrained(subject: Subject, action: Restrain) -> str:
    line = _("Put in for good: {kind} from {start} to {finish}").format(
        kind=thing(action.kind), start=_where(subject, action.start), finish=_where(subject, action.finish)
    )
    return _("{line}, and pulled it hard").format(line=line) if action.tension == "hard" else line


def _where(subject: Subject, at: Point) -> str:
    """Say where a place is: at which truss, and how far along it from its nearer end."""
    member = min(subject.layout.members, key=lambda each: _to_truss(at, each))
    end = min(member.ends, key=lambda each: math.dist(each.at, at))
    off = math.dist(end.at, at)
    if off <= NEAR:
        return _("{tag} at {place}").format(tag=member.tag, place=end.bears_on)
    return _("{tag}, {off} from {place}").format(tag=member.tag, off=mm(round(off)), place=end.bears_on)


def _to_truss(at: Point, member: Member) -> float:
    (ax, ay), (bx, by) = member.start, member.finish
    length = math.dist(member.start, member.finish)
    share = max(0.0, min(1.0, ((at[0] - ax) * (bx - ax) + (at[1] - ay) * (by - ay)) / length**2))
    return math.dist(at, (ax + share * (bx - ax), ay + share * (by - ay)))


def _planned(_subject: Subject, action: Plan) -> str:
    people = ngettext("{n} person", "{n} people", action.people).format(n=action.people)
    by = thing(action.by)
    line = _("Planned lifts of {kind}: by {by}, {people}").format(kind=KIND_PLURALS[action.kind], by=by, people=people)
    if action.slung is None:
        return line
    slung = _("slung by the apex") if action.slung == "apex" else thing(action.slung)
    return _("{line}, {slung}").format(line=line, slung=slung)


def _reported(_subject: Subject, action: Report) -> str:
    fault = FAULTS[action.fault].rpartition(": ")[2]
    of = _("wall {wall}").format(wall=action.wall) if action.wall else action.tag or ""
    if of:
        return _("Reported {of}: {fault}").format(of=of, fault=fault)
    return _("Reported a danger: {fault}").format(fault=fault)


_LINES: Mapping[type[AnyAction], Callable[[Subject, Any], str]] = {
    Mark: _marked, Brace: _braced, Unbrace: _braced, Fit: _fitted, Restrain: _restrained, Plan: _planned,
    Report: _reported, Measure: _measured, Inspect: _inspected, Cut: _cut, Load: _loaded,
}  # fmt: skip
"""What is said of each kind of action; of any other, what a diary says."""
