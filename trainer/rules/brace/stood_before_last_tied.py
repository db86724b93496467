"""The next truss stood while the last one was still loose."""

from __future__ import annotations

from dataclasses import replace

from trainer.order import TIED
from trainer.rules.letting_go import let_go_loose, never_tied
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=(Stand, HandOver),
    what=_("{member} was let go {got}. Wanted: {want}."),
    why=_(
        "A truss can't stand alone. A bump or a gust tips it. It takes others with it, and people. "
        "Short blocks between trusses brace nothing."
    ),
    fix=_("Brace and tie each truss before you let it go. Only then stand the next."),
    safety=_("Keep hold of the truss, by hand or by crane, until it is tied."),
    source=PRACTICE,
)
def stood_before_last_tied(before: Site, event: Event, after: Site) -> Finds:
    """Hands left a truss that nothing held, in a row where something else was held.

    One that nothing was tied to until hand-over is found again then: the roof is not whole.
    """
    for loose in let_go_loose(before, event):
        if not loose.fell:
            yield _and_stayed_up(before, event, loose.found)
    if isinstance(event.action, HandOver):
        yield from never_tied(before)


def _and_stayed_up(before: Site, event: Event, found: Found) -> Found:
    """Why it did not go over, as a row with nothing held in it does: others were there to catch it by."""
    if before.layout.by_tag[found.member].kind not in TIED:
        return found
    if event.went_on is not None:
        text = _("{how}. It is read as braced to what fell, as if that had been cleared and stood again")
    else:
        text = _(
            "{how}. It stayed up only because another truss in its row is held. "
            "It is taken as braced to that one from here on, so that the rest can be judged"
        )
    return replace(found, got=text.format(how=found.got))
