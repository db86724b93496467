"""Drills on danger: a look round the site, and the plan for a lift."""

from __future__ import annotations

from trainer.chance import shuffled
from trainer.drill.kind import drill, kind
from trainer.drill.model import CannotDrill, Drill, Kind
from trainer.drill.placing import place_words
from trainer.drill.playing import DrillSite
from trainer.generate.dangers import FROM_THE_START, of_beams, some_dangers
from trainer.generate.draw import Draw
from trainer.layout import Layout
from trainer.level import Level
from trainer.level.as_found import CHECKS
from trainer.level.dangers import Lifting
from trainer.order import Step
from trainer.site import start
from trainer.terms import KIND_NAMES
from trainer.words import _

DANGERS = 3
"""Dangers that lie about on the site of a drill."""
AT_BEAMS = 2
"""Things that are not ready at the beams of a drill."""


@kind(
    title=_("A look round"),
    skill=_("see what can hurt somebody before anything is lifted"),
    stages=("pre-start", "stand"),
    minutes=3,
    rules=(
        "service-line-in-reach",
        "stair-void-open",
        "edge-left-open",
        "people-under-the-lift",
        "forecast-not-heeded",
        "lifted-without-licence",
        "pack-landed-badly",
    ),
)
def look_round(me: Kind, level: Level, layout: Layout, seed: int) -> Drill:
    """Look at each place, and report what is there."""
    dangers = some_dangers(Draw(seed, DANGERS), layout, DANGERS, FROM_THE_START)
    site = level.site.model_copy(update={"dangers": dangers, "checks": CHECKS})
    as_found = level.model_copy(update={"site": site})
    scene = DrillSite.of(as_found, layout, seed)
    goal = [step for step in scene.job.order.steps if step.verb in ("check", "report")]
    task = _("Three things on this site can hurt somebody. Go round and look. Report each of them.")
    return drill(me, as_found, scene, goal, task)


@kind(
    title=_("Will the beam carry?"),
    skill=_("look at a verandah beam and its posts before they carry"),
    stages=("pre-start", "stand"),
    minutes=2,
    rules=("beam-not-bolted-down", "beam-propped", "post-not-braced", "post-not-tied-down"),
)
def beam_and_posts(me: Kind, level: Level, layout: Layout, seed: int) -> Drill:
    """Look at beams and posts, and report what is wrong with them."""
    kinds = of_beams(layout)
    if not kinds:
        raise CannotDrill(_("This house has no verandah beam."))
    dangers = some_dangers(Draw(seed, AT_BEAMS), layout, AT_BEAMS, kinds)
    site = level.site.model_copy(update={"dangers": dangers, "walls": (), "checks": ("beams and posts",)})
    as_found = level.model_copy(update={"site": site})
    scene = DrillSite.of(as_found, layout, seed)
    goal = [step for step in scene.job.order.steps if step.verb in ("check", "report")]
    task = _("A beam on posts is to carry trusses here. Two things are not ready. Look, and report both.")
    return drill(me, as_found, scene, goal, task)


@kind(
    title=_("How is it lifted?"),
    skill=_("plan a lift by the mass and the length of a truss"),
    stages=("pre-start", "stand"),
    minutes=2,
    rules=("lift-not-planned", "too-heavy-by-hand", "too-few-to-lift", "slung-at-apex", "slings-not-spread"),
)
def lift_plan(me: Kind, level: Level, layout: Layout, seed: int) -> Drill:
    """Plan how one kind of truss is lifted, and lift the first of it."""
    site = level.site.model_copy(update={"lifting": level.site.lifting or Lifting()})
    planned = level.model_copy(update={"site": site})
    scene = DrillSite.of(planned, layout, seed)
    # A saddle's place is told by what lies under it, which would be another lesson.
    chosen = shuffled([each for each in scene.job.lifts if each != "saddle"], seed, level.id, "kind")[0]
    lift, limits = scene.job.lifts[chosen], scene.job.conditions.lifting or Lifting()
    first = next(s for s in scene.sequence if s.verb == "stand" and layout.by_tag[s.tag].kind == chosen)
    task = _(
        "Here a {kind} weighs up to {mass} kg. It is up to {length} mm long. "
        "Hands lift {most} kg and {span} mm at most. Slings are spread over {spread} mm. "
        "Plan the lift. Then stand {tag} at {place}."
    ).format(
        kind=KIND_NAMES[chosen],
        mass=round(lift.mass),
        length=round(lift.length),
        most=limits.by_hand,
        span=limits.by_hand_span,
        spread=limits.spread_over,
        tag=first.tag,
        place=place_words(start(scene.job), layout.by_tag[first.tag]),
    )
    return drill(me, planned, scene, [Step("plan", chosen), first], task)
