"""``trainer report``: one attempt, or a whole class, as a page, a PDF or a table."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from trainer.cli.data import (
    Assessors,
    DataFolder,
    attempt_meant,
    attempts_counted,
    outlines,
    proved,
    records_explained,
    sound_attempts,
    stored,
    trusted_keys,
)
from trainer.cli.given import faulty, say, wrong_call
from trainer.cli.on_paper import light, type_files
from trainer.cli.options import argument, out_option
from trainer.cli.progress import progress
from trainer.cli.results import beside, results_in
from trainer.words import _, ngettext

if TYPE_CHECKING:
    from trainer.records.attempt import Attempt
    from trainer.records.proof import Proved
    from trainer.records.regrade import LaterMark
    from trainer.report.write import Format

    Kept = tuple[LaterMark, ...]
    Found = list[tuple[Proved, Kept]]

Which = Annotated[
    list[str] | None,
    argument(
        "[ATTEMPT]...",
        "Result files, folders of them, or the beginning of an attempt's id as 'records list' shows it; left out, all.",
    ),
]
Out = Annotated[Path, out_option("FILE", "The file to write: .html, .pdf; a class also as .csv. Or a folder.")]


def report(output: Out, attempts: Which = None, data: DataFolder = None, assessor: Assessors = None) -> None:
    """Report on one attempt, or on a class.

    The page is one file that opens in any browser without a network; of an attempt it has a replay. A name without an
    ending is a folder: the class goes into it, and a page for each attempt. Code names only.
    """
    from trainer.records.files import write_whole
    from trainer.report.write import FORMATS

    trusted = trusted_keys(data, assessor)
    form = FORMATS.get(output.suffix.lower())
    troubles: list[str] = []
    found, one = _found(attempts or [], data, troubles)
    if output.suffix and (form is None or (one and form == ".csv")):
        text = _("{output}: the name must end in .html or .pdf.") if one else NAMES
        wrong_call(text.format(output=output))
    if troubles and not found:
        faulty("\n".join(troubles))
    missing = _missing(attempts or [], found, troubles)
    if form is None:
        made = _all(found, output, trusted, missing)
    elif one:
        together = _together([*found[:1], *_beside(attempts or [], data)], trusted)
        made = {output: _attempt(form, *found[0], trusted, together)}
    else:
        made = {output: _class(form, found, trusted, missing)}
    with records_explained():
        for path, (content, said) in made.items():
            write_whole(path, content)
            say(_("Wrote {output}: {said}.").format(output=path, said=said))
    if troubles:
        faulty("\n".join(troubles))


NAMES = _("{output}: the name must end in .html, .pdf or .csv.")


def _found(given: list[str], data: Path | None, troubles: list[str]) -> tuple[Found, bool]:
    """The attempts that are meant, judged again, with the marks of later rules; and whether it is a single one."""
    from trainer.records.proof import prove
    from trainer.records.regrade import later_marks

    if not given:
        with stored(data) as store:
            return [(each, ()) for each in proved(store, sound_attempts(store), data)], False
    files = [Path(each) for each in given if Path(each).exists()]
    results = [each.attempt for each in results_in(files, troubles)]
    found: Found = [(prove(each), ()) for each in progress(results, _("Judging again"))]
    if ids := [each for each in given if not Path(each).exists()]:
        with stored(data) as store:
            for each in ids:
                attempt = attempt_meant(store, each, one_end=True)[0]
                _holds(attempt)
                found.append((prove(attempt), later_marks(store, attempt)))
    return found, len(given) == 1 and not any(file.is_dir() for file in files)


def _missing(given: list[str], found: Found, troubles: list[str]) -> tuple[str, ...]:
    """The code names whose ticket lies in one of the given folders and whose result is not among what was found.

    What is to be said of packs and tickets that can't be read goes to ``troubles``.
    """
    from trainer.records.stick import missing_results

    made = [attempt for attempt, _later in found]
    return tuple(code for each in given if Path(each).is_dir() for code in missing_results(Path(each), made, troubles))


def _holds(attempt: Attempt) -> None:
    if fault := attempt.fault:
        faulty(
            _("This attempt does not hold from entry {ordinal} on: {what} There is nothing to report.").format(
                ordinal=fault.ordinal, what=fault.what
            )
        )


def _attempt(
    form: Format, attempt: Proved, later: Kept, trusted: dict[str, str], together: dict[str, str]
) -> tuple[bytes, str]:
    from trainer.report.write import attempt_report
    from trainer.shipped.course import course

    if attempt.silent:
        faulty(_("This assessment is not closed yet. What was found in it is shown after the close."))
    among = together.get(attempt.id, "")
    content = attempt_report(form, attempt, later, trusted, light(), type_files(), among, course())
    return content, _("attempt of {code}").format(code=attempt.code)


def _beside(given: list[str], data: Path | None) -> Iterator[tuple[Attempt, Kept]]:
    """The other attempts of the folder or the store that a single one comes from."""
    if Path(given[0]).exists():
        yield from ((each.attempt, ()) for each in beside(list(results_in([Path(given[0])], []))))
        return
    with stored(data) as store:
        yield from ((each, ()) for each in proved(store, outlines(store), data))


def _together(found: Sequence[tuple[Attempt, Kept]], trusted: dict[str, str]) -> dict[str, str]:
    """What shows only where all of them are looked at, by id."""
    from trainer.records.clock import now
    from trainer.records.remarks import seen_together
    from trainer.records.trust import rank_by

    return seen_together((attempt for attempt, _later in found), now(), rank_by(trusted))


def _class(form: Format, found: Found, trusted: dict[str, str], missing: tuple[str, ...]) -> tuple[bytes, str]:
    from trainer.records.clock import now
    from trainer.report.write import class_report, content_of
    from trainer.shipped import level_paths
    from trainer.shipped.course import course

    content = content_of([attempt for attempt, _later in found], trusted, level_paths(), course(), missing, now())
    people = len(content.where)
    said = f"{ngettext('{n} code name', '{n} code names', people).format(n=people)}, {attempts_counted(len(found))}"
    return class_report(form, content, light(), type_files()), said


def _all(
    found: Found, folder: Path, trusted: dict[str, str], missing: tuple[str, ...]
) -> dict[Path, tuple[bytes, str]]:
    """The class and each of its attempts, by the files that they go into."""
    from trainer.records.record_file import SUFFIX, file_name

    made = {
        folder / "class.html": _class(".html", found, trusted, missing),
        folder / "class.csv": _class(".csv", found, trusted, missing),
    }
    together = _together(found, trusted)
    for attempt, later in found:
        if not attempt.silent:
            name = file_name(attempt).removesuffix(SUFFIX) + ".html"
            made[folder / name] = _attempt(".html", attempt, later, trusted, together)
    return made
