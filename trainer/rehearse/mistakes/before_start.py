"""The pre-start gone wrong: an item not checked, a fault not reported, a report without a look."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from trainer.chance import chance, shuffled
from trainer.order import Step
from trainer.rehearse.mistakes.planting import Mistake, Planted, Plantings, RightAttempt, needs, without
from trainer.rehearse.playing import actions_of
from trainer.site import MEASURED, Flaw, Job, bears_on_beam, looked, start, walls_of_beams
from trainer.site.actions import Report
from trainer.words import _


@needs(_("something to check before the start"))
def check_left_undone(job: Job, seed: int) -> Plantings:
    """One item of the level's list is never checked."""
    for item in shuffled(job.conditions.checks, seed, "not checked"):
        step = Step("check", item)
        if step in job.order.into:
            steps, actions = without(job, seed, [step])
            yield Planted(actions, "pre-start", _first(steps, lambda _: True))


@needs(_("a wall that is straight"))
def report_without_looking(job: Job, seed: int) -> Plantings:
    """A wall that is straight is reported as bowed, and nobody held a string to it."""
    attempt = RightAttempt.drawn(job, seed)
    crooked = {flaw.wall for flaw in job.conditions.flaws if flaw.what == "bowed wall"}
    for wall in shuffled([wall.name for wall in job.layout.house.plan.walls], seed, "no look"):
        if wall not in crooked and not looked(start(job), "bowed wall", wall):
            at = int(chance(seed, "no look", wall, "when") * (len(attempt.actions) - 1))
            wrong = Report(fault="bowed wall", wall=wall)
            yield Planted([*attempt.actions[:at], wrong, *attempt.actions[at:]], f"wall {wall}", at)


def _unreported(*faults: str, first_lift: bool = False) -> Callable[[Job, int], Plantings]:
    """Plant that a fault of these kinds is not reported: found at the first truss on its wall, or the first lift."""

    def plant(job: Job, seed: int) -> Plantings:
        flaws = [(i, flaw) for i, flaw in enumerate(job.conditions.flaws) if flaw.what in faults]
        for number, flaw in shuffled(flaws, seed, "not reported", *faults):
            step = Step("report", flaw.wall or flaw.tag, number)
            if step in job.order.into:
                steps, actions = without(job, seed, [step])
                anywhere = first_lift or flaw.what == "out of square"
                shows = (lambda _: True) if anywhere else _on_wall(job, flaw)
                if any(shows(member.tag) for member in job.layout.members):  # no truss stands on a gable wall
                    yield Planted(actions, flaw.wall or flaw.tag, _first(steps, shows))

    return plant


def _on_wall(job: Job, flaw: Flaw) -> Callable[[str], bool]:
    """Which trusses show a wall's fault: girders where studs are missing and there are any; else all on it.

    A beam's fault is shown by those on the beam.
    """
    layout, beams = job.layout, walls_of_beams(job.layout, flaw)
    on_it = [
        m
        for m in layout.members
        if (
            bears_on_beam(layout, m.tag, beams)
            if beams
            else flaw.wall in (layout.at_wall.get(m.tag), *(end.wall for end in m.ends if end.wall))
        )
    ]
    girders = [m for m in on_it if m.kind in ("girder", "truncated_girder")]
    tags = {m.tag for m in (girders if flaw.what == "studs missing" and girders else on_it)}
    return lambda tag: tag in tags


def _first(steps: Sequence[Step], on: Callable[[str], bool]) -> int:
    return next(i for i, step in enumerate(steps) if step.verb == "stand" and on(step.tag))


@needs(_("a truss that did not come"))
def missing_truss_not_reported(job: Job, seed: int) -> Plantings:
    """A truss that did not come is reported only when it is wanted, with others up already."""
    for number, flaw in enumerate(job.conditions.flaws):
        if flaw.what == "missing truss" and (late := Step("report", flaw.tag, number)) in job.order.into:
            steps = [step for step in RightAttempt.drawn(job, seed).sequence if step != late]
            event = _first(steps, lambda _: True)
            wanted = steps.index(Step("stand", flaw.tag))
            if event < wanted:
                yield Planted(actions_of(job, [*steps[:wanted], late, *steps[wanted:]], seed), flaw.tag, event)


@needs(_("brackets that came loose"))
def brackets_left_loose(job: Job, seed: int) -> Plantings:
    """Loose brackets are not reported, and their carrier is stood before all of them are fitted."""
    for number, flaw in enumerate(job.conditions.flaws):
        if flaw.what == "loose brackets" and (step := Step("report", flaw.tag, number)) in job.order.into:
            steps, actions = without(job, seed, [step])
            event = _first(steps, lambda tag, carrier=flaw.tag: tag == carrier)  # type: ignore[misc]
            fits = {Step("fit", hung.tag, hung.end) for hung in job.hung.get(flaw.tag, ())}
            if fits - set(steps[:event]):
                yield Planted(actions, flaw.tag, event)


unbraced_wall_loaded = Mistake(_unreported("wall not braced"), _("a wall that is not braced"))
ledger_not_on_studs = Mistake(_unreported("ledger on brick veneer"), _("a ledger on brick veneer"))
studs_missing_under_girder = Mistake(_unreported("studs missing"), _("a wall with studs missing"))
plate_out_of_true = Mistake(_unreported(*MEASURED), _("a plate that is out of true"))
pack_landed_badly = Mistake(
    _unreported("pack landed badly", "pack on a lintel", first_lift=True), _("a pack that was landed badly")
)
