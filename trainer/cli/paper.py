"""``trainer paper``: a question paper, its marking guide, or either of them for other programs."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trainer.cli.data import DataFolder
from trainer.cli.given import AsJson, say, show, write_out, wrong_call
from trainer.cli.on_paper import light, type_files
from trainer.cli.options import out_option
from trainer.cli.questions import (
    MOST_ON_PAPER,
    Count,
    HouseOption,
    OwnQuestions,
    PaperSeed,
    Topics,
    the_bank,
    the_house,
    the_topics,
)
from trainer.words import _, ngettext

if TYPE_CHECKING:
    from collections.abc import Sequence

    from trainer.quiz.bank import Question
    from trainer.quiz.paper import Paper
    from trainer.quiz.worked import Subject
    from trainer.report.paper_text import PrintedPaper

FORMATS = (".html", ".pdf", ".zip", ".csv")
Answers = Annotated[bool, typer.Option("--answers", help="The marking guide: answers, working and reasons.")]
Practise = Annotated[
    bool, typer.Option("--practise", help="A page that marks itself and explains, to take home: .html.")
]
Output = Annotated[Path | None, out_option("FILE", "Write to this file: .html, .pdf, .zip (QTI 3.0) or .csv.")]


def paper(
    topics: Topics = None,
    level: HouseOption = None,
    count: Count = 40,
    seed: PaperSeed = 1,
    questions: OwnQuestions = None,
    answers: Answers = False,
    practise: Practise = False,
    as_json: AsJson = False,
    output: Output = None,
    data: DataFolder = None,
) -> None:
    """Make a question paper.

    The same seed gives the same paper; seeds one after another give parallel forms. The marking guide is a file
    of its own, with --answers. As CSV go the written questions only; as QTI all of them, with their answers. With
    --practise an .html marks itself and explains, holds the answers too, and asks other questions than the paper of
    the same seed.
    """
    from trainer.quiz.as_json import paper_json
    from trainer.quiz.paper import TooFewQuestions, make_paper

    if output is not None and output.suffix.lower() not in FORMATS:
        wrong_call(_("{output}: the name must end in {formats}.").format(output=output, formats=", ".join(FORMATS)))
    if practise and (answers or as_json or output is None or output.suffix.lower() != ".html"):
        wrong_call(_("--practise makes one page: give -o FILE.html with it, without --answers and --json."))
    wanted, bank, subject = the_topics(topics), the_bank(questions), the_house(level, seed, data)
    if output is not None and output.suffix.lower() in (".html", ".pdf"):
        trusses = len(subject.layout.members)
        if trusses > MOST_ON_PAPER:
            text = _("{level} has {trusses} trusses. On paper no more than {most} can be read; give another --level.")
            wrong_call(text.format(level=subject.level.id, trusses=trusses, most=MOST_ON_PAPER))
    try:
        made = make_paper(bank, [subject], seed, count, wanted)
        if practise:
            made = make_paper(bank, [subject], seed, count, wanted, beside=made)
    except TooFewQuestions as few:
        wrong_call(str(few))
    if output is not None:
        _write(made, bank, subject, output, answers, practise)
    elif as_json:
        show(json.dumps(paper_json(made, answers)))
    else:
        show(_for_people(_printed(made, subject, answers)))


def _printed(made: Paper, subject: Subject, answers: bool) -> PrintedPaper:
    from trainer.report.paper_text import printed

    return printed(made, {subject.level.id: subject}, answers)


def _write(
    made: Paper, bank: Sequence[Question], subject: Subject, output: Path, answers: bool, practise: bool
) -> None:
    from trainer.report.write import on_white

    kind = output.suffix.lower()
    if kind == ".zip":
        from trainer.quiz.qti import package

        write_out(output, package(made.questions, _("Question paper {seed}").format(seed=made.seed)))
    elif kind == ".csv":
        from trainer.quiz.sheet import write_sheet

        written = {question.id: question for question in made.questions if question.written}
        rows = [question for question in bank if question.id in written]
        write_out(output, write_sheet(rows, None if answers else written).encode("utf-8-sig"))
        say(_in_table(output, len(rows), made, answers))
        return
    elif kind == ".html" and practise:
        from trainer.report.page import page
        from trainer.report.practise import practise_page

        write_out(
            output,
            page(
                "practise.html", practise_page(made, {subject.level.id: subject}), on_white(light()), type_files()
            ).encode("utf-8"),
        )
    elif kind == ".html":
        from trainer.report.page import page

        write_out(
            output,
            page("paper.html", _printed(made, subject, answers), on_white(light()), type_files()).encode("utf-8"),
        )
    else:
        from trainer.report.paper_pdf import paper_pdf

        write_out(output, paper_pdf(_printed(made, subject, answers), on_white(light()), *type_files()))
    if kind == ".zip" or practise:
        say(_("{output} holds the answers as well: it has to, to mark by itself.").format(output=output))
    n = len(made.questions)
    text = ngettext("Wrote {output}: {n} question, seed {seed}.", "Wrote {output}: {n} questions, seed {seed}.", n)
    say(text.format(output=output, n=n, seed=made.seed))


def _in_table(output: Path, rows: int, made: Paper, answers: bool) -> str:
    """Say what of a paper its table holds: a question on a house has no place there."""
    text = ngettext(
        "Wrote {output}: {n} written question of the {count} on this paper, seed {seed}. The others are on a house.",
        "Wrote {output}: {n} written questions of the {count} on this paper, seed {seed}. The others are on a house.",
        rows,
    ).format(output=output, n=rows, count=len(made.questions), seed=made.seed)
    return f"{text} " + (_("With their answers.") if answers else _("Without answers: --answers adds them."))


def _for_people(paper: PrintedPaper) -> str:
    parts = [paper.title, *paper.notes]
    for question in paper.questions:
        head = _("Question {number}, {topic}").format(number=question.number, topic=question.topic) + (
            f", {question.house}" if question.house else ""
        )
        lines = [head, f"  {question.asked}"]
        lines += [f"    {n}  {side}" for n, side in enumerate(question.left, 1)]
        lines += [f"    {letter}  {text}" for letter, text in question.offered]
        if paper.guide:
            lines.append(_("  Answer: {answer}").format(answer=question.answer))
            lines += [f"  {name}: {text}" for name, text in question.notes]
        parts.append("\n".join(lines))
    return "\n\n".join(parts)
