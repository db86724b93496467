"""Sittings that were closed on this seat: the code of each once more, and its result written again."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from trainer.board.scenes.folders import choose_folder
from trainer.board.widgets import Button, Column, Label, Paragraph, Prose, Scroll, Widget, dialog
from trainer.records.handing_in import finished, hand_in
from trainer.records.waiting import handed_out
from trainer.words import _

if TYPE_CHECKING:
    from trainer.board.services import Services
    from trainer.records.attempt import Attempt
    from trainer.records.seat import Seat

WRITE_DOWN = _("Write this code down and give it to your assessor:")


def choose_finished(services: Services, seat: Seat, folder: Path) -> None:
    """Ask which of the finished sittings is to be shown; ``folder`` is that of the class that is open."""

    def choice() -> Widget:
        text = _("{title}, by {code}")
        buttons: list[Widget] = [
            Button(
                text.format(title=each.opening.get("title", ""), code=each.code),
                partial(services.ask, _Finished(services, seat, folder, each).dialog), key=f"finished/{n}",
            )
            for n, each in enumerate(finished(seat))
        ]  # fmt: skip
        close = Button(_("Close"), services.close, shortcut="Esc", kind="quiet", key="finished/close")
        return dialog(_("Finished sittings"), [Scroll(Column(buttons, gap=8), _("What is finished")), close])

    services.ask(choice)


class _Finished:
    """One finished sitting; nothing is said here of how it went."""

    def __init__(self, services: Services, seat: Seat, folder: Path, made: Attempt) -> None:
        self.services = services
        self.seat = seat
        self.folder = folder
        self.made = made
        self.said = ""

    def dialog(self) -> Widget:
        """Return what is shown."""
        said = [Prose([Paragraph(self.said)], key="finished/said")] if self.said else []
        parts: list[Widget] = [
            Label(_("Code name: {code}").format(code=self.made.code), "body", key="finished/name"),
            Prose([Paragraph(WRITE_DOWN)], key="finished/write down"),
            Label(self.made.head_code, "figure", "accent", key="finished/code"),
            *said,
            Button(_("Write the result again"), self._again, key="finished/again"),
            Button(_("Close"), self.services.close, shortcut="Esc", kind="primary", key="finished/close"),
        ]
        return dialog(str(self.made.opening.get("title", "")), parts)

    def _again(self) -> None:
        """Write it where its pack lies; ask where that is, if not in the folder that is open."""
        if self.made.opening["pack"] in handed_out(self.folder)[0]:
            self._write(self.folder)
            return
        self.services.close()
        start = self.services.ui.memory.get("folders/last", Path.home())
        choose_folder(self.services, _("The folder of the class"), start, self._write_there)

    def _write_there(self, folder: Path) -> None:
        self._write(folder)
        self.services.ask(self.dialog)

    def _write(self, folder: Path) -> None:
        written = hand_in(self.seat, folder, self.made)
        self.said = written.trouble or _("The result is in this file: {file}").format(file=written.file)
        self.services.ui.refresh()
