"""Keys that are held down, and what was on the screen when each was pressed."""

from __future__ import annotations

import pygame

from trainer.board.scene import Scene


class HeldKeys:
    """A key that is held goes on sending presses; of Enter, or on another screen, they were not meant for it."""

    def __init__(self) -> None:
        self._since: dict[int, tuple[Scene, object]] = {}

    def only_held(self, key: int, here: tuple[Scene, object]) -> bool:
        """Whether a key was meant for what was there before, and is held: Enter, or any on another screen."""
        since = self._since.setdefault(key, here)
        first = since is here
        return not first and (key in {pygame.K_RETURN, pygame.K_KP_ENTER} or since != here)

    def let_go(self, key: int) -> None:
        """Note that a key goes up."""
        self._since.pop(key, None)
