"""Times of the records as a learner reads them."""

from __future__ import annotations

import time

from trainer.words import _


def moment(at: int) -> str:
    """Return a time in ms UTC as the day and the time of this place."""
    here = time.localtime(at / 1000)
    day = _("{day}/{month}/{year}").format(day=here.tm_mday, month=here.tm_mon, year=here.tm_year)
    return _("{day}, {hour}:{minute}").format(day=day, hour=here.tm_hour, minute=f"{here.tm_min:02d}")
