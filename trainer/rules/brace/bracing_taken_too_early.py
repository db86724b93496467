"""A brace, or a truss that others were tied to, taken away while it was needed."""

from __future__ import annotations

from trainer.rules.letting_go import let_go_loose
from trainer.rules.plain import listed
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Remove, Site, missing_for_girder
from trainer.site.actions import Unbrace
from trainer.words import _


@rule(
    severity="stop-work",
    on=(Remove, Unbrace),
    what=_("{member} was left {got}. Wanted: {want}."),
    why=_("Temporary bracing holds the roof until the permanent bracing is in. Take it early and trusses tip."),
    fix=_("Put it back at once. Brace another way first, then take it off."),
    safety=_("Look along the row before you loosen a brace. Keep everyone clear."),
    source=PRACTICE,
)
def bracing_taken_too_early(before: Site, event: Event, after: Site) -> Finds:
    """What held a truss was taken away, in a row where something else is held; once for what was taken.

    A girder of an opening is held by its brace until it is finished and tied into the permanently braced row beside it.
    """
    for loose in let_go_loose(before, event):
        if not loose.fell:
            yield loose.found
    if isinstance(event.action, Unbrace) and event.action.kind == "solid":
        yield from _girder_not_finished(event.action, event, after)


def _girder_not_finished(action: Unbrace, event: Event, after: Site) -> Finds:
    """A girder that something else steadies for now, but not for good."""
    braced = {tag for piece in after.bracing if piece.kind == "solid" for tag in piece.tags}
    for tag in action.tags:
        if tag not in braced and tag not in event.let_go and (lacks := missing_for_girder(after, tag)):
            yield Found(tag, _("with its brace off before it was finished"), listed(lacks), f"tie {tag}")
