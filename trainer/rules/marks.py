"""Whether a mark is where it belongs, and if not, the one name for what is wrong.

A mark is meant for the nearest station, if that is within :data:`MEANT`; a line further off is meant for nothing, and
so is a second line beside a station that is marked right. Of a mark that is out by more than the level's tolerance,
the first that holds is the cause:

1. it was measured from a mark that was itself measured from a mark: *bay by bay*, one cause for a whole wall;
2. it is out by as much as the other face, or the centre line, of its truss: *face*;
3. anything else: *off*.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import dataclass
from operator import attrgetter
from typing import Literal

from trainer.layout.marks import along_bearing
from trainer.order import marks_end
from trainer.rules.moved import moved
from trainer.site import Event, Mark, Marked, Site, Station
from trainer.words import _

MEANT = 150.0
"""How far a mark may be from a station and still be meant for it, mm."""
TAPES = 3
"""Marks with this many tapes behind them were measured bay by bay."""
FACE = 3.0
"""How near a mark must come to another face of its truss to be taken for a mark to that, mm."""

RUN = attrgetter("run")


@dataclass(frozen=True, slots=True)
class Mismark:
    """A mark that is out: what is wrong, its station, how far it is beyond that along what it is on (mm), the cause."""

    how: Literal["bay by bay", "face", "off"]
    station: Station
    out: float
    cause: str


def marked_on(event: Event) -> str:
    """Return the wall's name or the tag that a mark was made on."""
    return (event.action.wall or event.action.on or "") if isinstance(event.action, Mark) else ""


def called(site: Site, where: str) -> str:
    """Return what a mark is on, in words."""
    return _("wall {wall}").format(wall=where) if where in site.layout.house.plan.by_name else where


def station_of(site: Site, where: str, mark: Marked) -> Station | None:
    """Return the station that a mark is meant for."""
    stations = site.job.stations.get(where, ())
    past = bisect_left(stations, mark.is_at, key=RUN)
    before = bisect_left(stations, stations[past - 1].run, key=RUN) if past else 0
    near = min(stations[before : past + 1], key=lambda station: abs(station.run - mark.is_at), default=None)
    return near if near and abs(near.run - mark.is_at) <= MEANT else None


def is_marked(site: Site, where: str, run: float, near: float = MEANT) -> bool:
    """Whether some mark within ``near`` mm of a station is meant for it."""
    close = [mark for mark in site.set_out.get(where, ()) if abs(mark.is_at - run) <= near]
    return any((station := station_of(site, where, mark)) and station.run == run for mark in close)


def mismarked(site: Site, where: str, mark: Marked) -> Mismark | None:
    """Return what is wrong with a mark; none where it is right, or meant for nothing."""
    station = station_of(site, where, mark)
    if station is None or abs(mark.is_at - station.run) <= site.job.station_tolerance:
        return None
    out = mark.is_at - station.run
    if mark.links >= TAPES:
        return Mismark("bay by bay", station, out, f"bay by bay {where}")
    how: Literal["face", "off"] = "face" if _other_face(site, station, out) else "off"
    return Mismark(how, station, out, f"mark {where} {station.run:g}")


def _other_face(site: Site, station: Station, out: float) -> bool:
    width = site.layout.by_tag[station.tag].width
    to_face = site.layout.house.trusses.stations_to == "near face"
    return any(abs(abs(out) - off) <= FACE for off in ((width, width / 2) if to_face else (width / 2,)))


def cause_of_mark(site: Site, tag: str) -> str:
    """Name the wrong mark that the truss ``tag`` stands to, if it does: standing to it is no second mistake."""
    stood = site.stood[tag]
    if stood.place is None:
        return ""
    place = site.layout.by_tag[stood.place]
    for end, (dx, dy) in enumerate(moved(stood, place), 1):
        if not marks_end(place, end):
            continue
        where, _start, (ux, uy) = along_bearing(site.layout, place, end)
        out = dx * ux + dy * uy
        for wrong in _wrong_marks(site, where):
            if (wrong.station.tag, wrong.station.end) in _sharing(site, where, place.tag, end) and abs(
                wrong.out - out
            ) <= site.job.station_tolerance < abs(out):
                return wrong.cause
    return ""


def _wrong_marks(site: Site, where: str) -> Iterator[Mismark]:
    for mark in site.set_out.get(where, ()):
        if wrong := mismarked(site, where, mark):
            yield wrong


def _sharing(site: Site, where: str, tag: str, end: int) -> set[tuple[str, int]]:
    """All the ends that share the mark of one."""
    stations = site.job.stations.get(where, ())
    run = next((s.run for s in stations if (s.tag, s.end) == (tag, end)), None)
    return {(s.tag, s.end) for s in stations if s.run == run}
