"""Drills on how the work goes: its order, its bracing, its fixings."""

from __future__ import annotations

from collections.abc import Sequence

from trainer.chance import pick
from trainer.drill.kind import STAND, drill, kind
from trainer.drill.model import CannotDrill, Drill, Kind
from trainer.drill.playing import DrillSite
from trainer.layout import Layout
from trainer.level import Level
from trainer.order import TIED, Step
from trainer.order.verge import WALING
from trainer.words import _, listed

TO_STAND = 5
"""Trusses to be put in order."""
TO_BRACE = 4
"""Trusses of a row to be stood and braced."""


@kind(
    title=_("What order?"),
    skill=_("stand trusses so that each has what it needs first"),
    stages=STAND,
    minutes=5,
    rules=(
        "out-of-order", "carried-before-carrier", "hip-before-truncated-girder", "saddle-before-support",
        "taken-down-again",
    ),
)  # fmt: skip
def what_order(me: Kind, level: Level, layout: Layout, seed: int) -> Drill:
    """Stand a few trusses that wait for one another."""
    scene = DrillSite.of(level, layout, seed)
    waits = {m.tag: scene.needed([Step("stand", m.tag)])[-TO_STAND:] for m in layout.members}
    enough = [
        tag for tag, last in waits.items() if len(last) == TO_STAND and all(step.verb == "stand" for step in last)
    ]
    if not enough:
        raise CannotDrill(_("This needs trusses that wait for one another, such as a hip end."))
    goal = waits[pick(enough, seed, level.id, "last")]
    task = _("Stand {trusses}. They are not in order here. What goes first?")
    return drill(me, level, scene, goal, task.format(trusses=listed(sorted(step.tag for step in goal))))


@kind(
    title=_("Brace this row"),
    skill=_("tie each truss to something solid before it is let go"),
    stages=("stand", "brace"),
    minutes=4,
    rules=(
        "row-with-nothing-solid",
        "stood-before-last-tied",
        "bracing-taken-too-early",
        "top-chord-battens-too-far-apart",
    ),
)
def brace_the_row(me: Kind, level: Level, layout: Layout, seed: int) -> Drill:
    """Stand and brace the first trusses of a row, or the next after its hip end."""
    scene = DrillSite.of(level, layout, seed)
    rows = [_first_of_row(scene, tags) for tags in layout.rows.values()]
    rows = [stands for stands in rows if len(stands) > 1 and _alone(scene, stands)]
    if not rows:
        raise CannotDrill(_("This needs a row of trusses."))
    stands = pick(rows, seed, level.id, "row")
    goal = scene.left(_tied(stands))
    task = _("Stand {trusses}. Brace each one before you let it go. The first needs something solid.")
    if any(step.verb == "string" for step in goal):
        task += " " + _("Line up those between the outermost full-height trusses by a string.")
    return drill(me, level, scene, goal, task.format(trusses=listed([step.tag for step in stands])))


@kind(
    title=_("Fasten it"),
    skill=_("fit the bracket that a truss hangs in, and fasten both its ends"),
    stages=("stand", "fix"),
    minutes=3,
    rules=("hanger-missing", "heavy-girder-bracket-missing", "tie-down-missing"),
)
def fasten_it(me: Kind, level: Level, layout: Layout, seed: int) -> Drill:
    """Hang and fasten one truss; where none hangs, fasten one on its plates."""
    scene = DrillSite.of(level, layout, seed)
    whole = [m for m in layout.members if m.kind != "saddle"]
    hung = [m for m in whole if any(not end.on_plate for end in m.ends)]
    chosen = pick(hung or whole, seed, level.id, "fasten")
    goal = [s for s in scene.job.order.steps if s.tag == chosen.tag and s.verb in ("fit", "stand", "fix")]
    task = _("Put up {tag} with all that holds it. Look up its fixings. A bracket is fitted before the truss comes.")
    return drill(me, level, scene, goal, task.format(tag=chosen.tag))


@kind(
    title=_("Where its top lands"),
    skill=_("fix a top at all that it crosses, and have a waling plate on before one lands there"),
    stages=("stand", "fix"),
    minutes=3,
    rules=("extension-not-fixed", "waling-plate-missing"),
)
def land_it(me: Kind, level: Level, layout: Layout, seed: int) -> Drill:
    """Put up one truss whose top runs on over others, or lands on a waling plate, and fix it there."""
    scene = DrillSite.of(level, layout, seed)
    crossed: dict[str, list[str]] = {}
    for crossing in layout.crossings:
        if crossing.what == "extension":
            crossed.setdefault(crossing.over, []).append(crossing.under)
    if not crossed:
        raise CannotDrill(_("This needs a hip end whose tops run on over other trusses."))
    girders = {tag: next((u for u in under if layout.by_tag[u].is_dutch), "") for tag, under in crossed.items()}
    goals = {tag: _landing(scene, tag, girders[tag]) for tag in crossed}
    # One that can be put up with no other truss: what else is lifted would have to be held as well.
    alone = [tag for tag, goal in goals.items() if not _others(scene, tag, goal)]
    if not alone:
        raise CannotDrill(_("Here no truss runs on over others that could be put up by itself."))
    chosen = pick([tag for tag in alone if girders[tag]] or alone, seed, level.id, "land")
    goal = goals[chosen]
    task = _("Put up {tag}. Its top runs to {trusses}. Look at what it lands on. Then fix it at each of them.")
    return drill(me, level, scene, goal, task.format(tag=chosen, trusses=listed(crossed[chosen])))


def _landing(scene: DrillSite, tag: str, girder: str) -> list[Step]:
    """The steps of putting up one truss and fixing its top, where it lands on the waling plate of a ``girder`` too."""
    verbs = ("fit", "stand", "fix", "cross")
    goal = [step for step in scene.job.order.steps if step.tag == tag and step.verb in verbs]
    return [*goal, Step("frame", girder, WALING)] if girder else goal


def _others(scene: DrillSite, tag: str, goal: Sequence[Step]) -> list[Step]:
    """The stands of other trusses that such steps lead through."""
    return [step for step in scene.left(goal) if step.verb == "stand" and step.tag != tag]


def _first_of_row(scene: DrillSite, tags: Sequence[str]) -> list[Step]:
    """The stands that a row of standard trusses starts with; where it has but one, those of all that tip over."""
    stands = [step for step in scene.sequence if step.verb == "stand" and step.tag in tags]
    kinds = {stand: scene.job.layout.by_tag[stand.tag].kind for stand in stands}
    full = [stand for stand in stands if kinds[stand] in ("standard", "gable")]
    tied = [stand for stand in stands if kinds[stand] in TIED]
    return (full if len(full) > 1 else tied)[:TO_BRACE]


def _tied(stands: Sequence[Step]) -> list[Step]:
    return [step for stand in stands for step in (stand, Step("tie", stand.tag))]


def _alone(scene: DrillSite, stands: Sequence[Step]) -> bool:
    """Whether nothing but lining up has to be done between these stands and the ties after them."""
    between = set(scene.left(_tied(stands))) - set(_tied(stands))
    return all(step.verb in ("string", "plumb") for step in between)
