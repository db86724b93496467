"""Whether two people's work at a house is too alike to be each one's own: compared by hashes, small enough to keep.

Nobody sets out, stands and fixes a whole house just as another does: of the tidiest orders that there are two share
less than nine tenths of their runs of :data:`RUN` acts, at a small house three fifths. Within a run the order does not
count, so that two neighbours that changed places hide no copy. What comes before the first lift is left out, since
along a tape there is but one order.
"""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, product

from trainer.records.chain import JsonObject, canonical

BEFORE = ("check", "report", "plan", "load", "mark", "measure")
"""What is done before the first lift, mostly in the one order that there is."""
RUN = 5
"""So many acts one after another are compared, in whatever order they come."""
LEAST_COPIED = 10
"""Fewer acts than this may come at the same times by chance."""
LEAST_ALIKE = 24
"""Fewer acts than this, after the set-out, may come in the same order by chance."""
SAME_TIMES = 0.5
"""More of the acts than this at the same times, to the millisecond, are no chance."""
SAME_ORDER, UNLIKE = 0.93, 6
"""More of the runs in common than this, or all but so many, are no chance: neighbours that change places cost two."""
SAME_MISTAKES, SAME_KINDS, WITH_MISTAKES = 3, 0.8, 0.6
"""So many kinds of mistake made first at the same place, so many of all, and so many runs in common, are no chance."""
Likeness = tuple[str, str]
"""Whose work is like whose, by the keys given."""
Alike = Callable[[int, int, int], bool]
"""Whether two sets are alike, by how many they share, and how many the smaller and the larger have."""


@dataclass(frozen=True, slots=True)
class Course:
    """How somebody went about one ``house``, in hashes.

    ``timed`` are its acts with when they were done, ``order`` its runs of acts, ``wrong`` each kind of mistake with the
    act that first made it.
    """

    house: int
    timed: frozenset[int]
    order: frozenset[int]
    wrong: frozenset[int]

    def as_json(self) -> list[object]:
        """Return it as it is kept."""
        return [self.house, *(sorted(each) for each in (self.timed, self.order, self.wrong))]

    @classmethod
    def of_json(cls, kept: Sequence[object]) -> Course:
        """Return one that was kept. Raises ValueError or TypeError where it is none."""
        house, *sets = kept
        timed, order, wrong = (frozenset(map(int, each)) for each in sets)  # type: ignore[call-overload]
        return cls(int(house), timed, order, wrong)  # type: ignore[call-overload]


def course_of(text: str, began: int, acts: Sequence[JsonObject]) -> Course:
    """Return how the house of the level ``text`` was gone about, begun at ``began``, ms UTC."""
    done = [canonical(act["action"]) for act in acts]
    timed = frozenset(
        _hash(b"%d %b" % (int(act["at"]) - began, what)) for act, what in zip(acts, done, strict=True)
    )  # fmt: skip
    built = [what for act, what in zip(acts, done, strict=True) if act["action"].get("do") not in BEFORE]
    runs = frozenset(_hash(b"\n".join(sorted(built[n : n + RUN]))) for n in range(len(built) - RUN + 1))
    first: dict[str, int] = {}
    for act, what in zip(acts, done, strict=True):
        for found in act["found"]:
            first.setdefault(str(found["rule"]), _hash(str(found["rule"]).encode() + what))
    return Course(_hash(text.encode()), timed, runs, frozenset(first.values()))


def same_times(courses: Mapping[str, Sequence[Course]]) -> set[Likeness]:
    """Return who did most of what somebody else did, or the other way round, each act at the same time in it."""
    sets = _by_house(courses, lambda course: course.timed, LEAST_COPIED)
    return _pairs(sets, lambda n, fewer, _more: n > SAME_TIMES * fewer)


def same_order(courses: Mapping[str, Sequence[Course]]) -> set[Likeness]:
    """Return who did nearly all that somebody else did, in the same order but for a few neighbours."""
    sets = _by_house(courses, lambda course: course.order, LEAST_ALIKE - RUN + 1)
    return _pairs(sets, lambda n, _fewer, more: n > SAME_ORDER * more or more - n <= UNLIKE)


def same_mistakes(courses: Mapping[str, Sequence[Course]]) -> set[Likeness]:
    """Return who made the mistakes that somebody else made at the same places, with most acts in the same order."""
    wrong = _by_house(courses, lambda course: course.wrong, SAME_MISTAKES)
    order = _by_house(courses, lambda course: course.order, LEAST_ALIKE - RUN + 1)
    alike = _pairs(wrong, lambda n, _fewer, more: n >= SAME_MISTAKES and n >= SAME_KINDS * more)
    if not alike:
        return alike
    return alike & _pairs(order, lambda n, _fewer, more: n >= WITH_MISTAKES * more)


def _by_house(
    courses: Mapping[str, Sequence[Course]], which: Callable[[Course], frozenset[int]], least: int
) -> Iterable[dict[str, frozenset[int]]]:
    """One of the sets of each course that has at least so many, by whose it is, house by house."""
    found: dict[tuple[int, int], dict[str, frozenset[int]]] = {}
    for key, each in courses.items():
        again: Counter[int] = Counter()
        for course in each:
            again[course.house] += 1
            if len(which(course)) >= least:
                found.setdefault((course.house, again[course.house]), {})[key] = which(course)
    return found.values()


def _pairs(houses: Iterable[dict[str, frozenset[int]]], alike: Alike) -> set[Likeness]:
    """Return whose sets are alike at any of the houses, the lesser key of each two first."""
    return {pair for house in houses for pair in _pairs_at(house, alike)}


def _pairs_at(sets: Mapping[str, frozenset[int]], alike: Alike) -> Iterator[Likeness]:
    """Yield the pairs of one house. Sets that are the same are compared once for all who have them."""
    having: dict[frozenset[int], list[str]] = {}
    for key in sorted(sets):
        having.setdefault(sets[key], []).append(key)
    often = Counter(each for one in having for each in one)
    bits = {each: 1 << n for n, each in enumerate(each for each, times in often.items() if times > 1)}
    groups = [(keys, len(one), sum(bits[each] for each in one if each in bits)) for one, keys in having.items()]
    for keys, size, _mask in groups:
        if alike(size, size, size):
            yield from combinations(keys, 2)
    for (keys, size, mask), (others, its, other) in combinations(groups, 2):
        if alike((mask & other).bit_count(), min(size, its), max(size, its)):
            yield from ((min(pair), max(pair)) for pair in product(keys, others))


def _hash(content: bytes) -> int:
    return int.from_bytes(hashlib.blake2b(content, digest_size=4).digest(), "big")
