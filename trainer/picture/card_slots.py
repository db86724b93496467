"""The slots of a card model: wherever two pieces cross, the one that passes over goes down into the one below it."""

from __future__ import annotations

from collections.abc import Mapping

from trainer.layout import Layout
from trainer.picture.card import CARD, LEAST, STRIP, Leaf, Slot, slot_width
from trainer.picture.card_leaves import crossings, shared
from trainer.picture.card_trimmers import trimmers

Pair = tuple[str, Slot, str, Slot]
"""What passes over, its slot, what it crosses, and that one's slot."""


def slots_of(layout: Layout, leaves: Mapping[str, Leaf], scale: int) -> dict[str, list[Slot]]:
    """Return the slots of every piece: at each crossing one from below in what passes over, one from above below it."""
    known = {(crossing.over, crossing.under) for crossing in layout.crossings}
    found: dict[str, list[Slot]] = {}
    for one, other, run, beneath in crossings(leaves):
        if _on_its_tip(one, run, scale) or _on_its_tip(other, beneath, scale):
            continue
        over, under = (one, run), (other, beneath)
        if (other.tag, one.tag) in known or ((one.tag, other.tag) not in known and other.passes_over(beneath)):
            over, under = under, over
        pair = _pair(over, under, scale)
        if pair is not None:
            found.setdefault(over[0].tag, []).append(pair[0])
            found.setdefault(under[0].tag, []).append(pair[1])
    for trimmer in trimmers(layout, scale):
        if trimmer.slots:
            own, under_it = trimmer.slots
            found.setdefault(own.other, []).append(under_it)
    return found


def _on_its_tip(leaf: Leaf, run: float, scale: int) -> bool:
    """Whether a saddle only lies on what is here with the thin end of it."""
    edge = 2 * CARD * scale
    return leaf.member.kind == "saddle" and not edge <= run <= leaf.member.span - edge


def _pair(over: tuple[Leaf, float], under: tuple[Leaf, float], scale: int) -> tuple[Slot, Slot] | None:
    """The two slots of a crossing; None where one passes clear of the other."""
    (upper, run), (lower, beneath) = over, under
    above, below = upper.up_and_down(run), lower.up_and_down(beneath)
    if above is None or below is None:
        return None
    saddle = upper.member.kind == "saddle"
    low = above[0] - STRIP * scale if saddle else above[0]
    if not saddle and shared(upper, lower, run, beneath, scale) is None:
        return None
    if saddle and below[1] - low < LEAST / 2 * scale:
        return None
    half = (max(low, below[0]) + below[1]) / 2
    middle = max(half, below[0] + LEAST * scale)
    wide = slot_width(upper.direction, lower.direction, scale)
    return Slot(lower.tag, run, wide, low, middle), Slot(upper.tag, beneath, wide, below[1], middle)
