"""A lift before every pre-start item was checked."""

from __future__ import annotations

from trainer.rules.first_lift import is_first_lift
from trainer.rules.plain import listed
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("The first truss was lifted {got}, so {member} is not done. Wanted: {want}."),
    why=_("The checks before the start find what can hurt someone. Up on the plates it is too late to find it."),
    fix=_("Stop lifting. Go through the list with your supervisor, and put right what it shows."),
    safety=_("Nobody goes up, and nothing is lifted, until every item is checked."),
    source=PRACTICE,
)
def check_left_undone(before: Site, event: Event, after: Site) -> Finds:
    """Something is lifted for the first time, and items of the level's list were not checked."""
    left = [item for item in before.job.conditions.checks if item not in before.checked]
    if left and is_first_lift(before):
        got = _("before this was checked: {items}").format(items=listed(left))
        yield Found("pre-start", got, _("every item checked before anything is lifted"), "pre-start")
