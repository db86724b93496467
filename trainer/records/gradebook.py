"""What a teacher's book has of an attempt: questions, time, what was granted, tries, hints; the same in every list."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import asdict, dataclass

from trainer.quiz.sitting import apart_in_words
from trainer.records.answers import is_sum
from trainer.records.attempt import Attempt, RecordedHouse
from trainer.records.chain import JsonObject
from trainer.records.shape import fault_of
from trainer.records.ticket import Eased
from trainer.words import _

MINUTE = 60_000
"""A minute in ms."""


Rank = Callable[[Attempt], int]
"""How far an attempt can be relied on beside others: more is better."""


def all_the_same(_attempt: Attempt) -> int:
    """Return the rank of an attempt where nobody asks how far it can be relied on."""
    return 0


UNSEEN = {"quiz_right": None, "judged_right": None, "sums_right": None}
"""What of a line of the book is not shown before an assessment is closed."""


@dataclass(frozen=True, slots=True)
class Grades:
    """Of a whole attempt. Times are in minutes; what there is not, such as a limit, is None."""

    quiz_right: int | None
    quiz_total: int | None
    allowed_minutes: int | None
    used_minutes: float
    time_up: bool
    extra_minutes: int
    break_minutes: int
    hints: int
    eased: str
    """How the board was eased for this candidate, such as *text 150; still*."""
    judged_right: int | None = None
    """Of the questions that were answered those of judgement, and sums apart from them."""
    judged_total: int | None = None
    sums_right: int | None = None
    sums_total: int | None = None

    @property
    def sums_apart(self) -> str:
        """How judgement went and how the sums did, in words; empty where there was one of them alone."""
        return apart_in_words(*(count or 0 for count in self.apart))

    @property
    def apart(self) -> tuple[int | None, int | None, int | None, int | None]:
        """Of judgement how many are right, and of how many; and of sums."""
        return self.judged_right, self.judged_total, self.sums_right, self.sums_total

    def as_json(self) -> dict[str, object]:
        """Return it as exports hold it."""
        return asdict(self)


def grades_of(attempt: Attempt) -> Grades:
    """Return the book's line of an attempt that holds."""
    total = sum(len(body.get("questions") or ()) for body in _of_kind(attempt, "paper"))
    answers = [entry.body for entry in attempt.answers]
    asked = bool(attempt.papers)
    allowed = allowed_minutes(attempt)
    used = used_ms(attempt)
    granted = granted_to(attempt)
    hints = sum(attempt.hints) + sum(bool(body["hinted"]) for body in answers)
    sums = [bool(body["right"]) for body in answers if is_sum(body)]
    judged = [bool(body["right"]) for body in answers if not is_sum(body)]
    return Grades(
        sum(bool(body["right"]) for body in answers) if asked else None,
        max(total, len(answers)) if asked else None,
        allowed, round(used / MINUTE, 1), allowed is not None and attempt.closed and used >= allowed * MINUTE,
        granted[0], granted[1], hints, "; ".join(eased_for(attempt)),
        *((sum(judged), len(judged), sum(sums), len(sums)) if asked else ()),
    )  # fmt: skip


def score_of(house: RecordedHouse) -> int | None:
    """Return the mark of a house; None where it was not handed over, whatever its record says."""
    if house.mark is None or house.mark["outcome"] == "unfinished":
        return None
    return int(house.mark["score"])


def tries(attempts: Iterable[Attempt], rank: Rank = all_the_same) -> Mapping[tuple[bytes, int], int]:
    """Return which time it is that a code name tries each house, by the attempt's last hash and the house's number.

    One of a lesser ``rank``, which may be a forgery, is no try before a better one.
    """
    so_far: dict[tuple[str, str], list[int]] = {}
    found = {}
    for attempt in sorted(attempts, key=lambda each: (each.began, each.id, each.head)):
        own = rank(attempt)
        for n, house in enumerate(attempt.houses):
            ranks = so_far.setdefault((attempt.code, house.level), [])
            ranks.append(own)
            found[attempt.head, n] = sum(other >= own for other in ranks)
    return found


def allowed_minutes(attempt: Attempt) -> int | None:
    """Return how long a sitting might take, with what its ticket adds; None without a limit."""
    minutes = attempt.opening.get("minutes")
    return minutes if isinstance(minutes, int) else None


def granted_to(attempt: Attempt) -> tuple[int, int]:
    """Return what an attempt's ticket grants: (extra minutes, minutes of breaks)."""
    content = ticket_content(attempt)
    extra, breaks = content.get("extra_minutes"), content.get("break_minutes")
    return (extra if isinstance(extra, int) else 0), (breaks if isinstance(breaks, int) else 0)


def eased_for(attempt: Attempt) -> tuple[str, ...]:
    """Return in words how an attempt's ticket eases the board; nothing where it has none, or one of another shape."""
    given = ticket_content(attempt).get("eased")
    if not isinstance(given, dict) or fault_of(given, Eased):
        return ()
    return Eased.model_validate(given).words()


def ticket_content(attempt: Attempt) -> JsonObject:
    """Return what an attempt's ticket says; nothing where it has none, or one of another shape."""
    given = attempt.opening.get("ticket")
    content = given.get("content") if isinstance(given, dict) else None
    return content if isinstance(content, dict) else {}


HOUSES_DIFFER = _(
    "The houses differed: each candidate built a new one. They had the same shape, stages, kinds of truss and kinds of "
    "fault, and trusses within 5 per cent."
)


def houses_differ(attempt: Attempt) -> bool:
    """Whether others of the class sat other houses."""
    return attempt.opening.get("houses_differ") is True


def lost_ms(attempt: Attempt) -> int:
    """Return for how long the program was stopped on the way, ms."""
    return sum(max(0, until - since) for since, until in attempt.gaps)


def used_ms(attempt: Attempt) -> int:
    """Return the time spent at it, ms, without that for which the program was stopped."""
    return max(0, attempt.ended - attempt.began - lost_ms(attempt))


def _of_kind(attempt: Attempt, kind: str) -> Iterable[JsonObject]:
    return (entry.body for entry in attempt.entries if entry.body["kind"] == kind)
