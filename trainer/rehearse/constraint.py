"""What comes before what in one draw, as sets of steps held in the bits of whole numbers."""

from __future__ import annotations

from collections.abc import Sequence

from trainer.layout import Layout
from trainer.order import Order, Step, hold_steps

Masks = dict[Step, int]
"""For each step a set of steps: the bit of each is its index in some list."""


class Circle(ValueError):  # noqa: N818 - it is an answer about an order, not a fault of the program
    """Raised where steps wait for each other in a circle."""


class Constraint:
    """The edges of an order, with those that follow from "tied before the next in its row is stood"."""

    def __init__(self, layout: Layout, order: Order) -> None:
        self._layout = layout
        self._order = order
        self._then = {step: [edge.then for edge in edges] for step, edges in order.out_of.items()}
        self._rows = [[tag for tag in tags if Step("stand", tag) in order.into] for tags in layout.rows.values()]
        while self._tie_before_next():
            pass

    def stand_late(self, tag: str) -> None:
        """Have ``tag`` stood after all in its row that need not come after it."""
        stand = Step("stand", tag)
        bit, after = self._reach()
        for mate in self._layout.rows[self._layout.by_tag[tag].row]:
            for tie in hold_steps(self._layout, self._order, mate):
                if mate != tag and stand in bit and not after[stand] >> bit[tie] & 1:
                    self._then[tie].append(stand)

    def after(self, labels: Sequence[Step]) -> Masks:
        """For each step, itself and all that must come after it; bit ``i`` stands for ``labels[i]``."""
        bit = {step: 1 << i for i, step in enumerate(labels)}
        masks: Masks = {}
        for step in reversed(self._topological()):
            mask = bit[step]
            for then in self._then[step]:
                mask |= masks[then]
            masks[step] = mask
        return masks

    def before(self, labels: Sequence[Step]) -> Masks:
        """For each step, itself and all that must come before it; bit ``i`` stands for ``labels[i]``."""
        masks: Masks = {step: 1 << i for i, step in enumerate(labels)}
        for step in self._topological():
            for then in self._then[step]:
                masks[then] |= masks[step]
        return masks

    def _reach(self) -> tuple[dict[Step, int], Masks]:
        return {step: i for i, step in enumerate(self._order.steps)}, self.after(self._order.steps)

    def _tie_before_next(self) -> bool:
        """Where one truss of a row is stood before another, tie it before too; say whether that added anything."""
        bit, after = self._reach()
        added = False
        for row in self._rows:
            for first in row:
                reach = after[Step("stand", first)]
                later = [Step("stand", tag) for tag in row if tag != first and reach >> bit[Step("stand", tag)] & 1]
                for tie in hold_steps(self._layout, self._order, first):
                    missing = [stand for stand in later if not after[tie] >> bit[stand] & 1]
                    self._then[tie] += missing
                    added = added or bool(missing)
        return added

    def _topological(self) -> list[Step]:
        waiting = dict.fromkeys(self._order.steps, 0)
        for thens in self._then.values():
            for then in thens:
                waiting[then] += 1
        ready = [step for step, count in waiting.items() if not count]
        for step in ready:
            for then in self._then[step]:
                waiting[then] -= 1
                if not waiting[then]:
                    ready.append(then)
        if len(ready) < len(waiting):
            raise Circle("no order keeps these edges")
        return ready
