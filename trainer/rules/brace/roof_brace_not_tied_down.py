"""A roof brace whose lower end is not taken round the plate."""

from __future__ import annotations

from trainer.rules.permanent import cause_of, roof_braces
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.site.restraints import foot_and_top, foot_truss, past_plate
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("The roof brace over {member} ends {got}. Wanted: {want}."),
    why=_("A brace pulls on its end. It must pull on the wall, or it only bends a truss."),
    fix=_("Run the end down to the plate. Take it round the plate and nail it off."),
    safety=_("Work from inside the walls. Do not lean out over the eave."),
    source=PRACTICE,
)
def roof_brace_not_tied_down(before: Site, event: Event, after: Site) -> Finds:
    """A brace is handed over with its lower end on a truss, neither at a plate nor taken on by another brace."""
    for piece in roof_braces(after):
        if foot_and_top(after, piece)[0] not in ("plate", "joined"):
            got = _("past the plate, out on the tails") if past_plate(after, piece) else _("short of the plate")
            want = _("its lower end round the plate")
            yield Found(foot_truss(after, piece), got, want, cause_of(after, piece))
