"""What can keep a record from being written or read, each in words for the person at the machine."""

from __future__ import annotations

from typing import ClassVar

from trainer.words import _


class RecordsError(Exception):
    """Something about the records that a person must be told; its text says what to do."""

    text: ClassVar[str] = "{where}"

    def __init__(self, where: str = "", **facts: str) -> None:
        super().__init__(self.text.format(where=where, **facts))


class NotWritten(RecordsError):  # noqa: N818 - these are answers about a disk or a file, not faults of the program
    """Raised where something could not be written down. It was not done; all that was acknowledged is safe."""


class WrongClock(NotWritten):
    """Raised where the machine's clock shows a year that nothing can be recorded under."""

    text = _(
        "The clock of this machine shows a year before 1970 or after 9999, so nothing was begun. "
        "Set the clock and try again."
    )


class DiskFull(NotWritten):
    """Raised where the disk has no room."""

    text = _(
        "{where}: the disk is full, so this was not recorded and not done. Free some space and do it again. "
        "All that was recorded before is safe."
    )


class ReadOnly(NotWritten):
    """Raised where the folder or the file may only be read."""

    text = _(
        "{where}: this place can't be written to, so nothing was recorded or done. Choose another folder with "
        "--data, or ask who looks after this machine. What is there already is safe."
    )


class Busy(NotWritten):
    """Raised where another window or program kept the store for too long."""

    text = _(
        "{where}: another window is writing to these records. So this was not recorded and not done. "
        "Wait a moment and do it again, or close the other window."
    )


class Elsewhere(NotWritten):
    """Raised where an attempt went on in another window."""

    text = _(
        "This attempt went on in another window, so this was not recorded and not done. "
        "Go on there, or close both and resume it."
    )


class Gone(NotWritten):
    """Raised where an attempt was erased while it went on."""

    text = _("This attempt was erased in another window. Nothing more of it is recorded. Begin again.")


class AlreadyThere(NotWritten):
    """Raised where a file that may not be replaced is there already."""

    text = _("{where} is there already and was left as it is. Choose another name.")


class Damaged(RecordsError):  # noqa: N818
    """Raised where a store can't be trusted any more. It is never written to."""

    text = _(
        "{where}: this file of records is damaged ({why}). It was left exactly as it is. "
        "'trainer records save-what-holds' writes what can be read to a new file."
    )


class NotRecords(RecordsError):  # noqa: N818
    """Raised where a file is not a store of ours, or comes from a later trainer."""
