"""Bottom chords with too long a stretch between ties, or with none."""

from __future__ import annotations

from trainer.rules.permanent import left_unserved, widest_gap
from trainer.rules.plain import mm
from trainer.rules.rule import LEVEL, Finds, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("{member} has {got} of bottom chord with no tie. Wanted: {want}."),
    why=_("In strong wind a bottom chord is pushed, not pulled. Between ties it can bow out sideways."),
    fix=_("Run another tie along the row, from its first truss to its last."),
    safety=_("Work from a platform under the chords. Do not walk on them."),
    source=LEVEL,
)
def bottom_chord_ties_too_far_apart(before: Site, event: Event, after: Site) -> Finds:
    """Bottom chords of a row are handed over with more between ties than the level allows; once a row."""
    for missing in left_unserved(after, "bottom-chord tie"):
        want = missing.wants[0]
        got = mm(widest_gap(after, "bottom-chord tie", want), want.gap)
        allowed = _("no more than {most}").format(most=mm(want.gap))
        yield Found(missing.tags(after)[0], got, allowed, missing.cause)
