"""Text size, colours and movement: changed from anywhere, and remembered."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import asdict, replace
from pathlib import Path
from typing import Any

import pygame

from trainer.board.look import SCALES, THEMES, Look
from trainer.board.settings import Settings, write_settings


class Comfort:
    """Holds the settings and puts them to the look; ``changed`` is called when everything has to be made again."""

    def __init__(self, look: Look, settings: Settings, folder: Path | None, changed: Callable[[], None]) -> None:
        self.look = look
        self.settings = settings
        self._folder = folder
        self._changed = changed
        self._own: Settings | None = None

    def lend(self, **values: Any) -> None:
        """Set things otherwise for one candidate, until :meth:`give_back`; nothing of it is kept."""
        self._own = self._own or self.settings
        self.remember(**values)

    def give_back(self) -> None:
        """Set things again as they were before they were lent."""
        own, self._own = self._own, None
        if own is not None:
            self.remember(**asdict(own))

    def remember(self, **values: Any) -> None:
        """Keep settings under their names, and show them."""
        self.settings = replace(self.settings, **values)
        if self._own is None:
            write_settings(self._folder, self.settings)
        if (self.settings.theme, self.settings.scale) != (self.look.theme, self.look.scale):
            self.look.set(self.settings.theme, self.settings.scale)
        self.look.still = self.settings.still
        self._changed()

    def text_size(self, step: int) -> None:
        """Make the text larger or smaller by a step."""
        index = SCALES.index(self.settings.scale) + step
        self.remember(scale=SCALES[max(0, min(len(SCALES) - 1, index))])

    def next_theme(self) -> None:
        """Go on to the next theme."""
        self.remember(theme=THEMES[(THEMES.index(self.settings.theme) + 1) % len(THEMES)])

    def turn_motion(self) -> None:
        """Let things move by themselves, or not any more."""
        self.remember(still=not self.settings.still)

    def key(self, event: pygame.event.Event) -> bool:
        """Take a key that changes text size or colours; return whether it did."""
        if not event.mod & pygame.KMOD_CTRL:
            return False
        if event.key in {pygame.K_PLUS, pygame.K_EQUALS, pygame.K_KP_PLUS}:
            self.text_size(1)
        elif event.key in {pygame.K_MINUS, pygame.K_KP_MINUS}:
            self.text_size(-1)
        elif event.key == pygame.K_0:
            self.remember(scale=1.0)
        elif event.key == pygame.K_t:
            self.next_theme()
        else:
            return False
        return True
