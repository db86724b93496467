"""A roof brace that runs too nearly along the trusses, or too nearly across them."""

from __future__ import annotations

from trainer.rules.permanent import cause_of, put_in
from trainer.rules.rule import LEVEL, Finds, Found, rule
from trainer.site import Event, Restrain, Site
from trainer.site.restraints import angle_is_right, angle_to_trusses
from trainer.words import _


@rule(
    severity="rework",
    on=Restrain,
    what=_("The roof brace over {member} lies {got} to the trusses. Wanted: {want}."),
    why=_(
        "Too much in line with the trusses, it hardly pulls along the row. Too much along the row, it gets long and "
        "stretches."
    ),
    fix=_("Take it off. Run it again from plate to ridge, at an angle in the range."),
    safety=_("Work from a platform. Stand on no truss that is not braced and fixed."),
    source=LEVEL,
)
def roof_brace_at_wrong_angle(before: Site, event: Event, after: Site) -> Finds:
    """The brace just put in is outside the level's range of angles to the trusses, in plan."""
    piece = put_in(event, after)
    if piece and not angle_is_right(after, piece):
        spec = after.job.bracing
        got = _("at {angle:.0f}°").format(angle=angle_to_trusses(after, piece))
        want = _("{least:g}° to {most:g}°").format(least=spec.least_angle, most=spec.most_angle)
        yield Found(piece.crosses[0][0], got, want, cause_of(after, piece))
