"""Which folder: one list to go through, with the places where sticks are found."""

from __future__ import annotations

import string
import sys
from collections.abc import Callable
from pathlib import Path

from trainer.board.services import Services
from trainer.board.widgets import Button, Flow, Label, LineEntry, Listing, Row, Widget, dialog
from trainer.words import _

MOST = 400
"""Folders shown of one."""
_STICKS = ("/media", "/run/media", "/mnt", "/Volumes")


def choose_folder(services: Services, title: str, start: Path, take: Callable[[Path], None], *, new: str = "") -> None:
    """Ask for a folder, beginning at ``start``; ``new`` is the name of one that may be made in the one chosen."""
    services.ask(_Folders(services, title, start, take, new).dialog)


class _Folders:
    """Where one is, and which of the folders there is chosen."""

    def __init__(self, services: Services, title: str, start: Path, take: Callable[[Path], None], new: str) -> None:
        self.services = services
        self.title = title
        self.take = take
        self.new = new
        self.may_make = bool(new)
        self.here = next((each for each in (start, *start.parents) if each.is_dir()), Path.home())
        self.chosen = ""

    def rows(self) -> list[Row]:
        """The folder over this one, those in it, and where sticks and the person's own files are."""
        up = [Row("..", _("one folder up"))] if self.here.parent != self.here else []
        inside = [Row(str(each), each.name) for each in _folders_in(self.here)]
        places = [Row(str(each), str(each), detail=_("another place")) for each in _places() if each != self.here]
        return [*up, *inside, *places]

    def dialog(self) -> Widget:
        """Return the question."""
        listing = Listing(
            _("Folders"), self.rows(), self.chosen, self._choose, take=self._go, key="folders/list", show=8
        )
        where = Label(_("Now in: {folder}").format(folder=self.here), "body", key="folders/here")
        parts: list[Widget] = [where, listing]
        if self.may_make:
            parts.append(LineEntry(_("A new folder in it"), self.new, self._call, key="folders/new"))
        use = _("Make and use {name}").format(name=self.new) if self.new else _("Use this folder")
        parts.append(
            Flow(
                [
                    Button(_("Open the chosen one"), self._open, key="folders/open"),
                    Button(use, self._use, kind="primary", key="folders/use"),
                    Button(_("Not now"), self.services.close, shortcut="Esc", kind="quiet", key="folders/not now"),
                ],
                gap=8, key="folders/buttons",
            )
        )  # fmt: skip
        return dialog(self.title, parts, first="folders/list")

    def _choose(self, row: str) -> None:
        self.chosen = row
        self.services.ui.refresh()

    def _call(self, name: str) -> None:
        self.new = name
        self.services.ui.refresh()

    def _go(self, row: str) -> None:
        self.here = self.here.parent if row == ".." else Path(row)
        self.chosen = ""
        self.services.ui.refresh()

    def _open(self) -> None:
        if self.chosen:
            self._go(self.chosen)

    def _use(self) -> None:
        self.services.close()
        self.take(self.here / self.new if self.new else self.here)


def _folders_in(folder: Path) -> list[Path]:
    """The folders in one, by name; none where it can't be read."""
    try:
        found = [each for each in folder.iterdir() if not each.name.startswith(".") and each.is_dir()]
    except OSError:
        return []
    return sorted(found, key=lambda each: each.name.casefold())[:MOST]


def _places() -> list[Path]:
    """Where sticks are found on this system, and the person's own folder."""
    if sys.platform == "win32":
        return [*(drive for letter in string.ascii_uppercase if (drive := Path(f"{letter}:\\")).exists()), Path.home()]
    sticks = [each for top in _STICKS for each in _folders_in(Path(top))]
    return [
        *sticks,
        *(below for each in sticks for below in _folders_in(each) if str(each).startswith("/media")),
        Path.home(),
    ]
