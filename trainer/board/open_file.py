"""A file that was written is opened by the system's own program for it, from where it can be printed too."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

from trainer.board.scenes.asking import ask_which, show_message
from trainer.board.services import Services
from trainer.words import _

OPENERS = ("open",) if sys.platform == "darwin" else ("xdg-open", "gio")
"""Programs that open a file with whatever is meant for its kind; Windows needs none."""

GIVES_UP_S = 1.0
"""An opener that finds no program for a file says so within this time, seconds."""


def open_by_system(path: Path) -> bool:
    """Open a file with the program that the system has for its kind; return False where it has none."""
    try:
        if sys.platform == "win32":
            os.startfile(path)
            return True
        found = next(filter(None, map(shutil.which, OPENERS)), None)
        if found is None:
            return False
        words = [found, "open", str(path)] if Path(found).name == "gio" else [found, str(path)]
        opening = subprocess.Popen(words, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True)
        return opening.wait(GIVES_UP_S) == 0
    except subprocess.TimeoutExpired:
        return True  # it runs as long as the file is looked at
    except OSError:
        return False


def offer_files(services: Services, title: str, lines: Sequence[str], files: Sequence[tuple[str, Path]]) -> None:
    """Say that files were written, with a button that opens each: (what the button says, the file)."""

    def opening(path: Path) -> None:
        if not open_by_system(path):
            text = _("No program on this machine opens it from here. Open the file yourself. It lies here:")
            show_message(services, title, [text, str(path)])

    options = [(name, lambda path=path: opening(path)) for name, path in files]
    ask_which(services, title, lines, (*options, (_("Close"), None)))
