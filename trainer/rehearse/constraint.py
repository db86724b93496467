"""What comes before what in one draw, as sets of steps held in the bits of whole numbers."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from trainer.layout import Layout
from trainer.order import Order, Step, hold_steps

Masks = dict[Step, int]
"""For each step a set of steps: the bit of each is its index in some list."""


class Circle(ValueError):  # noqa: N818 - it is an answer about an order, not a fault of the program
    """Raised where steps wait for each other in a circle."""


class Constraint:
    """The edges of an order, with those that follow from "held before the next truss is lifted"."""

    def __init__(self, layout: Layout, order: Order) -> None:
        self._order = order
        self._number = {step: i for i, step in enumerate(order.steps)}
        self._then = [[self._number[edge.then] for edge in order.out_of[step]] for step in order.steps]
        self._held = {tag: self._numbers(hold_steps(layout, order, tag)) for tag in layout.by_tag}
        lifts = (Step("stand", tag) for tag in layout.by_tag)
        self._lifts = self._numbers(step for step in lifts if step in self._number)
        while self._hold_before_next():
            pass

    def _numbers(self, steps: Iterable[Step]) -> list[int]:
        return [self._number[step] for step in steps]

    def stand_late(self, tag: str) -> None:
        """Have ``tag`` stood after all that need not come after it."""
        stand = self._number.get(Step("stand", tag))
        if stand is None:
            return
        later = self._after([1 << i for i in range(len(self._then))])[stand]
        for other, holds in self._held.items():
            if other != tag:
                for hold in holds:
                    if not later >> hold & 1:
                        self._then[hold].append(stand)

    def after(self, labels: Sequence[Step]) -> Masks:
        """For each step, itself and all that must come after it; bit ``i`` stands for ``labels[i]``."""
        return self._named(self._after(self._bits(labels)))

    def before(self, labels: Sequence[Step]) -> Masks:
        """For each step, itself and all that must come before it; bit ``i`` stands for ``labels[i]``."""
        masks = self._bits(labels)
        for step in self._topological():
            mask = masks[step]
            for then in self._then[step]:
                masks[then] |= mask
        return self._named(masks)

    def _bits(self, labels: Sequence[Step]) -> list[int]:
        """For each step its own bit."""
        bits = [0] * len(self._then)
        for i, step in enumerate(labels):
            bits[self._number[step]] = 1 << i
        return bits

    def _named(self, masks: list[int]) -> Masks:
        return dict(zip(self._order.steps, masks, strict=True))

    def _after(self, masks: list[int]) -> list[int]:
        """Add to the bit of each step those of all that must come after it."""
        for step in reversed(self._topological()):
            mask = masks[step]
            for then in self._then[step]:
                mask |= masks[then]
            masks[step] = mask
        return masks

    def _hold_before_next(self) -> bool:
        """Where one truss is stood before another, hold it before too; say whether that added anything."""
        after = self._after([1 << i for i in range(len(self._then))])
        added = False
        for first in self._lifts:
            later = [stand for stand in self._lifts if stand != first and after[first] >> stand & 1]
            for hold in self._held[self._order.steps[first].tag]:
                missing = [stand for stand in later if not after[hold] >> stand & 1]
                self._then[hold] += missing
                added = added or bool(missing)
        return added

    def _topological(self) -> list[int]:
        waiting = [0] * len(self._then)
        for thens in self._then:
            for then in thens:
                waiting[then] += 1
        ready = [step for step, count in enumerate(waiting) if not count]
        for step in ready:
            for then in self._then[step]:
                waiting[then] -= 1
                if not waiting[then]:
                    ready.append(then)
        if len(ready) < len(waiting):
            raise Circle("no order keeps these edges")
        return ready
