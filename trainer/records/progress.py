"""How far one person has come, house by house: what was tried, the best mark, the attempts to look back at."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from trainer.records.attempt import Attempt


@dataclass(frozen=True, slots=True)
class PastHouse:
    """One house that is done or was put away, as the house ``number``, from 0, of the attempt with this id.

    ``ended`` in ms UTC; ``skills_shown`` by their names, as :mod:`trainer.session.skills` has them. What was put away
    was not handed over, so its ``score`` says nothing.
    """

    attempt: str
    number: int
    ended: int
    score: int
    outcome: str
    skills_shown: tuple[str, ...] = ()

    @property
    def left(self) -> bool:
        """Whether it was put away without a hand-over."""
        return self.outcome == "unfinished"


@dataclass(frozen=True, slots=True)
class Progress:
    """One house: how often it was handed over, the best mark, whether the practice mark was met.

    ``past`` is all that can be looked back at, the latest first.
    """

    tries: int = 0
    best: int = 0
    met: bool = False
    past: tuple[PastHouse, ...] = ()

    @property
    def skills_shown(self) -> tuple[str, ...]:
        """The skills that were shown by a hint at every hand-over so far: none of them is done yet."""
        over = [set(each.skills_shown) for each in self.past if not each.left]
        return tuple(sorted(set.intersection(*over))) if over else ()


def progress(outlines: Iterable[Attempt], code: str) -> dict[str, Progress]:
    """Return by level what ``code`` has done or put away, from the outlines of a store; closed sittings count too."""
    found: dict[str, Progress] = {}
    for attempt in outlines:
        if attempt.code != code or attempt.silent:
            continue
        for number, house in enumerate(attempt.houses):
            if house.mark is None:
                continue
            mark, skills = house.mark, tuple(map(str, house.mark.get("skills_shown", ())))
            past = PastHouse(attempt.id, number, house.ended, int(mark["score"]), str(mark["outcome"]), skills)
            found[house.level] = _with(found.get(house.level, Progress()), past)
    return found


def _with(so_far: Progress, past: PastHouse) -> Progress:
    every = tuple(sorted((*so_far.past, past), key=lambda each: -each.ended))
    if past.left:
        return replace(so_far, past=every)
    best = max(so_far.best, past.score)
    return Progress(so_far.tries + 1, best, so_far.met or past.outcome == "met", every)
