"""Things done too early: a truss set down before what carries it is ready, or before others that should go first."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise

from trainer.chance import pick, shuffled
from trainer.layout.model import Member
from trainer.order import TIED, Edge, Step, as_good, hold_steps, runs_over_truncated
from trainer.order.straightening import STRING_FIRST
from trainer.rehearse.mistakes.planting import Planted, Plantings, RightAttempt, needs, planted_in_order
from trainer.rehearse.playing import actions_of, play
from trainer.site import AnyAction, Job, Refused, Remove, act, held, start
from trainer.words import _, listed

DRAWS = 30
"""As many orders as are drawn to find one with room for what is done too late."""
DRAWS_APART = 1_000_003
"""How far apart the seeds of those draws are."""


@needs(_("a truss that hangs on a girder"))
def carried_before_carrier(job: Job, seed: int) -> Plantings:
    """A truss is hung before its carrier is ready."""
    yield from _before_ready(
        job, seed, lambda m, c: m.kind != "saddle" and (m.kind, c.kind) != ("hip", "truncated_girder")
    )


@needs(_("a hip on a truncated girder"))
def hip_before_truncated_girder(job: Job, seed: int) -> Plantings:
    """A hip truss is set down before its truncated girder is ready."""
    yield from _before_ready(job, seed, lambda m, c: (m.kind, c.kind) == ("hip", "truncated_girder"))


@needs(_("a saddle"))
def saddle_before_support(job: Job, seed: int) -> Plantings:
    """A saddle is set down before a truss under it is ready."""
    yield from _before_ready(job, seed, lambda m, _: m.kind == "saddle")


@needs(_("trusses with a better order"))
def out_of_order(job: Job, seed: int) -> Plantings:
    """A truss is stood before one that by good habit goes first."""
    edges = [e for edges in job.order.into.values() for e in edges if _is_habit(job, e)]
    for edge in shuffled(edges, seed, "out of order"):
        # The string waits for the outermost two: what goes up before one of them does not wait for the string either.
        freed = STRING_FIRST if edge.why == "outermost first" else ""
        if planted := planted_in_order(job, seed, edge.first, edge.then, freed):
            yield planted


@needs(_("a truss that is stood"))
def taken_down_again(job: Job, seed: int) -> Plantings:
    """A truss is stood, taken down for no reason, and stood again."""
    attempt = RightAttempt.drawn(job, seed)
    for i in shuffled(attempt.quiet_lifts, seed, "taken down"):
        tag = attempt.steps[i].tag
        stood = attempt.actions[i]
        yield Planted([*attempt.actions[: i + 1], Remove(tag=tag), stood, *attempt.actions[i + 1 :]], tag, i + 1)


@needs(_("a row that is braced as it goes up"))
def stood_before_last_tied(job: Job, seed: int) -> Plantings:
    """The next truss is lifted before the last one is tied, in a row where something is held."""
    yield from _tied_late(job, seed, first_of_row=False)


@needs(_("a row that is braced as it goes up"))
def row_with_nothing_solid(job: Job, seed: int) -> Plantings:
    """The first truss of a row is let go with no brace."""
    yield from _tied_late(job, seed, first_of_row=True)


@needs(_("a row that is braced as it goes up"))
def worked_on_after_a_fall(job: Job, seed: int) -> Plantings:
    """The first truss of a row falls when it is let go, and work goes on as if nothing had happened."""
    for planted in _tied_late(job, seed, first_of_row=True):
        site = start(job)
        for index, action in enumerate(planted.actions):
            result = act(site, index, action)
            if isinstance(result, Refused):
                break
            site, event = result
            if event.went_on is not None:
                fell = [tag for tag, lying in event.went_on.lying.items() if not lying.struck]
                yield Planted(planted.actions, listed(fell, most=3), index)
                break


@needs(_("a truss whose ends are fixed before the next is lifted"))
def let_go_half_fixed(job: Job, seed: int) -> Plantings:
    """The next truss is lifted while one that is held otherwise still has an end to be fixed."""
    for again in range(DRAWS):
        steps = RightAttempt.drawn(job, seed + again * DRAWS_APART).sequence
        for this, then in shuffled(list(_lifts(steps)), seed, "half fixed"):
            fixes = [step for step in hold_steps(job.layout, job.order, this.tag) if step.verb == "fix"]
            if fixes and (planted := held_late(job, seed, steps, then, [pick(fixes, seed, this.tag, "which end")])):
                yield planted


def _before_ready(job: Job, seed: int, meant: Callable[[Member, Member], bool]) -> Plantings:
    """What a truss is to come down on does not stand yet, or an end of it is fixed only afterwards."""
    by_tag = job.layout.by_tag
    choices = [
        (step, Step("stand", member.tag))
        for member in job.layout.members
        for carrier in member.carried_by
        for step in (Step("stand", carrier), Step("fix", carrier, 1), Step("fix", carrier, 2))
        if meant(member, by_tag[carrier])
    ]
    choices = shuffled([c for c in choices if c[0] in job.order.into], seed, "before ready")
    for again in range(DRAWS if choices else 0):
        steps = RightAttempt.drawn(job, seed + again * DRAWS_APART).sequence
        for late, early in choices:
            if late.verb == "fix":
                planted = _fixed_late(job, seed, steps, late, early)
            else:
                planted = planted_in_order(job, seed, late, early) if not again else None
            if planted:
                yield planted


def _fixed_late(job: Job, seed: int, steps: Sequence[Step], late: Step, early: Step) -> Planted | None:
    """Fix an end of a carrier only after the first truss is set down on it; none where another was by then."""
    on_it = [Step("stand", tag) for tag in job.layout.carries[late.tag]]
    if min(map(steps.index, on_it), default=-1) != steps.index(early):
        return None
    event = steps.index(early)
    before = [step for step in steps[: event + 1] if step != late]
    played = play(start(job), [*before, late, *steps[event + 1 :]], seed)
    return Planted(played.actions, early.tag, played.steps.index(early))


def _is_habit(job: Job, edge: Edge) -> bool:
    of_stands = edge.strength == "should" and edge.first.verb == "stand"
    carried = of_stands and edge.first.tag in job.layout.by_tag[edge.then.tag].carried_by
    if not of_stands or carried or as_good(job.layout, edge):
        return False
    return not _left_hanging(job, edge)


def _left_hanging(job: Job, edge: Edge) -> bool:
    """Whether an extension would hang free, unpropped, where a truss under it comes too late: more than a habit."""
    propped = Step("prop", edge.then.tag) in job.order.into
    return not propped and edge.first.tag in runs_over_truncated(job.layout, edge.then.tag)


def _tied_late(job: Job, seed: int, first_of_row: bool) -> Plantings:
    if "brace" not in job.stages:
        return
    for again in range(DRAWS):
        steps = RightAttempt.drawn(job, seed + again * DRAWS_APART).sequence
        firsts = _firsts(job, steps)
        for this, then in shuffled(list(_lifts(steps)), seed, "tied late"):
            if (this in firsts) != first_of_row:
                continue
            holds = hold_steps(job.layout, job.order, this.tag)
            ties = [step for step in holds if step.verb == "tie"] or holds
            if planted := held_late(job, seed, steps, then, ties):
                yield planted


def held_late(job: Job, seed: int, steps: Sequence[Step], then: Step, late: Sequence[Step]) -> Planted | None:
    """Do the steps ``late``, which hold one truss, only after ``then``; none where something on it waits for them.

    Nor where lifting stops in between: hands would leave it then.
    """
    stood = steps.index(then)
    done = [steps.index(step) for step in late]
    if not done or max(done) > stood or any(step.verb == "stop" for step in steps[min(done) : stood]):
        return None
    tag = late[0].tag
    waiting = {Step("stand", other) for other in job.layout.carries[tag]}
    if waiting & set(steps[min(done) : stood + 1]):
        return None
    before = [step for step in steps[: stood + 1] if step not in late]
    actions = actions_of(job, [*before, *late, *steps[stood + 1 :]], seed)
    event = _let_go_at(job, actions, tag)
    return None if event is None else Planted(actions, tag, event)


def _let_go_at(job: Job, actions: Sequence[AnyAction], tag: str) -> int | None:
    """When a truss is first let go; none where some other bracing holds it by then, so that all is well."""
    site = start(job)
    for index, action in enumerate(actions):
        result = act(site, index, action)
        if isinstance(result, Refused):
            return None
        after, event = result
        if tag in event.let_go:
            return index if not held(site, tag) else None
        site = after
    return None


def _lifts(steps: Sequence[Step]) -> Iterator[tuple[Step, Step]]:
    """Each lift with the next."""
    yield from pairwise(step for step in steps if step.verb == "stand")


def _firsts(job: Job, steps: Sequence[Step]) -> set[Step]:
    """The lift of the first truss of each row that tips over."""
    firsts: dict[str, Step] = {}
    for step in steps:
        if step.verb == "stand":
            firsts.setdefault(job.layout.by_tag[step.tag].row, step)
    return {step for step in firsts.values() if job.layout.by_tag[step.tag].kind in TIED}
