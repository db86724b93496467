"""What the records say of the course: exercises done to their end, houses handed over, and how far others have come."""

from __future__ import annotations

from collections.abc import Callable

from trainer.course import Done
from trainer.records.drills import times_done
from trainer.records.progress import progress
from trainer.records.seat import Seat


def course_done(seat: Seat, steps_of: Callable[[str], int]) -> Done:
    """Return what whoever works at a seat has done; ``steps_of`` says by its level's id how many steps a house has.

    :raises RecordsError: where the records can't be read.
    """
    done = progress(seat.store.outlines(), seat.code)
    begun: dict[str, int] = {}
    for attempt in seat.unfinished():
        house = attempt.houses[-1]
        if attempt.mode == "practice":
            begun.setdefault(house.level, len(house.acts))
    return Done(
        drills=times_done(seat.store, seat.code),
        built=frozenset(house for house, so_far in done.items() if so_far.tries),
        share={house: acts / steps for house, acts in begun.items() if acts and (steps := steps_of(house))},
    )
