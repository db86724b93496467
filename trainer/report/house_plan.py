"""The plan of a house that questions ask about: drawn to scale, in as many parts as a page has to have."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from trainer.layout import Layout
from trainer.picture import Picture
from trainer.picture.sheet import plan_picture
from trainer.words import _

if TYPE_CHECKING:
    from trainer.report.drawing_page import Drawing

SCALE = 100
"""Plans beside questions are 1 to so many: at that scale their smallest letters are 7 points."""
PART = (184.0, 244.0)
"""What of an upright A4 page a part has, mm."""


@dataclass(frozen=True)
class HousePlan:
    """A house's plan, without a legend, since questions ask what its lines are."""

    name: str
    level: str
    layout: Layout

    @property
    def drawing(self) -> Drawing:
        """It as a drawing for sheets with a title block."""
        from trainer.report.drawing_page import Drawing  # noqa: PLC0415 - the library of PDFs is slow to load

        return Drawing(
            self.name, lambda letters: plan_picture(self.layout, letters), (), self.layout.house.plan.outline
        )

    @cached_property
    def parts(self) -> tuple[PlanPart, ...]:
        """It in parts for a page of HTML, the upper left one first."""
        from trainer.report.drawing_page import letters, parts_of  # noqa: PLC0415

        found = parts_of(plan_picture(self.layout, letters(SCALE)), SCALE, PART)
        return tuple(PlanPart(self._named(n, len(found)), each) for n, each in enumerate(found, 1))

    def _named(self, number: int, count: int) -> str:
        if count == 1:
            return self.name
        return _("{name}, part {number} of {count}").format(name=self.name, number=number, count=count)


@dataclass(frozen=True)
class PlanPart:
    """One part of a plan, with its name."""

    name: str
    drawn: Picture

    @property
    def picture(self) -> Picture:
        """It with its name as its title."""
        return Picture(self.drawn.box, self.drawn.layers, self.name, self.drawn.words)

    @property
    def wide(self) -> str:
        """How wide it is on paper, for a style: ``150.5mm``."""
        left, _low, right, _high = self.drawn.box
        return f"{(right - left) / SCALE:.1f}mm"
