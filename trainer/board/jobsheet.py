"""The job sheet beside the plan: a level's own instructions, in plain words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from trainer.board.widgets.text import Paragraph
from trainer.words import CAUTION, INVENTED

if TYPE_CHECKING:
    from trainer.level import Level


def paragraphs(level: Level, sheet: Sequence[tuple[str, Sequence[str]]]) -> list[Paragraph]:
    """Return a level's job sheet as paragraphs, under its title."""
    blocks = [Paragraph(level.title, "heading", space=4), Paragraph(level.brief, space=10)]
    for heading, lines in sheet:
        blocks.append(Paragraph(heading, "heading", "accent", space=4))
        blocks += [Paragraph(line, bullet="–", space=4) for line in lines]
    blocks.append(Paragraph(INVENTED, "small", "panel_faint", space=4))
    blocks.append(Paragraph(CAUTION, "small", "panel_faint"))
    return blocks
