"""``trainer quiz``: questions in a plain terminal, a line at a time, so that a screen reader reads them well."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Annotated

import typer

from trainer.cli.data import DataFolder, folder_of, records_told
from trainer.cli.given import say, wrong_call
from trainer.cli.questions import Count, House, OwnQuestions, PaperSeed, Topics, the_bank, the_house, the_topics
from trainer.records.clock import now

if TYPE_CHECKING:
    from trainer.quiz.bank import Question
    from trainer.quiz.judge import Verdict
    from trainer.quiz.question import Asked
    from trainer.quiz.sitting import Sitting
    from trainer.quiz.unit import Topic
    from trainer.quiz.worked import Subject
    from trainer.records.quizzing import Answering
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
HELP = "Type your answer and press Enter. 'hint' gives a first step, 'plan' reads the house, 'stop' stops here."
SILENT = "Type your answer and press Enter. 'plan' reads the house, 'stop' stops here. Nothing is said until the end."


def quiz(
    topics: Topics = None,
    level: House = None,
    count: Count = 10,
    seed: PaperSeed = 1,
    questions: OwnQuestions = None,
    assessment: Assessed = False,
    due: Due = False,
    on: Day = None,
    data: DataFolder = None,
) -> None:
    """Answer questions in the terminal.

    In practice each answer is explained at once. With --assessment nothing is said until the end, and there is no
    hint. Each answer is recorded before anything is said of it. Stopped in the middle, the same command goes on.
    With --due it asks what you got wrong before, on a roof or in a quiz, and what it is time to look at again.
    """
    from trainer.quiz.sitting import Sitting  # noqa: PLC0415
    from trainer.records.seat import Seat  # noqa: PLC0415

    if due and assessment:
        wrong_call("What is due comes back in practice only; leave out --due or --assessment.")
    bank, subject = the_bank(questions), the_house(level, seed)
    wanted = the_topics(topics)
    with records_told():
        seat = Seat.open(folder_of(data))
        try:
            asked = _due(seat, bank, subject, seed, count, on) if due else _paper(bank, subject, seed, count, wanted)
            _taken(seat, asked, subject, Sitting(_mode(assessment), seed, subject.level.id, tuple(asked)))
        finally:
            seat.leave()


def _mode(assessment: bool) -> Mode:
    return "assessment" if assessment else "practice"


def _taken(seat: Seat, asked: dict[str, Asked], subject: Subject, sitting: Sitting) -> None:
    """Take the quiz, or go on with it, until its end or until it is stopped."""
    from trainer.words import CAUTION, INVENTED  # noqa: PLC0415

    answering, sitting = _begun(seat, sitting, asked)
    typer.echo(f"{INVENTED} {CAUTION}\n")
    typer.echo(f"House {subject.level.id}. {len(asked)} questions. Lengths are in millimetres.")
    typer.echo(SILENT if sitting.mode == "assessment" else HELP)
    if sitting.given:
        typer.echo(f"Going on: {len(sitting.given)} are answered.")
    sitting = _asked(sitting, asked, subject, answering)
    if sitting.next is not None:
        say(f"Stopped. {len(sitting.given)} of {len(asked)} are answered and kept. The same command goes on.")
        return
    answering.finish()
    _debrief(sitting, asked)


def _paper(
    bank: Sequence[Question], subject: Subject, seed: int, count: int, topics: Sequence[Topic]
) -> dict[str, Asked]:
    from trainer.quiz.paper import TooFewQuestions, make_paper  # noqa: PLC0415

    try:
        made = make_paper(bank, [subject], seed, count, topics)
    except TooFewQuestions as few:
        wrong_call(str(few))
    return {question.id: question for question in made.questions}


def _due(
    seat: Seat, bank: Sequence[Question], subject: Subject, seed: int, count: int, on: datetime | None
) -> dict[str, Asked]:
    from trainer.quiz.history import cards, due_questions  # noqa: PLC0415
    from trainer.quiz.review import due  # noqa: PLC0415
    from trainer.records.answers import history  # noqa: PLC0415

    moment = datetime.now(UTC) if on is None else on.replace(tzinfo=UTC)
    found = due_questions(due(cards(history(seat.store, seat.code)).values(), moment), bank, [subject], seed, count)
    if not found:
        say("Nothing is due. Come back another day.")
        raise typer.Exit(0)
    return {question.id: question for question in found}


def _begun(seat: Seat, begun: Sitting, asked: dict[str, Asked]) -> tuple[Answering, Sitting]:
    """Go on with the same quiz where it was stopped, or begin it; others that were stopped stay as they are."""
    from trainer.records.answers import given_again  # noqa: PLC0415
    from trainer.records.quizzing import Answering, paper_of, unfinished_quizzes  # noqa: PLC0415

    for attempt in unfinished_quizzes(seat):
        paper = paper_of(attempt) or {}
        same = (attempt.mode, paper["seed"], tuple(paper["questions"])) == (begun.mode, begun.seed, begun.questions)
        if same:
            given = tuple(given_again(asked[entry.body["question"]], entry.body) for entry in attempt.answers)
            return Answering.resume(seat, attempt), replace(begun, given=given)
    return Answering.begin(seat, f"quiz {begun.level}", begun.seed, begun.questions, begun.mode), begun


def _asked(sitting: Sitting, by_id: dict[str, Asked], subject: Subject, answering: Answering) -> Sitting:
    """Ask until the end, or until the person stops or the input ends."""
    from trainer.quiz.measure import Unclear  # noqa: PLC0415
    from trainer.quiz.sitting import answered, hint  # noqa: PLC0415

    shown, begun = "", now()
    while (name := sitting.next) is not None:
        asked = by_id[name]
        if shown != name:
            typer.echo(f"\nQuestion {len(sitting.given) + 1} of {len(by_id)}. {question_told(asked)}")
            shown, begun = name, now()
        typer.echo("Your answer: ", nl=False)
        line = sys.stdin.readline()
        word = line.strip().casefold()
        if not line or word == "stop":
            typer.echo("")
            return sitting
        if word == "plan":
            typer.echo(house_told(subject))
        elif word == "hint":
            taken = hint(sitting, asked)
            sitting, text = taken or (sitting, "There is no hint here.")
            typer.echo(text)
        else:
            outcome = answered(sitting, asked, line.strip())
            if isinstance(outcome, Unclear):
                typer.echo(outcome.why)
                continue
            sitting, verdict = outcome
            answering.keep(asked, sitting.given[-1], now() - begun)
            typer.echo(f"Understood: {verdict.understood}.")
            if sitting.mode == "practice":
                typer.echo(_explained(asked, verdict))
    return sitting


def question_told(asked: Asked) -> str:
    """A question and how to answer it, a line for each choice."""
    from trainer.quiz.judge import LETTERS, options  # noqa: PLC0415
    from trainer.quiz.question import Pairs  # noqa: PLC0415
    from trainer.report.paper_text import how_to_answer  # noqa: PLC0415

    left = asked.task.left if isinstance(asked.task, Pairs) else ()
    lines = [f"{asked.topic.capitalize()}.", asked.text, how_to_answer(asked)]
    lines += [f"{n}: {side}" for n, side in enumerate(left, 1)]
    lines += [f"{letter}: {text}" for letter, text in zip(LETTERS, options(asked), strict=False)]
    return "\n".join(lines)


def _explained(asked: Asked, verdict: Verdict) -> str:
    from trainer.quiz.judge import right_answer, told  # noqa: PLC0415

    lines = ["Right." if verdict.right else f"Not right. The answer: {told(asked, right_answer(asked))}."]
    lines += [verdict.slip, *asked.working, asked.why]
    lines += [f"Safety: {asked.safety}" if asked.safety else "", f"Source: {asked.source}."]
    if asked.about:
        lines.append(f"On the roof: {', '.join(asked.about[:6])} of house {asked.level}.")
    return "\n".join(line for line in lines if line)


def house_told(subject: Subject) -> str:
    """The house read out: its settings, its walls, and every truss from where to where; not what carries it."""
    from trainer.picture.sheet import settings_in_words  # noqa: PLC0415

    walls = [
        f"Wall {w.name}: from {w.a[0]:g}, {w.a[1]:g} to {w.b[0]:g}, {w.b[1]:g}, {w.length:g} long"
        + (", a gable." if w.gable else ".")
        for w in subject.layout.house.plan.walls
    ]
    trusses = [
        f"{m.tag}: from {m.start[0]:.0f}, {m.start[1]:.0f} to {m.finish[0]:.0f}, {m.finish[1]:.0f}."
        for m in subject.layout.members
    ]
    return "\n".join([f"{settings_in_words(subject.layout)}.", *walls, *trusses])


def _debrief(sitting: Sitting, by_id: dict[str, Asked]) -> None:
    from trainer.quiz.judge import judge  # noqa: PLC0415
    from trainer.quiz.measure import Unclear  # noqa: PLC0415

    typer.echo(f"\n{sitting.right} of {len(sitting.questions)} right.")
    if sitting.mode == "assessment":
        for number, given in enumerate(sitting.given, 1):
            verdict = judge(by_id[given.question], given.answer)
            if not given.right and not isinstance(verdict, Unclear):
                typer.echo(f"\nQuestion {number}. {by_id[given.question].text}\nYou: {verdict.understood}.")
                typer.echo(_explained(by_id[given.question], verdict))
    typer.echo("\nThis is practice. It does not say that anyone is competent.")
