"""What pages and printed sheets are made with: the light palette, and the files of the type."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from trainer.picture import Palette


def light() -> Palette:
    """Return the palette of paper."""
    from trainer.shipped.colours import palettes

    return palettes()["light"]


def type_files() -> tuple[Path, Path]:
    """Return the type's files, regular and semibold."""
    from trainer.board.type_files import regular, semibold

    return Path(regular()), Path(semibold())
