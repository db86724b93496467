"""Drills on where a truss goes: the tape, the first of a row, the right truss, the right way round."""

from __future__ import annotations

from collections.abc import Sequence

from trainer.chance import pick, shuffled
from trainer.drill.kind import STAND, drill, kind
from trainer.drill.model import CannotDrill, Drill, Kind
from trainer.drill.playing import DrillSite
from trainer.layout import Layout
from trainer.layout.model import Member
from trainer.level import Level
from trainer.order import Step
from trainer.site import Site, mark_wanted, same_both_ways, start
from trainer.words import _, listed

MARKS = 4
"""Marks of one drill, at most."""


@kind(
    title=_("Read the tape"),
    skill=_("mark stations on a plate by running measure"),
    stages=("set-out", "stand"),
    minutes=3,
    rules=("off-station", "spacing-too-wide"),
)
def read_the_tape(me: Kind, level: Level, layout: Layout, seed: int) -> Drill:
    """Mark one wall for a few trusses."""
    scene = DrillSite.of(level, layout, seed)
    by_wall: dict[str, dict[float, Step]] = {}
    for step in scene.job.order.steps:
        if step.verb == "mark" and layout.by_tag[step.tag].ends[step.end - 1].on_plate:
            wall, at = mark_wanted(start(scene.job), step.tag, step.end)
            if 0 < at < layout.house.plan.by_name[wall].length:
                by_wall.setdefault(wall, {})[at] = step
    if not by_wall:
        raise CannotDrill(_("Reading the tape needs a wall with a truss on it."))
    wall = pick(sorted(by_wall, key=lambda name: (-min(len(by_wall[name]), MARKS), name))[:2], seed, level.id, "wall")
    chosen = sorted(shuffled(sorted(by_wall[wall]), seed, level.id, "marks")[:MARKS])
    goal = [by_wall[wall][at] for at in chosen]
    task = _("Mark wall {wall} for {trusses}. Hook the tape once, at one end of the wall. Measure all from there.")
    return drill(me, level, scene, goal, task.format(wall=wall, trusses=listed([step.tag for step in goal])))


@kind(
    title=_("Where does the first one go?"),
    skill=_("find the station of the first truss of a row, mark it and stand it"),
    stages=("set-out", "stand"),
    minutes=3,
    rules=("setback-not-the-levels", "girder-off-plate-line", "dutch-girder-off-station", "off-station"),
)
def where_the_first_goes(me: Kind, level: Level, layout: Layout, seed: int) -> Drill:
    """Mark and stand the truss that its row starts from."""
    scene = DrillSite.of(level, layout, seed)
    hip_ends = [m for m in layout.members if m.kind == "truncated_girder" or m.is_dutch]
    others = [first for tags in layout.rows.values() for first in _first(scene, tags)]
    if not hip_ends and not others:
        raise CannotDrill(_("This needs a row of trusses that run from side to side."))
    chosen = pick(hip_ends or others, seed, level.id, "first")
    goal = [s for s in scene.job.order.steps if s.tag == chosen.tag and s.verb in ("mark", "stand")]
    task = _("{tag} goes up first in its row. Find its station on the layout. Mark both its ends, then stand it.")
    return drill(me, level, scene, goal, task.format(tag=chosen.tag))


@kind(
    title=_("Which truss goes here?"),
    skill=_("tell trusses apart that look alike"),
    stages=STAND,
    minutes=2,
    rules=("wrong-truss-for-place", "truss-left-over", "truss-missing"),
)
def which_truss(me: Kind, level: Level, layout: Layout, seed: int) -> Drill:
    """Stand the right truss in a place told by its measures."""
    scene = DrillSite.of(level, layout, seed)
    straight = [m for m in layout.members if m.kind not in ("hip", "saddle", "girder")]
    if not straight:
        raise CannotDrill(_("This needs trusses that stand square to the walls."))
    chosen = pick(_lookalikes(straight) or straight, seed, level.id, "which")
    task = _("One truss goes here: {place}. Find out which one it is, then stand it.")
    place = place_words(start(scene.job), chosen)
    return drill(me, level, scene, [Step("stand", chosen.tag)], task.format(place=place))


@kind(
    title=_("Turn it right"),
    skill=_("stand a truss with unlike ends the right way round"),
    stages=STAND,
    minutes=2,
    rules=("end-for-end", "tail-where-none-belongs"),
)
def turn_it_right(me: Kind, level: Level, layout: Layout, seed: int) -> Drill:
    """Stand a truss that fits one way only."""
    scene = DrillSite.of(level, layout, seed)
    unlike = [m for m in layout.members if m.kind != "saddle" and not same_both_ways(m)]
    if not unlike:
        raise CannotDrill(_("This needs a truss with unlike ends."))
    chosen = pick(unlike, seed, level.id, "turn")
    task = _("The two ends of {tag} are not alike. Look at its tails and its top. Stand it the right way round.")
    return drill(me, level, scene, [Step("stand", chosen.tag)], task.format(tag=chosen.tag))


def _first(scene: DrillSite, tags: Sequence[str]) -> list[Member]:
    """The truss of a row that stands first in this right order, if it runs from side to side."""
    tag = next(step.tag for step in scene.sequence if step.verb == "stand" and step.tag in tags)
    member = scene.job.layout.by_tag[tag]
    return [member] if member.kind in ("girder", "standard", "gable") else []


def _lookalikes(members: list[Member]) -> list[Member]:
    """Those that another truss could be taken for: as long, and made like it at the ends, but not the same piece."""
    groups: dict[tuple[object, ...], set[tuple[object, ...]]] = {}
    for member in members:
        groups.setdefault(_looks(member), set()).add(member.like)
    return [member for member in members if len(groups[_looks(member)]) > 1]


def _looks(member: Member) -> tuple[object, ...]:
    return round(member.span), tuple((end.on_plate, end.on_ledger, end.tail) for end in member.ends)


def place_words(site: Site, member: Member) -> str:
    """Return where a truss goes, by the measure at each of its ends from a wall's first corner or a truss's end."""
    said = []
    for end in (1, 2):
        where, at = mark_wanted(site, member.tag, end)
        text = _("wall {name} at {at}") if member.ends[end - 1].wall else _("{name} at {at}")
        said.append(text.format(name=where, at=f"{at:g}"))
    return listed(said)
