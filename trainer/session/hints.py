"""What may rightly be done next."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.order import HAND_OVER, Step, hold_steps
from trainer.site import AnyAction, Fall, Site, done, held, loose, next_out, step_actions
from trainer.site.actions import Clear, Report
from trainer.site.overnight import over, unsafe_rows


@dataclass(frozen=True, slots=True)
class Hint:
    """A step that is ready, and a right action that does it."""

    step: Step
    action: AnyAction


def hints(site: Site) -> tuple[Hint, ...]:
    """Return every step that would be right now: all that must and should come before it is done.

    Before the hand-over the braces that are needed no more come out. After a fall nothing is right but to report it,
    and then to clear it.

    A truss is not ready to be stood while the last one stood, in whatever row, is not held.
    """
    if site.handed_over:
        return ()
    if site.fall is not None:
        return (_after_a_fall(site.fall),)
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
    if HAND_OVER in ready and (out := next_out(site)) is not None:
        ready.remove(HAND_OVER)
        return (*(Hint(step, step_actions(site, step)[0]) for step in ready), Hint(Step("strike", ""), out))
    return tuple(Hint(step, step_actions(site, step)[0]) for step in ready)


def _after_a_fall(fall: Fall) -> Hint:
    if fall.reported:
        return Hint(Step("clear", ""), Clear())
    return Hint(Step("report", "a fall"), Report(fault="a fall"))


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
