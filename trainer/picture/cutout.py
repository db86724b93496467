"""A house as a card model: each truss, trimmer, beam and post as a piece to cut out, and the marks of its feet."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from shapely.geometry import Polygon as Shape
from shapely.geometry import box
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from trainer.layout import Layout
from trainer.picture.card import LEAST, STRIP, TONGUE, Hung, Leaf, Piece, Slot, Tab, ring
from trainer.picture.card_leaves import below_plate, leaves
from trainer.picture.card_slots import slots_of
from trainer.picture.card_tabs import hung_on, on_plan, tabs_of
from trainer.picture.card_trimmers import trimmer_piece, trimmers
from trainer.picture.card_verandah import verandah_pieces
from trainer.picture.frame import Framer
from trainer.plan import Point

BELOW = 0.9
"""How far a slot is cut on past its mouth below, mm of paper: a strip's lower edge slopes."""
ROOM = 2.0
"""What is left between the table and the lowest tail, mm of paper."""
WALLS_HIGH = 2400.0
"""How high the posts of a verandah are on a model, mm: a common height of walls, no source."""


@dataclass(frozen=True)
class CardModel:
    """The card model of a house at 1 to ``scale``."""

    layout: Layout
    scale: int

    @cached_property
    def leaves(self) -> dict[str, Leaf]:
        """Each truss as card without slots and tabs."""
        return leaves(self.layout, self.scale)

    @cached_property
    def tabs(self) -> Mapping[str, tuple[Tab, ...]]:
        """The tabs of each truss."""
        return tabs_of(self.layout, self.leaves, self.scale)

    @cached_property
    def _hung(self) -> Mapping[str, Sequence[Hung]]:
        return hung_on(self.layout, self.leaves, self.tabs)

    @cached_property
    def pieces(self) -> tuple[Piece, ...]:
        """A piece for each truss, then for each trimmer under a saddle, then for each beam and post."""
        slots, framer = slots_of(self.layout, self.leaves, self.scale), Framer(self.layout)
        made = [self._piece(leaf, slots.get(tag, []), framer) for tag, leaf in self.leaves.items()]
        made += [trimmer_piece(each, self.scale) for each in trimmers(self.layout, self.scale)]
        return (*made, *verandah_pieces(self.layout, self.scale, self.raised))

    @cached_property
    def below_plate(self) -> float:
        """How far the pieces go on past the top of the plates, mm of paper."""
        return below_plate(self.layout, self.scale) / self.scale

    @cached_property
    def raised(self) -> int:
        """How far the board has to be raised, mm of paper: tails hang below it, and posts stand under it."""
        lowest = min(leaf.up_and_down(run)[0] - leaf.low  # type: ignore[index]
                     for leaf in self.leaves.values() if leaf.member.kind != "saddle" for run in leaf.card)  # fmt: skip
        high = WALLS_HIGH / self.scale if self.layout.house.plan.beams else 0.0
        return math.ceil(max(high, ROOM - lowest / self.scale if lowest < 0 else 0.0))

    def marks(self, tag: str) -> Iterator[tuple[Point, ...]]:
        """Yield where a truss's feet are glued on the plate plan: the four corners of each."""
        for tab in self.tabs[tag]:
            if tab.foot:
                yield on_plan(self.leaves[tag], tab)

    def _piece(self, leaf: Leaf, slots: Sequence[Slot], framer: Framer) -> Piece:
        member, tabs = leaf.member, self.tabs[leaf.tag]
        tongues = self._tongues(leaf, slots) if member.kind == "saddle" else ()
        shape = unary_union([leaf.silhouette(), *tongues, *(Shape(tab.outline) for tab in tabs)])
        for slot in slots:
            low, high = min(slot.mouth, slot.end), max(slot.mouth, slot.end)
            if slot.mouth < slot.end:
                low -= BELOW * self.scale
            else:
                high += STRIP * self.scale
            shape = shape.difference(box(slot.run - slot.wide / 2, low, slot.run + slot.wide / 2, high))
        outline = ring(shape)
        timbers = [t.outline for t in framer.of(member).timbers if t.part != "extension"]
        ends = (leaf.place(0.0), leaf.place(member.span))
        drawn, hung = tuple(_within(timbers, outline)), tuple(self._hung.get(leaf.tag, ()))
        return Piece(leaf.tag, *ends, leaf.low, outline, tabs, tuple(slots), drawn, hung)

    def _tongues(self, leaf: Leaf, slots: Sequence[Slot]) -> Iterator[BaseGeometry]:
        """What of a saddle goes down into the trusses that it crosses, and down the side of a trimmer."""
        half, least = TONGUE * self.scale / 2, LEAST * self.scale
        low, high, span = leaf.low - STRIP * self.scale, leaf.low + 1, leaf.member.span
        for slot in slots:
            edges = (slot.run - slot.wide / 2, slot.run + slot.wide / 2)
            a = max(slot.run - half, 0.0) if edges[0] > least else edges[0]
            b = min(slot.run + half, span) if span - edges[1] > least else edges[1]
            yield box(a, low, b, high)
        for number, end in enumerate(leaf.member.ends):
            if end.bears_on.startswith("trimmer"):
                on = sorted(abs(slot.run - number * span) for slot in slots)
                deep = min(2 * half, on[0] if on else span / 2)
                at = span - deep if number else 0.0
                yield box(at, low, at + deep, high)


def _within(timbers: Sequence[tuple[Point, ...]], outline: Sequence[Point]) -> Iterator[tuple[Point, ...]]:
    """Yield what of the timbers there is card for."""
    card = Shape(outline)
    for timber in timbers:
        seen = Shape(timber).buffer(0).intersection(card)
        for part in getattr(seen, "geoms", [seen]):
            if part.area > 1:
                yield tuple((float(x), float(z)) for x, z in part.exterior.coords[:-1])
