"""``trainer quiz``: questions in a plain terminal, a line at a time, so that a screen reader reads them well."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Annotated

import typer

from trainer.cli.data import DataFolder, folder_of, records_explained
from trainer.cli.given import say, show, wrong_call
from trainer.cli.questions import Count, HouseOption, OwnQuestions, PaperSeed, Topics, the_bank, the_house, the_topics
from trainer.records.clock import now
from trainer.words import CAUTION, INVENTED, _, ngettext

if TYPE_CHECKING:
    from trainer.quiz.bank import Question
    from trainer.quiz.judge import Verdict
    from trainer.quiz.question import Asked
    from trainer.quiz.sitting import Sitting
    from trainer.quiz.unit import Topic
    from trainer.quiz.worked import Subject
    from trainer.records.quizzing import OpenQuiz
    from trainer.records.seat import Seat
    from trainer.terms import Mode

Assessed = Annotated[bool, typer.Option("--assessment", help="Say nothing of right and wrong until the end.")]
Due = Annotated[bool, typer.Option("--due", help="Ask what has come back: got wrong before, or due for another look.")]
Day = Annotated[
    datetime | None,
    typer.Option(
        "--on", metavar="DATE", formats=["%Y-%m-%d", "%Y-%m-%dT%H:%M:%S"], help="The day, in UTC, for --due; else now."
    ),
]
Everything = Annotated[
    bool, typer.Option("--everything", help="Ask about ideas of the course that you have not met, too.")
]
HELP = _("Type your answer and press Enter. 'hint' gives a first step, 'plan' reads the house, 'stop' stops here.")
SILENT = _(
    "Type your answer and press Enter. 'plan' reads the house, 'stop' stops here. Nothing is said until the end."
)


def quiz(
    topics: Topics = None,
    level: HouseOption = None,
    count: Count = 10,
    seed: PaperSeed = 1,
    questions: OwnQuestions = None,
    assessment: Assessed = False,
    everything: Everything = False,
    due: Due = False,
    on: Day = None,
    data: DataFolder = None,
) -> None:
    """Answer questions in the terminal.

    In practice each answer is explained at once. With --assessment nothing is said until the end, and there is no
    hint. Each answer is recorded before anything is said of it. Stopped in the middle, the same command goes on.
    It asks about ideas of the course that you have met, easy ones first; with --everything, on topics that you name
    or with questions of your own about all. With --due it asks what you got wrong before, on a roof or in a quiz, and
    what it is time to look at again.
    """
    from trainer.quiz.sitting import Sitting
    from trainer.records.seat import Seat

    if due and assessment:
        wrong_call(_("What is due comes back in practice only; leave out --due or --assessment."))
    bank, subject = the_bank(questions), the_house(level, seed, data)
    wanted = the_topics(topics)
    with records_explained():
        seat = Seat.open(folder_of(data))
        try:
            if due:
                asked = _due(seat, bank, subject, seed, count, on)
            else:
                asked = _paper(bank, subject, seed, count, wanted, None if everything or topics or questions else seat)
            _taken(seat, asked, subject, Sitting(_mode(assessment), seed, subject.level.id, tuple(asked)))
        finally:
            seat.leave()


def _mode(assessment: bool) -> Mode:
    return "assessment" if assessment else "practice"


def _taken(seat: Seat, asked: dict[str, Asked], subject: Subject, sitting: Sitting) -> None:
    """Take the quiz, or go on with it, until its end or until it is stopped."""
    answering, sitting = _begun(seat, sitting, asked)
    show(f"{INVENTED} {CAUTION}\n")
    n = len(asked)
    text = ngettext(
        "House {house}. {n} question. Lengths are in millimetres.",
        "House {house}. {n} questions. Lengths are in millimetres.",
        n,
    )
    show(text.format(house=subject.level.id, n=n))
    show(SILENT if sitting.mode == "assessment" else HELP)
    if sitting.given:
        done = len(sitting.given)
        show(ngettext("Going on: {n} is answered.", "Going on: {n} are answered.", done).format(n=done))
    sitting = _asked(sitting, asked, subject, answering)
    if sitting.next is not None:
        done = len(sitting.given)
        text = ngettext(
            "Stopped. {n} of {all} is answered and kept. The same command goes on.",
            "Stopped. {n} of {all} are answered and kept. The same command goes on.",
            done,
        )
        say(text.format(n=done, all=len(asked)))
        return
    answering.finish()
    _debrief(sitting, asked)


def _paper(
    bank: Sequence[Question], subject: Subject, seed: int, count: int, topics: Sequence[Topic], met_by: Seat | None
) -> dict[str, Asked]:
    """Return the questions of a paper; of one that is ``met_by`` a learner those on ideas that were met, easy first."""
    from trainer.course import met_so_far
    from trainer.quiz.paper import TooFewQuestions, easy_first, make_paper
    from trainer.records.course import course_done
    from trainer.shipped.course import course

    only = None if met_by is None else met_so_far(course(), course_done(met_by, lambda _house: 0))
    try:
        made = make_paper(bank, [subject], seed, count, topics, only=only)
    except TooFewQuestions as few:
        wrong_call(str(few))
    if met_by is not None:
        say(_("Asked is what you have met in the course so far. With --everything you are asked about all of it."))
    return {question.id: question for question in (made.questions if met_by is None else easy_first(made))}


def _due(
    seat: Seat, bank: Sequence[Question], subject: Subject, seed: int, count: int, on: datetime | None
) -> dict[str, Asked]:
    from trainer.quiz.history import cards, due_questions
    from trainer.quiz.review import due
    from trainer.records.answers import history

    moment = datetime.now(UTC) if on is None else on.replace(tzinfo=UTC)
    found = due_questions(due(cards(history(seat.store, seat.code)).values(), moment), bank, [subject], seed, count)
    if not found:
        say(_("Nothing is due. Come back another day."))
        raise typer.Exit(0)
    return {question.id: question for question in found}


def _begun(seat: Seat, begun: Sitting, asked: dict[str, Asked]) -> tuple[OpenQuiz, Sitting]:
    """Go on with the same quiz where it was stopped, or begin it; others that were stopped stay as they are."""
    from trainer.records.answers import given_again
    from trainer.records.quizzing import OpenQuiz, paper_of, unfinished_quizzes

    for attempt in unfinished_quizzes(seat):
        paper = paper_of(attempt) or {}
        same = (attempt.mode, paper["seed"], tuple(paper["questions"])) == (begun.mode, begun.seed, begun.questions)
        if same:
            given = tuple(given_again(asked[entry.body["question"]], entry.body) for entry in attempt.answers)
            return OpenQuiz.resume(seat, attempt), replace(begun, given=given)
    return OpenQuiz.begin(seat, f"quiz {begun.level}", begun.seed, begun.questions, begun.mode), begun


def _asked(sitting: Sitting, by_id: dict[str, Asked], subject: Subject, answering: OpenQuiz) -> Sitting:
    """Ask until the end, or until the person stops or the input ends."""
    from trainer.quiz.measure import Unclear
    from trainer.quiz.sitting import answered, hint

    shown, begun = "", now()
    while (name := sitting.next) is not None:
        asked = by_id[name]
        if shown != name:
            place = _("Question {n} of {all}.").format(n=len(sitting.given) + 1, all=len(by_id))
            show(f"\n{place} {question_text(asked)}")
            shown, begun = name, now()
        show(_("Your answer: "), nl=False)
        line = sys.stdin.readline()
        word = line.strip().casefold()
        if not line or word == "stop":
            show("")
            return sitting
        if word == "plan":
            show(house_text(subject))
        elif word == "hint":
            taken = hint(sitting, asked)
            sitting, text = taken or (sitting, _("There is no hint here."))
            show(text)
        else:
            outcome = answered(sitting, asked, line.strip())
            if isinstance(outcome, Unclear):
                show(outcome.why)
                continue
            sitting, verdict = outcome
            answering.keep(asked, sitting.given[-1], now() - begun)
            show(_("Understood: {understood}.").format(understood=verdict.understood))
            if sitting.mode == "practice":
                show(_explained(asked, verdict))
    return sitting


def question_text(asked: Asked) -> str:
    """A question and how to answer it, a line for each choice."""
    from trainer.quiz.judge import option_names, options
    from trainer.quiz.question import Pairs
    from trainer.quiz.unit import TOPIC_NAMES
    from trainer.report.paper_text import how_to_answer

    left = asked.task.left if isinstance(asked.task, Pairs) else ()
    lines = [f"{TOPIC_NAMES[asked.topic]}.", asked.text, how_to_answer(asked)]
    lines += [f"{n}: {side}" for n, side in enumerate(left, 1)]
    lines += [f"{name}: {text}" for name, text in zip(option_names(asked), options(asked), strict=False)]
    return "\n".join(lines)


def _explained(asked: Asked, verdict: Verdict) -> str:
    from trainer.quiz.judge import answer_text, right_answer

    lines = [
        _("Right.")
        if verdict.right
        else _("Not right. The answer: {answer}.").format(answer=answer_text(asked, right_answer(asked)))
    ]
    lines += [verdict.slip, *asked.working, asked.why]
    lines += [
        _("Safety: {safety}").format(safety=asked.safety) if asked.safety else "",
        _("Source: {source}.").format(source=asked.source),
    ]
    if asked.about:
        lines.append(
            _("On the roof: {about} of house {level}.").format(about=", ".join(asked.about[:6]), level=asked.level)
        )
    return "\n".join(line for line in lines if line)


def house_text(subject: Subject) -> str:
    """The house read out: its settings, its walls, and every truss from where to where; not what carries it."""
    from trainer.picture.sheet import settings_in_words

    eave = _("Wall {name}: from {a[0]:g}, {a[1]:g} to {b[0]:g}, {b[1]:g}, {length:g} long.")
    gable = _("Wall {name}: from {a[0]:g}, {a[1]:g} to {b[0]:g}, {b[1]:g}, {length:g} long, a gable.")
    truss = _("{tag}: from {a[0]:.0f}, {a[1]:.0f} to {b[0]:.0f}, {b[1]:.0f}.")
    walls = [
        (gable if w.gable else eave).format(name=w.name, a=w.a, b=w.b, length=w.length)
        for w in subject.layout.house.plan.walls
    ]
    trusses = [truss.format(tag=m.tag, a=m.start, b=m.finish) for m in subject.layout.members]
    return "\n".join([f"{settings_in_words(subject.layout)}.", *walls, *trusses])


def _debrief(sitting: Sitting, by_id: dict[str, Asked]) -> None:
    from trainer.quiz.judge import judge
    from trainer.quiz.measure import Unclear
    from trainer.quiz.sitting import sums_apart

    show("\n" + _("{right} of {all} right.").format(right=sitting.right, all=len(sitting.questions)))
    if apart := sums_apart((by_id[given.question].is_sum, given.right) for given in sitting.given):
        show(apart)
    if sitting.mode == "assessment":
        for number, given in enumerate(sitting.given, 1):
            verdict = judge(by_id[given.question], given.answer)
            if not given.right and not isinstance(verdict, Unclear):
                show("\n" + _("Question {n}.").format(n=number) + f" {by_id[given.question].text}")
                show(_("You: {answer}.").format(answer=verdict.understood))
                show(_explained(by_id[given.question], verdict))
    show("\n" + _("This is practice. It does not say that anyone is competent."))
