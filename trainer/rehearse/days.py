"""Days in a right order: when evening draws near, what makes the rows safe for the night, and what comes up by day."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from trainer.layout import Layout
from trainer.order import TIED, Late, Step
from trainer.site.overnight import FEW


class Days:
    """Counts what has been stood; without a ``day`` there is no evening. ``late`` is what comes up by day."""

    def __init__(self, layout: Layout, day: int | None, late: Sequence[Late] = ()) -> None:
        self._layout = layout
        self._day = day
        self._late = late
        self._stood = 0
        self._tips: Counter[str] = Counter()

    @property
    def evening(self) -> bool:
        """Whether the next truss may be the first of another day, give or take one more or one less."""
        return self._day is not None and self._stood + 1 >= self._day and (self._stood + 1) % self._day <= 2

    @property
    def come_up(self) -> tuple[Step, ...]:
        """What is to be done before the next truss is lifted, with all that stands held."""
        return tuple(late.step for late in self._late if late.after == self._stood)

    def stand(self, step: Step) -> None:
        """Count a truss that is stood."""
        member = self._layout.by_tag[step.tag]
        self._stood += 1
        self._tips[member.row] += member.kind in TIED

    def secured(self) -> Iterator[Step]:
        """Yield the steps that make the rows safe, where evening has come; what is safe already takes none of them."""
        for row, tips in self._tips.items() if self.evening else ():
            yield from (Step("secure", row, number) for number in range(tips // FEW))
