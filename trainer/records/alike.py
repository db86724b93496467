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
from itertools import combinations

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
    return {pair for house in sets for pair, n, fewer, _more in _shared(house) if n > SAME_TIMES * fewer}


def same_order(courses: Mapping[str, Sequence[Course]]) -> set[Likeness]:
    """Return who did nearly all that somebody else did, in the same order but for a few neighbours."""
    sets = _by_house(courses, lambda course: course.order, LEAST_ALIKE - RUN + 1)
    return {
        pair
        for house in sets
        for pair, n, _fewer, more in _shared(house)
        if n > SAME_ORDER * more or more - n <= UNLIKE
    }


def same_mistakes(courses: Mapping[str, Sequence[Course]]) -> set[Likeness]:
    """Return who made the mistakes that somebody else made at the same places, with most acts in the same order."""
    wrong = _by_house(courses, lambda course: course.wrong, SAME_MISTAKES)
    order = _by_house(courses, lambda course: course.order, LEAST_ALIKE - RUN + 1)
    alike = {
        pair
        for house in wrong
        for pair, n, _fewer, more in _shared(house)
        if n >= SAME_MISTAKES and n >= SAME_KINDS * more
    }
    if not alike:
        return alike
    return alike & {pair for house in order for pair, n, _fewer, more in _shared(house) if n >= WITH_MISTAKES * more}


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


def _shared(sets: Mapping[str, frozenset[int]]) -> Iterator[tuple[Likeness, int, int, int]]:
    """Yield how many two sets share, and how many the smaller and the larger have, of each two, as masks of bits."""
    often = Counter(each for one in sets.values() for each in one)
    bits = {each: 1 << n for n, each in enumerate(each for each, times in often.items() if times > 1)}
    masks = {key: sum(bits[each] for each in one if each in bits) for key, one in sets.items()}
    for (key, mask), (other, its) in combinations(sorted(masks.items()), 2):
        few, many = sorted((len(sets[key]), len(sets[other])))
        yield (key, other), (mask & its).bit_count(), few, many


def _hash(content: bytes) -> int:
    return int.from_bytes(hashlib.blake2b(content, digest_size=4).digest(), "big")
