"""Whether a truss stands where it belongs, and if not, the one name for what is wrong.

The first that holds, in this order, is the cause; the others would only be its echo:

1. a truncated girder near a place of its own, but not at the level's setback: *setback*;
2. a girder near its place, but off the line of the plates: *girder line*;
3. a truss in a place that another piece belongs in, or in nobody's place: *wrong truss*;
4. anything else that is out by more than the level's tolerance: *off station*.
   A truss that moved with the carrier under it is not out: its carrier is.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from trainer.layout.model import Member
from trainer.rules.marks import cause_of_mark
from trainer.rules.moved import moved
from trainer.rules.plain import called, mm
from trainer.rules.rule import Found, truss_of
from trainer.site import Event, HandOver, Off, Site, Stood
from trainer.terms import KIND_NAMES
from trainer.words import _

How = Literal["setback", "girder line", "dutch gable", "wrong truss", "off station"]
ALIKE = 1.0
"""Roof lines of the same piece differ by less, mm."""
ASTRAY = 1200.0
"""How far a girder may stand from its line and still be meant for it, mm: setbacks in use differ by less."""
SHIFTED = 150.0
"""And how far along itself, mm."""


@dataclass(frozen=True, slots=True)
class Misplaced:
    """What is wrong with where a truss stands."""

    how: How
    got: str
    want: str
    cause: str = ""


def same_piece(a: Member, b: Member) -> bool:
    """Whether two trusses are the same piece, so that either may stand for the other."""
    return a is b or (
        (a.kind, a.plies, len(a.top)) == (b.kind, b.plies, len(b.top))
        and all(
            (ours.on_plate, ours.on_ledger) == (theirs.on_plate, theirs.on_ledger)
            and abs(ours.tail - theirs.tail) <= ALIKE
            for ours, theirs in zip(a.ends, b.ends, strict=True)
        )
        and all(
            abs(p - q) <= ALIKE
            for ours, theirs in zip(a.top, b.top, strict=True)
            for p, q in zip(ours, theirs, strict=True)
        )
    )


def in_wrong_place(site: Site, tag: str) -> bool:
    """Whether the standing truss ``tag`` is in a place where another piece belongs, or in nobody's."""
    stood = site.stood[tag]
    return stood.place is None or not same_piece(site.layout.by_tag[stood.piece], site.layout.by_tag[stood.place])


def looked_at(event: Event, after: Site) -> tuple[str, ...]:
    """Return the trusses whose places an event shows: the one just stood; at hand-over all that the learner stood."""
    if not isinstance(event.action, HandOver):
        return (truss_of(event),)
    return tuple(after.stood) if "stand" in after.job.stages else ()


def girders_out(event: Event, after: Site, how: How) -> Iterator[Found]:
    """Yield the girders that stand out in one way: the one just stood, or any that is handed over so.

    What hangs on a girder is carried where it stands: one left out is open rework in the path from roof to wall.
    """
    for tag in looked_at(event, after):
        girder = after.layout.by_tag[after.stood[tag].piece].kind in ("girder", "truncated_girder")
        if girder and (wrong := misplaced(after, tag)) and wrong.how == how:
            yield Found(tag, wrong.got, wrong.want, wrong.cause)


def cause_of_place(site: Site, tag: str) -> str:
    """Name the mix-up that put a truss in a place that isn't its own; two trusses swapped are one."""
    if not in_wrong_place(site, tag):
        return ""
    stood = site.stood[tag]
    return " ".join(("trusses", *sorted({stood.piece, stood.place or stood.piece})))


def misplaced(site: Site, tag: str) -> Misplaced | None:
    """Return what is wrong with where the standing truss ``tag`` stands; none where it is right."""
    wrong = _misplaced(site, tag)
    if wrong is None or wrong.cause:
        return wrong
    return replace(wrong, cause=cause_of_mark(site, tag) or f"place {tag} {site.stood[tag].turn}")


def _misplaced(site: Site, tag: str) -> Misplaced | None:
    stood = site.stood[tag]
    if stood.place == stood.piece and _near_enough(site, stood.off):
        return None
    member = site.layout.by_tag[stood.piece]
    if member.kind in ("girder", "truncated_girder") and (meant := _meant(site, stood, member)):
        off = _off(meant, stood)
        if max(abs(end.across) for end in off) <= site.job.station_tolerance:
            return _off_station(site, meant, off)
        if member.is_dutch:
            return replace(_off_setback(site, stood, meant), how="dutch gable")
        off_line = _off_setback if member.kind == "truncated_girder" else _off_plate_line
        return off_line(site, stood, meant)
    if in_wrong_place(site, tag):
        return _wrong_truss(site, stood, member)
    place = site.layout.by_tag[stood.place or tag]
    out = _off_station(site, place, stood.off)
    return None if out and _moved_with_carrier(site, stood, place) else out


def _off(place: Member, stood: Stood) -> tuple[Off, Off]:
    """How far each end is out of another place than the one that the site gave the truss."""
    ux, uy = place.direction
    a, b = (Off(x * ux + y * uy, y * ux - x * uy) for x, y in moved(stood, place))
    return a, b


def _meant(site: Site, stood: Stood, member: Member) -> Member | None:
    """The nearest place for this very piece that a girder set on the wrong line could have been meant for."""
    near: list[tuple[float, str]] = []
    for place in site.layout.members:
        if place.kind != member.kind or not same_piece(place, member):
            continue
        if site.at_place.get(place.tag, stood.tag) != stood.tag:
            continue
        off = _off(place, stood)
        across = max(abs(end.across) for end in off)
        if across <= ASTRAY and max(abs(end.along) for end in off) <= SHIFTED:
            near.append((across, place.tag))
    return site.layout.by_tag[min(near)[1]] if near else None


def _off_setback(site: Site, stood: Stood, place: Member) -> Misplaced:
    axis, at, inward = _end_wall(site, place)
    coordinate = 0 if axis == "y" else 1
    to_face = site.layout.house.trusses.stations_to == "near face"
    less = place.width / 2 if to_face else 0.0
    want = (place.start[coordinate] - at) * inward - less
    stations = [(end[coordinate] - at) * inward - less for end in (stood.start, stood.finish)]
    got = max(stations, key=lambda station: abs(station - want))
    text = (
        _("{station} from the outside of the end wall to its near face")
        if to_face
        else _("{station} from the outside of the end wall")
    )
    return Misplaced("setback", text.format(station=mm(got, want)), mm(want), cause_of_place(site, stood.tag))


def _end_wall(site: Site, girder: Member) -> tuple[str, float, int]:
    """The plane of the end wall of the hip end that a girder carries, or whose extensions land on it."""
    landed = (crossing.over for crossing in site.layout.crossings if crossing.under == girder.tag)
    over = (site.layout.by_tag[tag] for tag in (*site.layout.carries[girder.tag], *landed))
    return next(member.legs[0].plane for member in over if member.kind == "hip")


def _off_plate_line(site: Site, stood: Stood, place: Member) -> Misplaced:
    out = max(abs(end.across) for end in _off(place, stood))
    want = _("its outside face in line with the outside of the plates, within {near}")
    if any(end.on_ledger for end in place.ends):  # from the corner of a higher wall, no plate runs on in its line
        want = _("its face in line with the higher wall at the corner, within {near}")
    return Misplaced(
        "girder line",
        _("{out} off the line").format(out=mm(out, site.job.station_tolerance)),
        want.format(near=mm(site.job.station_tolerance)),
        cause_of_place(site, stood.tag),
    )


def _wrong_truss(site: Site, stood: Stood, member: Member) -> Misplaced:
    cause = cause_of_place(site, stood.tag)
    if stood.place is None:
        return Misplaced(
            "wrong truss", _("where no truss belongs"), _("{tag} in its own place").format(tag=stood.tag), cause
        )
    place = site.layout.by_tag[stood.place]
    if stood.piece != stood.tag:
        got = _("in the place of {place}, and is really {truss} under a wrong tag")
        want = _("the real {truss}, which wears the tag {tag}")
        return Misplaced(
            "wrong truss",
            got.format(place=place.tag, truss=called(member)),
            want.format(truss=called(place), tag=_worn_by(site, place.tag)),
            cause,
        )
    got = _("in the place of {place}, and is a {kind}").format(place=place.tag, kind=KIND_NAMES[member.kind])
    return Misplaced("wrong truss", got, called(place), cause)


def _worn_by(site: Site, piece: str) -> str:
    """The tag that a truss wears: another's, where the two were swapped."""
    swaps = ({flaw.tag, flaw.other} for flaw in site.flaws if flaw.what == "swapped tag")
    return next((tag for pair in swaps if piece in pair for tag in pair - {piece}), piece)


def _near_enough(site: Site, off: tuple[Off, Off]) -> bool:
    return all(max(abs(end.along), abs(end.across)) <= site.job.station_tolerance for end in off)


def _off_station(site: Site, place: Member, off: tuple[Off, Off]) -> Misplaced | None:
    if _near_enough(site, off):
        return None
    along, across = max(abs(end.along) for end in off), max(abs(end.across) for end in off)
    got = _("{out} off its station") if across >= along else _("{out} too far along its own line")
    return Misplaced(
        "off station",
        got.format(out=mm(max(along, across), site.job.station_tolerance)),
        _("within {near} of the place of {place}").format(near=mm(site.job.station_tolerance), place=place.tag),
    )


def _moved_with_carrier(site: Site, stood: Stood, place: Member) -> bool:
    """Whether a carrier under the truss is out, and the truss by just as much."""
    near = site.job.station_tolerance
    ours = moved(stood, place)
    for tag in place.carried_by:
        carrier = site.at_place.get(tag)
        if carrier is None:
            continue
        theirs = moved(site.stood[carrier], site.layout.by_tag[tag])
        middle = ((theirs[0][0] + theirs[1][0]) / 2, (theirs[0][1] + theirs[1][1]) / 2)
        if max(abs(middle[0]), abs(middle[1])) > near and all(
            abs(end[0] - middle[0]) <= near and abs(end[1] - middle[1]) <= near for end in ours
        ):
            return True
    return False
