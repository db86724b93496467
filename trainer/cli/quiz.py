"""``trainer quiz``: questions in a plain terminal, a line at a time, so that a screen reader reads them well."""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trainer.cli.data import DataFolder, folder_of
from trainer.cli.given import faulty, say, wrong_call
from trainer.cli.questions import Count, House, OwnQuestions, PaperSeed, Topics, the_bank, the_house, the_topics

if TYPE_CHECKING:
    from trainer.quiz.judge import Verdict
    from trainer.quiz.question import Asked
    from trainer.quiz.sitting import Sitting
    from trainer.quiz.worked import Subject

Assessed = Annotated[bool, typer.Option("--assessment", help="Say nothing of right and wrong until the end.")]
HELP = "Type your answer and press Enter. 'hint' gives a first step, 'plan' reads the house, 'stop' stops here."
SILENT = "Type your answer and press Enter. 'plan' reads the house, 'stop' stops here. Nothing is said until the end."
ANSWERS = "answers.json"


def quiz(
    topics: Topics = None,
    level: House = None,
    count: Count = 10,
    seed: PaperSeed = 1,
    questions: OwnQuestions = None,
    assessment: Assessed = False,
    data: DataFolder = None,
) -> None:
    """Answer questions in the terminal.

    In practice each answer is explained at once. With --assessment nothing is said until the end, and there is no
    hint. Each answer is on the disk before the next question. Stopped in the middle, the same command goes on.
    """
    from trainer.quiz.paper import TooFewQuestions, make_paper  # noqa: PLC0415
    from trainer.quiz.sitting import Sitting  # noqa: PLC0415
    from trainer.words import CAUTION, INVENTED  # noqa: PLC0415

    wanted, subject = the_topics(topics), the_house(level, seed)
    try:
        made = make_paper(the_bank(questions), [subject], seed, count, wanted)
    except TooFewQuestions as few:
        wrong_call(str(few))
    by_id = {question.id: question for question in made.questions}
    begun = Sitting("assessment" if assessment else "practice", seed, subject.level.id, tuple(by_id))
    file = folder_of(data) / "quiz" / ANSWERS
    sitting = _resumed(file, begun)
    typer.echo(f"{INVENTED} {CAUTION}\n")
    typer.echo(f"House {subject.level.id}. {len(by_id)} questions. Lengths are in millimetres.")
    typer.echo(SILENT if assessment else HELP)
    if sitting.given:
        typer.echo(f"Going on: {len(sitting.given)} are answered.")
    sitting = _asked(sitting, by_id, subject, file)
    if sitting.next is not None:
        say(f"Stopped. {len(sitting.given)} of {len(by_id)} are answered and kept. The same command goes on.")
        return
    _debrief(sitting, by_id)
    file.unlink(missing_ok=True)


def _resumed(file: Path, begun: Sitting) -> Sitting:
    """Go on with the same quiz where it was stopped; another one that was stopped is kept beside it."""
    from trainer.quiz.sitting import NotASitting, sitting_from_json  # noqa: PLC0415

    try:
        found = sitting_from_json(json.loads(file.read_text(encoding="utf-8")))
    except FileNotFoundError:
        return begun
    except OSError as error:
        wrong_call(f"{file}: can't be read: {error.strerror or error}.")
    except (NotASitting, ValueError):
        faulty(f"{file}: these are no answers of a quiz. Move the file away, and begin again. Nothing was changed.")
    same = (found.mode, found.seed, found.level, found.questions) == (
        begun.mode, begun.seed, begun.level, begun.questions,
    )  # fmt: skip
    if same:
        return found
    kept = file.with_name(f"stopped-{found.mode}-{found.level}-{found.seed}-{len(found.questions)}.json")
    try:
        file.replace(kept)
    except OSError as error:
        wrong_call(f"{file}: can't be moved aside: {error.strerror or error}.")
    say(f"Another quiz was stopped in the middle. Its answers are kept in {kept}.")
    return begun


def _asked(sitting: Sitting, by_id: dict[str, Asked], subject: Subject, file: Path) -> Sitting:
    """Ask until the end, or until the person stops or the input ends."""
    from trainer.quiz.measure import Unclear  # noqa: PLC0415
    from trainer.quiz.sitting import answered, hint  # noqa: PLC0415

    shown = ""
    while (name := sitting.next) is not None:
        asked = by_id[name]
        if shown != name:
            typer.echo(f"\nQuestion {len(sitting.given) + 1} of {len(by_id)}. {_told(asked)}")
            shown = name
        typer.echo("Your answer: ", nl=False)
        line = sys.stdin.readline()
        word = line.strip().casefold()
        if not line or word == "stop":
            typer.echo("")
            return sitting
        if word == "plan":
            typer.echo(_plan(subject))
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
            _keep(file, sitting)
            typer.echo(f"Understood: {verdict.understood}.")
            if sitting.mode == "practice":
                typer.echo(_explained(asked, verdict))
    return sitting


def _told(asked: Asked) -> str:
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


def _plan(subject: Subject) -> str:
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


def _keep(file: Path, sitting: Sitting) -> None:
    """Put the answers on the disk whole, or leave those before as they are."""
    from trainer.quiz.sitting import sitting_json  # noqa: PLC0415

    beside = file.with_suffix(".new")
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        with beside.open("w", encoding="utf-8", newline="\n") as out:
            json.dump(sitting_json(sitting), out)
            out.flush()
            os.fsync(out.fileno())
        beside.replace(file)
    except OSError as error:
        wrong_call(f"{file}: can't be written: {error.strerror or error}. Answers before this one are kept.")


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
