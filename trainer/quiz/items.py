"""ItemStatistics statistics by classical test theory, and how far they can be relied on.

Difficulty ``p`` is the share of right answers. Discrimination ``d`` is p of the upper 27 % of learners less p of
the lower 27 %; learners tied over a line count by the fraction of them that fits, so that the order of rows
changes nothing. A point-biserial is the correlation of an item with the total, or with the rest of it. KR-20
takes the population variance; SEM is SD·√(1 - r). Where there is nothing to reckon, the value is none.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from trainer.read import Fault, Faulty, read_table, refuse
from trainer.words import _

GROUP = 0.27
"""Share of the learners in the upper and in the lower group."""
COUNTS_ONLY, EARLY, RELIABLE = 10, 30, 100
"""Learners from which there is an early look, from which D and r are given, and from which reliability is."""
Z95 = 1.959963984540054
"""Standard normal quantile of a 95 % interval."""
MOST_CELLS = 20_000_000
Manner = Literal["counts only", "early look", "without reliability", "whole"]


@dataclass(frozen=True, slots=True)
class ItemStatistics:
    """One item: how many were ``right``, and its statistics; none where they can't be had."""

    item: str
    right: int
    p: float | None
    p_low: float | None
    p_high: float | None
    d: float | None
    point_biserial: float | None
    rest_point_biserial: float | None


@dataclass(frozen=True, slots=True)
class Statistics:
    """A test: its items, KR-20 and standard error of measurement, and what so many learners allow to be said."""

    learners: int
    items: tuple[ItemStatistics, ...]
    mean: float | None
    sd: float | None
    kr20: float | None
    sem: float | None

    @property
    def manner(self) -> Manner:
        """What may be said to people for so many learners."""
        if self.learners < COUNTS_ONLY:
            return "counts only"
        if self.learners < EARLY:
            return "early look"
        return "whole" if self.learners >= RELIABLE else "without reliability"


def statistics(names: Sequence[str], answers: Sequence[Sequence[int]]) -> Statistics:
    """Return the statistics of ``answers``, a row of 0 and 1 for each learner, a column for each name."""
    count, totals = len(answers), [sum(row) for row in answers]
    columns = list(zip(*answers, strict=True)) if answers else [()] * len(names)
    weights = _groups(totals)
    items = tuple(_item(name, column, totals, weights) for name, column in zip(names, columns, strict=True))
    if not count:
        return Statistics(0, items, None, None, None, None)
    mean = sum(totals) / count
    variance = sum((total - mean) ** 2 for total in totals) / count
    kr20 = _kr20([item.right / count for item in items], variance)
    sd = math.sqrt(variance)
    sem = sd * math.sqrt(max(0.0, 1 - kr20)) if kr20 is not None else None
    return Statistics(count, items, mean, sd, kr20, sem)


def _kr20(shares: Sequence[float], variance: float) -> float | None:
    count = len(shares)
    if count < 2 or not variance:
        return None
    return count / (count - 1) * (1 - sum(p * (1 - p) for p in shares) / variance)


def _item(
    name: str, column: Sequence[int], totals: Sequence[int], weights: Sequence[tuple[float, float]]
) -> ItemStatistics:
    count, right = len(column), sum(column)
    if not count:
        return ItemStatistics(name, 0, None, None, None, None, None, None)
    low, high = _wilson(right, count)
    d = None
    if count > 1:
        upper = sum(w[0] for w, x in zip(weights, column, strict=True) if x)
        lower = sum(w[1] for w, x in zip(weights, column, strict=True) if x)
        d = (upper - lower) / (GROUP * count)
    rest = [total - x for total, x in zip(totals, column, strict=True)]
    return ItemStatistics(name, right, right / count, low, high, d, _biserial(column, totals), _biserial(column, rest))


def _groups(totals: Sequence[int]) -> list[tuple[float, float]]:
    """For each learner, the part of them that belongs to the upper and to the lower group."""
    size, held = GROUP * len(totals), Counter(totals)

    def parts(order: Iterator[int]) -> dict[int, float]:
        room, found = size, {}
        for total in order:
            found[total] = min(1.0, max(0.0, room / held[total]))
            room -= held[total]
        return found

    upper, lower = parts(iter(sorted(held, reverse=True))), parts(iter(sorted(held)))
    return [(upper[total], lower[total]) for total in totals]


def _biserial(column: Sequence[int], scores: Sequence[int]) -> float | None:
    """Pearson's correlation of a column of 0 and 1 with scores, in whole numbers as far as it goes."""
    n, sx, sy = len(column), sum(column), sum(scores)
    syy = sum(score * score for score in scores)
    sxy = sum(score for x, score in zip(column, scores, strict=True) if x)
    over, under = n * sxy - sx * sy, (n * sx - sx * sx) * (n * syy - sy * sy)
    return over / math.sqrt(under) if under > 0 else None


def _wilson(right: int, count: int) -> tuple[float, float]:
    """Wilson's 95 % score interval of a share."""
    p, zz = right / count, Z95 * Z95
    middle = (p + zz / (2 * count)) / (1 + zz / count)
    half = Z95 / (1 + zz / count) * math.sqrt(p * (1 - p) / count + zz / (4 * count * count))
    return max(0.0, middle - half), min(1.0, middle + half)


def read_answers(content: bytes, file: str) -> tuple[tuple[str, ...], list[tuple[int, ...]]]:
    """Read a table of 0 and 1: a header of item names, a row a learner; ``file`` is the name that faults carry.

    :raises Faulty: with every fault, each at its line.
    """
    rows = read_table(content, file, _("is missing; the first row must name the items"))
    (head_line, names), *body = [(line, [cell.strip() for cell in cells]) for line, cells in rows]
    faults = _head_faults(file, head_line, names)
    if len(body) * len(names) > MOST_CELLS:
        text = _("hold more than {most} answers; split the table").format(most=MOST_CELLS)
        refuse(file, head_line, "rows", text)
    answers = []
    for line, cells in body:
        bad = _row_faults(file, line, names, cells)
        faults += bad
        if not bad:
            answers.append(tuple(map(int, cells)))
    if faults:
        raise Faulty(faults)
    return tuple(names), answers


def _head_faults(file: str, line: int, names: Sequence[str]) -> list[Fault]:
    faults = [
        Fault(file, line, _("column {n}").format(n=n), _("has no name; give the item one"))
        for n, name in enumerate(names, 1)
        if not name
    ]
    repeated = [name for name, count in Counter(names).items() if name and count > 1]
    faults += [Fault(file, line, name[:40], _("is named twice; give each item a name of its own")) for name in repeated]
    if names and all(name in ("0", "1") for name in names):
        faults.append(Fault(file, line, "header", _("is a row of answers; put the names of the items above it")))
    return faults


def _row_faults(file: str, line: int, names: Sequence[str], cells: Sequence[str]) -> list[Fault]:
    if len(cells) != len(names):
        text = _("has {cells} cells and the header {heads}; fill or cut it")
        return [Fault(file, line, "row", text.format(cells=len(cells), heads=len(names)))]
    text = _("is '{cell}'; write 1 for right and 0 for wrong or left out")
    wrong = [(name, cell) for name, cell in zip(names, cells, strict=True) if cell not in ("0", "1")]
    return [Fault(file, line, name[:40] or "item", text.format(cell=cell[:20])) for name, cell in wrong]
