"""Where the board keeps what is built: in this seat's records, opened when they are first needed."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from trainer.records.seat import Seat


class Records:
    """The records of the board's data folder, opened when they are first needed."""

    def __init__(self, folder: Path | None) -> None:
        self.folder = folder
        self.trouble = ""
        self._seat: Seat | None = None

    def seat(self) -> Seat | None:
        """Return the seat to keep attempts on; None without a folder, or with ``trouble`` where it can't be had."""
        if self._seat is None and self.folder is not None and not self.trouble:
            from trainer.records.errors import RecordsError  # loads SQLite and the signatures
            from trainer.records.seat import Seat

            try:
                self._seat = Seat.open(self.folder)
            except RecordsError as error:
                self.trouble = str(error)
        return self._seat

    def close(self) -> None:
        """Close the records."""
        if self._seat is not None:
            self._seat.leave()
            self._seat = None


def save_diary_file(folder: Path, name: str, text: str) -> Path:
    """Write a diary to a file for ``trainer grade``; return where.

    :raises RecordsError: where it can't be written.
    """
    from trainer.records.files import not_written, write_whole

    path = folder / "diaries" / f"{name}.yaml"
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise not_written(path, error) from error
    write_whole(path, text.encode("utf-8"))
    return path
