"""What the records say of each skill, by the drills and houses of the course that were ended; the house built last."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from datetime import UTC, datetime

from trainer.course import Course, LastHouse, TimeDone
from trainer.course.met import kinds_in
from trainer.course.sittings import is_new_house
from trainer.records.attempt import Attempt
from trainer.records.store import Store
from trainer.terms import SEVERITIES

MOST_MISSING = 0.1
"""A house handed over with a larger share of its trusses missing shows no skill: what isn't there has no mistakes."""


def times_in(course: Course, attempts: Iterable[Attempt]) -> list[TimeDone]:
    """Return what of a course was done to its end in whole attempts: its films, exercises, houses."""
    wholes = {step.whole for step in course.steps}
    return [each for attempt in attempts for each in (*_drills(attempt), *_houses(attempt, wholes))]


def times_of(store: Store, code: str, course: Course) -> list[TimeDone]:
    """Return the same of one code name, out of a store. Only attempts at its houses are read whole.

    :raises RecordsError: where the records can't be read.
    """
    wholes = {step.whole for step in course.steps}
    found: list[Attempt] = []
    for outline in store.outlines():
        if outline.code != code or outline.silent:
            continue
        # An outline has its drills, but not what was done on its houses.
        built = any(_counts(house.level, wholes) for house in outline.houses)
        found += store.attempts(outline.id) if built else (outline,)
    return times_in(course, found)


def last_house(store: Store, code: str) -> LastHouse | None:
    """Return the whole house that one code name handed over last, with what was found in it; None where there is none.

    :raises RecordsError: where the records can't be read.
    """
    over = [
        (house.ended, outline.id, number)
        for outline in store.outlines()
        if outline.code == code and not outline.silent
        for number, house in enumerate(outline.houses)
        if house.mark is not None and house.mark["outcome"] != "unfinished"
    ]
    if not over:
        return None
    ended, attempt, number = max(over)
    house = store.attempts(attempt)[0].houses[number]
    found = {str(fact["rule"]): str(fact["severity"]) for act in house.acts for fact in act["found"]}
    worst_first = sorted(found, key=lambda rule: (*SEVERITIES, found[rule]).index(found[rule]))
    return LastHouse(house.level, house.text, _when(ended), tuple(worst_first))


def _drills(attempt: Attempt) -> Iterator[TimeDone]:
    for body in attempt.drills:
        broken = frozenset(str(fact["rule"]) for fact in body["found"])
        yield TimeDone(str(body["drill"]), _when(body["at"]), bool(body["right"]), bool(body["hinted"]), broken)


def _houses(attempt: Attempt, wholes: Collection[str]) -> Iterator[TimeDone]:
    for house, hints in zip(attempt.houses, attempt.hints, strict=True):
        if house.mark is None or house.mark["outcome"] == "unfinished" or not _counts(house.level, wholes):
            continue
        found = [fact for act in house.acts for fact in act["found"]]
        broken = frozenset(str(fact["rule"]) for fact in found)
        tags = [str(act["action"]["tag"]) for act in house.standing if act["action"]["do"] == "stand"]
        missing = sum(fact["rule"] == "truss-missing" for fact in found)
        if missing > MOST_MISSING * (missing + len(set(tags))):
            continue
        stood, found_of = (
            frozenset(kind for text in texts for kind in kinds_in(text))
            for texts in (tags, [str(fact["member"]) for fact in found])
        )
        yield TimeDone(house.level, _when(house.ended), not broken, hints > 0, broken, stood, found_of)


def _counts(level: str, wholes: Collection[str]) -> bool:
    return level in wholes or is_new_house(level)


def _when(ms: object) -> datetime:
    return datetime.fromtimestamp(int(str(ms)) / 1000, UTC)
