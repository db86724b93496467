"""An extension left with nothing under it."""

from __future__ import annotations

from trainer.order import runs_over_truncated
from trainer.rules.plain import listed
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Remove, Site, Stand, held, steadied
from trainer.site.actions import Unbrace
from trainer.words import _, ngettext


@rule(
    severity="stop-work",
    on=(Stand, Unbrace, Remove),
    what=_("{member} was left with {got}. Wanted: {want}."),
    why=_("An extension carries nothing by itself. With no truss under it yet, it can snap or roll over."),
    fix=_("Prop or tie the extension. Leave the prop in until the trusses under it stand."),
    safety=_("Keep people out from under an extension that hangs free."),
    source=PRACTICE,
)
def extension_not_propped(before: Site, event: Event, after: Site) -> Finds:
    """Hands, the prop, or a truncated truss left an extension before all those under it stood."""
    if "brace" not in after.job.stages:
        return
    for tag in event.let_go:
        yield from _free(before, before, tag)
    for tag in _lost(before, event):
        yield from _free(before, after, tag)


def _lost(before: Site, event: Event) -> tuple[str, ...]:
    """The trusses that a brace, or a truss taken down, may have kept from hanging free."""
    if isinstance(event.action, Unbrace):
        return event.action.tags
    if not isinstance(event.action, Remove):
        return ()
    gone = event.action.tag
    over = (c.over for c in before.job.crossings.get(before.stood[gone].place or "", ()))
    on_it = [before.at_place[place] for place in over if place in before.at_place]
    return tuple(tag for tag in dict.fromkeys([*on_it, *before.ties.get(gone, ())]) if tag != gone)


def _free(before: Site, now: Site, tag: str) -> Finds:
    """Find a truss that was held, whose extension has nothing to hold it up ``now``."""
    place = now.stood[tag].place
    if place is None or not held(before, tag) or steadied(now, place):
        return
    missing = [other for other in runs_over_truncated(now.layout, place) if other not in now.at_place]
    want = ngettext(
        "a prop under it, or a tie, until {trusses} stands",
        "a prop under it, or a tie, until {trusses} stand",
        len(missing),
    ).format(trusses=listed(missing))
    yield Found(tag, _("its extension hanging free"), want, f"prop {place}")
