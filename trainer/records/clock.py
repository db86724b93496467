"""The clock of this machine, as whole milliseconds UTC, and how its times are told."""

from __future__ import annotations

import time

from trainer.records.errors import WrongClock

LAST_MOMENT = 253_402_300_799_999
"""The last ms of the year 9999: no calendar of ours goes further."""


def now() -> int:
    """Return the time, ms UTC."""
    return time.time_ns() // 1_000_000


def moment(at: int) -> str:
    """Return a time in ms UTC for people."""
    return time.strftime("%Y-%m-%d %H:%M", time.gmtime(at // 1000)) + " UTC"


def in_range(at: int) -> int:
    """Return a time in ms UTC as it is.

    :raises WrongClock: where nothing can be recorded under it.
    """
    if not 0 <= at <= LAST_MOMENT:
        raise WrongClock
    return at
