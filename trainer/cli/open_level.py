"""A level as commands may show it: not one kept for assessment, nor one that is being sat on this machine."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from trainer.cli.data import folder_of
from trainer.cli.given import faulty, given_level
from trainer.words import _

if TYPE_CHECKING:
    from trainer.level import Level
    from trainer.records.waiting import BeingSat


def open_level(name: str, data: Path | None) -> Level:
    """Read the level called or filed under ``name``, where it may be seen before it is sat; else say so and stop.

    One that is kept for assessment is shown by the name of its file alone, which is how assessors come to it. ``data``
    is the data folder that was named.
    """
    level = given_level(name)
    if level.lesson.unseen and not Path(name).is_file():
        text = _(
            "{level} is kept for assessment: nobody practises on it, and there are no questions, drills, film or "
            "drawings of it. Name another house. An assessor can name its file."
        )
        faulty(text.format(level=level.id))
    not_being_sat(name, level, data)
    return level


def not_being_sat(name: str, level: Level, data: Path | None) -> None:
    """Say so and stop where a sitting of this level was begun in the data folder and is not closed."""
    if in_sitting(name, level, sat_here(data)):
        text = _(
            "{level} is being sat here, or a house with its plan is. Until that sitting is closed, there are no "
            "drawings, film, drills, questions or diaries of it, and none are judged. Go on with the sitting on the "
            "board."
        )
        faulty(text.format(level=level.id))


def sat_here(data: Path | None) -> BeingSat | None:
    """Return what belongs to sittings not closed yet in the data folder; None where its records can't be read."""
    if not folder_of(data).is_dir():
        return None
    from trainer.records.errors import RecordsError
    from trainer.records.store import FILE, Store
    from trainer.records.waiting import being_sat
    from trainer.shipped import level_paths

    try:
        with Store.read(folder_of(data) / FILE) as store:
            return being_sat(store, folder_of(data), level_paths())
    except RecordsError:
        return None


def in_sitting(name: str, level: Level, sat: BeingSat | None) -> bool:
    """Whether the level that is called or filed under ``name`` is among what is ``sat``."""
    from trainer.shipped import find_level

    return sat is not None and bool(sat.named) and sat.has(level, find_level(name).read_text(encoding="utf-8"))
