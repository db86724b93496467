"""A text that is being typed: where the caret stands, what is marked, and what keys and a press make of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import pygame

from trainer.board.widgets.base import Ui


@dataclass(frozen=True, slots=True)
class Typing:
    """A text, with the caret before its letter ``caret``; what lies between that and ``mark`` is marked."""

    text: str
    caret: int
    mark: int

    @property
    def marked(self) -> tuple[int, int]:
        """From where to where the text is marked; twice the same where nothing is."""
        return min(self.caret, self.mark), max(self.caret, self.mark)

    def put(self, more: str, most: int) -> Typing:
        """Put a text at the caret, in place of what is marked; what is over ``most`` letters is left out."""
        low, high = self.marked
        more = more[: max(0, most - len(self.text) + high - low)]
        return _at(self.text[:low] + more + self.text[high:], low + len(more))

    def to(self, caret: int, *, marking: bool = False) -> Typing:
        """Move the caret; what it goes over is marked where ``marking``."""
        caret = min(len(self.text), max(0, caret))
        return replace(self, caret=caret, mark=self.mark if marking else caret)

    def key(self, event: pygame.event.Event) -> Typing | None:
        """Return what a key makes of it that moves, marks or deletes; None for any other key."""
        low, high = self.marked
        marking = bool(event.mod & pygame.KMOD_SHIFT)
        if event.mod & pygame.KMOD_CTRL:
            return Typing(self.text, len(self.text), 0) if event.key == pygame.K_a else None
        if event.mod & pygame.KMOD_ALT:
            return None
        if event.key in {pygame.K_BACKSPACE, pygame.K_DELETE}:
            back = event.key == pygame.K_BACKSPACE
            if low == high:
                low, high = (max(0, low - 1), high) if back else (low, high + 1)
            return _at(self.text[:low] + self.text[high:], low)
        if event.key in {pygame.K_LEFT, pygame.K_RIGHT} and low != high and not marking:
            return self.to(low if event.key == pygame.K_LEFT else high)
        start = self.text.rfind("\n", 0, self.caret) + 1
        end = self.text.find("\n", self.caret)
        goes = {
            pygame.K_LEFT: self.caret - 1, pygame.K_RIGHT: self.caret + 1, pygame.K_HOME: start,
            pygame.K_END: end if end >= 0 else len(self.text),
        }  # fmt: skip
        return self.to(goes[event.key], marking=marking) if event.key in goes else None


def _at(text: str, caret: int) -> Typing:
    return Typing(text, caret, caret)


def typing_of(ui: Ui, key: str, text: str) -> Typing:
    """Return how the text of a field stands; the caret is at its end until somebody moved it."""
    known = ui.memory.get(f"typing/{key}")
    # A field may write what was typed in its own way, in capitals say; what has another length is another text.
    if isinstance(known, Typing) and len(known.text) == len(text):
        return replace(known, text=text)
    return _at(text, len(text))


def keep_typing(ui: Ui, key: str, typing: Typing | None) -> None:
    """Remember how the text of a field stands, from one making of the field to the next; None forgets it."""
    if typing is None:
        ui.memory.pop(f"typing/{key}", None)
    else:
        ui.memory[f"typing/{key}"] = typing


def letter_at(text: str, x: float, width: Callable[[str], int]) -> int:
    """Return before which letter a caret stands that is put ``x`` px along a text."""
    return min(range(len(text) + 1), key=lambda n: abs(width(text[:n]) - x))


def draw_typing(
    ui: Ui, surface: pygame.Surface, typing: Typing, place: pygame.Rect, *, style: str, slid: int = 0, caret: bool
) -> None:  # fmt: skip
    """Draw a line of text in ``place``, the ``slid`` px at its left out of sight; what is marked, and its ``caret``."""
    look, high = ui.look, ui.look.line(style)
    clip, top = surface.get_clip(), place.centery - high // 2
    begins, ends, at = (
        place.left - slid + ui.look.width(typing.text[:letter], style) for letter in (*typing.marked, typing.caret)
    )
    surface.set_clip(place.inflate(4, 4).clip(clip))
    surface.fill(look["select"], pygame.Rect(begins, top, ends - begins, high))
    surface.fill(look["focus"], pygame.Rect(begins, top + high - 2, ends - begins, 2))
    drawn = look.text(typing.text, style, "panel_ink")
    surface.blit(drawn, (place.left - slid, place.centery - drawn.get_height() // 2))
    if caret:
        surface.fill(look["panel_ink"], pygame.Rect(at, top, max(2, look.px(2)), high))
    surface.set_clip(clip)
