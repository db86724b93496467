"""A truss stood with a broken web or a loose nailplate."""

from __future__ import annotations

from trainer.rules.delivery import flaws_of
from trainer.rules.rule import PRACTICE, Finds, Found, rule, truss_of
from trainer.site import Event, Site, Stand
from trainer.words import _

WHOLE = {"broken web": _("every web whole"), "loose nailplate": _("every nailplate pressed home")}


@rule(
    severity="stop-work",
    on=Stand,
    what=_("{member} was stood with a {got}. Wanted: {want}."),
    why=_("A damaged truss can fail under the first load. At height it is also the hardest to mend."),
    fix=_("Take it down and set it aside. Report it, and wait for the fabricator's written repair."),
    safety=_("Keep out from under it. Look over every truss on the ground before it is lifted."),
    source=PRACTICE,
)
def damaged_truss_stood(before: Site, event: Event, after: Site) -> Finds:
    """The truss just stood came damaged, and that was not reported."""
    tag = truss_of(event)
    for flaw in flaws_of(after, tag):
        if flaw.what in WHOLE:
            yield Found(tag, flaw.what, WHOLE[flaw.what], f"flaw {flaw.what} {flaw.tag}")
