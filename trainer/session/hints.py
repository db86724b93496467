"""What may rightly be done next."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass

from trainer.order import HAND_OVER, Step, hold_steps
from trainer.order.pre_start import about_fault, fault_step
from trainer.site import AnyAction, Fall, Site, done, held, loose, next_out, plans, step_actions, to_clear
from trainer.site.actions import Clear, Report, Stop
from trainer.site.holding import held_by_own
from trainer.site.model import changed
from trainer.site.overnight import over, unsafe_rows

INSPECTING = frozenset({"read", "inspect"})
"""The verbs of the steps of the inspection at hand-over."""


@dataclass(frozen=True, slots=True)
class Hint:
    """A step that is ready, and a right action that does it.

    ``urgent``: it comes before anything else, since somebody could be hurt until it is done.
    """

    step: Step
    action: AnyAction
    urgent: bool = False


def hints(site: Site, open_causes: Collection[str] = ()) -> tuple[Hint, ...]:
    """Return every step that would be right now: all that must and should come before it is done.

    The first are those that put right what ``open_causes`` names, the causes of stop-works found so far; then those
    that hold the truss stood last. Before the hand-over the braces that are needed no more come out. After a fall
    nothing is right but to stop, to report it, and then to clear it, however late.

    A truss is not ready to be stood while the last one stood, in whatever row, is not held.
    """
    if site.handed_over:
        return ()
    if fall := to_clear(site):
        return (_after_a_fall(fall, lies=site.fall is not None),)
    found = list(_hints(site))
    holding = set(_holding(site))
    holds = [Hint(hint.step, hint.action, True) for hint in found if hint.step in holding]
    first = [*_puts_right(site, found, open_causes), *holds]
    steps = {hint.step for hint in first}
    # A truss may be inspected once it is straight, but what the roof still lacks comes first.
    rest = sorted((hint for hint in found if hint.step not in steps), key=lambda hint: hint.step.verb in INSPECTING)
    return (*dict.fromkeys(first), *rest)


def puts_right(site: Site, open_causes: Collection[str]) -> tuple[Hint, ...]:
    """Return what puts right, now, what ``open_causes`` names; nothing once all of it is."""
    if site.handed_over or site.fall is not None:
        return ()
    return tuple(_puts_right(site, list(_hints(site)), open_causes))


def _puts_right(site: Site, found: Iterable[Hint], open_causes: Collection[str]) -> Iterator[Hint]:
    yield from _planned_again(site, open_causes)
    for hint in found:
        if _cause(site, hint.step) in open_causes:
            yield Hint(hint.step, hint.action, True)
    yield from _never_tied(site, open_causes)


def _never_tied(site: Site, open_causes: Collection[str]) -> Iterator[Hint]:
    """Trusses that were let go unheld and that nothing holds but the others who put that right, those first that stand
    beside one that is held.
    """
    loose = {
        tag: Step("tie", site.stood[tag].place or tag)
        for tag, how in site.holds.items()
        if how == "put right" and tag in site.stood and tag not in site.fell
    }
    asked = {tag: step for tag, step in loose.items() if _cause(site, step) in open_causes}
    if not asked:
        return
    own = held_by_own(site)
    bare = changed(site, holds=own)
    actions = {tag: step_actions(bare, step)[0] for tag, step in asked.items() if tag not in own}
    for tag in sorted(actions, key=lambda tag: getattr(actions[tag], "kind", "") == "solid"):
        yield Hint(asked[tag], actions[tag], True)


def _hints(site: Site) -> Iterator[Hint]:
    """Every step that would be right on a site where nothing lies fallen, in the order of the job."""
    order = site.job.order
    is_done = {step: done(site, step) for step in order.steps}
    ready = [s for s in order.steps if not is_done[s] and all(is_done[edge.first] for edge in order.into[s])]
    late = [when.step for when in order.late if when.after == site.lifted and not done(site, when.step)]
    may_stand = not late and (not over(site) or _left_safe(site))
    ready = [step for step in ready if step.verb != "stand" or (may_stand and _may_lift(site))]
    if over(site):
        ready = [*(Step("secure", row) for row, _tags in unsafe_rows(site)), *ready]
    if late and not any(loose(site)) and _may_lift(site):
        ready = [*late, *ready]
    out = next_out(site) if HAND_OVER in ready else None
    if out is not None:
        ready.remove(HAND_OVER)
    yield from (Hint(step, step_actions(site, step)[0]) for step in ready)
    if out is not None:
        yield Hint(Step("strike", ""), out)


def _cause(site: Site, step: Step) -> str:
    """The cause that findings give where this step was left undone, :class:`trainer.rules.Finding`."""
    if step.verb == "check":
        return "pre-start"
    if about_fault(step):
        flaw = site.job.conditions.flaws[step.end]
        return f"flaw {flaw.what} {flaw.where}"
    if step.verb == "restrain":
        return f"restrain {site.job.restraint(step.tag).group}"
    return "lift plan" if step.verb == "plan" else f"{step.verb} {step.tag}"


def _holding(site: Site) -> Iterator[Step]:
    """The steps that hold the truss stood last, where it is not held yet: hands are still on it."""
    place = site.stood[site.last].place if site.last is not None else None
    if place is not None and not _may_lift(site):
        yield from hold_steps(site.layout, site.job.order, place)


def _planned_again(site: Site, open_causes: Collection[str]) -> Iterator[Hint]:
    """A lift that was planned badly is planned again, before the next truss of its kind goes up."""
    causes = [cause.split() for cause in open_causes if cause.startswith("lift plan ")]
    for kind, plan in site.plans.items():
        badly = any(words[2] == kind for words in causes) or (
            plan.slung == "apex" and "slung at the apex" in open_causes
        )
        if badly and kind in site.lifted_kinds:
            yield Hint(Step("plan", kind), plans(site.job, kind)[0], True)


def _after_a_fall(fall: Fall, *, lies: bool) -> Hint:
    if fall.reported:
        return Hint(Step("clear", ""), Clear(), True)
    if lies and not fall.stopped:
        return Hint(Step("stop", ""), Stop(), True)
    return Hint(fault_step("a fall", 0), Report(fault="a fall"), True)


def _left_safe(site: Site) -> bool:
    """Whether the site can be left for the night."""
    return _may_lift(site) and not any(unsafe_rows(site))


def _may_lift(site: Site) -> bool:
    """Whether the truss stood last is held, by all that is to hold it."""
    if site.last is None:
        return True
    if not held(site, site.last):
        return False
    place = site.stood[site.last].place
    return place is None or all(done(site, hold) for hold in hold_steps(site.layout, site.job.order, place))
