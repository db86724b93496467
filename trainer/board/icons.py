"""Icons: flat SVG drawings of the art folder, in the colours of the theme, at any size."""

from __future__ import annotations

import io

import pygame

from trainer.board.look import Look
from trainer.shipped import art_path

_kept: dict[tuple[str, int, str], pygame.Surface] = {}


def icon(look: Look, name: str, size: int) -> pygame.Surface:
    """Return an icon ``size`` px wide and high; kept once drawn.

    The files are drawn in the light theme's colours; other themes put their own in place of these.
    """
    key = (name, size, look.theme)
    if key not in _kept:
        text = art_path(f"icons/{name}.svg").read_text(encoding="utf-8")
        if look.theme != "light":
            for role in (
                "ink",
                "mark",
                "timber",
                "timber_edge",
                "fastener",
                "stop",
                "rework",
                "tolerance",
                "habit",
                "good",
                "paper",
            ):
                text = text.replace(look.light_hex(role), f"@{role}@")
            for role in look.roles:
                text = text.replace(f"@{role}@", look.hex(role))
        _kept[key] = pygame.image.load_sized_svg(io.BytesIO(text.encode()), (size, size))
    return _kept[key]
