"""What the records say of the course: exercises done to their end, houses handed over, and how far others have come."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime

from trainer.course import Done
from trainer.course.sittings import is_new_house
from trainer.records.attempt import RecordedHouse
from trainer.records.drills import times_done
from trainer.records.progress import Progress, progress
from trainer.records.seat import Seat


def course_done(seat: Seat, steps_of: Callable[[RecordedHouse], int]) -> Done:
    """Return what whoever works at a seat has done; ``steps_of`` says how many steps a house has that was begun.

    :raises RecordsError: where the records can't be read.
    """
    done = progress(seat.store.outlines(), seat.code)
    begun: dict[str, RecordedHouse] = {}
    for attempt in seat.unfinished():
        house = attempt.houses[-1]
        if attempt.mode == "practice" or is_new_house(house.level):
            begun.setdefault(house.level, house)
    return Done(
        drills=times_done(seat.store, seat.code),
        built=frozenset(house for house, so_far in done.items() if so_far.tries),
        share={
            level: len(house.acts) / steps
            for level, house in begun.items()
            if house.acts and (steps := steps_of(house))
        },
        ended={level: first for level, so_far in done.items() if (first := _first_ended(level, so_far))},
    )


def _first_ended(level: str, so_far: Progress) -> datetime | None:
    """When a house made new was first handed over."""
    over = [past.ended for past in so_far.past if not past.left] if is_new_house(level) else []
    return datetime.fromtimestamp(min(over) / 1000, UTC) if over else None
