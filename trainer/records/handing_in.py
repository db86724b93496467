"""Results of sittings as files: in the seat's own folder, and in the folder of the class that the pack came from."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path

from trainer.records.attempt import Attempt
from trainer.records.errors import NotWritten, RecordsError
from trainer.records.files import write_whole
from trainer.records.keys import public_hex
from trainer.records.record_file import SUFFIX, file_name, write_record
from trainer.records.seat import Seat
from trainer.records.stick import RESULTS
from trainer.records.waiting import PACKS, handed_out
from trainer.words import _


@dataclass(frozen=True)
class HandedIn:
    """Where a result was written, and what kept it from the folder of the class; ``trouble`` is empty where nothing."""

    file: Path
    trouble: str


def hand_in(seat: Seat, folder: Path, made: Attempt) -> HandedIn:
    """Write a result into the seat's own folder and into ``folder``, which is never made anew."""
    file, trouble = seat.folder / RESULTS / file_name(made), ""
    for each in dict.fromkeys((seat.folder, folder)):
        try:
            file = _write(seat, each, made)
        except RecordsError as error:
            trouble = _("The result could not be written: {why} It is kept in the records of this seat, in {kept}.")
            trouble = trouble.format(why=error, kept=seat.folder)
    return HandedIn(file, trouble)


def finished(seat: Seat) -> tuple[Attempt, ...]:
    """Return the sittings that were closed on this seat, the latest first."""
    return tuple(sorted(_closed_of(seat, None), key=lambda each: (-each.ended, each.id)))


def is_back(folder: Path, code: str) -> bool:
    """Whether a result of a code name lies already in the folder of a class."""
    return any((folder / RESULTS).glob(f"{code}-*{SUFFIX}"))


def hand_in_missing(seat: Seat, folder: Path) -> tuple[tuple[Attempt, HandedIn], ...]:
    """Write those results of the packs in ``folder`` that it lacks; return each with what came of it."""
    lacking = (
        each for each in _closed_of(seat, handed_out(folder)[0]) if not (folder / RESULTS / file_name(each)).exists()
    )
    return tuple((each, hand_in(seat, folder, each)) for each in lacking)


def _write(seat: Seat, folder: Path, made: Attempt) -> Path:
    if folder != seat.folder and not (folder / PACKS).is_dir():
        text = _("{folder}: the folder of the class is not there. Put its stick in again.")
        raise NotWritten(text.format(folder=folder))
    file = folder / RESULTS / file_name(made)
    write_whole(file, write_record(made))
    return file


def _closed_of(seat: Seat, packs: Collection[str] | None) -> list[Attempt]:
    """What this seat closed of these packs, or of all."""
    mine = public_hex(seat.key)
    sat = [
        str(each["attempt"])
        for each in seat.store.openings()
        if each.get("seat") == mine and "pack" in each and (packs is None or each["pack"] in packs)
    ]
    return [each for id_ in sat for each in seat.store.attempts(id_)[:1] if each.closed]
