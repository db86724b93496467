"""Reports as the bytes of a file, for the command line and the board alike."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Literal

from trainer.course import Course
from trainer.picture import Palette
from trainer.read import read_yaml
from trainer.records.proof import Proved
from trainer.records.regrade import LaterMark
from trainer.records.trust import examine_sitting, trust_and_why, trust_of
from trainer.records.verify import Keys, Said, examine, examine_marks
from trainer.report.attempt_content import attempt_content
from trainer.report.class_content import ClassContent, as_table, class_content
from trainer.report.page import page

Format = Literal[".html", ".pdf", ".csv"]
FORMATS: Mapping[str, Format] = {".html": ".html", ".pdf": ".pdf", ".csv": ".csv"}
"""Endings of files, and what is written into them."""
Fonts = tuple[Path, Path]
"""Files of the type's regular and semibold weight."""


def attempt_report(
    form: Format,
    attempt: Proved,
    later: Sequence[LaterMark],
    trusted: Keys,
    palette: Palette,
    fonts: Fonts,
    among: str = "",
    course: Course | None = None,
) -> bytes:
    """Return the report of an attempt that holds, as a page or a PDF.

    ``among`` is what others beside it show, ``course`` has the skills that are practised.
    """
    beside = (Said("noticed", among),) if among else ()
    said = (*examine(attempt, trusted), *examine_marks(attempt), *examine_sitting(attempt, trusted), *beside)
    content = attempt_content(attempt, trust_of(attempt, trusted), said, later, course)
    if form == ".html":
        return page("attempt.html", content, on_white(palette), fonts).encode("utf-8")
    from trainer.report.attempt_pdf import attempt_pdf  # noqa: PLC0415 - the library of PDFs is slow to load

    return attempt_pdf(content, on_white(palette), *fonts)


def content_of(
    attempts: Sequence[Proved],
    trusted: Keys,
    levels: Sequence[Path],
    course: Course | None = None,
    missing: Sequence[str] = (),
    now: int | None = None,
) -> ClassContent:
    """Return what is to be said of a class: of attempts that hold. ``levels`` are files of levels to practise on.

    ``missing`` are code names with a ticket whose result is not there.
    """
    labels = [(attempt, *trust_and_why(attempt, trusted)) for attempt in attempts]
    whys = {attempt.head: why for attempt, _trust, why in labels}
    return class_content(
        [(attempt, trust) for attempt, trust, _why in labels], taught_by(levels), whys, course, missing, now
    )


def class_report(form: Format, content: ClassContent, palette: Palette, fonts: Fonts) -> bytes:
    """Return the report of a class as a page, a PDF or a table."""
    if form == ".csv":
        return as_table(content).encode("utf-8")
    if form == ".html":
        return page("class.html", content, on_white(palette), fonts).encode("utf-8")
    from trainer.report.class_pdf import class_pdf  # noqa: PLC0415

    return class_pdf(content, on_white(palette), *fonts)


def on_white(palette: Palette) -> Palette:
    """Return a palette on white paper: a black and white printer spends no grey on the ground."""
    return {**palette, "paper": "#ffffff"}


def taught_by(levels: Sequence[Path]) -> Mapping[str, Sequence[str]]:
    """Return the titles of the levels that teach each rule, in the order given.

    Those kept for assessment are not given away. Only as much of a level's file is read as that takes.
    """
    documents = [(read_yaml(path.read_bytes(), str(path)).data, path.stem) for path in levels]
    whole = [(data if isinstance(data, dict) else {}, name) for data, name in documents]
    lessons = [(data.get("lesson") or {}, str(data.get("title", name))) for data, name in whole]
    found: dict[str, list[str]] = {}
    for lesson, name in lessons:
        for rule in () if lesson.get("unseen") else lesson.get("teaches", ()):
            found.setdefault(rule, []).append(name)
    return found
