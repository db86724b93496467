"""A brace, or a truss that others were tied to, taken away while it was needed."""

from __future__ import annotations

from dataclasses import replace

from trainer.rules.letting_go import let_go_loose
from trainer.rules.permanent import lack_of_row
from trainer.rules.plain import listed
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Remove, Site, missing_for_girder, row_of
from trainer.site.actions import Unbrace
from trainer.site.holding import one_bay
from trainer.site.striking import Lack
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

    A girder of an opening is held by its brace until it is joined, fixed and tied into the permanently braced row
    beside it, with all that stands in its brackets fixed.
    Where a roof brace is missing that was to replace the braces of a row, they all came out too early for want of that.
    """
    strikes = isinstance(event.action, Unbrace) and event.action.kind == "solid"
    for loose in let_go_loose(before, event):
        if not loose.fell:
            lack = lack_of_row(before, row_of(before, loose.found.member)) if strikes else None
            yield replace(loose.found, cause=lack or loose.found.cause)
    if isinstance(event.action, Unbrace) and strikes:
        yield from _girder_not_finished(event.action, event, after)


def _girder_not_finished(action: Unbrace, event: Event, after: Site) -> Finds:
    """A girder that something else steadies for now, but not for good."""
    braced = {tag for piece in after.bracing if piece.solid for tag in piece.tags}
    for tag in action.tags:
        if tag not in braced and tag not in event.let_go and (lacks := missing_for_girder(after, tag)):
            got, want = _("with its brace off before it was finished"), listed([lack.what for lack in lacks])
            yield Found(tag, got, want, _cause(after, tag, lacks))


def _cause(site: Site, tag: str, lacks: list[Lack]) -> str:
    """What it came of: what else was left undone before; else the tie into the row beside it, or that row's braces."""
    tie = next((lack for lack in lacks if lack.undone.startswith("tie ")), None)
    if tie is None:
        return lacks[0].undone
    rows = (row_of(site, other) for other in site.ties.get(tag, ()) if one_bay(site, tag, other))
    return next((lack for row in rows if (lack := lack_of_row(site, row))), tie.undone)
