"""Days in a right order: when evening draws near, and what makes the rows safe for the night."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from trainer.layout import Layout
from trainer.order import TIED, Step
from trainer.site.overnight import FEW


class Days:
    """Counts what has been stood; without a ``day`` there is no evening."""

    def __init__(self, layout: Layout, day: int | None) -> None:
        self._layout = layout
        self._day = day
        self._stood = 0
        self._tips: Counter[str] = Counter()

    @property
    def evening(self) -> bool:
        """Whether the next truss may be the first of another day, give or take one more or one less."""
        return self._day is not None and self._stood + 1 >= self._day and (self._stood + 1) % self._day <= 2

    def stand(self, step: Step) -> None:
        """Count a truss that is stood."""
        member = self._layout.by_tag[step.tag]
        self._stood += 1
        self._tips[member.row] += member.kind in TIED

    def secured(self) -> Iterator[Step]:
        """Yield the steps that make the rows safe, where evening has come; what is safe already takes none of them."""
        for row, tips in self._tips.items() if self.evening else ():
            yield from (Step("secure", row, number) for number in range(tips // FEW))
