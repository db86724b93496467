"""Gable and verge framing: what may be fitted on a gable truss, and what of it is in.

Outriggers and gable studs go on as a set, ``every`` so many mm: outriggers from both plates up each slope, studs
from the truss's ``from`` end along it. ``back`` is how far outriggers run in from the gable truss, mm. A single
one may be fitted ``at`` a place instead. Verge rafters go on as a pair.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from itertools import pairwise

from trainer.order.verge import FRAMED
from trainer.site.actions import Fit
from trainer.site.load_path import parts_on
from trainer.site.model import Fitted, Refused, Site
from trainer.site.refusals import not_standing
from trainer.words import _


def no_framing(site: Site, action: Fit) -> Refused | None:
    """Refuse gable framing that nobody could put there, or of which it is not said how it goes."""
    if action.part not in FRAMED:
        if action.every is None and action.back is None:
            return None
        text = _("A {part} has no spacing and runs back to nothing. Leave out every and back.")
        return Refused(text.format(part=action.part))
    if site.layout.by_tag[action.on].kind != "gable":
        return Refused(_("{on} is no gable truss. Fit the {part} on one.").format(on=action.on, part=action.part))
    return not_standing(site, action.on) or _not_said(site, action)


def _not_said(site: Site, action: Fit) -> Refused | None:
    """Refuse a set whose spacing is not given, and verge rafters with nothing to sit on."""
    if action.part == "verge rafter":
        wanted = any(part.part == "outrigger" and part.on == action.on for part in site.layout.parts)
        if wanted and not parts_on(site, site.stood[action.on].place or action.on, "outrigger"):
            return Refused(_("Verge rafters sit on outriggers. Fit the outriggers on {on} first.").format(on=action.on))
    elif action.at is None and action.part == "outrigger" and (action.every is None or action.back is None):
        return Refused(_("Say how far apart the outriggers go (every), and how far they run in (back), in mm."))
    elif action.at is None and action.every is None:
        return Refused(_("Say how far apart the studs go: every, in mm."))
    return None


def reach(site: Site, place: str) -> float:
    """Return how far in from a gable truss the next truss of its row stands, mm; 0 where there is none."""
    lines = site.job.rows.get(site.layout.by_tag[place].row)
    if lines is None:
        return 0.0
    here = [member.tag for member in lines.members].index(place)
    beside = lines.members[1] if here == 0 else lines.members[here - 1]
    return abs(lines.u(beside) - lines.u(lines.members[here]))


def far_enough(site: Site, place: str, fitted: Fitted) -> bool:
    """Whether outriggers run in to the next truss or further."""
    return fitted.back is None or fitted.back >= reach(site, place) - site.job.station_tolerance


def outrigger_gap(site: Site, place: str, pieces: Iterable[Fitted]) -> float:
    """Return the longest stretch of a gable truss's slopes with no outrigger, mm on the level."""
    span = site.layout.by_tag[place].span
    half = span / 2
    spots = [spot for piece in pieces for spot in set_spots(span, piece)]
    low = [0.0, *sorted(spot for spot in spots if spot <= half), half]
    high = [half, *sorted(spot for spot in spots if spot >= half), span]
    return max(b - a for a, b in (*pairwise(low), *pairwise(high)))


def set_spots(span: float, piece: Fitted) -> Iterator[float]:
    """Yield where along a gable truss of this span a set lies that starts at both its ends, or a single piece, mm."""
    if piece.every is None:
        yield piece.at or 0.0
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
        good = [piece for piece in pieces if far_enough(site, place, piece)]
        return bool(good) and outrigger_gap(site, place, good) <= most
    return stud_gap(site, place) <= most if part == "gable stud" else bool(pieces)
