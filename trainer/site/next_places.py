"""The places one bay away from each truss that tips: side by side with it, and nothing between them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from itertools import groupby

from trainer.layout.model import Layout, Member
from trainer.order import TIED

Lie = tuple[float, float, float, str]
"""Where a truss's line lies, mm; from where to where it runs along that line; its tag."""


def next_places(layout: Layout, reach: float) -> Mapping[str, frozenset[str]]:
    """For each truss that tips, the places on either side of it: no further off than ``reach`` mm, none between."""
    found: dict[str, frozenset[str]] = {}
    tips = sorted((m for m in layout.members if m.kind in TIED), key=_along)
    for _axis, group in groupby(tips, _along):
        lies = sorted(_lie(member) for member in group)
        for i, here in enumerate(lies):
            ahead, behind = lies[i + 1 :], lies[:i][::-1]
            found[here[3]] = frozenset([*_next(here, ahead, reach), *_next(here, behind, reach)])
    return found


def _next(here: Lie, others: list[Lie], reach: float) -> Iterator[str]:
    """Those of ``others``, the nearest first, that lie alongside ``here`` with none between alongside both."""
    between: list[Lie] = []
    for there in others:
        if abs(there[0] - here[0]) > reach:
            return
        if there[0] != here[0] and _alongside(here, there):
            if not any(other[0] != there[0] and _alongside(here, other, there) for other in between):
                yield there[3]
            between.append(there)


def _alongside(*lies: Lie) -> bool:
    """Whether there is a stretch along which all of them run."""
    return min(lie[2] for lie in lies) > max(lie[1] for lie in lies)


def _along(member: Member) -> int:
    """The axis that a truss runs along."""
    return int(math.isclose(member.start[0], member.finish[0], abs_tol=0.5))


def _lie(member: Member) -> Lie:
    along = _along(member)
    low, high = sorted((member.start[along], member.finish[along]))
    return member.start[1 - along], low, high, member.tag
