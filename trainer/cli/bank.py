"""``trainer bank``: written questions counted, checked, and carried between a spreadsheet, a bank file and QTI."""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from trainer.cli.given import say, show, write_out, wrong_call
from trainer.cli.options import argument, out_option
from trainer.cli.questions import Topics, own_questions, the_bank, the_topics
from trainer.words import _, ngettext

if TYPE_CHECKING:
    from collections.abc import Sequence

    from trainer.quiz.bank import Question

_FORMATS = (".csv", ".yaml", ".zip")


def bank(
    files: Annotated[
        list[Path] | None,
        argument("[FILE]...", "Your own questions: .csv from a spreadsheet, or .yaml; the shipped bank if left out."),
    ] = None,
    topics: Topics = None,
    output: Annotated[
        Path | None,
        out_option("FILE", "Write them to this file: .csv, .yaml or .zip (QTI 3.0)."),
    ] = None,
) -> None:
    """Count, check and convert written questions.

    Every fault of every row is shown, with its line. Questions with a fault are not written out. So a
    spreadsheet becomes a bank file, and the bank becomes a spreadsheet or a QTI package.
    """
    if output is not None and output.suffix.lower() not in _FORMATS:
        wrong_call(_("{output}: the name must end in {formats}.").format(output=output, formats=", ".join(_FORMATS)))
    from trainer.quiz.unit import TOPIC_NAMES

    wanted = the_topics(topics)
    found = own_questions(files) if files else the_bank()
    chosen = tuple(question for question in found if question.topic in wanted)
    counts = Counter(question.topic for question in chosen)
    for topic in wanted:
        if counts[topic]:
            show(f"{counts[topic]:4}  {TOPIC_NAMES[topic]}")
    show(_("{n:4}  in all").format(n=len(chosen)))
    if output is not None:
        write_out(output, _written(chosen, output.suffix.lower()))
        n = len(chosen)
        text = ngettext("Wrote {output}: {n} question.", "Wrote {output}: {n} questions.", n)
        say(text.format(output=output, n=n))


def _written(questions: Sequence[Question], suffix: str) -> bytes:
    if suffix == ".csv":
        from trainer.quiz.sheet import write_sheet

        return write_sheet(questions).encode("utf-8-sig")
    if suffix == ".yaml":
        from trainer.quiz.write_bank import write_bank

        return write_bank(questions).encode("utf-8")
    from trainer.quiz.from_bank import asked
    from trainer.quiz.qti import package

    return package([asked(question, 0) for question in questions], _("Written questions"))
