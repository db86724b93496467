"""The clock of this machine, as whole milliseconds UTC, and how its times are told."""

from __future__ import annotations

import time


def now() -> int:
    """Return the time, ms UTC."""
    return time.time_ns() // 1_000_000


def moment(at: int) -> str:
    """Return a time in ms UTC for people."""
    return time.strftime("%Y-%m-%d %H:%M", time.gmtime(at // 1000)) + " UTC"
