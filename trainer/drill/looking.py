"""Drills on looking: at the delivery, at the plates, and at a finished roof in which something is wrong."""

from __future__ import annotations

from collections.abc import Iterable

from trainer.chance import pick, shuffled
from trainer.drill.kind import drill, kind
from trainer.drill.model import CannotDrill, Drill, Kind
from trainer.drill.playing import DrillSite
from trainer.layout import Layout
from trainer.level import Level
from trainer.level.as_found import TrussAsFound, WallAsFound
from trainer.rehearse import CannotOccur, plant
from trainer.rules import judged
from trainer.session import job_of
from trainer.site import AnyAction, HandOver, Job
from trainer.site.actions import Inspect
from trainer.words import _

SEEN = (
    "off-station", "setback-not-the-levels", "girder-off-plate-line", "end-for-end", "wrong-truss-for-place",
)  # fmt: skip
"""Mistakes that can be seen on a finished roof."""
SHORT = 2
"""Trusses that a delivery is short of."""
OUT = (12, 15, 18, 22)
"""By how much a plate is out of true, mm: clearly more than may be."""


@kind(
    title=_("How many?"),
    skill=_("count a delivery against the layout"),
    stages=("pre-start", "stand"),
    minutes=3,
    rules=("missing-truss-not-reported", "truss-missing", "truss-left-over"),
)
def how_many(me: Kind, level: Level, layout: Layout, seed: int) -> Drill:
    """Report the trusses that did not come."""
    short = shuffled(layout.members, seed, level.id, "short")[:SHORT]
    came_short = tuple(TrussAsFound(truss=member.tag, fault="missing truss") for member in short)
    task = _("Some trusses did not come. Count the yard against the layout. Report each one that is missing.")
    return _to_report(me, level, layout, seed, {"delivery": came_short}, task)


@kind(
    title=_("Are the plates true?"),
    skill=_("measure plates before anything stands on them"),
    stages=("pre-start", "stand"),
    minutes=3,
    rules=("plate-out-of-true", "report-without-looking"),
)
def true_plates(me: Kind, level: Level, layout: Layout, seed: int) -> Drill:
    """Report the plates that are out."""
    one, other, *_rest = shuffled([wall.name for wall in layout.house.plan.walls], seed, level.id, "walls")
    out = (
        WallAsFound(wall=one, fault="bowed wall", by=pick(OUT, seed, level.id, "bow")),
        WallAsFound(wall=other, fault="plate out of level", by=pick(OUT, seed, level.id, "level")),
    )
    task = _("Two plates are not true. One is bowed and one is out of level. Measure the walls. Report both.")
    return _to_report(me, level, layout, seed, {"walls": out}, task)


def _to_report(me: Kind, level: Level, layout: Layout, seed: int, found: dict[str, object], task: str) -> Drill:
    """A site on which something is ``found``, all of which is to be reported."""
    as_found = level.model_copy(update={"site": level.site.model_copy(update=found)})
    scene = DrillSite.of(as_found, layout, seed)
    return drill(me, as_found, scene, [step for step in scene.job.order.steps if step.verb == "report"], task)


@kind(
    title=_("Find the fault"),
    skill=_("inspect a finished roof against its layout"),
    stages=("set-out", "stand", "brace", "fix", "hand-over"),
    minutes=5,
    rules=SEEN,
)
def find_the_fault(me: Kind, level: Level, layout: Layout, seed: int) -> Drill:
    """Reject the truss that is wrong."""
    job = job_of(level, seed, layout=layout)
    for mistake in shuffled(SEEN, seed, level.id, "fault"):
        try:
            planted = plant(job, seed, mistake)
        except CannotOccur:
            continue
        faults = _faults(job, planted.actions)
        given = tuple(action for action in planted.actions if not isinstance(action, HandOver | Inspect))
        task = _("This roof is finished, and one thing is wrong. Look at each truss. Reject the one at fault.")
        return Drill(me.name, me.title, task, level, layout, seed, given, (), faults, me.minutes, (mistake,))
    raise CannotDrill(_("None of the faults to be found can occur on this house."))


def _faults(job: Job, actions: Iterable[AnyAction]) -> tuple[str, ...]:
    """The trusses that still stand at the end and that something was found of."""
    result = judged(job, actions)
    if result is None:
        raise AssertionError("a planted mistake should have been possible")
    site, findings = result
    return tuple(dict.fromkeys(finding.member for finding in findings if finding.member in site.stood))
