"""What the pages of the assessor's desk know of the desk they lie on."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from trainer.board.services import Services
    from trainer.board.widgets import Ui
    from trainer.records.desk import Desk
    from trainer.records.seat import Seat


class DeskPage(Protocol):
    """The desk, as its pages see it."""

    services: Services
    seat: Seat
    desk: Desk

    @property
    def ui(self) -> Ui:
        """The board's look and memory."""

    @property
    def class_folder(self) -> Path | None:
        """The folder of the class that was handed out or chosen last."""

    def report_class(self) -> None:
        """Write the report of the class."""

    def keep_class(self, folder: Path) -> None:
        """Remember the folder of a class, also after the program was closed."""

    def await_class(self, folder: Path, lines: Sequence[str]) -> None:
        """Go where the results of a class come back, with what is to be said of it."""

    def refresh(self, *regions: str) -> None:
        """Draw it again: somebody did something."""
