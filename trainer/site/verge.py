"""Gable and verge framing: what may be fitted on a gable truss, and what of it is in.

Outriggers and gable studs go on as a set, ``every`` so many mm: outriggers from both plates up each slope, studs
from the truss's ``from`` end along it. ``back`` is how far outriggers run in from the gable truss, mm. A single
one may be fitted ``at`` a place instead. Verge rafters go on as a pair, and so do the verge ladders on the girder of
a dutch gable; its waling plate is one piece.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from itertools import pairwise

from trainer.layout.model import Member
from trainer.layout.parts import run_in
from trainer.order.verge import FRAMED, ON_DUTCH
from trainer.plan import Point
from trainer.site.actions import Fit
from trainer.site.load_path import parts_on
from trainer.site.model import Fitted, Refused, Site
from trainer.site.refusals import not_standing
from trainer.words import _

PAST_CENTRE = 100.0
"""An end this far past the centre of the truss that holds it still ends on it, mm; common practice, no source."""


def no_framing(site: Site, action: Fit) -> Refused | None:
    """Refuse gable framing that nobody could put there, or of which it is not said how it goes."""
    if action.part not in FRAMED:
        if action.every is None and action.back is None:
            return None
        text = _("A {part} has no spacing and runs back to nothing. Leave out every and back.")
        return Refused(text.format(part=action.part))
    if action.part in ON_DUTCH:
        return _not_on_dutch(site, action)
    if action.on in site.layout.by_tag and site.layout.by_tag[action.on].kind != "gable":
        return Refused(_("{on} is no gable truss. Fit the {part} on one.").format(on=action.on, part=action.part))
    return not_standing(site, action.on) or _not_said(site, action)


def _not_on_dutch(site: Site, action: Fit) -> Refused | None:
    """Refuse what goes on the girder of a dutch gable anywhere else; a waling plate may be fixed on the ground."""
    if action.on not in site.layout.by_tag or not site.layout.by_tag[action.on].is_dutch:
        text = _("{on} has no dutch gable on it. Fit the {part} on a girder that has one.")
        return Refused(text.format(on=action.on, part=action.part))
    return not_standing(site, action.on) if action.part == "verge ladder" else None


def _not_said(site: Site, action: Fit) -> Refused | None:
    """Refuse a set whose spacing is not given, and verge rafters with nothing to sit on."""
    if action.part == "verge rafter":
        wanted = any(part.part == "outrigger" and part.on == action.on for part in site.layout.parts)
        if wanted and not parts_on(site, site.stood[action.on].place or action.on, "outrigger"):
            return Refused(_("Verge rafters sit on outriggers. Fit the outriggers on {on} first.").format(on=action.on))
    elif action.at is None and action.part == "outrigger" and (action.every is None or action.back is None):
        return Refused(_("Say how far apart the outriggers go (every), and how far they run in (back), in mm."))
    elif action.part == "outrigger" and action.back is not None:
        return _past_the_row(site, action.on, action.back)
    elif action.at is None and action.every is None:
        return Refused(_("Say how far apart the studs go: every, in mm."))
    return None


def _past_the_row(site: Site, on: str, back: float) -> Refused | None:
    """Refuse outriggers that run in over the whole row and out past its other end."""
    last = max(centres(site, site.stood[on].place or on), default=math.inf)
    if back <= last + PAST_CENTRE:
        return None
    text = _("The last truss of that row is {last:g} mm in. Outriggers can't run {back:g} mm in; give less.")
    return Refused(text.format(last=last, back=back))


def reach(site: Site, place: str) -> float:
    """Return how far in from a gable truss its outriggers run, mm: at least as far as out, to a truss's centre."""
    return run_in(stand_out(site, place), centres(site, place))


def stand_out(site: Site, place: str) -> float:
    """Return how far past a gable truss's centre the verge is, mm; 0 where it does not hang out."""
    gable = site.layout.by_tag[place]
    part = next((part for part in site.layout.parts if (part.part, part.on) == ("outrigger", place)), None)
    return abs(_across(gable, part.start)) if part else 0.0


def centres(site: Site, place: str) -> list[float]:
    """Return how far in from a gable truss the others of its row stand, centre to centre, nearest first, mm."""
    gable = site.layout.by_tag[place]
    lines = site.job.rows.get(gable.row)
    others = lines.members if lines else ()
    return sorted(abs(_across(gable, member.start)) for member in others if member is not gable)


def _across(gable: Member, at: Point) -> float:
    """How far a plan point lies from the line of a gable truss, mm."""
    (x, y), (ux, uy) = gable.start, gable.direction
    return (at[0] - x) * uy - (at[1] - y) * ux


def held_at(site: Site, place: str, fitted: Fitted) -> float:
    """Return how far in from a gable truss the last truss is that outriggers reach, mm; 0 where they reach none."""
    back = math.inf if fitted.back is None else fitted.back + site.job.station_tolerance
    return max((far for far in centres(site, place) if far <= back), default=0.0)


def far_enough(site: Site, place: str, fitted: Fitted) -> bool:
    """Whether outriggers run in over a truss that is at least as far in as they stand out."""
    return fitted.back is None or held_at(site, place, fitted) >= reach(site, place)


def between_trusses(site: Site, place: str, fitted: Fitted) -> bool:
    """Whether the inner ends of outriggers hang between two trusses."""
    return fitted.back is not None and fitted.back - held_at(site, place, fitted) > PAST_CENTRE


def outrigger_gap(site: Site, place: str, pieces: Iterable[Fitted]) -> float:
    """Return the longest stretch of a gable truss's slopes with no outrigger, mm on the level."""
    gable = site.layout.by_tag[place]
    span, one_slope = gable.span, gable.ends[1].on_ledger
    half = span / 2
    spots = [spot for piece in pieces for spot in set_spots(span, piece, one_slope=one_slope)]
    if one_slope:
        return max(b - a for a, b in pairwise([0.0, *sorted(spots), span]))
    low = [0.0, *sorted(spot for spot in spots if spot <= half), half]
    high = [half, *sorted(spot for spot in spots if spot >= half), span]
    return max(b - a for a, b in (*pairwise(low), *pairwise(high)))


def set_spots(span: float, piece: Fitted, *, one_slope: bool) -> Iterator[float]:
    """Yield where along a gable truss of this span a set lies that starts at both its ends, or a single piece, mm.

    With ``one_slope``, which runs up to a higher wall, a set starts at the eave alone.
    """
    if piece.every is None:
        yield piece.at or 0.0
        return
    if one_slope:
        yield from (k * piece.every for k in range(math.ceil(span / piece.every)))
        return
    for k in range(int(span / 2 // piece.every) + 1):
        yield k * piece.every
        yield span - k * piece.every


def stud_spots(span: float, piece: Fitted) -> Iterator[float]:
    """Yield where along a gable truss of this span a set of studs lies, or a single one, mm."""
    if piece.every is None:
        yield piece.at or 0.0
        return
    yield from (k * piece.every for k in range(1, math.ceil(span / piece.every)))


def stud_gap(site: Site, place: str) -> float:
    """Return the longest stretch along a gable truss with no stud, mm; 0 where it is packed out instead."""
    if parts_on(site, place, "packer"):
        return 0.0
    span = site.layout.by_tag[place].span
    spots = {0.0, span}
    for piece in parts_on(site, place, "gable stud"):
        spots |= set(stud_spots(span, piece))
    return max(b - a for a, b in pairwise(sorted(spots)))


def framed(site: Site, place: str, number: int) -> bool:
    """Whether the part ``number`` of a gable is in as it should be."""
    most = site.layout.house.trusses.spacing + site.job.station_tolerance
    part = FRAMED[number - 1]
    pieces = parts_on(site, place, part)
    if part == "outrigger":
        good = [p for p in pieces if far_enough(site, place, p) and not between_trusses(site, place, p)]
        return bool(good) and outrigger_gap(site, place, good) <= most
    return stud_gap(site, place) <= most if part == "gable stud" else bool(pieces)
