"""The assessor's desk: behind a passphrase, a class is handed out, taken back, reported on and kept."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import pygame

from trainer.board.scenes.asking import show_message
from trainer.board.scenes.desk_back import TakeBack
from trainer.board.scenes.desk_class import OfClass
from trainer.board.scenes.desk_out import HandOut
from trainer.board.scenes.middle import Middle
from trainer.board.scenes.reporting import report_class
from trainer.board.widgets import (
    Button,
    Column,
    Flow,
    Followed,
    Label,
    LineEntry,
    Pad,
    Paragraph,
    Prose,
    Scroll,
    Widget,
    top_bar,
)
from trainer.records.desk import Desk
from trainer.records.errors import RecordsError
from trainer.records.keys import fingerprint, public_hex
from trainer.words import _

if TYPE_CHECKING:
    from trainer.board.services import Services
    from trainer.records.seat import Seat

FILE, CLASS = "desk/file", "desk/class"
"""Names under which the store keeps where the key and the folder of the class are."""
LONGEST_PATH = 400
LONGEST_PASSPHRASE = 100
SHUT = _(
    "The key stays in its file, under your passphrase. It is open only while you are at this desk: it is shut when you "
    "leave it, when you hand the machine over, and after ten minutes without a press."
)


def open_desk(services: Services) -> None:
    """Go to the assessor's desk."""
    seat = services.records.seat()
    if seat is None:
        why = services.records.trouble or _("There is no folder for records.")
        show_message(services, _("There is no desk here"), [why])
        return
    services.show(DeskScreen(services, seat))


class DeskScreen(Middle):
    """The desk: first the key, then what it is for."""

    def __init__(self, services: Services, seat: Seat) -> None:
        super().__init__(services)
        self.name = _("Assessor's desk")
        self.seat = seat
        self.desk = Desk(seat.clock)
        self.file = seat.store.setting(FILE) or str(Path.home() / "assessor.pem")
        self.passphrase = self.again = self.unclear = ""
        self.back = TakeBack(self)
        self.parts: tuple[HandOut | TakeBack | OfClass, ...] = (HandOut(self), self.back, OfClass(self))
        self.part = 0
        self._was_open = False

    def refresh(self, *regions: str) -> None:
        """Whatever changes here was done by somebody at the desk."""
        if hasattr(self, "desk"):
            self.desk.touch()
        super().refresh(*regions)

    def tick(self, now_ms: int) -> None:
        """Shut the key when nobody was here for long, and look at the class while it fills."""
        if self._was_open and not self.desk.open:
            self._was_open = False
            super().refresh()
        elif self._was_open and self.parts[self.part] is self.back and self.back.look(now_ms):
            super().refresh()

    def side(self) -> Widget:
        column = Column(self._inside() if self.desk.open else self._outside(), gap=12)
        whole: Widget = Scroll(column, self.name, key="desk/scroll")
        if not self.desk.open:
            opens = [
                Button(_("Open the key"), self.unlock, kind="primary", key="desk/open"),
                Button(_("Make a new key"), self.make_key, key="desk/make"),
            ]
            said = [Label(self.unclear, "body", key="desk/unclear")] if self.unclear else []
            whole = Followed(whole, Column([*said, Flow(opens, gap=10, key="desk/opens")]))
        return Pad(whole, pad=18, column=True, name=self.name, key="desk")

    def _outside(self) -> list[Widget]:
        """What is shown while the key is shut."""
        return [
            Label(_("Your key"), "title", role="heading"),
            LineEntry(_("Its file"), self.file, partial(self._take, "file"), key="desk/file", most=LONGEST_PATH),
            LineEntry(
                _("Passphrase"), self.passphrase, partial(self._take, "passphrase"), key="desk/passphrase",
                enter=self.unlock, most=LONGEST_PASSPHRASE, secret=True,
            ),
            Label(_("No key yet? Type the passphrase twice, then make one."), "body"),
            LineEntry(
                _("The passphrase again, for a new key"), self.again, partial(self._take, "again"), key="desk/again",
                enter=self.make_key, most=LONGEST_PASSPHRASE, secret=True,
            ),
            Prose([Paragraph(SHUT)], key="desk/about"),
        ]  # fmt: skip

    def _inside(self) -> list[Widget]:
        """What is shown while it is open."""
        text = _("Your key: {name}, with the code {code}. Seats show the same code.")
        said = text.format(name=self.desk.name, code=fingerprint(public_hex(self.desk.key)))
        tabs = [
            Button(part.title, partial(self._go, n), kind="tab", checked=n == self.part, key=f"desk/tab/{n}")
            for n, part in enumerate(self.parts)
        ]
        shut = Button(_("Shut the key"), self.shut, kind="quiet", key="desk/shut")
        own = Prose([Paragraph(said, "small")], key="desk/own")
        return [Flow([*tabs, shut], gap=8), own, *self.parts[self.part].widgets()]

    def _take(self, what: str, text: str) -> None:
        setattr(self, what, text)
        self.unclear = ""

    def _go(self, part: int) -> None:
        self.part = part
        self.refresh()

    def unlock(self) -> None:
        """Open the key with what was typed."""
        self._try(self.desk.unlock)

    def make_key(self) -> None:
        """Make a key under what was typed twice."""
        if self.passphrase != self.again:
            self.unclear = _("The two passphrases are not the same.")
            self.refresh()
            return
        self._try(self.desk.make)

    def _try(self, opens: Callable[[Path, str, Path], None]) -> None:
        try:
            opens(Path(self.file).expanduser(), self.passphrase, self.seat.folder)
            self.seat.store.set_setting(FILE, self.file)
            self._was_open = True
            if self.back.waits():
                self.part = self.parts.index(self.back)
        except (RecordsError, OSError) as error:
            self.unclear = str(error)
        self.passphrase = self.again = ""
        self.refresh()

    @property
    def class_folder(self) -> Path | None:
        """The folder of the class that was handed out or chosen last."""
        found = self.seat.store.setting(CLASS)
        return Path(found) if found else None

    def keep_class(self, folder: Path) -> None:
        """Remember the folder of a class, also after the program was closed."""
        self.seat.store.set_setting(CLASS, str(folder))

    def await_class(self, folder: Path, lines: Sequence[str]) -> None:
        """Go where the results of a class come back, with what is to be said of it."""
        self.keep_class(folder)
        self.back.await_results(lines)
        self._go(self.parts.index(self.back))

    def report_class(self) -> None:
        """Write the report of the class."""
        report_class(self.services, self.class_folder)

    def shut(self) -> None:
        """Forget the key and stay."""
        self.desk.forget()
        self._was_open = False
        super().refresh()

    def leave(self) -> None:
        """Forget the key and go to the houses."""
        self.desk.forget()
        self.services.go_home()

    def _bar(self) -> Widget:
        return top_bar(self.name, _("Houses"), self.leave, self.services.help)

    def first_focus(self) -> str:
        return "desk/tab/0" if self.desk.open else "desk/passphrase"

    def key(self, event: pygame.event.Event) -> bool:
        if event.key == pygame.K_ESCAPE:
            self.leave()
            return True
        return False
