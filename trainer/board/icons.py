"""Icons and pictures: flat SVG drawings of the art folder, in the colours of the theme, at any size."""

from __future__ import annotations

import io

import pygame

from trainer.board.look import Look
from trainer.shipped import art_path

_kept: dict[tuple[str, tuple[int, int], str], pygame.Surface] = {}
_DRAWN_IN = (
    "ink", "mark", "timber", "timber_edge", "fastener", "stop", "rework", "tolerance", "habit", "good", "paper",
    "girder", "ghost", "plate", "plate_edge", "string", "brace",
)  # fmt: skip
"""The roles whose colours in the light theme the files are drawn with."""


def icon(look: Look, name: str, size: int) -> pygame.Surface:
    """Return an icon ``size`` px wide and high; cached once drawn."""
    return picture(look, f"icons/{name}", (size, size))


def picture(look: Look, name: str, size: tuple[int, int]) -> pygame.Surface:
    """Return a drawing of the art folder at a size, px; cached once drawn.

    The files are drawn in the light theme's colours; other themes put their own in place of these.
    """
    key = (name, size, look.theme)
    if key not in _kept:
        text = art_path(f"{name}.svg").read_text(encoding="utf-8")
        if look.theme != "light":
            for role in _DRAWN_IN:
                text = text.replace(look.light_hex(role), f"@{role}@")
            for role in look.roles:
                text = text.replace(f"@{role}@", look.hex(role))
        _kept[key] = pygame.image.load_sized_svg(io.BytesIO(text.encode()), size)
    return _kept[key]
