"""Outriggers or verge ladders fitted before the row behind them is straight and braced."""

from __future__ import annotations

from trainer.order import Step
from trainer.order.verge import FRAMED, WITH_VERGE
from trainer.rules.carriers import cause_of
from trainer.rules.permanent import cause_of_lack
from trainer.rules.placement import in_wrong_place
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.rules.trueness import cause_of_untrue, out_of_true
from trainer.site import Event, Fit, Site, missing_before
from trainer.site.restraints import unserved
from trainer.site.shape import pulled_over_by
from trainer.words import _


@rule(
    severity="habit",
    on=Fit,
    what=_("The verge at {member} was framed {got}. A better order is {want}."),
    why=_("Outriggers tie the gable to its row. Framed too soon, a verge is as crooked as its row."),
    fix=_("Nothing to undo if the row comes straight. Next time, straighten and brace it first."),
    safety=_("Work from a guarded platform or scaffold at the gable. Never lean out over the verge."),
    source=PRACTICE,
)
def verge_before_row_straight(before: Site, event: Event, after: Site) -> Finds:
    """A verge is begun while a truss of the row is still to be tied, straightened or braced; once a gable."""
    action = event.action
    if not isinstance(action, Fit) or action.part not in WITH_VERGE or not before.job.gable_framing:
        return
    place = before.stood[action.on].place
    told = any(piece.part == action.part for piece in before.fitted.get(action.on, ()))
    if place is None or told or any(in_wrong_place(before, tag) for tag in before.stood):
        return
    if missing := missing_before(before, Step("frame", place, FRAMED.index(action.part) + 1)):
        got, want = _("before its row was straight and braced"), _("the row first, then the verge")
        yield Found(action.on, got, want, _cause(before, [edge.first for edge in missing]))


def _cause(site: Site, late: list[Step]) -> str:
    """What the row waits for: a truss that does not stand, else what is still to be done to it."""
    restraints = [site.job.restraint(step.tag) for step in late if step.verb == "restrain"]
    over = [tag for piece in restraints for tag in piece.over]
    places = [*over, *(step.tag for step in late if step.verb != "restrain")]
    if unstood := [tag for tag in places if tag not in site.at_place]:
        return f"stand {unstood[0]}"
    if restraints:
        piece = restraints[0]
        return cause_of_lack(site, piece, unserved(site, piece, only_sound=False))
    # A truss out of line alone waits for its row's string, not for its own plumbing.
    outs = list(out_of_true(site, site.at_place[late[-1].tag])) if late[-1].verb == "plumb" else []
    # One that leans because a strap was pulled too hard waits for that.
    not_its_own = len(outs) == 1 and (outs[0].way == "apex" or pulled_over_by(site, site.at_place[late[-1].tag]))
    return cause_of_untrue(site, site.at_place[late[-1].tag], outs[0]) if not_its_own else cause_of(late[-1])
