"""How far one person has come, house by house: what was tried, the best mark, the last attempt to look back at."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from trainer.records.attempt import Attempt


@dataclass(frozen=True, slots=True)
class Progress:
    """One house: how often it was handed over, the best mark, whether the practice mark was met, the last attempt."""

    tries: int = 0
    best: int = 0
    met: bool = False
    last: str = ""
    ended: int = 0


def progress(outlines: Iterable[Attempt], code: str) -> dict[str, Progress]:
    """Return by level what ``code`` has handed over, from the outlines of a store; sittings count too."""
    found: dict[str, Progress] = {}
    for attempt in outlines:
        if attempt.code != code:
            continue
        for house in attempt.houses:
            if house.mark is None or house.mark["outcome"] == "unfinished":
                continue
            so_far = found.get(house.level, Progress())
            after = replace(
                so_far, tries=so_far.tries + 1, best=max(so_far.best, int(house.mark["score"])),
                met=so_far.met or house.mark["outcome"] == "met",
            )  # fmt: skip
            if house.ended >= so_far.ended:
                after = replace(after, last=attempt.id, ended=house.ended)
            found[house.level] = after
    return found
