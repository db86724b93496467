"""The shipped palettes: the colours of the board, of drawings and of pages alike."""

from __future__ import annotations

from trainer.picture.palette import PALETTE_FILE, Palette, parse_palettes
from trainer.shipped import art_path


def palettes() -> dict[str, Palette]:
    """Return the palettes of the art folder by theme."""
    return parse_palettes(art_path(PALETTE_FILE).read_text(encoding="utf-8"))
