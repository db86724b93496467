"""Long webs with nothing to hold their middles."""

from __future__ import annotations

from trainer.rules.permanent import left_unserved
from trainer.rules.plain import listed, mm
from trainer.rules.rule import LEVEL, Finds, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("{member} has {got}. Wanted: {want}."),
    why=_("A long thin web that is pushed bows out sideways. A tie at its middle keeps it straight."),
    fix=_("Run a tie along the row. Nail it to each long web near its middle."),
    safety=_("Work from a platform. Keep clear of the edges of the floor below."),
    source=LEVEL,
)
def long_web_not_tied(before: Site, event: Event, after: Site) -> Finds:
    """Webs longer than the level's limit are handed over with no tie near their middles; once a line of webs."""
    for missing in left_unserved(after, "web tie"):
        tags = missing.tags(after)
        over = mm(after.job.bracing.web_ties_over)
        got = _("a web longer than {over} with no tie").format(over=over)
        yield Found(tags[0], got, _("a tie along the webs of {trusses}").format(trusses=listed(tags)), missing.cause)
