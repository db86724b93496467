"""An extension left with nothing under it."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.order import runs_over_truncated
from trainer.rules.plain import listed
from trainer.rules.rule import PRACTICE, Found, rule
from trainer.site import Event, Site, Stand, Unbrace, held, steadied
from trainer.words import _


@rule(
    "extension-not-propped",
    stage="brace",
    severity="stop-work",
    on=(Stand, Unbrace),
    what=_("{member} was left with {got}. Wanted: {want}."),
    why=_("An extension carries nothing by itself. With no truss under it yet, it can snap or roll over."),
    fix=_("Prop or tie the extension. Leave the prop in until the trusses under it stand."),
    safety=_("Keep people out from under an extension that hangs free."),
    source=PRACTICE,
)
def extension_not_propped(before: Site, event: Event, after: Site) -> Iterator[Found]:
    """Hands, or the prop, left an extension before the truncated trusses under it all stood."""
    unbraced = event.action.tags if isinstance(event.action, Unbrace) else ()
    for tag in (*event.let_go, *unbraced) if "brace" in after.job.stages else ():
        site = after if unbraced else before
        place = site.stood[tag].place
        if place is None or not held(before, tag) or steadied(site, place):
            continue
        missing = [other for other in runs_over_truncated(site.layout, place) if other not in site.at_place]
        want = _("a prop under it, or a tie, until {trusses} stand").format(trusses=listed(missing))
        yield Found(tag, _("its extension hanging free"), want, f"prop {place}")
