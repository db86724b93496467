"""What the learner has in the hand: the tool, what it is aimed at, and the action that comes of it.

No drawing and no rule of the trade: it turns choices, measures and places into actions of the diary.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import get_args

from trainer.board.aim import LIES, Aim, first_aim, on_wall, settle
from trainer.board.tools import ONE_STANDING, Tool, stage_of
from trainer.layout import Member
from trainer.layout.bracing import KINDS, RestraintKind
from trainer.layout.model import TAG_LETTERS
from trainer.level.as_found import WallFault
from trainer.picture.tags import number_of
from trainer.plan import Point, Wall
from trainer.site.actions import BraceKind, WallReading
from trainer.site.bracing import TYING
from trainer.site.fastening import BRACKETS, CONNECTORS, FRAMING
from trainer.site.model import Bracing, Site
from trainer.words import _

BRACES: tuple[BraceKind, ...] = get_args(BraceKind)
BRACE_NAMES: dict[str, str] = {
    "solid": _("solid: one truss to something that can't move"),
    "batten": _("batten: one truss to another"),
    "steel brace": _("steel brace: along the tops"),
    "diagonal": _("diagonal: across several"),
    "prop": _("prop: under one truss"),
}
PARTS = (*BRACKETS, *FRAMING)
BETWEEN = "between"
"""A reading of the board's own tape, between two points of the plan; no action comes of it."""
BOTH = 0
"""For both ends of a truss, one after the other."""
SPOTS = 3
"""From this number on, ``end`` is one of the other places at which a truss can be fixed."""


@dataclass
class Bench:
    """The state of the hand. ``at`` measures are from a wall's first corner or a truss's ``from`` end, mm.

    ``from_far``: the tape is hooked on the wall's other corner, so that what is shown and typed runs from there;
    ``on_mark``: with the mark tool, it is set down on the last mark instead.
    ``end`` is :data:`BOTH`, 1 or 2, or from :data:`SPOTS` on another place at which the truss can be fixed. ``tape``
    holds the points that the board's own tape was put to, or a piece of permanent bracing; ``point`` where it is held.
    ``rows_every`` is the gap between rows of battens, 0 before it is told.
    """

    tool: Tool
    aim: Aim
    truss: str = ""
    mark_on: str = ""
    mark_at: float = 0.0
    from_far: bool = False
    on_mark: bool = False
    part: str = PARTS[0]
    fit_on: str = ""
    fit_at: float = 0.0
    fit_placed: bool = False
    fit_every: float = 0.0
    fit_back: float = 0.0
    brace: BraceKind = "solid"
    rows_every: int = 0
    restraint: RestraintKind = KINDS[0]
    picked: tuple[str, ...] = ()
    end: int = 1
    connector: str = CONNECTORS[0]
    count: int = 1
    item: str = ""
    what: str = "between"
    wall: str = ""
    fault: str = "bowed wall"
    where: str = "tail"
    load: str = "battens"
    accept: bool = True
    piece: int = -1
    tape: tuple[Point, ...] = ()
    point: Point = (0.0, 0.0)
    caught: str = ""


def first_bench(site: Site) -> Bench:
    """Return the bench at the start: the first tool of the job that this level asks for."""
    wall = site.layout.house.plan.walls[0].name
    order: tuple[Tool, ...] = ("check", "mark", "stand", "brace", "fix", "inspect")
    tool: Tool = next((t for t in order if stage_of(t) in site.job.stages), "stand")
    return Bench(tool, Aim(wall, 0.0), mark_on=wall, wall=wall)


def yard(site: Site) -> list[str]:
    """Return the tags of the trusses not yet standing, girders first, then by tag."""
    letters = list(TAG_LETTERS)
    waiting = [m for m in site.layout.members if m.tag not in site.stood]
    return [m.tag for m in sorted(waiting, key=lambda m: (letters.index(m.kind), number_of(m.tag)))]


def member_in_hand(bench: Bench, site: Site) -> Member | None:
    """Return the truss taken from the yard, if one is."""
    return site.layout.by_tag.get(bench.truss) if bench.truss not in site.stood else None


def listed(bench: Bench) -> str:
    """Return the truss that lists show as chosen: with the mark tool the one that the mark goes on, none for a wall."""
    return bench.mark_on if bench.tool == "mark" else bench.truss


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
    if tool == "check":
        bench.item = next_item(site)
    if tool == "unbrace":
        bench.piece = -1
    if tool == "fix" and bench.end >= SPOTS:
        bench.end = 1
    bench.tape = ()


def next_item(site: Site) -> str:
    """Return the first pre-start item that has not been checked; the first of all once all have."""
    items = site.job.conditions.checks
    return next((item for item in items if item not in site.checked), items[0] if items else "")


def aims_at_wall(bench: Bench) -> bool:
    """Whether the tool is aimed at a wall as a whole."""
    return (bench.tool == "measure" and bench.what in get_args(WallReading)) or (
        bench.tool == "report" and bench.fault in get_args(WallFault)
    )


def aims_at_truss(bench: Bench) -> bool:
    """Whether the tool does something to one standing truss, and needs nothing more."""
    return bench.tool in ONE_STANDING or bench.tool in {"brace", "measure"}


def between_points(bench: Bench) -> bool:
    """Whether the tool is put to two points of the plan: the board's own tape, or permanent bracing."""
    return bench.tool == "restrain" or (bench.tool == "measure" and bench.what == BETWEEN)


def put_point(bench: Bench, index: int, point: Point) -> None:
    """Put the first or the second of the two points."""
    held = list(bench.tape) if len(bench.tape) == 2 else [*bench.tape, bench.point, bench.point][:2]
    held[index] = point
    bench.tape = (held[0], held[1])


def picks(bench: Bench) -> bool:
    """Whether the tool wants several standing trusses."""
    return bench.tool == "string" or (bench.tool == "brace" and bench.brace in TYING)


def turn(bench: Bench) -> None:
    """Turn the truss in the hand end for end, where it is."""
    bench.aim = replace(bench.aim, turned=not bench.aim.turned)


def lie(bench: Bench) -> None:
    """Let the truss in the hand lie the next way."""
    bench.aim = replace(bench.aim, lies=LIES[(LIES.index(bench.aim.lies) + 1) % len(LIES)])


def next_wall(bench: Bench, site: Site, step: int = 1) -> None:
    """Go on to the next wall: for the mark with the mark tool, for the truss otherwise."""
    names = [wall.name for wall in site.layout.house.plan.walls]
    aimed = aims_at_wall(bench)
    now = bench.wall if aimed else bench.mark_on if bench.tool == "mark" else bench.aim.wall
    name = names[(names.index(now) + step) % len(names)] if now in names else names[0]
    if aimed:
        bench.wall = name
    elif bench.tool == "mark":
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
    """Return a measure as the tape shows it, mm from where it is hooked."""
    start = hooked(bench, site, where)
    return start - at if start == length_of(site, where) else at - start


def meant(bench: Bench, site: Site, where: str, number: float) -> float:
    """Return the measure from a wall's first corner for a number that is read off the tape."""
    start = hooked(bench, site, where)
    return start - number if start == length_of(site, where) else start + number


def hooked(bench: Bench, site: Site, where: str) -> float:
    """Return where on a wall or truss the tape begins, mm from its start: an end, or the last mark there."""
    last = last_mark(bench, site, where)
    if last is not None:
        return last
    return length_of(site, where) if bench.from_far and where in site.layout.house.plan.by_name else 0.0


def last_mark(bench: Bench, site: Site, where: str) -> float | None:
    """Return the mark that the tape is set down on, mm from the start; None where it is hooked on an end."""
    made = site.set_out.get(where, ()) if bench.tool == "mark" and bench.on_mark else ()
    return made[-1].at if made else None


def bracing_at(bench: Bench, site: Site) -> Bracing | None:
    """Return the piece of bracing that is chosen: the last one put on, until another is."""
    if not site.bracing:
        return None
    return site.bracing[bench.piece if -len(site.bracing) <= bench.piece < len(site.bracing) else -1]


def tape_at(bench: Bench) -> int:
    """Return which of the tape's beginnings is chosen: the first corner, the other one, or the last mark."""
    return 2 if bench.on_mark and bench.tool == "mark" else int(bench.from_far)


def hook(bench: Bench, index: int) -> None:
    """Hook the tape on the first corner (0) or the other (1), or set it down on the last mark (2)."""
    bench.from_far, bench.on_mark = index == 1, index == 2


def put_tape(bench: Bench) -> None:
    """Put the board's own tape to where it is held: first its hook, then its end, then anew."""
    bench.tape = (bench.point,) if len(bench.tape) == 2 else (*bench.tape, bench.point)


def brace_with(bench: Bench, kind: BraceKind) -> None:
    """Take up another kind of bracing, with nothing picked for it yet."""
    bench.brace = kind
    bench.picked = ()


def pick(bench: Bench, tag: str) -> bool:
    """Pick a truss for what ties several, or leave it out again; return whether that is all it takes.

    A batten or a string takes two. Other bracing goes on until the learner says that it is enough.
    """
    pair = bench.tool == "string" or bench.brace == "batten"
    if tag in bench.picked:
        bench.picked = tuple(t for t in bench.picked if t != tag)
    else:
        bench.picked = (*bench.picked, tag)[-2:] if pair else (*bench.picked, tag)
    return pair and len(bench.picked) == 2


def after_standing(bench: Bench, site: Site, tag: str) -> None:
    """Put the next truss of the yard in the hand: the next number of the same kind, held as the last one was."""
    waiting = yard(site)
    same = [t for t in waiting if site.layout.by_tag[t].kind == site.layout.by_tag[tag].kind]
    following = [t for t in same if number_of(t) > number_of(tag)]
    bench.truss = (following or same or waiting or [""])[0]
    bench.caught = ""


def place_of(site: Site, point: Point) -> str:
    """Say a place on the plan as a tape would: the nearest wall that runs past it, and the measure along that."""

    def aside(wall: Wall) -> tuple[bool, float, float]:
        along, off = on_wall(wall, point)
        return (not 0 <= along <= wall.length, abs(off), abs(along))

    best = min(site.layout.house.plan.walls, key=aside)
    along, off = on_wall(best, point)
    text = _("wall {wall} at {at}").format(wall=best.name, at=f"{along:g}")
    return text + (_(", {off} in").format(off=f"{off:g}") if abs(off) > 0.5 else "")
