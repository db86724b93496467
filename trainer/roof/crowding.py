"""Whether eaves may meet: only such roofs ask for :mod:`trainer.roof.eaves`, which is slow to load."""

from __future__ import annotations

from bisect import bisect_left

from trainer.roof.side import Side


def crowded(views: list[Side], overhang: float) -> bool:
    """Whether eaves may meet; it may say so where they do not, never the other way round."""
    for side, opposite in ((views[0], views[2]), (views[1], views[3])):
        for wall in opposite.tops:  # turned half round, so that it lies at -h, from -right to -left
            for i in range(bisect_left(side.tops, (-wall.h,)) - 1, -1, -1):
                other = side.tops[i]
                if other.h + 2 * overhang <= -wall.h:
                    break
                if other.left + wall.left < 2 * overhang and -wall.right - other.right < 2 * overhang:
                    return True
    return False
