"""Trimmers under the ends of saddles, as pieces of a card model.

A trimmer is a strip just to the left of the saddle's line: a slot over the truss at its outer end, a tab on the face of
the truss that the saddle crosses, and the saddle is glued to its side.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from shapely.geometry import Polygon as Shape
from shapely.geometry import box
from shapely.ops import unary_union

from trainer.layout import Layout
from trainer.layout.model import Part
from trainer.layout.slopes import height_on
from trainer.picture.card import CARD, STRIP, Piece, Slot, ring, slot_width
from trainer.picture.card_leaves import saddle_base
from trainer.picture.card_tabs import end_tab
from trainer.picture.trusses import along
from trainer.plan import Point

PAST = 3.0
"""How far a trimmer runs on past its slot, mm of paper."""
MOST_WIDE = 2.0
"""A truss that a trimmer would need a wider slot for, mm of paper, is one that it is glued to."""
NEAR_ROOF = 0.8
"""A truss whose top is no farther from a trimmer's than this, mm of paper, takes it in a slot."""
TRIMMER = "TR"
"""What trimmers are called on a model, before their number."""


@dataclass(frozen=True, slots=True)
class Trimmer:
    """A trimmer of the model: from the truss at its outer end to the one that the saddle crosses.

    ``top`` is its upper edge, mm. Where the truss at its outer end takes a slot, ``slots`` are the trimmer's own and
    the truss's; else it is glued there too.
    """

    tag: str
    saddle: str
    start: Point
    finish: Point
    top: float
    slots: tuple[Slot, Slot] | None


def trimmer_tag(part: Part) -> str:
    """Return what a trimmer's piece is called: ``TR2``."""
    return TRIMMER + part.name.rpartition(" ")[2]


def trimmers(layout: Layout, scale: int) -> Iterator[Trimmer]:
    """Yield the trimmers under the saddles of a house."""
    for part in layout.parts:
        saddle = layout.by_tag.get(part.on)
        if part.part != "trimmer" or saddle is None or saddle.kind != "saddle":
            continue
        middle = along(saddle, saddle.span / 2)
        inner, outer = sorted((part.start, part.finish), key=lambda end: math.dist(end, middle))
        ux, uy = saddle.direction
        aside = CARD * scale
        start, finish = ((x - uy * aside, y + ux * aside) for x, y in (outer, inner))
        yield Trimmer(
            trimmer_tag(part),
            part.on,
            start,
            finish,
            saddle_base(saddle),
            _outer_slots(layout, part, start, finish, scale),
        )


def _outer_slots(layout: Layout, part: Part, at: Point, to: Point, scale: int) -> tuple[Slot, Slot] | None:
    """Return the slots of a trimmer and of the truss at its outer end; None where no truss there takes one."""
    edge, top = CARD * scale * 2, saddle_base(layout.by_tag[part.on])
    long = math.dist(at, to)
    direction = ((to[0] - at[0]) / long, (to[1] - at[1]) / long)
    found = []
    for under in layout.members:
        run = under.run(at)
        wide = slot_width(direction, under.direction, scale)
        if under.kind == "saddle" or math.dist(along(under, run), at) > 1 or wide > MOST_WIDE * scale:
            continue
        height = height_on(under.top, run) if edge <= run <= max(under.span, under.top[-1][0]) - edge else None
        if height is not None and abs(height - top) <= NEAR_ROOF * scale:
            found.append((wide, under.tag, run))
    if not found:
        return None
    wide, tag, run = min(found)
    low = top - STRIP * scale
    own = Slot(tag, 0.0, wide, low, (low + top) / 2)
    return own, Slot(trimmer_tag(part), run, wide, top, (low + top) / 2)


def trimmer_piece(trimmer: Trimmer, scale: int) -> Piece:
    """Return a trimmer as a piece to cut out."""
    long, top = math.dist(trimmer.start, trimmer.finish), trimmer.top
    low, face = top - STRIP * scale, CARD * scale / 2
    past = PAST * scale if trimmer.slots else -face
    shape = box(-past, low, long - face, top)
    if trimmer.slots:
        slot = trimmer.slots[0]
        shape = shape.difference(box(slot.run - slot.wide / 2, low - 1, slot.run + slot.wide / 2, slot.end))
    tabs = [end_tab(2, long - face, 1, low, top, scale)]
    if not trimmer.slots:
        tabs.append(end_tab(1, face, -1, low, top, scale))
    whole = unary_union([shape, *(Shape(tab.outline) for tab in tabs)])
    slots = trimmer.slots[:1] if trimmer.slots else ()
    return Piece(trimmer.tag, trimmer.start, trimmer.finish, low, ring(whole), tuple(tabs), slots, ())
