"""A paper as the blocks that HTML and PDF print alike: what is asked, what is offered, what a marker reads."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import groupby

from trainer.picture import Picture
from trainer.quiz.judge import answer_text, option_names, options, right_answer
from trainer.quiz.measure import ASKED_IN, SIGNS, Unit, amount
from trainer.quiz.paper import Paper
from trainer.quiz.question import Amount, Asked, InOrder, OneOf, Pairs, PointAt, SomeOf, SpotFault, Task
from trainer.quiz.unit import TOPIC_NAMES
from trainer.quiz.worked import Subject
from trainer.report.house_plan import HousePlan
from trainer.report.question_picture import printed_picture
from trainer.words import CAUTION, FORMULAS, INVENTED, _, ngettext


@dataclass(frozen=True)
class Printed:
    """One question as printed. ``offered`` are (letter, text); ``space`` is where the answer is written.

    With ``works`` there is a box for the working over it.
    """

    number: int
    topic: str
    house: str
    marks: int
    text: str
    how: str
    left: tuple[str, ...]
    offered: tuple[tuple[str, str], ...]
    space: str
    works: bool
    answer: str
    notes: tuple[tuple[str, str], ...]
    picture: Picture | None

    @property
    def asked(self) -> str:
        """What is asked and how it is answered; lines that it speaks of come after both."""
        question, *lines = self.text.split("\n")
        return "\n".join((f"{question} {self.how}".rstrip(), *lines))


@dataclass(frozen=True)
class PrintedPaper:
    """A paper, or with ``guide`` its marking guide, ready to print."""

    title: str
    seed: int
    guide: bool
    notes: tuple[str, ...]
    plans: tuple[HousePlan, ...]
    questions: tuple[Printed, ...]

    @property
    def marks(self) -> int:
        """What all of it is worth."""
        return sum(question.marks for question in self.questions)

    @property
    def total(self) -> str:
        """The line of the total: for a marker to fill in, or on a guide to mark by."""
        if self.guide:
            return ngettext("{n} mark in all.", "{n} marks in all.", self.marks).format(n=self.marks) + " " + GIVEN
        return ngettext("Total ______ of {n} mark", "Total ______ of {n} marks", self.marks).format(n=self.marks)

    @property
    def topics(self) -> list[tuple[str, list[Printed]]]:
        """Each topic, as a heading, with its questions: a paper asks them topic by topic."""
        by_topic = groupby(self.questions, lambda question: question.topic)
        return [(topic, list(questions)) for topic, questions in by_topic]


GIVEN = _(
    "A number has two: one of them for working that is sound but for a slip. Several choices or an order have two, "
    "for all of it right. A match has one for each pair."
)
WORKING = _(
    "Where there is a box, show your working in it. Sound working has a mark, even where a slip makes the answer wrong."
)
MILLIMETRES = _("Lengths are in millimetres unless a question says otherwise. The plans are at the end.")
SEPARATE = _("Marking guide. Keep it apart from the paper.")


def printed(paper: Paper, subjects: Mapping[str, Subject], guide: bool) -> PrintedPaper:
    """Return a paper for printing; ``subjects`` are its houses by level id."""
    title = _("Marking guide, paper {seed}") if guide else _("Question paper {seed}")
    plans = () if guide else plans_of(paper, subjects)
    sums = (FORMULAS,) if any(question.is_sum for question in paper.questions) else ()
    working = (WORKING,) if any(isinstance(question.task, Amount) for question in paper.questions) else ()
    notes = (SEPARATE, INVENTED, CAUTION) if guide else (MILLIMETRES, *working, *sums, INVENTED, CAUTION)
    questions = tuple(_printed(n, question, guide) for n, question in enumerate(paper.questions, 1))
    return PrintedPaper(title.format(seed=paper.seed), paper.seed, guide, notes, plans, questions)


def plans_of(paper: Paper, subjects: Mapping[str, Subject]) -> tuple[HousePlan, ...]:
    """Return the plan of each house that a paper asks about."""
    houses = dict.fromkeys(question.level for question in paper.questions if question.level)
    return tuple(HousePlan(_house(level), level, subjects[level].layout) for level in houses)


def marks_of(task: Task) -> int:
    """Return what a question is worth, as :data:`GIVEN` says."""
    match task:
        case Pairs(left=left):
            return len(left)
        case Amount() | SomeOf() | InOrder():
            return 2
        case _:
            return 1


def in_marks(marks: int) -> str:
    """Return what a question is worth in words."""
    return ngettext("{n} mark", "{n} marks", marks).format(n=marks)


def _house(level: str) -> str:
    return _("House {level}").format(level=level.capitalize())


def _printed(number: int, asked: Asked, guide: bool) -> Printed:
    task = asked.task
    return Printed(
        number=number,
        topic=TOPIC_NAMES[asked.topic],
        house=_house(asked.level) if asked.level else "",
        marks=marks_of(task),
        text=asked.text,
        how=_on_paper(asked),
        left=task.left if isinstance(task, Pairs) else (),
        offered=tuple(zip(option_names(asked), options(asked), strict=False)),
        space=_space(asked),
        works=isinstance(task, Amount),
        answer=_answer(asked),
        notes=_notes(asked) if guide else (),
        picture=None if guide else printed_picture(asked),
    )


HOW: dict[type[Task], str] = {
    OneOf: _("Choose one."),
    SomeOf: _("Choose all that are right."),
    Amount: _("Give the answer in {unit}."),
    InOrder: _("Put the letters in order, the first one first."),
    Pairs: _("Give a letter for each number."),
    PointAt: _("Choose a place on the plan."),
    SpotFault: _("Choose the line that is wrong."),
}


def how_to_answer(asked: Asked) -> str:
    """Say how a question is answered, in a few words."""
    unit = ASKED_IN[asked.task.unit] if isinstance(asked.task, Amount) else ""
    return HOW[type(asked.task)].format(unit=unit)


ON_PAPER: dict[type[Task], str] = {
    OneOf: _("Circle one letter."),
    SomeOf: _("Circle every letter that is right."),
    PointAt: _("Write the number that it has there."),
    SpotFault: _("Circle the letter of the line that is wrong."),
}
"""How a question is answered with a pen, where that is not as on a screen."""
NEAREST: dict[Unit, str] = {
    "mm": _("To the nearest millimetre."), "m2": _("To the nearest square metre."),
    "degrees": _("To the nearest degree."), "kN": _("To the nearest kN."), "kPa": _("To the nearest kPa."),
}  # fmt: skip
"""How exact a whole number of a unit is to be; pieces are counted."""


def _on_paper(asked: Asked) -> str:
    """Say how a question is answered with a pen; of a number, how exact it is to be."""
    task = asked.task
    if not isinstance(task, Amount):
        return ON_PAPER.get(type(task)) or how_to_answer(asked)
    said = [] if _names_its_unit(asked) else [how_to_answer(asked)]
    if task.decimals == 1 and task.unit == "mm":
        said.append(_("Half a millimetre counts: write it as .5."))
    elif task.decimals:
        text = ngettext("Write {n} figure after the point.", "Write {n} figures after the point.", task.decimals)
        said.append(text.format(n=task.decimals))
    elif task.unit in NEAREST:
        said.append(NEAREST[task.unit])
    return " ".join(said)


def _names_its_unit(asked: Asked) -> bool:
    """Whether a question ends with the unit that it wants."""
    if not isinstance(asked.task, Amount):
        return False
    unit = asked.task.unit
    return asked.text.endswith((f" {SIGNS[unit].strip()}?", f" {ASKED_IN[unit]}?"))


def _space(asked: Asked) -> str:
    match asked.task:
        case OneOf() | SomeOf() | SpotFault():
            return ""
        case PointAt():
            return _("Number: {line}").format(line="________")
        case Pairs(left=left):
            return "   ".join(f"{n} ____" for n in range(1, len(left) + 1))
        case InOrder(steps=steps):
            return "   ".join("____" for _step in steps)
        case Amount(unit=unit):
            return _("Answer: {line}").format(line=f"____________________{SIGNS[unit]}")


def _answer(asked: Asked) -> str:
    """The right answer, with the letters and numbers that it is written down by."""
    texts, names = options(asked), option_names(asked)
    match asked.task:
        case InOrder(right=right):
            return _("; then ").join(f"{names[i]}, {texts[i]}" for i in right)
        case Pairs(left=left, right=right):
            pairs = enumerate(zip(left, right, strict=True), 1)
            return "; ".join(f"{n} {names[i]}, {side}: {texts[i]}" for n, (side, i) in pairs)
        case _:
            return answer_text(asked, right_answer(asked))


SEEN_MM = 0.5
"""Nobody reads a tape closer than this."""


def _within(task: Amount) -> str:
    if not task.tolerance or (task.unit == "mm" and task.tolerance < SEEN_MM):
        return _("exact only")
    return _("within {near} either way").format(near=amount(task.tolerance, task.unit, 3))


def _notes(asked: Asked) -> tuple[tuple[str, str], ...]:
    """What a marker reads: how near a number must be, working, reason, known mistakes, safety and source."""
    found = [(_("Right"), _within(asked.task))] if isinstance(asked.task, Amount) else []
    found += [(_("Working"), " ".join(asked.working)), (_("Why"), asked.why)]
    found += [(_("Wrong: {answer}").format(answer=slip.text.rstrip(".")), slip.why) for slip in asked.slips]
    found += [(_("Safety"), asked.safety), (_("Source"), asked.source)]
    return tuple((name, text) for name, text in found if text)
