"""A roof brace that runs too nearly along the trusses, or too nearly across them."""

from __future__ import annotations

from trainer.rules.permanent import cause_of, put_in, roof_braces
from trainer.rules.rule import LEVEL, Finds, Found, rule
from trainer.site import Event, HandOver, Restrain, Restrained, Site
from trainer.site.restraints import angle_is_right, angle_to_trusses, unserved
from trainer.words import _


@rule(
    severity="rework",
    on=(Restrain, HandOver),
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
    """The brace just put in is outside the level's range of angles to the trusses, in plan.

    It is found again at hand-over, where no sound brace lies over the trusses under it: the roof is not whole.
    """
    if isinstance(event.action, HandOver):
        for piece in roof_braces(after):
            if not angle_is_right(after, piece) and _all_there_is(after, piece):
                yield _found(after, piece)
    elif (new := put_in(event, after)) and not angle_is_right(after, new):
        yield _found(after, new)


def _all_there_is(site: Site, piece: Restrained) -> bool:
    under = {site.stood[tag].place for tag, _run in piece.crosses}
    plans = (plan for plan in site.job.restraints if (plan.kind, plan.row) == (piece.kind, piece.row))
    return any(want.tag in under for plan in plans for want in unserved(site, plan, only_sound=True))


def _found(site: Site, piece: Restrained) -> Found:
    spec = site.job.bracing
    got = _("at {angle:.0f}°").format(angle=angle_to_trusses(site, piece))
    want = _("{least:g}° to {most:g}°").format(least=spec.least_angle, most=spec.most_angle)
    return Found(piece.crosses[0][0], got, want, cause_of(site, piece))
