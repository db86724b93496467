"""A page of questions that mark themselves and explain: what its template shows, and what its script judges by."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

from trainer.picture import Picture
from trainer.quiz.judge import options
from trainer.quiz.measure import ASKED_IN, UNIT_NAMES
from trainer.quiz.paper import Paper
from trainer.quiz.qti import WITH_ANSWERS
from trainer.quiz.question import Amount, Asked, InOrder, Pairs, SomeOf
from trainer.quiz.worked import Subject
from trainer.report.house_plan import HousePlan
from trainer.report.paper_text import Printed, how_to_answer, plans_of, printed
from trainer.report.question_picture import printed_picture
from trainer.words import CAUTION, INVENTED, _, ngettext

Way = Literal["one", "several", "number", "order", "match"]
"""How a question is answered on the page."""


@dataclass(frozen=True)
class Practised:
    """One question: as it is printed, how it is answered, its plan, and what the script judges by."""

    printed: Printed
    how: str
    way: Way
    unit: str
    plan: str
    picture: Picture | None
    judged: Mapping[str, Any]


@dataclass(frozen=True)
class PractisePage:
    """The page: ``plans`` are of the houses asked about, ``said`` the words of the script."""

    title: str
    notes: tuple[str, ...]
    questions: tuple[Practised, ...]
    plans: tuple[HousePlan, ...]
    said: Mapping[str, str]


SAID = {
    "right": _("Right."),
    "wrong": _("Not right."),
    "answer": _("The answer: {answer}"),
    "choose": _("Choose an answer first."),
    "all": _("Choose one for each."),
    "once": _("Name each of them once."),
    "number": _("Type a number, such as 1800 or 1.8 m."),
    "unit": _("That unit does not fit. Type the number alone."),
    "score": _("Right: {right}. Answered: {done} of {count}."),
}  # fmt: skip


def practise_page(paper: Paper, subjects: Mapping[str, Subject]) -> PractisePage:
    """Return a paper as a page to practise with; ``subjects`` are its houses by level id."""
    guide = printed(paper, subjects, guide=True)
    questions = tuple(_practised(asked, shown) for asked, shown in zip(paper.questions, guide.questions, strict=True))
    n = len(questions)
    how = ngettext(
        "{n} question. Answer it, then press Check: the page marks it and says why.",
        "{n} questions. Answer one, then press Check: the page marks it and says why.",
        n,
    )
    notes = (
        how.format(n=n),
        _("Nothing is kept and nothing is sent: close the page and it is gone."),
        WITH_ANSWERS,
        INVENTED,
        CAUTION,
    )
    return PractisePage(
        _("Practise, paper {seed}").format(seed=paper.seed), notes, questions, plans_of(paper, subjects), SAID
    )


def _practised(asked: Asked, shown: Printed) -> Practised:
    task = asked.task
    unit = ASKED_IN[task.unit] if isinstance(task, Amount) else ""
    return Practised(
        shown,
        how_to_answer(asked),
        _way(asked),
        unit,
        f"plan-{asked.level}" if asked.level else "",
        printed_picture(asked),
        _judged(asked),
    )


def _way(asked: Asked) -> Way:
    match asked.task:
        case Amount():
            return "number"
        case SomeOf():
            return "several"
        case InOrder():
            return "order"
        case Pairs():
            return "match"
        case _:
            return "one"


def _judged(asked: Asked) -> Mapping[str, Any]:
    """What is right, and why a wrong answer that is known is so: by its number, or its place among the choices."""
    task = asked.task
    if isinstance(task, Amount):
        slips = [[slip.value, slip.why] for slip in asked.slips if slip.value is not None]
        return {"value": task.value, "near": task.tolerance, "units": dict(UNIT_NAMES[task.unit]), "slips": slips}
    right = list(task.right) if isinstance(task, SomeOf | InOrder | Pairs) else [task.right]
    known = {slip.text: slip.why for slip in asked.slips}
    slips_at = {str(i): known[text] for i, text in enumerate(options(asked)) if text in known}
    return {"right": right, "slips": slips_at if not isinstance(task, InOrder | Pairs) else {}}
