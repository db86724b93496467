"""What the tool in the hand does: actions of the diary, or in words what has to be chosen first."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Literal, get_args

from trainer.board.aim import ends
from trainer.board.bench import BETWEEN, BOTH, SPOTS, Bench, bracing_at, last_mark, member_in_hand
from trainer.board.spots import spots_of
from trainer.board.tools import Tool
from trainer.level.as_found import WallFault
from trainer.site.actions import (
    LEAST_EVERY,
    MOST_EVERY,
    AnyAction,
    Brace,
    Check,
    Cut,
    Fit,
    Fix,
    Inspect,
    Load,
    Mark,
    Measure,
    Plumb,
    Remove,
    Report,
    Restrain,
    Stand,
    String,
    Unbrace,
    WallReading,
)
from trainer.site.bracing import TYING
from trainer.site.fastening import BRACKETS
from trainer.site.model import Site
from trainer.words import _

WHOLE = frozenset({"batten", "plies joined", "verge rafter"})
"""Parts that go on a truss as a whole."""
SPACED = frozenset({"outrigger", "gable stud"})
"""Parts that go on a gable truss as a set, so many mm apart."""
Wanted = list[AnyAction] | str


def actions(bench: Bench, site: Site) -> Wanted:
    """Return what the tool does now, or what has to be chosen first, in words."""
    return _DOES[bench.tool](bench, site)


def _mark(bench: Bench, site: Site) -> Wanted:
    on_wall = bench.mark_on in site.layout.house.plan.by_name
    wall, on = (bench.mark_on, None) if on_wall else (None, bench.mark_on)
    return [Mark(wall=wall, on=on, at=bench.mark_at, measured_from=last_mark(bench, site, bench.mark_on))]


def _fit(bench: Bench, site: Site) -> Wanted:
    if not bench.fit_on:
        return _("Choose the truss that the part goes on.")
    if placed(bench) or bench.part not in SPACED:
        return [Fit(part=bench.part, on=bench.fit_on, at=bench.fit_at if placed(bench) else None)]
    if bench.fit_every < LEAST_EVERY or (bench.part == "outrigger" and bench.fit_back <= 0):
        return _("Type how far apart they go, and how far outriggers run back.")
    back = bench.fit_back if bench.part == "outrigger" else None
    return [Fit(part=bench.part, on=bench.fit_on, every=bench.fit_every, back=back)]


def placed(bench: Bench) -> bool:
    """Whether the part in the hand is fitted at a place along its truss, told in mm."""
    return bench.part in BRACKETS or (bench.part not in WHOLE and bench.fit_placed)


def _stand(bench: Bench, site: Site) -> Wanted:
    member = member_in_hand(bench, site)
    if member is None:
        return _("Take a truss from the yard first.")
    start, finish = ends(site.layout.house.plan, member, bench.aim)
    return [Stand(tag=member.tag, start=start, finish=finish)]


def _brace(bench: Bench, site: Site) -> Wanted:
    if bench.brace in TYING:
        if len(bench.picked) < 2:
            return _("Choose two standing trusses for the {kind}.").format(kind=bench.brace)
        if bench.brace != "batten":
            return [Brace(kind=bench.brace, tags=bench.picked)]
        if not LEAST_EVERY <= bench.rows_every <= MOST_EVERY:
            return _("Type how far apart the rows of battens go. The job sheet says how much they may be.")
        return [Brace(kind=bench.brace, tags=bench.picked, every=bench.rows_every)]
    if bench.truss not in site.stood:
        return _("Choose a standing truss to brace.")
    return [Brace(kind=bench.brace, tags=(bench.truss,))]


def _unbrace(bench: Bench, site: Site) -> Wanted:
    piece = bracing_at(bench, site)
    if piece is None:
        return _("There is no bracing to take off.")
    return [Unbrace.model_validate({"kind": piece.kind, "tags": piece.tags, "every": piece.every})]


def _restrain(bench: Bench, site: Site) -> Wanted:
    if len(bench.tape) < 2:
        return _("Press where it begins and where it ends, or type both places.")
    return [Restrain(kind=bench.restraint, start=bench.tape[0], finish=bench.tape[1])]


def _fix(bench: Bench, site: Site) -> Wanted:
    if bench.truss not in site.stood:
        return _("Choose a standing truss to fix.")
    if bench.end >= SPOTS:
        spots = spots_of(site, bench.truss)
        if not spots:
            return _("It crosses nothing. Choose an end.")
        spot = spots[(bench.end - SPOTS) % len(spots)]
        return [Fix(tag=bench.truss, at=spot.at, with_=bench.connector, count=bench.count)]
    numbers: Iterable[Literal[1, 2]] = (1, 2) if bench.end == BOTH else ((1,) if bench.end == 1 else (2,))
    return [Fix(tag=bench.truss, end=n, with_=bench.connector, count=bench.count) for n in numbers]


def _remove(bench: Bench, site: Site) -> Wanted:
    return [Remove(tag=bench.truss)] if bench.truss in site.stood else _("Choose a standing truss to take down.")


def _check(bench: Bench, site: Site) -> Wanted:
    return [Check(item=bench.item)] if bench.item else _("Choose what you have checked.")


def of_wall(what: str) -> bool:
    """Whether a reading or a fault is of a wall; else it is of a truss."""
    return what in get_args(WallReading) or what in get_args(WallFault)


def _measure(bench: Bench, site: Site) -> Wanted:
    if bench.what == BETWEEN:
        return _("Press on two places of the plan. The tape shows how far apart they are.")
    if of_wall(bench.what):
        return [Measure.model_validate({"what": bench.what, "wall": bench.wall})]
    if bench.truss not in site.stood:
        return _("Choose a standing truss to measure.")
    return [Measure.model_validate({"what": bench.what, "tag": bench.truss})]


def _report(bench: Bench, site: Site) -> Wanted:
    if bench.fault == "a fall":
        return [Report(fault="a fall")]
    if of_wall(bench.fault):
        return [Report.model_validate({"fault": bench.fault, "wall": bench.wall})]
    if not bench.truss:
        return _("Choose the truss that you report.")
    return [Report.model_validate({"fault": bench.fault, "tag": bench.truss})]


def _string(bench: Bench, site: Site) -> Wanted:
    if len(bench.picked) < 2:
        return _("Choose two standing trusses for the string.")
    return [String(start=bench.picked[0], finish=bench.picked[1])]


def _plumb(bench: Bench, site: Site) -> Wanted:
    return [Plumb(tag=bench.truss)] if bench.truss in site.stood else _("Choose a standing truss to straighten.")


def _cut(bench: Bench, site: Site) -> Wanted:
    if not bench.truss:
        return _("Choose the truss to cut.")
    return [Cut.model_validate({"tag": bench.truss, "where": bench.where})]


def _load(bench: Bench, site: Site) -> Wanted:
    return [Load.model_validate({"what": bench.load})]


def _inspect(bench: Bench, site: Site) -> Wanted:
    if bench.truss not in site.stood:
        return _("Choose a standing truss to inspect.")
    return [Inspect(tag=bench.truss, accept=bench.accept)]


_DOES: dict[Tool, Callable[[Bench, Site], Wanted]] = {
    "mark": _mark, "fit": _fit, "stand": _stand, "brace": _brace, "unbrace": _unbrace, "fix": _fix, "remove": _remove,
    "check": _check, "measure": _measure, "report": _report, "string": _string, "plumb": _plumb, "cut": _cut,
    "load": _load, "inspect": _inspect, "restrain": _restrain,
}  # fmt: skip
