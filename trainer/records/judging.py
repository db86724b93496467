"""Judges a recorded attempt again: the same actions, through the same door, under the rules of today."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from trainer.layout import Layout, LayoutRefused, lay_out
from trainer.level import Level, parse_level
from trainer.read import Faulty
from trainer.records.attempt import Attempt, RecordedHouse
from trainer.records.chain import JsonObject
from trainer.records.edition import editions
from trainer.records.entries import finding_facts
from trainer.rules.whole import WHOLE
from trainer.score import Score, mark
from trainer.session import Session, job_of
from trainer.session.session import Listener, hand_runs
from trainer.site import Diary, Job
from trainer.terms import Mode
from trainer.words import _

Shown = Sequence[Sequence[Mapping[str, object]]]
"""The facts of what was found, act by act."""


@dataclass(frozen=True, slots=True)
class Judged:
    """One house judged again. ``now`` is None, and ``trouble`` says why, where that can't be done any more.

    ``then`` is (score, outcome) as recorded, None where it was not marked; ``findings_same`` whether every action
    still shows what it showed then. ``newly`` are the rules that find more than they did, by name, and how many times;
    ``no_more`` those that find less; ``refused`` counts the actions that nobody could do now, but could then, or the
    other way round.
    """

    level: str
    then: tuple[int, str] | None
    now: tuple[int, str] | None
    findings_same: bool
    trouble: str = ""
    newly: tuple[tuple[str, int], ...] = ()
    no_more: tuple[tuple[str, int], ...] = ()
    refused: int = 0

    @property
    def same(self) -> bool:
        """Whether nothing at all has changed."""
        return self.findings_same and not self.trouble and self.then in (None, self.now)


def mark_of(session: Session, practice_mark: int | None = None) -> Score:
    """Return the mark of a session as it stands; ``practice_mark`` where it is not the level's own."""
    lesson = session.level.lesson
    to_meet = lesson.practice_mark if practice_mark is None else practice_mark
    return mark(
        session.findings,
        lesson.weights.by_severity(),
        to_meet,
        session.site.handed_over,
        len(session.hints),
        lesson.hint_cost,
        session.shown,
    )


def missing_from(house: RecordedHouse) -> tuple[JsonObject, ...]:
    """Return the recorded facts that say what a roof was handed over without, of one that was not met."""
    if house.mark is None or house.mark["outcome"] != "not yet met":
        return ()
    over = [act for act in house.standing if act["action"]["do"] == "hand_over"]
    lacks = (fact for act in over for fact in act["found"] if fact["rule"] in WHOLE)
    return tuple(sorted(lacks, key=lambda fact: WHOLE[str(fact["rule"])]))


def session_of(house: RecordedHouse, mode: Mode, journal: Listener | None = None) -> Session:
    """Return a session that stands where a recorded house stood.

    :raises Faulty, LayoutRefused, ValueError: where the level or an action is not understood any more.
    """
    level, job = _set(house.text, house.level, house.seed, mode)
    diary = Diary.model_validate(
        {
            "level": level.id,
            "seed": house.seed,
            "actions": [act["action"] for act in house.acts],
            "hints": [number for number, act in enumerate(house.acts) if act.get("hinted")],
            "hint_depths": [act.get("hint_depth", 1) for act in house.acts if act.get("hinted")],
            "hand": hand_runs(act.get("hand") for act in house.acts),
        }
    )
    session = Session(level, house.seed, mode, journal, job=job)
    return session.replay(diary.actions, diary.hints, diary.hint_depths, diary.hand)


def judge_again(attempt: Attempt) -> tuple[Judged, ...]:
    """Judge every house of an attempt that holds."""
    return tuple(_judged(house, attempt.mode) for house in attempt.houses)


def moved_on(attempt: Attempt) -> bool:
    """Whether layout or rules are of another edition than the attempt's."""
    ours = editions()
    return any(attempt.opening["editions"][name] != ours[name] for name in ("layout", "rules"))


def _judged(house: RecordedHouse, mode: Mode) -> Judged:
    then = None if house.mark is None else (int(house.mark["score"]), str(house.mark["outcome"]))
    try:
        session = session_of(house, mode)
    except Faulty as error:
        return Judged(house.level, then, None, False, str(error))
    except LayoutRefused as error:
        return Judged(house.level, then, None, False, str(error))
    except ValueError:  # an action of a form that is not known any more
        return Judged(house.level, then, None, False, _("it holds an action that this trainer does not know"))
    got = mark_of(session, house.practice_mark)
    shown = [[each.as_json() for each in finding_facts(outcome.findings)] for outcome in session.outcomes]
    refused = [outcome.refused is not None for outcome in session.outcomes]
    was_shown, was_refused = [act["found"] for act in house.acts], ["refused" in act for act in house.acts]
    newly, no_more = _by_rule(shown, was_shown), _by_rule(was_shown, shown)
    other = sum(now != before for now, before in zip(refused, was_refused, strict=True))
    same = shown == was_shown and not other
    return Judged(house.level, then, (got.score, got.outcome), same, "", newly, no_more, other)


def _by_rule(these: Shown, those: Shown) -> tuple[tuple[str, int], ...]:
    """How often each rule is among ``these`` findings, act by act, and not among ``those``; the most frequent first."""
    more = _counted(these) - _counted(those)
    rules: Counter[str] = Counter()
    for (_act, rule, _member), times in more.items():
        rules[rule] += times
    return tuple(rules.most_common())


def _counted(shown: Shown) -> Counter[tuple[int, str, str]]:
    return Counter((i, str(each["rule"]), str(each["member"])) for i, found in enumerate(shown) for each in found)


@lru_cache(maxsize=64)
def _laid_out(text: str, name: str) -> tuple[Level, Layout]:
    """A level and its layout; a class builds the same few houses over and over."""
    level = parse_level(text, name)
    return level, lay_out(level.house())


@lru_cache(maxsize=16)
def _set(text: str, name: str, seed: int, mode: Mode) -> tuple[Level, Job]:
    """A level and the job that it sets: its order of work is the same for all of a class, and dear to work out."""
    level, layout = _laid_out(text, name)
    return level, job_of(level, seed, mode, layout)
