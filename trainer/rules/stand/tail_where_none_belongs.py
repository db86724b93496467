"""A truss stood that came with a tail it should not have."""

from __future__ import annotations

from trainer.rules.delivery import flaws_of
from trainer.rules.rule import PRACTICE, Finds, Found, rule, truss_of
from trainer.site import Event, HandOver, Site, Stand
from trainer.words import _


@rule(
    severity="rework",
    on=(Stand, HandOver),
    what=_("{member} was stood {got}. Wanted: {want}."),
    why=_("A tail can't sit in a hanger, and runs into the wing beside it. It must not be cut off on site."),
    fix=_("Take it down and report it. The fabricator sends the right one, or a written detail."),
    safety=_("Check each end against the layout on the ground, not at height."),
    source=PRACTICE,
)
def tail_where_none_belongs(before: Site, event: Event, after: Site) -> Finds:
    """The truss just stood came with an unwanted tail, and that was not reported; or it is handed over with it."""
    over = isinstance(event.action, HandOver)
    for tag in after.stood if over else (truss_of(event),):
        for flaw in flaws_of(after, tag):
            if flaw.what == "unwanted tail":
                got = _("with a tail it should not have, and left so") if over else _("with a tail it should not have")
                yield Found(tag, got, _("the end as on the layout"), f"flaw {flaw.what} {flaw.tag}")
