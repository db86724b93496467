"""What may rightly be done next."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.order import Step, hold_steps
from trainer.site import AnyAction, Site, done, held, loose, ways
from trainer.site.overnight import over, unsafe_rows


@dataclass(frozen=True, slots=True)
class Hint:
    """A step that is ready, and a right action that does it."""

    step: Step
    action: AnyAction


def hints(site: Site) -> tuple[Hint, ...]:
    """Return every step that would be right now: all that must and should come before it is done.

    A truss is not ready to be stood while the last one stood in its row is not held, fast at both its ends
    where its ends hold it.
    """
    if site.handed_over:
        return ()
    order = site.job.order
    is_done = {step: done(site, step) for step in order.steps}
    ready = [s for s in order.steps if not is_done[s] and all(is_done[edge.first] for edge in order.into[s])]
    late = [when.step for when in order.late if when.after == site.lifted and not done(site, when.step)]
    may_stand = not late and (not over(site) or _left_safe(site))
    ready = [step for step in ready if step.verb != "stand" or (may_stand and _row_open(site, step))]
    if over(site):
        ready = [*(Step("secure", row) for row, _tags in unsafe_rows(site)), *ready]
    if late and not any(loose(site)) and all(_holds(site, last) for last in site.last_in_row.values()):
        ready = [*late, *ready]
    return tuple(Hint(step, ways(site, step)[0]) for step in ready)


def _left_safe(site: Site) -> bool:
    """Whether the site can be left for the night."""
    return all(_holds(site, last) for last in site.last_in_row.values()) and not any(unsafe_rows(site))


def _row_open(site: Site, step: Step) -> bool:
    last = site.last_in_row.get(site.layout.by_tag[step.tag].row)
    return last is None or _holds(site, last)


def _holds(site: Site, last: str) -> bool:
    """Whether the truss stood last in its row is held, by all that is to hold it."""
    if not held(site, last):
        return False
    place = site.stood[last].place
    return place is None or all(done(site, hold) for hold in hold_steps(site.layout, site.job.order, place))
