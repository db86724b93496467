"""A carrier stood while its brackets lie loose in the pack."""

from __future__ import annotations

from trainer.rules.first_lift import cause_of_flaw
from trainer.rules.rule import PRACTICE, Finds, Found, rule, truss_of
from trainer.site import Event, Site, Stand, bracketed
from trainer.words import _


@rule(
    severity="rework",
    on=Stand,
    what=_("{member} was stood with {got}. Wanted: {want}."),
    why=_("A bracket is fitted on the ground, where all its bolts can be reached. At height some get left out."),
    fix=_("Take the carrier down, or reach it safely. Fit every bracket before anything hangs on it."),
    safety=_("Don't lean out to fit a bracket. Work from a platform."),
    source=PRACTICE,
)
def brackets_left_loose(before: Site, event: Event, after: Site) -> Finds:
    """A carrier just stood whose brackets came loose: they were neither reported nor all fitted."""
    tag = truss_of(event)
    if "pre-start" not in before.job.stages:
        return
    for flaw in before.flaws:
        if flaw.what == "loose brackets" and flaw.tag == after.stood[tag].piece and not _all_fitted(before, flaw.tag):
            want = _("its brackets fitted on the ground, or reported")
            yield Found(tag, _("its brackets lying loose in the pack"), want, cause_of_flaw(flaw))


def _all_fitted(site: Site, carrier: str) -> bool:
    return all(bracketed(site, hung.tag, hung.end) for hung in site.job.hung.get(carrier, ()))
