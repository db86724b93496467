"""A truss in a place where another piece belongs."""

from __future__ import annotations

from trainer.rules.placement import in_wrong_place, looked_at, misplaced
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site, Stand
from trainer.words import _


@rule(
    severity="rework",
    on=(Stand, HandOver),
    what=_("{member} stands {got}. Wanted: {want}."),
    why=_("Each truss is made for its own place. The wrong one leaves a step in the roof, or can't carry its load."),
    fix=_("Take it down. Read the tag, then find that tag on the layout."),
    safety=_("Hold the truss until it is down. Never cut a truss to make it fit."),
    source=PRACTICE,
)
def wrong_truss_for_place(before: Site, event: Event, after: Site) -> Finds:
    """The truss just stood is not the piece that belongs there; any truss just like that piece will do.

    At hand-over again, if it stands there still: the roof is not whole.
    """
    for tag in looked_at(event, after):
        wrong = misplaced(after, tag) if in_wrong_place(after, tag) else None
        if wrong and wrong.how == "wrong truss":
            yield Found(tag, wrong.got, wrong.want, wrong.cause)
