"""How hard a level is: what there is to do on it, counted and weighed."""

from __future__ import annotations

from bisect import bisect
from dataclasses import dataclass

from trainer.layout import Layout
from trainer.level.model import Level

OPENING, STAGE, FAULT = 12, 4, 8
"""Points for each opening, stage and planted fault, where a truss is one point; common practice, no source."""
BANDS = (36, 52, 68, 86, 106, 128, 152, 178, 208)
"""Points from which a level is of grade 2, 3, … 10."""
HARDEST = len(BANDS) + 1


@dataclass(frozen=True, slots=True)
class Difficulty:
    """What makes a level hard, in numbers."""

    trusses: int
    openings: int
    stages: int
    faults: int

    @property
    def points(self) -> int:
        """All of it weighed together."""
        return self.trusses + OPENING * self.openings + STAGE * self.stages + FAULT * self.faults

    @property
    def grade(self) -> int:
        """From 1, the easiest, to 10."""
        return bisect(BANDS, self.points) + 1


def difficulty(level: Level, layout: Layout) -> Difficulty:
    """Measure ``level``, whose layout is given."""
    faults = len(level.site.walls) + len(level.site.delivery) + len(level.site.dangers)
    openings = sum(member.kind == "girder" and not member.is_dutch for member in layout.members)
    return Difficulty(len(layout.members), openings, len(level.lesson.stages), faults)
