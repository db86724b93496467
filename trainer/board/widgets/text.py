"""Texts: a label that wraps, and prose with headings, bullets and bold words."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

import pygame

from trainer.board.glossary import term_of, words_in
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
class Paragraph:
    """A paragraph of prose. ``**words**`` in it are bold. ``bullet`` stands before it, hanging."""

    text: str
    style: str = "body"
    ink: str = "panel_ink"
    bullet: str = ""
    space: float = 8.0


Letters = tuple[str, bool]
"""Some letters, and whether they are bold."""
Word = tuple[Letters, ...]
"""What is not parted by a space; it may be bold in part."""


class Prose(Widget):
    """Paragraphs under each other; it lies in a scrolling panel where it may be long."""

    role = "text"

    def __init__(self, blocks: Sequence[Paragraph], *, ground: str = "panel", key: str = "") -> None:
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
        met: set[str] = set()
        top = self.rect.top
        for block in self.blocks:
            hang = _hang(ui, block)
            step = ui.look.line(block.style)
            if block.bullet:
                surface.blit(ui.look.text(block.bullet, block.style, block.ink), (self.rect.left, top))
            for line in _lines(ui.look, block, self.rect.width - hang):
                if self.shown is None or (top + step >= self.shown.top and top <= self.shown.bottom):
                    at = (self.rect.left + hang, top)
                    _draw_words(ui, surface, block, line, at)
                    _underline(ui, surface, block, line, at, met)
                top += step
            top += ui.look.px(block.space)
        self.cut = top - ui.look.px(self.blocks[-1].space if self.blocks else 0) > self.rect.bottom + 1

    def word_at(self, ui: Ui, pos: tuple[int, int]) -> str:
        """Return the trade word under a place, as it stands there; an empty text where there is none."""
        top = self.rect.top
        for block in self.blocks:
            hang = _hang(ui, block)
            step = ui.look.line(block.style)
            for line in _lines(ui.look, block, self.rect.width - hang):
                if top <= pos[1] < top + step:
                    for text, left, right in _trade_words(ui.look, block, line):
                        if left <= pos[0] - self.rect.left - hang <= right:
                            return text
                top += step
            top += ui.look.px(block.space)
        return ""

    def on_press(self, ui: Ui, pos: tuple[int, int], button: int) -> bool:
        word = self.word_at(ui, pos) if button == 1 and ui.look_up is not None else ""
        if word and ui.look_up is not None:
            ui.look_up(word)
        return bool(word)


def _hang(ui: Ui, block: Paragraph) -> int:
    return ui.look.width(block.bullet + "  ", block.style) if block.bullet else 0


def _bold(style: str) -> str:
    return "strong" if style == "body" else style


def _words(text: str) -> list[Word]:
    """Take a text with bold marks apart into words."""
    words: list[list[Letters]] = [[]]
    for number, part in enumerate(text.split("**")):
        for index, letters in enumerate(re.split(r"\s+", part)):
            if index:
                words.append([])
            if letters:
                words[-1].append((letters, bool(number % 2)))
    return [tuple(word) for word in words if word]


def _style(style: str, *, bold: bool) -> str:
    return _bold(style) if bold else style


def _lines(look: Look, block: Paragraph, width: int) -> list[list[Word]]:
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


def _draw_words(ui: Ui, surface: pygame.Surface, block: Paragraph, line: list[Word], at: tuple[int, int]) -> None:
    left, top = at
    space = ui.look.width(" ", block.style)
    for word in line:
        for letters, bold in word:
            drawn = ui.look.text(letters, _style(block.style, bold=bold), block.ink)
            surface.blit(drawn, (left, top))
            left += drawn.get_width()
        left += space


def _plain(line: list[Word]) -> str:
    return " ".join("".join(letters for letters, _bold in word) for word in line)


def _trade_words(look: Look, block: Paragraph, line: list[Word]) -> list[tuple[str, int, int]]:
    """Return the trade words of a line with their left and right edges, px from its start."""
    text = _plain(line)
    edges = _edges(look, block, line) if words_in(text) else []
    return [(text[a:b], edges[a], edges[b]) for a, b, _term in words_in(text)]


def _edges(look: Look, block: Paragraph, line: list[Word]) -> list[int]:
    """Return how far from the start of a line each of its letters begins, and the last ends, px."""
    edges = []
    left = 0
    for number, word in enumerate(line):
        if number:
            edges.append(left)
            left += look.width(" ", block.style)
        for letters, bold in word:
            style = _style(block.style, bold=bold)
            edges += [left + look.width(letters[:n], style) for n in range(len(letters))]
            left += look.width(letters, style)
    return [*edges, left]


def _underline(
    ui: Ui, surface: pygame.Surface, block: Paragraph, line: list[Word], at: tuple[int, int], met: set[str]
) -> None:
    """Put dots under each trade word where it stands first in a text: a press on it shows its picture."""
    if ui.look_up is None:
        return
    low = at[1] + ui.look.font(block.style).get_ascent() + ui.look.px(2)
    for text, left, right in _trade_words(ui.look, block, line):
        term = term_of(text)
        if term is None or term.name in met:
            continue
        met.add(term.name)
        step = ui.look.px(4)
        for x in range(at[0] + left, at[0] + right - 1, step):
            pygame.draw.line(surface, ui.look[block.ink], (x, low), (x + step // 3, low), max(1, ui.look.px(1)))
