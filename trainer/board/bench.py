"""What the learner has in the hand: the tool, what it is aimed at, and the action that comes of it.

No drawing and no rule of the trade: it turns choices, measures and places into actions of the diary.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal, get_args

from trainer.board.aim import LIES, Aim, ends, first_aim, on_wall, settle
from trainer.layout import Member
from trainer.layout.model import TAG_LETTERS
from trainer.picture.tags import number_of
from trainer.plan import Point
from trainer.site.actions import AnyAction, Brace, Fit, Fix, Mark, Remove, Stand
from trainer.site.fastening import BRACKETS
from trainer.site.model import Site
from trainer.words import _

Tool = Literal["mark", "fit", "stand", "brace", "fix", "remove"]
TOOLS: tuple[Tool, ...] = get_args(Tool)
TOOL_NAMES: dict[Tool, str] = {
    "mark": _("Mark"), "fit": _("Fit"), "stand": _("Stand"), "brace": _("Brace"), "fix": _("Fix"),
    "remove": _("Take down"),
}  # fmt: skip
TOOL_STAGE: dict[Tool, str] = {
    "mark": "set-out", "fit": "fix", "stand": "stand", "brace": "brace", "fix": "fix", "remove": "stand",
}  # fmt: skip
BraceWith = Literal["solid", "batten"]
BRACES: tuple[BraceWith, ...] = ("solid", "batten")
BRACE_NAMES: dict[BraceWith, str] = {
    "solid": _("solid: one truss to something that can't move"),
    "batten": _("batten: one truss to another"),
}
CONNECTORS = ("framing anchor", "tie-down strap", "hanger", "heavy girder bracket")
BOTH = 0
"""For both ends of a truss, one after the other."""


@dataclass
class Bench:
    """The state of the hand. ``at`` measures are from a wall's first corner or a truss's ``from`` end, mm.

    ``from_far``: the tape is hooked on the wall's other corner, so that what is shown and typed runs from there.
    """

    tool: Tool
    aim: Aim
    truss: str = ""
    mark_on: str = ""
    mark_at: float = 0.0
    from_far: bool = False
    part: str = BRACKETS[0]
    fit_on: str = ""
    fit_at: float = 0.0
    brace: BraceWith = "solid"
    picked: tuple[str, ...] = ()
    end: int = 1
    connector: str = CONNECTORS[0]
    count: int = 1
    caught: str = ""


def first_bench(site: Site) -> Bench:
    """Return the bench at the start: the first tool of the job that this level asks for."""
    wall = site.layout.house.plan.walls[0].name
    order: tuple[Tool, ...] = ("mark", "stand", "brace", "fix")
    tool: Tool = next((t for t in order if TOOL_STAGE[t] in site.job.stages), "stand")
    return Bench(tool, Aim(wall, 0.0), mark_on=wall)


def yard(site: Site) -> list[str]:
    """Return the tags of the trusses not yet standing, girders first, then by tag."""
    letters = list(TAG_LETTERS)
    waiting = [m for m in site.layout.members if m.tag not in site.stood]
    return [m.tag for m in sorted(waiting, key=lambda m: (letters.index(m.kind), number_of(m.tag)))]


def member_in_hand(bench: Bench, site: Site) -> Member | None:
    """Return the truss taken from the yard, if one is."""
    return site.layout.by_tag.get(bench.truss) if bench.truss not in site.stood else None


def take(bench: Bench, site: Site, tag: str) -> None:
    """Choose a truss: from the yard it goes in the hand the way its kind lies; a standing one is aimed at."""
    changed = tag != bench.truss
    bench.truss = tag
    member = member_in_hand(bench, site)
    if member is not None and changed and bench.tool == "stand":
        bench.aim = replace(first_aim(site.layout.house.plan, member, bench.aim.wall), at=bench.aim.at)
        bench.aim = settle(site.layout.house.plan, member, bench.aim)
    if bench.tool == "mark":
        bench.mark_on, bench.mark_at = tag, 0.0
    if bench.tool == "fit":
        bench.fit_on = tag


def use(bench: Bench, site: Site, tool: Tool) -> None:
    """Take up another tool."""
    bench.tool = tool
    bench.caught = ""
    bench.picked = ()
    if tool == "fit":
        bench.fit_on = bench.truss
    if tool == "stand" and bench.truss in site.stood:
        bench.truss = ""
    if tool == "mark" and bench.mark_on not in site.layout.house.plan.by_name:
        bench.mark_on = bench.aim.wall


def turn(bench: Bench) -> None:
    """Turn the truss in the hand end for end, where it is."""
    bench.aim = replace(bench.aim, turned=not bench.aim.turned)


def lie(bench: Bench) -> None:
    """Let the truss in the hand lie the next way."""
    bench.aim = replace(bench.aim, lies=LIES[(LIES.index(bench.aim.lies) + 1) % len(LIES)])


def next_wall(bench: Bench, site: Site, step: int = 1) -> None:
    """Go on to the next wall: for the mark with the mark tool, for the truss otherwise."""
    names = [wall.name for wall in site.layout.house.plan.walls]
    now = bench.mark_on if bench.tool == "mark" else bench.aim.wall
    name = names[(names.index(now) + step) % len(names)] if now in names else names[0]
    if bench.tool == "mark":
        bench.mark_on = name
    else:
        bench.aim = replace(bench.aim, wall=name)
        member = member_in_hand(bench, site)
        if member is not None:
            bench.aim = settle(site.layout.house.plan, member, bench.aim)


def length_of(site: Site, where: str) -> float:
    """Return the length of a wall or of a truss, mm."""
    walls = site.layout.house.plan.by_name
    return walls[where].length if where in walls else site.layout.by_tag[where].span


def shown(bench: Bench, site: Site, where: str, at: float) -> float:
    """Return a measure as the tape shows it, from whichever end it is hooked on; the other way about is the same."""
    return length_of(site, where) - at if bench.from_far and where in site.layout.house.plan.by_name else at


def actions(bench: Bench, site: Site) -> list[AnyAction] | str:
    """Return what the tool does now, or what has to be chosen first, in words."""
    return {
        "mark": _mark, "fit": _fit, "stand": _stand, "brace": _brace, "fix": _fix, "remove": _remove,
    }[bench.tool](bench, site)  # fmt: skip


def _mark(bench: Bench, site: Site) -> list[AnyAction] | str:
    if bench.mark_on in site.layout.house.plan.by_name:
        return [Mark(wall=bench.mark_on, at=bench.mark_at)]
    return [Mark(on=bench.mark_on, at=bench.mark_at)]


def _fit(bench: Bench, site: Site) -> list[AnyAction] | str:
    if not bench.fit_on:
        return _("Choose the truss that the bracket goes on.")
    return [Fit(part=bench.part, on=bench.fit_on, at=bench.fit_at)]


def _stand(bench: Bench, site: Site) -> list[AnyAction] | str:
    member = member_in_hand(bench, site)
    if member is None:
        return _("Take a truss from the yard first.")
    start, finish = ends(site.layout.house.plan, member, bench.aim)
    return [Stand(tag=member.tag, start=start, finish=finish)]


def _brace(bench: Bench, site: Site) -> list[AnyAction] | str:
    if bench.brace == "solid":
        if bench.truss not in site.stood:
            return _("Choose a standing truss to brace.")
        return [Brace(kind="solid", tags=(bench.truss,))]
    if len(bench.picked) < 2:
        return _("Choose two standing trusses for the batten.")
    return [Brace(kind="batten", tags=bench.picked)]


def _fix(bench: Bench, site: Site) -> list[AnyAction] | str:
    if bench.truss not in site.stood:
        return _("Choose a standing truss to fix.")
    numbers: Iterable[Literal[1, 2]] = (1, 2) if bench.end == BOTH else ((1,) if bench.end == 1 else (2,))
    return [Fix(tag=bench.truss, end=n, with_=bench.connector, count=bench.count) for n in numbers]


def _remove(bench: Bench, site: Site) -> list[AnyAction] | str:
    if bench.truss not in site.stood:
        return _("Choose a standing truss to take down.")
    return [Remove(tag=bench.truss)]


def brace_with(bench: Bench, kind: BraceWith) -> None:
    """Take up another kind of bracing, with nothing picked for it yet."""
    bench.brace = kind
    bench.picked = ()


def pick(bench: Bench, tag: str) -> bool:
    """Pick a truss for a batten; return whether two are picked now."""
    if tag in bench.picked:
        bench.picked = tuple(t for t in bench.picked if t != tag)
    else:
        bench.picked = (*bench.picked, tag)[-2:]
    return len(bench.picked) == 2


def after_standing(bench: Bench, site: Site, tag: str) -> None:
    """Put the next truss of the yard in the hand: the next number of the same kind, held as the last one was."""
    waiting = yard(site)
    same = [t for t in waiting if site.layout.by_tag[t].kind == site.layout.by_tag[tag].kind]
    following = [t for t in same if number_of(t) > number_of(tag)]
    bench.truss = (following or same or waiting or [""])[0]
    bench.caught = ""


def place_of(site: Site, point: Point) -> str:
    """Say a place on the plan as a tape would: the nearest wall and the measure along it."""
    walls = site.layout.house.plan.walls
    best = min(walls, key=lambda w: (abs(on_wall(w, point)[1]), abs(on_wall(w, point)[0])))
    along, off = on_wall(best, point)
    text = _("wall {wall} at {at}").format(wall=best.name, at=f"{along:g}")
    return text + (_(", {off} in").format(off=f"{off:g}") if abs(off) > 0.5 else "")
