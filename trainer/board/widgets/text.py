"""Texts: a label that wraps, and prose with headings, bullets and bold words."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

import pygame

from trainer.board.look import Look
from trainer.board.widgets.base import Ui, Widget


class Label(Widget):
    """A text in one style, wrapped to the width it is given."""

    role = "label"

    def __init__(
        self,
        text: str,
        style: str = "body",
        ink: str = "panel_ink",
        *,
        ground: str = "panel",
        key: str = "",
        role: str = "",
    ) -> None:
        if role:
            self.role = role
        super().__init__(text, key=key)
        self.style = style
        self.ink = ink
        self.ground = ground
        self.least_lines = 1

    @property
    def inks(self) -> tuple[tuple[str, str], ...]:
        return ((self.ink, self.ground),)

    def wide(self, ui: Ui) -> int:
        return ui.look.width(self.name, self.style) + 1

    def high(self, ui: Ui, width: int) -> int:
        return max(self.least_lines, len(ui.look.wrap(self.name, self.style, width))) * ui.look.line(self.style)

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        lines = ui.look.wrap(self.name, self.style, self.rect.width)
        step = ui.look.line(self.style)
        self.cut = len(lines) * step > self.rect.height + 1
        for number, line in enumerate(lines):
            top = self.rect.top + number * step
            if self.shown is None or (top + step >= self.shown.top and top <= self.shown.bottom):
                surface.blit(ui.look.text(line, self.style, self.ink), (self.rect.left, top))


@dataclass(frozen=True, slots=True)
class Block:
    """A paragraph of prose. ``**words**`` in it are bold. ``bullet`` stands before it, hanging."""

    text: str
    style: str = "body"
    ink: str = "panel_ink"
    bullet: str = ""
    space: float = 8.0


Piece = tuple[str, bool]
"""Some letters, and whether they are bold."""
Word = tuple[Piece, ...]
"""What is not parted by a space; it may be bold in part."""


class Prose(Widget):
    """Paragraphs under each other; it lies in a scrolling panel where it may be long."""

    role = "text"

    def __init__(self, blocks: Sequence[Block], *, ground: str = "panel", key: str = "") -> None:
        super().__init__(blocks[0].text.replace("**", "") if blocks else "", key=key)
        self.blocks = tuple(blocks)
        self.ground = ground

    @property
    def value(self) -> str:
        return "\n".join((f"{b.bullet} " if b.bullet else "") + b.text.replace("**", "") for b in self.blocks)

    @property
    def inks(self) -> tuple[tuple[str, str], ...]:
        return tuple({(b.ink, self.ground) for b in self.blocks})

    def wide(self, ui: Ui) -> int:
        return max((ui.look.width(b.text, b.style) for b in self.blocks), default=0)

    def high(self, ui: Ui, width: int) -> int:
        total = 0
        for block in self.blocks:
            lines = _lines(ui.look, block, width - _hang(ui, block))
            total += len(lines) * ui.look.line(block.style) + ui.look.px(block.space)
        return total

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        top = self.rect.top
        for block in self.blocks:
            hang = _hang(ui, block)
            step = ui.look.line(block.style)
            if block.bullet:
                surface.blit(ui.look.text(block.bullet, block.style, block.ink), (self.rect.left, top))
            for line in _lines(ui.look, block, self.rect.width - hang):
                if self.shown is None or (top + step >= self.shown.top and top <= self.shown.bottom):
                    _draw_words(ui, surface, block, line, (self.rect.left + hang, top))
                top += step
            top += ui.look.px(block.space)
        self.cut = top - ui.look.px(self.blocks[-1].space if self.blocks else 0) > self.rect.bottom + 1


def _hang(ui: Ui, block: Block) -> int:
    return ui.look.width(block.bullet + "  ", block.style) if block.bullet else 0


def _bold(style: str) -> str:
    return "strong" if style == "body" else style


def _words(text: str) -> list[Word]:
    """Take a text with bold marks apart into words."""
    words: list[list[Piece]] = [[]]
    for number, part in enumerate(text.split("**")):
        for index, letters in enumerate(re.split(r"\s+", part)):
            if index:
                words.append([])
            if letters:
                words[-1].append((letters, bool(number % 2)))
    return [tuple(word) for word in words if word]


def _style(style: str, *, bold: bool) -> str:
    return _bold(style) if bold else style


def _lines(look: Look, block: Block, width: int) -> list[list[Word]]:
    """Break a block into lines of words."""
    if "**" not in block.text:
        return [[((line, False),)] for line in look.wrap(block.text, block.style, width)]
    space = look.width(" ", block.style)
    lines: list[list[Word]] = [[]]
    used = 0
    for word in _words(block.text):
        wide = sum(look.width(letters, _style(block.style, bold=bold)) for letters, bold in word)
        if lines[-1] and used + space + wide > width:
            lines.append([])
            used = 0
        used += wide + (space if lines[-1] else 0)
        lines[-1].append(word)
    return lines


def _draw_words(ui: Ui, surface: pygame.Surface, block: Block, line: list[Word], at: tuple[int, int]) -> None:
    left, top = at
    space = ui.look.width(" ", block.style)
    for word in line:
        for letters, bold in word:
            drawn = ui.look.text(letters, _style(block.style, bold=bold), block.ink)
            surface.blit(drawn, (left, top))
            left += drawn.get_width()
        left += space
