"""Ten days of a learner who comes back for a quarter of an hour each evening, printed as a diary.

    python tests/ten_days.py [SEED]

The plan of each day is the trainer's own, from what was done and answered before. The learner is made up: he gets every
fifth question wrong, does every fourth exercise with a mistake in it, and builds whole houses right. What he is slow at
is counted as a beginner takes it: 12 seconds for each act of an exercise and a minute and a half to read it, 20 seconds
for a question, 15 for one in a film, and a house as long as its level says.
"""

import sys
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from functools import cache

from trainer.chance import chance, pick
from trainer.course import (
    Build,
    Course,
    CourseStep,
    Done,
    FinishIt,
    LastHouse,
    Part,
    Today,
    Watch,
    finish,
    parse_course,
    today,
)
from trainer.course.today import ORDER_REASONS, with_part
from trainer.film import film_of
from trainer.layout import Layout, lay_out
from trainer.level import Level, parse_level
from trainer.quiz.history import Seen, of_answer, of_drill
from trainer.quiz.of_rules import WHY, about_rule
from trainer.shipped import course_path, find_level, level_paths, style_texts

FIRST_EVENING = datetime(2026, 3, 2, 18, tzinfo=UTC)
READING_S, ACT_S, QUESTION_S, STOP_S = 90, 12, 20, 15
SLOWED_MS = 12_000
"""What is only a moment of a film is shown more slowly by itself."""
WRONG_ANSWERS, WRONG_EXERCISES = 0.2, 0.25


@cache
def level_of(house: str) -> tuple[Level, Layout]:
    path = find_level(house)
    level = parse_level(path.read_bytes(), path.name, style_texts(path))
    return level, lay_out(level.house())


@cache
def course() -> Course:
    path = course_path()
    return parse_course(path.read_bytes(), path.name, [each.stem for each in level_paths()])


@cache
def minutes() -> dict[str, int]:
    return {step.whole: level_of(step.whole)[0].lesson.minutes or 0 for step in course().steps}


@dataclass
class Evening:
    """One evening: its lines in the diary, how long it took, what was asked, what was new in it and what came back."""

    number: int
    lines: list[str] = field(default_factory=list)
    seconds: float = 0.0
    reviews: int = 0
    questions: int = 0
    """The reviews, and those on why."""
    new: list[str] = field(default_factory=list)
    back: set[str] = field(default_factory=set)
    """The steps whose ideas came back in building."""

    def note(self, seconds: float, line: str) -> None:
        self.seconds += seconds
        self.lines.append(f"{seconds / 60:4.1f} min  {line}")


@dataclass
class Learner:
    """Somebody made up, by a seed; ``away`` evenings are those on which nothing is done."""

    seed: int
    done: Done = field(default_factory=Done)
    history: list[Seen] = field(default_factory=list)
    last: LastHouse | None = None

    def evening(self, number: int) -> Evening:
        """Do what today holds on the evening ``number``, from 1."""
        now = FIRST_EVENING + timedelta(days=number - 1)
        plan = today(course(), minutes(), self.done, self.history, now, self.seed + number, self.last)
        evening = Evening(number)
        if plan.review:
            wrong = sum(not self._answer(card.name, now, number) for card in plan.review)
            evening.reviews = len(plan.review)
            told = f"{len(plan.review)} questions on what is due, {wrong} wrong: "
            evening.note(QUESTION_S * len(plan.review), told + ", ".join(card.about[1] for card in plan.review))
        for part in plan.building.parts if plan.building else ():
            self._do(part, evening, now)
        evening.questions += len(plan.review) + len(plan.why)
        evening.note(QUESTION_S * len(plan.why), self._why(plan, number, now))
        return evening

    def _why(self, plan: Today, number: int, now: datetime) -> str:
        """Answer why: of the order of a house built right the evening before, else of rules."""
        if plan.built is not None:
            for n in range(len(plan.why)):
                id_ = f"{ORDER_REASONS}.{plan.built.level}.{number + n}"
                self.history += of_answer(id_, self._right(id_), False, now)
            return f"{len(plan.why)} questions on why: the order of {plan.built.level}"
        for rule in plan.why:
            asked = about_rule(WHY, rule, number)
            assert asked is not None
            self.history += of_answer(asked.id, self._right(rule, number), False, now)
        return f"{len(plan.why)} questions on why: {', '.join(plan.why)}"

    def _right(self, *names: object) -> bool:
        return chance(self.seed, "answer", *names) >= WRONG_ANSWERS

    def _answer(self, card: str, now: datetime, number: int) -> bool:
        kind, _space, name = card.partition(" ")
        right = self._right(card, number)
        question = f"put-right.{name}.1" if kind == "rule" else name
        self.history += of_answer(question, right, False, now)
        return right

    def _do(self, part: Part, evening: Evening, now: datetime) -> None:
        self.done = with_part(self.done, part)
        match part:
            case Watch(step=step):
                evening.new.append(step.id)
                seconds, stops = _watching(step)
                evening.note(seconds, f"watch it: {step.title} ({step.watch})")
                if not stops:
                    rule = pick(step.rules, self.seed, "after the film", step.id)
                    self.history += of_answer(f"put-right.{rule}.1", self._right(rule, "film"), False, now)
                    evening.questions += 1
                    evening.note(QUESTION_S, f"1 question on what was seen: {rule}")
            case FinishIt(step=step):
                level, layout = level_of(part.house)
                drill = finish(step, part.number, level, self.seed + evening.number, layout)
                right = chance(self.seed, "exercise", step.id, part.number) >= WRONG_EXERCISES
                broken = [] if right else [pick(drill.rules, self.seed, "broken", step.id)]
                self.history += of_drill(drill.rules, broken, right, part.helped != "alone", now)
                acts = len(drill.steps) or drill.minutes * 60 // ACT_S - READING_S // ACT_S
                went = "right" if right else f"wrong once, put right: {broken[0]}"
                evening.note(READING_S + ACT_S * (acts + 2 * len(broken)), f"{_finishing(part)}: {went}")
                if part.number > 1:
                    evening.back.add(step.id)
            case Build():
                evening.note(part.minutes * 60, f"build {part.house}, part {part.number} of {part.parts}")
                evening.back |= {step.id for step in part.steps}
                if part.number == part.parts:
                    self.last = LastHouse(part.house, "", now, ())


def _finishing(part: FinishIt) -> str:
    return f"finish it, time {part.number}, help {part.helped}: {part.step.title} ({part.house})"


@cache
def _watching(step: CourseStep) -> tuple[float, int]:
    """How long a part of a film takes: its movement, its caption read, its questions answered, s; and how many."""
    level, layout = level_of(step.watch)
    film = film_of(level, 1, layout, idea=step.film)
    (part,) = (part for part in film.parts if part.key == step.film)
    moving = sum(end - start for start, end in part.ranges)
    cues = [cue for cue in film.cues if any(start <= cue.at_ms < end for start, end in part.ranges)]
    held = sum(getattr(cue, "hold_ms", STOP_S * 1000) for cue in cues)
    return (max(moving, SLOWED_MS) + held) / 1000, sum(cue in film.stops for cue in cues)


def ten_days(seed: int = 1) -> list[Evening]:
    """Return ten evenings one after the other."""
    learner = Learner(seed)
    return [learner.evening(number) for number in range(1, 11)]


if __name__ == "__main__":
    for each in ten_days(int(sys.argv[1]) if len(sys.argv) > 1 else 1):
        fresh = f"; new: {', '.join(each.new)}" if each.new else ""
        print(f"Day {each.number}: {each.seconds / 60:.1f} minutes, {each.reviews} reviews{fresh}")
        print(*(f"  {line}" for line in each.lines), sep="\n")
