"""``trainer report``: one attempt, or a whole class, as a page, a PDF or a table."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trainer.cli.data import Assessors, DataFolder, every_attempt, records_told, stored, trusted_keys
from trainer.cli.given import faulty, say, wrong_call

if TYPE_CHECKING:
    from trainer.picture import Palette
    from trainer.records.attempt import Attempt
    from trainer.records.regrade import Later

Which = Annotated[
    str | None,
    typer.Argument(
        metavar="[ATTEMPT]",
        help="A result file, or the beginning of an attempt's id as 'records list' shows it; left out, the class.",
    ),
]
Out = Annotated[
    Path, typer.Option("-o", "--output", metavar="FILE", help="The file to write: .html, .pdf; a class also as .csv.")
]


def report(output: Out, attempt: Which = None, data: DataFolder = None, assessor: Assessors = None) -> None:
    """Report on one attempt, or on the whole class.

    The page is one file that opens in any browser without a network; of an attempt it has a replay. Code names only.
    """
    from trainer.records.files import write_whole  # noqa: PLC0415

    trusted = trusted_keys(data, assessor)
    kind = output.suffix.lower()
    if kind not in (".html", ".pdf", ".csv") or (attempt and kind == ".csv"):
        wrong_call(f"{output}: the name must end in .html or .pdf{'' if attempt else ' or .csv'}.")
    if attempt is None:
        content, said = _class(kind, data, trusted)
    else:
        content, said = _attempt(kind, *_found(attempt, data), trusted)
    with records_told():
        write_whole(output, content)
    say(f"Wrote {output}: {said}.")


def _found(which: str, data: Path | None) -> tuple[Attempt, tuple[Later, ...]]:
    """The attempt that is meant, with the marks of later rules where they were kept."""
    from trainer.cli.verify import given_result  # noqa: PLC0415
    from trainer.records.regrade import later_marks  # noqa: PLC0415

    if Path(which).is_file():
        return given_result(Path(which))[0], ()
    with stored(data) as store:
        found = [each for each in every_attempt(store) if each.id.startswith(which)]
        if len(found) != 1:
            wrong_call(f"No single attempt begins with '{which[:80]}'. 'trainer records list' shows their ids.")
        return found[0], later_marks(store, found[0])


def _attempt(kind: str, attempt: Attempt, later: tuple[Later, ...], trusted: dict[str, str]) -> tuple[bytes, str]:
    from trainer.records.trust import examine_sitting, trust_of  # noqa: PLC0415
    from trainer.records.verify import examine, examine_marks  # noqa: PLC0415
    from trainer.report.attempt_told import attempt_told  # noqa: PLC0415

    if fault := attempt.fault:
        faulty(f"This attempt does not hold from entry {fault.ordinal} on: {fault.what} There is nothing to report.")
    said = (*examine(attempt, trusted), *examine_marks(attempt), *examine_sitting(attempt, trusted))
    told = attempt_told(attempt, trust_of(attempt, trusted), said, later)
    if kind == ".html":
        from trainer.report.page import page  # noqa: PLC0415

        return page("attempt.html", told, _light()).encode("utf-8"), told.title
    from trainer.report.attempt_pdf import attempt_pdf  # noqa: PLC0415

    return attempt_pdf(told, _light(), *_type()), told.title


def _class(kind: str, data: Path | None, trusted: dict[str, str]) -> tuple[bytes, str]:
    from trainer.records.trust import trust_of  # noqa: PLC0415
    from trainer.report.class_told import as_table, class_told  # noqa: PLC0415

    with stored(data) as store:
        every = every_attempt(store)
        sound = [attempt for attempt in every if attempt.fault is None]
        told = class_told([(attempt, trust_of(attempt, trusted)) for attempt in sound], _taught())
    if len(sound) < len(every):
        say(f"{len(every) - len(sound)} attempts do not hold and were left out: 'trainer verify' says why.")
    said = f"{len(told.where)} code names, {len(sound)} attempts"
    if kind == ".csv":
        return as_table(told).encode("utf-8"), said
    if kind == ".html":
        from trainer.report.page import page  # noqa: PLC0415

        return page("class.html", told, _light()).encode("utf-8"), said
    from trainer.report.class_pdf import class_pdf  # noqa: PLC0415

    return class_pdf(told, _light(), *_type()), said


def _taught() -> dict[str, list[str]]:
    """The shipped levels that teach each rule, in their order on the path."""
    from trainer.read import read_yaml  # noqa: PLC0415
    from trainer.shipped import level_paths  # noqa: PLC0415

    documents = [(read_yaml(path.read_bytes(), str(path)).data, path.stem) for path in level_paths()]
    lessons = [((data.get("lesson") if isinstance(data, dict) else None) or {}, name) for data, name in documents]
    found: dict[str, list[str]] = {}
    for lesson, name in sorted(lessons, key=lambda each: (each[0].get("place", 1000), each[1])):
        for rule in () if lesson.get("unseen") else lesson.get("teaches", ()):
            found.setdefault(rule, []).append(name)
    return found


def _light() -> Palette:
    from trainer.picture import PALETTE_FILE, parse_palettes  # noqa: PLC0415
    from trainer.shipped import art_path  # noqa: PLC0415

    # On white, so that a black and white printer spends no grey on the ground.
    return {**parse_palettes(art_path(PALETTE_FILE).read_text(encoding="utf-8"))["light"], "paper": "#ffffff"}


def _type() -> tuple[Path, Path]:
    from trainer.board.type_files import regular, semibold  # noqa: PLC0415

    return Path(regular()), Path(semibold())
