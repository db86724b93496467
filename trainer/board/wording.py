"""Names and short sentences for what stands in the diary and in the lists."""

from __future__ import annotations

from trainer.layout import Member
from trainer.picture.compare import Difference
from trainer.picture.measures import figure
from trainer.plan.points import half
from trainer.site import Site
from trainer.terms import STAGE_NAMES, Stage
from trainer.words import _

DIFFERS = {
    "missing": _("It does not stand."),
    "off": _("{tag} stands {off} mm from its place."),
    "turned": _("{tag} stands end for end."),
    "other": _("{tag} stands there, another kind of truss."),
    "astray": _("{tag} stands where no truss belongs."),
}


def difference(one: Difference) -> str:
    """Say how a truss differs from the reference."""
    return DIFFERS[one.what].format(tag=one.tag, off=figure(round(one.off)))


def size(member: Member) -> str:
    """Say how large a truss is: span, rise, tails, thickness."""
    rise = max(z for _run, z in member.top)
    tails = " / ".join(figure(round(end.tail)) if end.tail else _("none") for end in member.ends)
    plies = f"{member.plies} × {member.thickness:g}" if member.plies > 1 else f"{member.thickness:g}"
    return _("span {span} · top {rise} above the plate · tails {tails} · {plies} thick").format(
        span=figure(half(member.span)), rise=figure(round(rise)), tails=tails, plies=plies
    )


def begin(look_round: str, stage: Stage, site: Site) -> str:
    """Say how to begin on a house: by a look round, by this key, else in the first stage that is the learner's."""
    if look_round:
        return _("Read the job sheet. Then look round the site: {key}.").format(key=look_round)
    if site.done and "hand-over" in site.job.stages:
        return _("You go on where you left it.")
    said = _("Read the job sheet. Then begin on the left, at {stage}.").format(stage=STAGE_NAMES[stage])
    return said if "pre-start" in site.job.stages else f"{said} {_('Others did what comes before.')}"
