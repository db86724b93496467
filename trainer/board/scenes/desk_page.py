"""What the pages of the assessor's desk know of the desk they lie on."""

from __future__ import annotations

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

    def refresh(self, *regions: str) -> None:
        """Draw it again: somebody did something."""
