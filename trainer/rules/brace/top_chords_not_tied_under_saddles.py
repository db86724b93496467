"""Top chords under saddles, which no batten holds, left without ties."""

from __future__ import annotations

from trainer.rules.permanent import left_unserved, widest_gap
from trainer.rules.plain import mm
from trainer.rules.rule import LEVEL, Finds, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("{member} has {got} of top chord under saddles with no tie. Wanted: {want}."),
    why=_("Roof battens hold top chords straight. Under saddles there are none, so ties must do it."),
    fix=_("Run ties over the top chords there, from valley to valley."),
    safety=_("Work from a platform. Stand on no loose truss."),
    source=LEVEL,
)
def top_chords_not_tied_under_saddles(before: Site, event: Event, after: Site) -> Finds:
    """Top chords under the saddles of one opening are handed over with more between ties than the level allows."""
    for missing in left_unserved(after, "top-chord tie"):
        worst = max(missing.wants, key=lambda want: widest_gap(after, "top-chord tie", want))
        got = mm(widest_gap(after, "top-chord tie", worst), worst.gap)
        allowed = _("no more than {most}").format(most=mm(worst.gap))
        yield Found(after.at_place[worst.tag], got, allowed, missing.cause)
