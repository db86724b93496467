"""The shipped palettes: the colours of the board, of drawings and of pages alike."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from trainer.picture.palette import PALETTE_FILE, Palette, parse_palettes
from trainer.shipped import art_path


@cache
def palettes() -> Mapping[str, Palette]:
    """Return the palettes of the art folder by theme, read once."""
    return parse_palettes(art_path(PALETTE_FILE).read_text(encoding="utf-8"))
