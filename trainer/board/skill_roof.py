"""The small roof of a skill: one truss for each state that it has come to; the others are only outlined.

That shows without colour: a truss that stands is thick, has its webs and covers what is behind it.
"""

from __future__ import annotations

from collections.abc import Collection
from typing import TYPE_CHECKING

import pygame

if TYPE_CHECKING:
    from trainer.board.look import Look
    from trainer.course import SkillState

ROOF_SIZE = (72, 44)
"""The room it takes, px at 100 %."""
LEAN = 0.55
"""How far the row goes up for each px to the right: it is seen from its corner, and from above."""


def draw_skill_roof(look: Look, reached: Collection[SkillState], surface: pygame.Surface, rect: pygame.Rect) -> None:
    """Draw the roof into a frame: the truss of the first state in front at the left."""
    from trainer.course.mastery import STATES  # loads the course: after the records were read

    high = min(rect.height, rect.width * ROOF_SIZE[1] // ROOF_SIZE[0])
    frame = pygame.Rect(rect.left, rect.centery - high // 2, rect.width, high)
    bay_x, bay_y = frame.width * 0.105, frame.width * 0.105 * LEAN
    rise, span = high - 2 - 4 * bay_y, frame.width - 2 - 4 * bay_x
    line, thin = max(2, look.px(2)), max(1, look.px(1))
    for place in reversed(range(len(STATES))):
        left = frame.left + 1 + place * bay_x
        foot = frame.bottom - 1 - place * bay_y
        heel, toe, apex = (left, foot), (left + span, foot), (left + span / 2, foot - rise)
        if STATES[place] in reached:
            pygame.draw.polygon(surface, look["panel"], (heel, apex, toe))
            pygame.draw.polygon(surface, look["accent"], (heel, apex, toe), line)
            king = (left + span / 2, foot)
            for quarter in (0.25, 0.75):
                pygame.draw.line(surface, look["accent"], (left + span * quarter, foot - rise / 2), king, thin)
        else:
            pygame.draw.aalines(surface, look["panel_faint"], True, (heel, apex, toe))
