"""Names and short sentences for what stands in the diary and in the lists."""

from __future__ import annotations

from trainer.layout import Member
from trainer.picture.compare import Difference
from trainer.picture.measures import figure
from trainer.plan.points import half
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
