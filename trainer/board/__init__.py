"""The board: a window in which a house is built and judged."""

from __future__ import annotations

import os
import sys
from pathlib import Path

from trainer.board.no_display import NoDisplay
from trainer.words import _

_SCREENS = ("DISPLAY", "WAYLAND_DISPLAY", "SDL_VIDEODRIVER")
"""One of these is set wherever Linux has a screen."""


def run(level: str | None = None, data: Path | None = None) -> None:
    """Open the board and stay until it is closed; ``level`` is a level to open at once.

    What the learner saves goes to ``data``, by default this system's folder for a user's data.
    Raises :class:`NoDisplay` where there is no screen, and LookupError for a level that there isn't.
    """
    if sys.platform.startswith("linux") and not any(os.environ.get(name) for name in _SCREENS):
        raise NoDisplay(_("There is no screen here, so the board can't open."))
    os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")
    from trainer.board.window import open_window  # what asks only for a name shouldn't load pygame

    open_window(level, data)
