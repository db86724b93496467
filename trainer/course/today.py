"""What a quarter of an hour holds today: some minutes of what is due, ten of building, two of why.

Nothing is counted but what is due: whoever was away for a week comes back to the most serious eight, and no more.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from functools import reduce

from trainer.chance import shuffled
from trainer.course.model import Course, CourseStep
from trainer.course.sittings import Build, Done, FinishIt, Part, Sitting, Watch, next_sitting
from trainer.course.transfer import asked_again
from trainer.quiz.history import Seen, cards, seriousness
from trainer.quiz.review import FAMILY, RULE, Card, due, new_card

MOST_REVIEWS, MOST_A_DAY = 8, 15
"""Questions in one go, and from one night to the next."""
FEWEST_REVIEWS = 5
"""Where fewer are due, rules of ideas met that nobody asked about, then what is due next, make it up to so many."""
WHY = 2
"""Questions on why, at the end."""
NOT_AT_ONCE = timedelta(hours=4)
"""So long after a hand-over it is asked why of that house."""
ORDER_REASONS = "why-before"
"""The family of questions on the reasons of an order."""
AFTER_FILM = 1
"""Questions after a part of a film that has none of its own."""
ONE_DAY = timedelta(hours=16)
"""What was answered no longer ago than this was answered on the same day."""
QUESTION_MINUTES = 1 / 3
"""What an answer takes."""
DAY_MINUTES = 15
"""What a day takes at most."""


@dataclass(frozen=True, slots=True)
class LastHouse:
    """The whole house that was handed over last, when (UTC), and the rules that were broken in it, the worst first."""

    level: str
    text: str
    ended: datetime
    broken: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Today:
    """What to do today: the cards to be asked about, what to build, and the rules to be asked why of.

    ``after`` is the sitting that comes next, another day. ``built`` is the house that was built last, where it is asked
    why of that: of what was found in it, which comes first in ``why``, or of the reasons of its order.
    """

    review: tuple[Card, ...]
    building: Sitting | None
    why: tuple[str, ...]
    after: Sitting | None
    built: LastHouse | None = None

    @property
    def minutes(self) -> float:
        """What it takes at most."""
        questions = (len(self.review) + len(self.why)) * QUESTION_MINUTES
        return questions + (self.building.minutes if self.building else 0)


def today(
    course: Course, minutes: Mapping[str, int], done: Done, history: Sequence[Seen], now: datetime, seed: int,
    last: LastHouse | None = None,
) -> Today:  # fmt: skip
    """Return what to do at ``now`` (UTC), from what was done and met so far; the same for the same seed."""
    building = asked_again(course, done, now) or next_sitting(course, minutes, done)
    asked = sum(seen.asked and seen.when > now - ONE_DAY for seen in history)
    room = min(MOST_REVIEWS, max(0, MOST_A_DAY - asked - WHY - AFTER_FILM))
    held = {name: card for name, card in cards(history).items() if not _taught_later(course, done, card)}
    review = sorted(due(held.values(), now), key=seriousness)[:room]
    met = [step for step in course.steps if done.has(FinishIt(step, 1))]
    fresh = [new_card(name, now) for name in _not_asked_yet(met, held, seed)]
    soon = [card for card in sorted(held.values(), key=lambda card: card.due) if card not in review]
    soon = [card for card in soon if card.last_review is None or card.last_review <= now - ONE_DAY]
    review += [*fresh, *soon][: max(0, min(FEWEST_REVIEWS, room) - len(review))]
    if building is not None:
        asking = (len(review) + WHY + (AFTER_FILM if building.new else 0)) * QUESTION_MINUTES
        building = _gone_on(course, minutes, done, building, DAY_MINUTES - asking)
    new = [part.step for part in building.parts if not isinstance(part, Build)] if building else []
    built, own = _of_last_house(last, history, now)
    why = tuple(dict.fromkeys((*own, *_why([*met, *(step for step in new if step not in met)], review, seed))))[:WHY]
    return Today(tuple(review), building, why, _after(course, minutes, done, building), built)


def _taught_later(course: Course, done: Done, card: Card) -> bool:
    """Whether a card is of a rule that the course has yet to teach: broken on a house meanwhile, it waits till then."""
    kind, name = card.about
    teaching = [step for step in course.steps if name in step.rules] if kind == RULE else []
    return bool(teaching) and not any(done.has(Watch(step)) for step in teaching)


def _gone_on(
    course: Course, minutes: Mapping[str, int], done: Done, sitting: Sitting, room: float
) -> Sitting:  # fmt: skip
    """Return a sitting that is short with what else has room in it: what the course builds next, up to a safe point.

    Where it builds nothing before its next new idea, ideas met long ago are finished once more. A house that nobody has
    seen is built by itself.
    """
    while not any(isinstance(part, Build) and part.new for part in sitting.parts):
        left = room - sitting.minutes
        more = _next_of_house(course, minutes, done, sitting, left) or _once_more(course, done, sitting, left)
        if more is None:
            break
        sitting = Sitting((*sitting.parts, more))
    return sitting


def _next_of_house(
    course: Course, minutes: Mapping[str, int], done: Done, sitting: Sitting, left: float
) -> Build | None:  # fmt: skip
    """Return the next part of a whole house that takes no more than is ``left``, where no new idea comes before it.

    A night lies between an idea and the whole house in which it comes back.
    """
    following = next_sitting(course, minutes, with_done(done, sitting))
    parts = following.parts if following else ()
    first = next((part for part in parts if not isinstance(part, FinishIt) or part.number == 1), None)
    if not isinstance(first, Build) or first.new or sitting.new in first.steps or first.minutes > left:
        return None
    return first


def _once_more(course: Course, done: Done, sitting: Sitting, left: float) -> FinishIt | None:
    """Return the idea that was finished once more the fewest times, of those that the day lacks and has room for."""
    in_it = (part.steps if isinstance(part, Build) else (part.step,) for part in sitting.parts)
    has = {step.id for steps in in_it for step in steps}
    again = (done.once_more(step) for step in course.steps if step.id not in has)
    fitting = (part for part in again if part and part.minutes <= left)
    return min(fitting, key=lambda part: part.number - len(part.step.finish), default=None)


def _of_last_house(
    last: LastHouse | None, history: Sequence[Seen], now: datetime
) -> tuple[LastHouse | None, tuple[str, ...]]:
    """Return the last house, where it is to be asked about now, and what was found in it that nobody asked about.

    Not at once, when all of it is fresh, but at the next session; and once (retrieval; trade of teaching).
    """
    if last is None or now < last.ended + NOT_AT_ONCE:
        return None, ()
    asked = {seen.name for seen in history if seen.asked and seen.when > last.ended}
    if not last.broken:
        return (None if f"{FAMILY} {ORDER_REASONS}" in asked else last), ()
    own = tuple(rule for rule in last.broken if f"{RULE} {rule}" not in asked)
    return (last if own else None), own


def _not_asked_yet(met: Sequence[CourseStep], held: Mapping[str, Card], seed: int) -> list[str]:
    """The names of the cards that the rules of ideas met have not got yet, those of the latest ideas first."""
    names = [
        f"{RULE} {rule}" for step in reversed(met) for rule in shuffled(step.rules, seed, "not asked yet", step.id)
    ]
    return [name for name in dict.fromkeys(names) if name not in held]


def _why(steps: Sequence[CourseStep], review: Sequence[Card], seed: int) -> tuple[str, ...]:
    """Two rules of the ideas that were met last, those first that are not asked about in the review anyway."""
    rules = list(dict.fromkeys(rule for step in steps[-2:] for rule in step.rules))
    reviewed = {card.name for card in review}
    return tuple(sorted(shuffled(rules, seed, "why"), key=lambda rule: f"{RULE} {rule}" in reviewed)[:WHY])


def _after(course: Course, minutes: Mapping[str, int], done: Done, building: Sitting | None) -> Sitting | None:
    return next_sitting(course, minutes, with_done(done, building)) if building else None


def with_done(done: Done, sitting: Sitting) -> Done:
    """Return what is done once a sitting is."""
    return reduce(with_part, sitting.parts, done)


def with_part(done: Done, part: Part) -> Done:
    """Return what is done once a part of a sitting is."""
    if not isinstance(part, Build):
        return replace(done, drills={**done.drills, part.name: done.drills.get(part.name, 0) + 1})
    built = done.built | {part.house} if part.number == part.parts else done.built
    return replace(done, built=built, share={**done.share, part.house: part.number / part.parts})
