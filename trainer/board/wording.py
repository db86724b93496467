"""Names and short sentences for what stands in the diary and in the lists."""

from __future__ import annotations

from trainer.layout import Kind, Member
from trainer.picture.compare import Difference
from trainer.picture.measures import figure
from trainer.plan.points import half
from trainer.words import _

KIND: dict[Kind, str] = {
    "standard": _("standard truss"), "girder": _("girder truss"), "truncated_girder": _("truncated girder"),
    "truncated": _("truncated truss"), "hip": _("hip truss"), "jack": _("jack truss"),
    "creeper": _("creeper truss"), "gable": _("gable truss"), "saddle": _("saddle truss"),
}  # fmt: skip
STAGE_NAMES = {
    "pre-start": _("Pre-start"), "set-out": _("Set-out"), "stand": _("Stand"), "brace": _("Brace"), "fix": _("Fix"),
    "hand-over": _("Hand-over"),
}  # fmt: skip
TOOL_NAMES: dict[str, str] = {
    "check": _("Check"), "measure": _("Measure"), "report": _("Report"), "mark": _("Mark"), "stand": _("Stand"),
    "string": _("String"), "plumb": _("Plumb"), "remove": _("Take down"), "cut": _("Cut"), "brace": _("Brace"),
    "unbrace": _("Unbrace"), "restrain": _("Restrain"), "fit": _("Fit"), "fix": _("Fix"), "inspect": _("Inspect"),
    "load": _("Load"),
}  # fmt: skip
SEVERITY = {
    "stop-work": _("Stop work"), "rework": _("Rework"), "tolerance": _("Out of tolerance"), "habit": _("Habit"),
}  # fmt: skip
SEVERITY_MEANS = {
    "stop-work": _("Someone could be hurt, or it could fall."),
    "rework": _("It must come down or be done again."),
    "tolerance": _("It is out by more than this house allows."),
    "habit": _("It is sound, but a better order exists."),
}
OUTCOME = {
    "met": _("Practice mark met"), "not yet met": _("Practice mark not yet met"), "unfinished": _("Not finished"),
}  # fmt: skip


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


THINGS: dict[str, str] = {
    "hanger": _("hanger"), "heavy girder bracket": _("heavy girder bracket"), "batten": _("batten"),
    "trimmer": _("trimmer"), "packer": _("packer"), "outrigger": _("outrigger"), "verge rafter": _("verge rafter"),
    "gable stud": _("gable stud"), "plies joined": _("plies joined"), "framing anchor": _("framing anchor"),
    "tie-down strap": _("tie-down strap"), "slotted bracket": _("slotted bracket"), "nails": _("nails"),
    "screws": _("screws"), "solid": _("solid"), "steel brace": _("steel brace"), "diagonal": _("diagonal"),
    "prop": _("prop"), "method statement": _("method statement"), "edge protection": _("edge protection"),
    "falls inside": _("falls inside"), "exclusion zone": _("exclusion zone"), "lifting plan": _("lifting plan"),
    "weather": _("weather"), "power lines": _("power lines"), "walls braced": _("walls braced"),
    "studs under girders": _("studs under girders"), "plates": _("plates"), "delivery": _("delivery"),
    "roof brace": _("roof brace"), "bottom-chord tie": _("bottom-chord tie"), "web tie": _("web tie"),
    "top-chord tie": _("top-chord tie"), "end brace": _("end brace"),
}  # fmt: skip
"""The diary's own words for parts, connectors, braces and what is checked, as a learner reads them."""


def thing(word: str) -> str:
    """Return a word of the diary as a learner reads it."""
    return THINGS.get(word, word)


READINGS: dict[str, str] = {
    "between": _("between two points"), "diagonals": _("diagonals of the plates"), "level": _("plate level"),
    "straight": _("plate straight"), "length": _("length of the wall"), "plumb": _("how far a truss leans"),
    "bow": _("how far a truss bows"), "apex": _("top off the string line"),
}  # fmt: skip
FAULTS: dict[str, str] = {
    "bowed wall": _("wall: bowed"), "plate out of level": _("wall: plate out of level"),
    "wrong length": _("wall: wrong length"), "out of square": _("wall: out of square"),
    "wall not braced": _("wall: not braced"), "studs missing": _("wall: studs missing"),
    "pack landed badly": _("wall: pack landed badly"), "missing truss": _("truss: missing"),
    "swapped tag": _("truss: wears another's tag"), "broken web": _("truss: broken web"),
    "loose nailplate": _("truss: loose nailplate"), "unwanted tail": _("truss: a tail too many"),
    "loose brackets": _("truss: brackets left loose"),
}  # fmt: skip
CUTS: dict[str, str] = {
    "tail": _("the tail"), "top chord": _("the top chord"), "bottom chord": _("the bottom chord"), "web": _("a web"),
}  # fmt: skip
LOADS: dict[str, str] = {
    "battens": _("battens"), "sheets": _("sheets"), "tiles": _("tiles"), "packs": _("packs"),
}  # fmt: skip
