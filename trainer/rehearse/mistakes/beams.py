"""Beams and posts gone wrong: one that is not ready is loaded, one is braced to, or posts lose their braces."""

from __future__ import annotations

from collections.abc import Callable
from itertools import islice

from trainer.chance import shuffled
from trainer.order import TIED, Step
from trainer.rehearse.mistakes.dangers import lifted_through
from trainer.rehearse.mistakes.planting import Mistake, Planted, Planter, Plantings, RightAttempt, needs, without
from trainer.site import AnyAction, Brace, Flaw, Job, bears_on_beam, walls_of_beams
from trainer.site.actions import Unbrace
from trainer.words import _


def _loaded(fault: str, named: Callable[[Flaw], str]) -> Planter:
    """Plant that such a fault is not reported before the first truss on its beam."""

    def plant(job: Job, seed: int) -> Plantings:
        flaws = [(i, flaw) for i, flaw in enumerate(job.conditions.flaws) if flaw.what == fault]
        for number, flaw in shuffled(flaws, seed, "loaded", fault):
            step, walls = Step("report", flaw.where, number), walls_of_beams(job.layout, flaw)
            if step in job.order.into:
                steps, actions = without(job, seed, [step])
                stands = ((i, s.tag) for i, s in enumerate(steps) if s.verb == "stand")
                on_it = (i for i, tag in stands if bears_on_beam(job.layout, tag, walls))
                yield from (Planted(actions, named(flaw), event) for event in islice(on_it, 1))

    return plant


def _post(flaw: Flaw) -> str:
    return _("post {at}").format(at=flaw.where)


@needs(_("a verandah beam"))
def braced_to_beam(job: Job, seed: int) -> Plantings:
    """A truss is braced to the beam, and then as it should be."""
    if not job.layout.house.plan.beams:
        return
    attempt = RightAttempt.drawn(job, seed)
    solid = [
        (i, action)
        for i, action in enumerate(attempt.actions)
        if isinstance(action, Brace) and action.kind == "solid" and job.layout.by_tag[action.tags[0]].kind in TIED
    ]
    for at, action in shuffled(solid, seed, "to a beam"):
        wrong: list[AnyAction] = [
            Brace(kind="solid", tags=action.tags, to="beam"),
            Unbrace(kind="solid", tags=action.tags, to="beam"),
        ]
        yield Planted([*attempt.actions[:at], *wrong, *attempt.actions[at:]], action.tags[0], at)


@needs(_("a post whose braces somebody takes off"))
def post_brace_taken_off(job: Job, seed: int) -> Plantings:
    """Somebody takes the braces off a post, and nobody reports it."""
    fault = "post brace taken off"
    for flaw in (flaw for flaw in job.conditions.flaws if flaw.what == fault):
        for planted in lifted_through(job, seed, fault):
            yield Planted(planted.actions, _post(flaw), planted.event)


beam_not_bolted_down = Mistake(
    _loaded("beam not bolted down", lambda flaw: flaw.wall), _("a verandah beam that is not bolted down")
)
beam_propped = Mistake(_loaded("beam propped", lambda flaw: flaw.wall), _("a verandah beam with a prop under it"))
post_not_braced = Mistake(_loaded("post not braced", _post), _("a post that is not braced"))
post_not_tied_down = Mistake(_loaded("post not tied down", _post), _("a post that is not tied down"))
