"""``trainer report``: one attempt, or a whole class, as a page, a PDF or a table."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from trainer.cli.data import (
    Assessors,
    DataFolder,
    attempt_meant,
    attempts_counted,
    proved,
    records_explained,
    sound_attempts,
    stored,
    trusted_keys,
)
from trainer.cli.given import faulty, say, wrong_call
from trainer.cli.on_paper import light, type_files
from trainer.cli.options import argument, out_option
from trainer.words import _, ngettext

if TYPE_CHECKING:
    from trainer.records.attempt import Attempt
    from trainer.records.regrade import LaterMark
    from trainer.report.write import Format

Which = Annotated[
    str | None,
    argument(
        "[ATTEMPT]",
        "A result file, or the beginning of an attempt's id as 'records list' shows it; left out, the class.",
    ),
]
Out = Annotated[Path, out_option("FILE", "The file to write: .html, .pdf; a class also as .csv.")]


def report(output: Out, attempt: Which = None, data: DataFolder = None, assessor: Assessors = None) -> None:
    """Report on one attempt, or on the whole class.

    The page is one file that opens in any browser without a network; of an attempt it has a replay. Code names only.
    """
    from trainer.records.files import write_whole
    from trainer.report.write import FORMATS

    trusted = trusted_keys(data, assessor)
    form = FORMATS.get(output.suffix.lower())
    if form is None or (attempt and form == ".csv"):
        text = _("{output}: the name must end in .html or .pdf.")
        wrong_call(
            (text if attempt else _("{output}: the name must end in .html, .pdf or .csv.")).format(output=output)
        )
    if attempt is None:
        content, said = _class(form, data, trusted)
    else:
        content, said = _attempt(form, *_found(attempt, data), trusted)
    with records_explained():
        write_whole(output, content)
    say(_("Wrote {output}: {said}.").format(output=output, said=said))


def _found(which: str, data: Path | None) -> tuple[Attempt, tuple[LaterMark, ...]]:
    """The attempt that is meant, with the marks of later rules where they were kept."""
    from trainer.cli.verify import given_result
    from trainer.records.regrade import later_marks

    if Path(which).is_file():
        return given_result(Path(which))[0], ()
    with stored(data) as store:
        found = attempt_meant(store, which, one_end=True)
        return found[0], later_marks(store, found[0])


def _attempt(
    form: Format, attempt: Attempt, later: tuple[LaterMark, ...], trusted: dict[str, str]
) -> tuple[bytes, str]:
    from trainer.records.proof import prove
    from trainer.report.write import attempt_report

    if fault := attempt.fault:
        faulty(
            _("This attempt does not hold from entry {ordinal} on: {what} There is nothing to report.").format(
                ordinal=fault.ordinal, what=fault.what
            )
        )
    if not attempt.closed and attempt.mode == "assessment":
        faulty(_("This assessment is not closed yet. What was found in it is shown after the close."))
    return attempt_report(form, prove(attempt), later, trusted, light(), type_files()), _("attempt of {code}").format(
        code=attempt.code
    )


def _class(form: Format, data: Path | None, trusted: dict[str, str]) -> tuple[bytes, str]:
    from trainer.report.write import class_report, content_of
    from trainer.shipped import level_paths

    with stored(data) as store:
        sound = proved(store, sound_attempts(store), data)
        content = content_of(sound, trusted, level_paths())
    people = len(content.where)
    said = f"{ngettext('{n} code name', '{n} code names', people).format(n=people)}, {attempts_counted(len(sound))}"
    return class_report(form, content, light(), type_files()), said
