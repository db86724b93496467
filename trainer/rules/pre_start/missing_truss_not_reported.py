"""A truss that did not come with the load, and nobody said so."""

from __future__ import annotations

from trainer.rules.first_lift import cause_of_flaw, is_first_lift
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="habit",
    on=Stand,
    what=_("The first lift was made, and {got}: {member}. Wanted: {want}."),
    why=_("A truss that is missed at height stops the job. The row beside it has to wait half done."),
    fix=_("Count the load against the layout. Report what is missing, and wait for it if the row needs it."),
    safety=_("Never fill the gap with another truss."),
    source=PRACTICE,
)
def missing_truss_not_reported(before: Site, event: Event, after: Site) -> Finds:
    """Something is lifted for the first time, and a truss that did not come was not reported."""
    if is_first_lift(before):
        for flaw in before.flaws:
            if flaw.what == "missing truss":
                want = _("the load counted against the layout first")
                yield Found(flaw.tag, _("a truss that did not come was not reported"), want, cause_of_flaw(flaw))
