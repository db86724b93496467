"""``trainer`` by itself: opens the board, or says why it can't and what to use instead."""

from __future__ import annotations

import os
import sys

import typer

NO_SCREEN = """\
There is no screen here, so the board can't open.
These two commands do the same job without one: a right diary of the work, and its judgement.

  trainer rehearse wren --seed 1 -o wren-diary.yaml
  trainer grade wren wren-diary.yaml
"""
_SCREENS = ("DISPLAY", "WAYLAND_DISPLAY", "SDL_VIDEODRIVER")
"""One of these is set wherever Linux has a screen; looking first spares the person SDL's own complaints."""


def board() -> None:
    """Open the board; without a screen, say which commands do the same."""
    if not screen():
        typer.echo(NO_SCREEN, nl=False)
        return
    from trainer.board import run  # noqa: PLC0415

    run()


def screen() -> bool:
    """Whether a window can be opened here and somebody could see it."""
    if sys.platform.startswith("linux") and not any(os.environ.get(name) for name in _SCREENS):
        return False
    os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")
    import pygame  # noqa: PLC0415

    try:
        pygame.display.init()
    except pygame.error:
        return False
    return pygame.display.get_driver() not in {"dummy", "offscreen", "evdev"}
