"""A roof brace that stops on the slope, so that it is no one line from plate to ridge."""

from __future__ import annotations

from trainer.rules.permanent import cause_of, roof_braces
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.site.restraints import foot_and_top, top_truss
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("The roof brace over {member} stops {got}. Wanted: {want}."),
    why=_("A brace works as one line from the plate to the ridge. A gap in it holds nothing."),
    fix=_("Run it on to the ridge, or join the next length to its end."),
    safety=_("Work from a platform. Stand on no truss that is not braced and fixed."),
    source=PRACTICE,
)
def roof_brace_broken(before: Site, event: Event, after: Site) -> Finds:
    """A brace is handed over with its upper end neither at the ridge nor joined to another brace."""
    for piece in roof_braces(after):
        if foot_and_top(after, piece)[1] == "loose":
            got, want = _("on the slope, joined to nothing"), _("one line up to the ridge")
            yield Found(top_truss(after, piece), got, want, cause_of(after, piece))
