"""A dutch gable whose small verge has no ladders."""

from __future__ import annotations

from trainer.rules.framing import gables_asking
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.site.load_path import parts_on
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("The small verge on girder {member} has {got}. Wanted: {want}."),
    why=_("The roof runs out past the girder of a dutch gable. Only the ladders on its face carry that edge."),
    fix=_("Fix a verge ladder to the girder's face on each slope."),
    safety=_("Work from a platform inside the hip end. Never lean out over the verge."),
    source=PRACTICE,
)
def verge_ladder_missing(before: Site, event: Event, after: Site) -> Finds:
    """A dutch gable is handed over with nothing on its girder to carry the verge."""
    for place, tag, cause in gables_asking(after, "verge ladder"):
        if not parts_on(after, place, "verge ladder"):
            yield Found(tag, _("no verge ladders"), _("one on each slope, fixed to the girder's face"), cause)
