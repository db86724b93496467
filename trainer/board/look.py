"""How everything looks: the theme's colours, the sizes of type, and lettering that is drawn once and cached."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

import pygame

from trainer.board import type_files
from trainer.picture.palette import Palette, rgb

Colour = tuple[int, int, int]
SCALES = (1.0, 1.25, 1.5, 1.75, 2.0)
"""The text sizes that can be chosen, as parts of the usual one."""
THEMES = ("light", "dark", "contrast")
LEAST_TARGET = 44
"""Height of a control that a finger or a shaking hand still hits, px, whatever the text size."""
_KEPT = 4000
"""Letterings cached before the cache is emptied."""


@dataclass(frozen=True, slots=True)
class TypeStyle:
    """A size of type at 100 %, px, and its weight."""

    size: int
    bold: bool = False


STYLES: Mapping[str, TypeStyle] = {
    "title": TypeStyle(30, True),
    "heading": TypeStyle(21, True),
    "body": TypeStyle(18),
    "strong": TypeStyle(18, True),
    "small": TypeStyle(16),
    "figure": TypeStyle(26, True),
}

ROOMY = (1100, 620)
"""The least window, px at 100 %, in which text goes under a drawing as well as beside it."""


Widths = dict[tuple[str, str], int]
Wrapped = dict[tuple[str, str, int], list[str]]


@cache
def _measured(_scale: float) -> tuple[Widths, Wrapped]:
    """What has been measured at a text size: how wide lines are and where texts break, the same in every theme."""
    return {}, {}


class Look:
    """One theme at one text size: colours by role, type, and a store of drawn lettering.

    ``still``: nothing is to move by itself.
    """

    @property
    def light(self) -> Palette:
        """The colours of print, whatever the theme."""
        return self._palettes["light"]

    def __init__(self, palettes: Mapping[str, Palette], theme: str = "light", scale: float = 1.0) -> None:
        self._palettes = palettes
        self._fonts: dict[tuple[int, bool], pygame.font.Font] = {}
        self._drawn: dict[tuple[str, int, bool, Colour], pygame.Surface] = {}
        if not pygame.font.get_init():
            pygame.font.init()
        self.still = False
        self.set(theme, scale)

    def set(self, theme: str, scale: float) -> None:
        """Change the theme or the text size."""
        self.theme = theme
        self.scale = scale
        self.colours: dict[str, Colour] = {role: rgb(colour) for role, colour in self._palettes[theme].items()}
        self._widths, self._wrapped = _measured(scale)
        self._drawn.clear()

    def __getitem__(self, role: str) -> Colour:
        return self.colours[role]

    def hex(self, role: str) -> str:
        """The colour of a role as ``#rrggbb``."""
        return self._palettes[self.theme][role]

    def light_hex(self, role: str) -> str:
        """The colour of a role in the light theme, in which the icons are drawn."""
        return self._palettes["light"][role]

    @property
    def roles(self) -> tuple[str, ...]:
        """Every role of the palette."""
        return tuple(self.colours)

    def px(self, size: float) -> int:
        """A length that grows with the text, px."""
        return round(size * self.scale)

    def roomy(self, size: tuple[int, int]) -> bool:
        """Whether a window has room for text both beside and under a drawing that is still the largest thing in it."""
        return size[0] >= self.px(ROOMY[0]) and size[1] >= self.px(ROOMY[1])

    def font(self, style: str) -> pygame.font.Font:
        """The font of a named style at the present scale."""
        chosen = STYLES[style]
        return self.font_of(self.px(chosen.size), bold=chosen.bold)

    def font_of(self, size_px: int, *, bold: bool = False) -> pygame.font.Font:
        """A font whose em is ``size_px`` high."""
        key = (max(6, size_px), bold)
        if key not in self._fonts:
            self._fonts[key] = pygame.font.Font(type_files.semibold() if bold else type_files.regular(), key[0])
        return self._fonts[key]

    def line(self, style: str) -> int:
        """Height of a line of type, px."""
        return self.font(style).get_linesize()

    def width(self, text: str, style: str) -> int:
        """Return the width of a line of type, px; measured once, then cached."""
        key = (text, style)
        cached = self._widths.get(key)
        if cached is None:
            if len(self._widths) > _KEPT:
                self._widths.clear()
            cached = self._widths[key] = self.font(style).size(text)[0]
        return cached

    def text(self, text: str, style: str, role: str) -> pygame.Surface:
        """Return a line of type in a role's colour; drawn once, then cached."""
        chosen = STYLES[style]
        return self.lettering(text, self.px(chosen.size), self.colours[role], bold=chosen.bold)

    def lettering(self, text: str, size_px: int, colour: Colour, *, bold: bool = False) -> pygame.Surface:
        """Return a line of type of any size; drawn once, then cached."""
        key = (text, size_px, bold, colour)
        cached = self._drawn.get(key)
        if cached is None:
            if len(self._drawn) > _KEPT:
                self._drawn.clear()
            cached = self._drawn[key] = self.font_of(size_px, bold=bold).render(text, True, colour)
        return cached

    def wrap(self, text: str, style: str, width: int) -> list[str]:
        """Break a text into lines no wider than ``width`` px; a word too long for a line is broken."""
        key = (text, style, width)
        cached = self._wrapped.get(key)
        if cached is None:
            if len(self._wrapped) > _KEPT:
                self._wrapped.clear()
            cached = self._wrapped[key] = [
                line for part in text.split("\n") for line in self._wrap_line(part, style, max(width, 1))
            ]
        return cached

    def _wrap_line(self, text: str, style: str, width: int) -> list[str]:
        lines: list[str] = []
        current = ""
        for word in filter(None, text.split(" ")):  # a space that doesn't break stays
            longer = f"{current} {word}" if current else word
            if self.width(longer, style) <= width:
                current = longer
                continue
            if current:
                lines.append(current)
            current = word
            while self.width(current, style) > width and len(current) > 1:
                fits = max(
                    1, next((n for n in range(len(current), 0, -1) if self.width(current[:n], style) <= width), 1)
                )
                lines.append(current[:fits])
                current = current[fits:]
        lines.append(current)
        return lines
