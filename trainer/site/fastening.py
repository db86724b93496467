"""Brackets and fixings: what may be fitted and fastened where."""

from __future__ import annotations

from trainer.order.verge import ON_DUTCH
from trainer.site.actions import Fit, Fix
from trainer.site.crossing import at_place, no_trimmer
from trainer.site.doing import does
from trainer.site.holding import fastened, holding, with_hip_ends
from trainer.site.model import Event, Fastened, Fitted, Refused, Site, changed
from trainer.site.refusals import not_standing, past_the_end, unknown, unknown_truss
from trainer.site.verge import no_framing
from trainer.words import _

BRACKETS = ("hanger", "heavy girder bracket")
"""Parts that hold the end of a truss, at a place on its carrier."""
FRAMING = ("batten", "trimmer", "packer", "outrigger", "verge rafter", "gable stud", *ON_DUTCH, "plies joined")
CONNECTORS = ("framing anchor", "tie-down strap", *BRACKETS, "slotted bracket", "nails", "screws")
"""What fastens a truss: generic words only."""


@does(Fit)
def fit(site: Site, index: int, action: Fit) -> tuple[Site, Event] | Refused:
    """Fit a part to a truss, on the ground or standing, or to a ledger."""
    if action.part not in (*BRACKETS, *FRAMING):
        return unknown(_("part"), action.part, (*BRACKETS, *FRAMING))
    if refused := _not_there(site, action):
        return refused
    if action.at is None:
        if action.part in BRACKETS:
            text = _("Say where the {part} goes: at, in mm from the from end of {on}.")
            return Refused(text.format(part=action.part, on=action.on))
    elif refused := past_the_end(action.on, action.at, _length(site, action.on)):
        return refused
    if refused := no_framing(site, action) or (no_trimmer(site, action) if action.part == "trimmer" else None):
        return refused
    piece = Fitted(action.part, action.at, action.every, action.back)
    fitted = {**site.fitted, action.on: (*site.fitted.get(action.on, ()), piece)}
    return changed(site, fitted=fitted), Event(index, action)


def _not_there(site: Site, action: Fit) -> Refused | None:
    """Refuse what is no truss and no ledger, and on a ledger all but brackets."""
    if action.on not in site.layout.ledgers:
        return unknown_truss(site, action.on)
    if action.part in BRACKETS:
        return None
    return Refused(_("A ledger takes brackets, and nothing else. Fit the {part} on a truss.").format(part=action.part))


def _length(site: Site, on: str) -> float:
    """Length of a truss, or of the wall that a ledger lies along, mm."""
    ledger = site.layout.ledgers.get(on)
    return site.layout.house.plan.by_name[ledger].length if ledger else site.layout.by_tag[on].span


@does(Fix)
def fix(site: Site, index: int, action: Fix) -> tuple[Site, Event] | Refused:
    """Fasten an end of a standing truss, or a crossing."""
    if refused := not_standing(site, action.tag):
        return refused
    if action.with_ not in CONNECTORS:
        return unknown(_("connector"), action.with_, CONNECTORS)
    key = (action.tag, action.end) if action.end is not None else at_place(site, action)
    if isinstance(key, Refused):
        return key
    fixed = {
        **site.fixed,
        key: (*site.fixed.get(key, ()), Fastened(action.with_, action.count, action.nails == "half")),
    }
    after = changed(site, fixed=fixed)
    if action.tag not in site.holds and fastened(after, action.tag, after.holds):
        after = changed(after, holds=holding(after, {action.tag: "fastened"}))
    return with_hip_ends(after, action.tag), Event(index, action)
