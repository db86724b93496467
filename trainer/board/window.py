"""The window itself: events in, frames out, and the real clock."""

from __future__ import annotations

import gc
import time
from pathlib import Path

import pygame

from trainer.board.app import App
from trainer.board.no_display import NoDisplay
from trainer.board.settings import read_settings
from trainer.board.small_window import LEAST, MOST
from trainer.shipped.colours import palettes
from trainer.words import _

IDLE_MS = 15
"""How long it sleeps for an event where nothing moves."""
AT_REST = 20
"""After so many sleeps without an event it has time to clear its memory up, which takes longer than a frame may."""


def open_window(level: str | None, data: Path | None) -> None:
    """Open the window and run until it is closed."""
    try:
        pygame.display.init()
        size = _first_size()
        surface = pygame.display.set_mode(size, pygame.RESIZABLE)
    except pygame.error as error:
        raise NoDisplay(_("The board can't open a window here: {error}.").format(error=error)) from error
    pygame.display.set_caption(_("Roof truss trainer"))
    _ask_for_room()
    pygame.key.set_repeat(350, 40)
    folder = data or _data_folder()
    app = App(
        surface, palettes(), data=folder, stamp=_stamp, seed=lambda: int(time.time()), settings=read_settings(folder),
        full_screen=_full_screen,
    )  # fmt: skip
    try:
        if level is not None:
            app.open(level)
        _loop(app)
    finally:
        app.services.records.close()
        pygame.display.quit()


def _loop(app: App) -> None:
    begun, slept = time.monotonic(), 0
    clear_up_at_rest()
    while app.running:
        changed = app.frame(round((time.monotonic() - begun) * 1000))
        if changed:
            pygame.display.update(changed)
        # Wait for an event instead of turning round: an idle board costs nothing.
        first = pygame.event.wait(IDLE_MS)
        slept = 0 if changed or first.type != pygame.NOEVENT else slept + 1
        if slept == AT_REST:
            gc.collect()
        for event in (first, *pygame.event.get()):
            if event.type == pygame.KEYDOWN and event.key == pygame.K_F11:
                app.services.full_screen()
            elif event.type != pygame.NOEVENT:
                app.handle(event)


def clear_up_at_rest() -> None:
    """Leave the long clearing up of memory to when nothing moves; without a rest it comes all the same, but seldom."""
    often, less, seldom = gc.get_threshold()
    gc.set_threshold(often, less, 50 * seldom)


def _ask_for_room() -> None:
    """Ask the system to let the window be made no smaller than a screen has room in; it need not heed that."""
    wide, high = pygame.display.get_desktop_sizes()[0]
    try:
        pygame.Window.from_display_module().minimum_size = (min(LEAST[0], wide), min(LEAST[1], high))
    except (AttributeError, pygame.error):
        return


def _full_screen() -> None:
    """Fill the screen, or go back to a window. Each is asked for anew: not every desktop lets one become the other."""
    if pygame.display.is_fullscreen():
        surface = pygame.display.set_mode(_first_size(), pygame.RESIZABLE)
    else:
        if len(pygame.display.get_desktop_sizes()) == 1:  # where nothing manages windows it would stay off the corner
            pygame.display.set_window_position((0, 0))
        surface = pygame.display.set_mode((0, 0), pygame.FULLSCREEN)
    wide, high = surface.get_size()
    pygame.event.post(pygame.event.Event(pygame.VIDEORESIZE, size=(wide, high), w=wide, h=high))


def _stamp() -> str:
    return time.strftime("%Y-%m-%d-%H%M%S")


def _first_size() -> tuple[int, int]:
    """Nearly the whole desktop, but no more than a common screen."""
    wide, high = pygame.display.get_desktop_sizes()[0]
    return (min(1920, max(1024, int(wide * 0.94))), min(1080, max(MOST[1], int(high * 0.88))))


def _data_folder() -> Path:
    from platformdirs import user_data_path

    return user_data_path("roof-truss-trainer", appauthor=False)
