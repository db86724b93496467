"""A verge with no rafters along it."""

from __future__ import annotations

from trainer.rules.framing import gables_asking
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.site.load_path import parts_on
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("The verge at {member} has {got}. Wanted: {want}."),
    why=_("Verge rafters close the roof's edge. The barge board and the battens are fixed to them."),
    fix=_("Fix a verge rafter to the ends of the outriggers, all along the verge."),
    safety=_("Work from a guarded platform or scaffold at the gable. Never lean out over the verge."),
    source=PRACTICE,
)
def verge_rafters_missing(before: Site, event: Event, after: Site) -> Finds:
    """A gable whose verge overhangs is handed over without its verge rafters."""
    for place, tag, cause in gables_asking(after, "verge rafter"):
        if parts_on(after, place, "outrigger") and not parts_on(after, place, "verge rafter"):
            wanted = sum((part.part, part.on) == ("verge rafter", place) for part in after.layout.parts)
            want = _("a pair of them, on the ends of the outriggers")
            if wanted == 1:  # up to a higher wall, or to an inside corner where a lower roof begins
                want = _("one, on the ends of the outriggers")
            yield Found(tag, _("no verge rafters"), want, cause)
