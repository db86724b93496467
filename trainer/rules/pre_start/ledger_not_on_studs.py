"""A truss hung on a ledger that is bolted to brick veneer."""

from __future__ import annotations

from trainer.rules.first_lift import built_over, cause_of_flaw
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("A truss was hung on wall {member}, and {got}. Wanted: {want}."),
    why=_("Brick veneer carries nothing but itself. A ledger bolted to it pulls out, and the roof comes down."),
    fix=_("Take the weight off. Report it, and have the ledger bolted to the studs by the designer's detail."),
    safety=_("Keep everybody out from under the ledger until it is right."),
    source=PRACTICE,
)
def ledger_not_on_studs(before: Site, event: Event, after: Site) -> Finds:
    """The first truss at a wall whose ledger is bolted to brick veneer, which was not reported."""
    for flaw in built_over(before, event, after, "ledger on brick veneer"):
        got, want = _("its ledger is bolted to the brick veneer"), _("the ledger bolted to the studs first")
        yield Found(flaw.wall, got, want, cause_of_flaw(flaw))
