"""Gets the bench ready for an action, as a hint suggests it: the tool in the hand, aimed, and only to be done."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from trainer.board import bench as hand
from trainer.board.aim import aims_of
from trainer.board.bench import Bench
from trainer.board.spots import spots_of
from trainer.board.tools import TOOLS
from trainer.site.actions import (
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
)
from trainer.site.model import Site
from trainer.words import _


def ready(bench: Bench, site: Site, action: AnyAction) -> str:
    """Take up the tool for ``action`` and aim it; return why that can't be done, or an empty text."""
    tool = next((tool for tool in TOOLS if tool == action.do), None)
    if tool is None:
        return _("There is no tool for that here.")
    if bench.tool != tool:
        hand.use(bench, site, tool)
    if isinstance(action, Stand):
        return _ready_to_stand(bench, site, action)
    if isinstance(action, Fix):
        _ready_to_fix(bench, site, action)
    elif isinstance(action, Unbrace):
        same = [i for i, p in enumerate(site.bracing) if (p.kind, set(p.tags)) == (action.kind, set(action.tags))]
        bench.piece = min(same, key=lambda i: site.bracing[i].every != action.every, default=-1)
    else:
        for name, value in _AIMS[type(action)](action).items():
            if value is not None:
                setattr(bench, name, value)
    return ""


_AIMS: dict[type[AnyAction], Callable[[Any], dict[str, Any]]] = {
    Restrain: lambda a: {"restraint": a.kind, "tape": (a.start, a.finish)},
    Mark: lambda a: {
        "mark_on": a.wall or a.on,
        "mark_at": a.at,
        "on_mark": a.measured_from is not None,
    },
    Fit: lambda a: {
        "part": a.part,
        "fit_on": a.on,
        "fit_at": a.at,
        "fit_placed": a.at is not None,
        "fit_every": a.every,
        "fit_back": a.back,
    },
    Brace: lambda a: {"brace": a.kind, "picked": a.tags, "truss": a.tags[0], "rows_every": a.every},
    String: lambda a: {"picked": (a.start, a.finish)},
    Check: lambda a: {"item": a.item},
    Measure: lambda a: {"what": a.what, "wall": a.wall, "truss": a.tag},
    Report: lambda a: {"fault": a.fault, "wall": a.wall, "truss": a.tag},
    Cut: lambda a: {"truss": a.tag, "where": a.where},
    Load: lambda a: {"load": a.what},
    Inspect: lambda a: {"truss": a.tag, "accept": a.accept},
    Plumb: lambda a: {"truss": a.tag},
    Remove: lambda a: {"truss": a.tag},
}
"""What of the bench each kind of action is; what it leaves open stays as it is."""


def _ready_to_stand(bench: Bench, site: Site, action: Stand) -> str:
    member = site.layout.by_tag[action.tag]
    bench.truss = action.tag
    aims = aims_of(site.layout.house.plan, member, action.start, action.finish)
    if not aims:
        return _("No tape reaches that place from a wall.")
    bench.aim = next((aim for aim in aims if aim.wall == bench.aim.wall and not aim.off), aims[0])
    return ""


def _ready_to_fix(bench: Bench, site: Site, action: Fix) -> None:
    bench.truss, bench.connector, bench.count = action.tag, action.with_, action.count
    bench.end = action.end or hand.SPOTS
    if action.at is not None:
        at = action.at
        crossings = spots_of(site, action.tag)
        nearest = min(range(len(crossings)), key=lambda i: math.dist(crossings[i].at, at), default=0)
        bench.end = hand.SPOTS + nearest


def afterwards(bench: Bench, site: Site, action: AnyAction) -> None:
    """Get the bench ready for what usually comes next."""
    if isinstance(action, Stand):
        hand.after_standing(bench, site, action.tag)
    elif isinstance(action, Brace) and bench.brace == "batten":
        bench.picked = bench.picked[-1:]
    elif isinstance(action, Brace | String):
        bench.picked = ()
    elif isinstance(action, Check):
        bench.item = hand.next_item(site)
    elif isinstance(action, Unbrace):
        bench.piece = -1
    elif isinstance(action, Restrain):
        bench.tape = ()
    elif isinstance(action, Remove):
        bench.truss = ""
