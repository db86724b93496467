"""The diary's own words for parts, connectors, braces, readings, faults, cuts and loads, as a learner reads them."""

from __future__ import annotations

from collections.abc import Mapping

from trainer.words import _

THINGS: Mapping[str, str] = {
    "hanger": _("hanger"), "heavy girder bracket": _("heavy girder bracket"), "batten": _("batten"),
    "trimmer": _("trimmer"), "packer": _("packer"), "outrigger": _("outrigger"), "verge rafter": _("verge rafter"),
    "gable stud": _("gable stud"), "waling plate": _("waling plate"), "verge ladder": _("verge ladder"),
    "plies joined": _("plies joined"), "framing anchor": _("framing anchor"),
    "tie-down strap": _("tie-down strap"), "slotted bracket": _("slotted bracket"), "nails": _("nails"),
    "screws": _("screws"), "solid": _("solid"), "steel brace": _("steel brace"), "diagonal": _("diagonal"),
    "prop": _("prop"), "wall tie": _("wall tie"),
    "method statement": _("method statement"), "edge protection": _("edge protection"),
    "falls inside": _("falls inside"), "exclusion zone": _("exclusion zone"), "lifting plan": _("lifting plan"),
    "weather": _("weather"), "power lines": _("power lines"), "walls braced": _("walls braced"),
    "studs under girders": _("studs under girders"), "ledgers": _("ledgers"),
    "beams and posts": _("beams and posts"), "plates": _("plates"), "delivery": _("delivery"),
    "beam": _("verandah beam"),
    "roof brace": _("roof brace"), "bottom-chord tie": _("bottom-chord tie"), "web tie": _("web tie"),
    "top-chord tie": _("top-chord tie"), "end brace": _("end brace"), "hand": _("hand"), "crane": _("crane"),
    "panel points": _("panel points"), "spread slings": _("spread slings"), "spreader": _("spreader"),
    "both slopes": _("both slopes"), "one slope": _("one slope"), "middle of span": _("middle of span"),
    "eaves": _("eaves"), "one stack": _("one stack"),
}  # fmt: skip
"""Parts, connectors, braces, what is checked, and how trusses are slung and roofs loaded."""
READINGS: Mapping[str, str] = {
    "between": _("between two points"), "diagonals": _("diagonals of the plates"), "level": _("plate level"),
    "straight": _("plate straight"), "length": _("length of the wall"), "plumb": _("how far a truss leans"),
    "bow": _("how far a truss bows"), "apex": _("top off the string line"),
    "clearance": _("how near loads swing to a line"),
}  # fmt: skip
FAULTS: Mapping[str, str] = {
    "bowed wall": _("wall: bowed"), "plate out of level": _("wall: plate out of level"),
    "wrong length": _("wall: wrong length"), "out of square": _("wall: out of square"),
    "wall not braced": _("wall: not braced"), "studs missing": _("wall: studs missing"),
    "ledger on brick veneer": _("wall: ledger on brick veneer"), "pack landed badly": _("wall: pack landed badly"),
    "missing truss": _("truss: missing"),
    "swapped tag": _("truss: wears another's tag"), "broken web": _("truss: broken web"),
    "loose nailplate": _("truss: loose nailplate"), "unwanted tail": _("truss: a tail too many"),
    "loose brackets": _("truss: brackets left loose"), "service line": _("danger: service line in reach"),
    "open stair void": _("danger: open stair void"), "missing rail": _("danger: rail missing"),
    "missing platform": _("danger: platform missing"),
    "people in the exclusion zone": _("danger: people in the exclusion zone"),
    "pack on a lintel": _("danger: pack on a lintel"),
    "pack on a half-braced row": _("danger: pack on a half-braced row"),
    "gust forecast": _("danger: gusts forecast"), "sling at the apex": _("danger: slung by the apex"),
    "licence missing": _("danger: no licence"),
    "bowed beam": _("beam: bowed"), "beam not bolted down": _("beam: not bolted down"),
    "beam propped": _("beam: propped in the middle"), "post not braced": _("post: not braced"),
    "post not tied down": _("post: foot not tied down"), "post brace taken off": _("post: braces taken off"),
    "a fall": _("a fall"),
}  # fmt: skip
CUTS: Mapping[str, str] = {
    "tail": _("the tail"), "top chord": _("the top chord"), "bottom chord": _("the bottom chord"), "web": _("a web"),
}  # fmt: skip
LOADS: Mapping[str, str] = {
    "battens": _("battens"), "sheets": _("sheets"), "tiles": _("tiles"), "packs": _("packs"),
}  # fmt: skip


def thing(word: str) -> str:
    """Return a word of the diary as a learner reads it."""
    return THINGS.get(word, word)
