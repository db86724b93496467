"""``trainer check``: level files, house styles and question banks held against all that they must be."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trainer.cli.given import file_bytes, say, show, wrong_call
from trainer.cli.options import argument
from trainer.cli.progress import progress
from trainer.words import _, ngettext

if TYPE_CHECKING:
    from trainer.layout import Layout, Refusal
    from trainer.level import Level
    from trainer.quiz import Question
    from trainer.read import Fault, Where

_SUFFIXES = (".yaml", ".yml")
STYLES, BANK, COURSE = "styles", "bank", "course"
"""Folders beside the levels: a file in one of these is a style, a bank of questions or a course, any other a level."""


def check(
    paths: Annotated[list[str], argument("PATH...", "Level files, folders of them, or ids of shipped levels.")],
) -> None:
    """Check level files.

    Prints every fault of every file: the line, what is wrong, and what to do. Of a sound level it says how hard
    it is, what is new in it and what it teaches. A folder's house styles, question bank and course are checked with it.
    """
    found = _Found()
    for path in paths:
        found.look_at(path)
    for line in (*map(str, found.faults), *found.summaries):
        show(line)
    files, faults = found.files, len(found.faults)
    checked = ngettext("{n} file checked", "{n} files checked", files).format(n=files)
    wrong = ngettext("{n} fault", "{n} faults", faults).format(n=faults) if faults else _("no faults")
    say(f"{checked}, {wrong}.")
    raise typer.Exit(1 if found.faults else 0)


class _Found:
    """What came of the files looked at so far."""

    def __init__(self) -> None:
        self.files = 0
        self.faults: list[Fault] = []
        self.summaries: list[str] = []
        self._places: dict[tuple[Path, int], str] = {}

    def look_at(self, path: str) -> None:
        files, whole = _files(path)
        self.files += len(files)
        questions: list[Question] = []
        for file in progress(files, _("Checking")):
            if file.parent.name == STYLES:
                self.faults += _style_faults(file)
            elif file.parent.name == BANK:
                questions += self._bank(file)
            elif file.parent.name == COURSE:
                self.faults += _course_faults(file)
            else:
                self._level(file)
        self.faults += _question_faults(questions, path if whole else None)
        self.faults += _path_faults(Path(path), {file.stem for file in files if file.parent == Path(path)})

    def _level(self, file: Path) -> None:
        from trainer.read import read_yaml

        text = file_bytes(file)
        level, layout, faults = checked_level(text, file)
        self.faults += faults
        if level is None:
            return
        if place := level.lesson.place:
            other = self._places.setdefault((file.parent, place), str(file))
            if other != str(file):
                what = _("is the place of {other} already; give it one of its own").format(other=other)
                self.faults.append(read_yaml(text, str(file)).fault(("lesson", "place"), what))
        if layout is not None and not faults:
            self.summaries.append(f"{file}: {_summary(level, layout)}")

    def _bank(self, file: Path) -> tuple[Question, ...]:
        from trainer.quiz import parse_bank
        from trainer.read import Faulty

        try:
            return parse_bank(file_bytes(file), str(file))
        except Faulty as faulty:
            self.faults += faulty.faults
            return ()


def checked_level(text: bytes, file: Path) -> tuple[Level | None, Layout | None, tuple[Fault, ...]]:
    """Return a level file's level and layout, where it can be read and laid out, and all its faults.

    Those that only show beside the layout and the rules are among them.
    """
    from trainer.level import parse_level
    from trainer.read import Faulty, read_yaml
    from trainer.shipped import style_texts

    try:
        level = parse_level(text, str(file), style_texts(file))
    except Faulty as faulty:
        return None, None, faulty.faults
    document = read_yaml(text, str(file))
    layout, refused = _laid_out(level)
    return level, layout, tuple(document.fault(where, what) for where, what in (*refused, *_unknown_rules(level)))


def _summary(level: Level, layout: Layout) -> str:
    """How hard a level is, what is new and what it teaches."""
    from trainer.level import difficulty

    hard = difficulty(level, layout)
    numbers = (
        ngettext("{n} truss", "{n} trusses", hard.trusses).format(n=hard.trusses),
        ngettext("{n} opening", "{n} openings", hard.openings).format(n=hard.openings),
        ngettext("{n} stage", "{n} stages", hard.stages).format(n=hard.stages),
        ngettext("{n} planted fault", "{n} planted faults", hard.faults).format(n=hard.faults)
        if hard.faults
        else _("no planted faults"),
    )
    parts = [_("{grade} of 10 ({numbers})").format(grade=hard.grade, numbers=", ".join(numbers))]
    if level.lesson.ideas:
        parts.append(_("new: {ideas}").format(ideas="; ".join(level.lesson.ideas)))
    if level.lesson.teaches:
        parts.append(_("teaches: {teaches}").format(teaches=", ".join(level.lesson.teaches)))
    return ". ".join(parts)


def _laid_out(level: Level) -> tuple[Layout | None, list[tuple[Where, str]]]:
    from trainer.layout import LayoutRefused, lay_out
    from trainer.session import site_faults

    try:
        layout = lay_out(level.house())
        return layout, list(site_faults(level, layout))
    except LayoutRefused as refused:
        return None, [_refusal_fault(reason) for reason in refused.reasons]


def _refusal_fault(reason: Refusal) -> tuple[Where, str]:
    at = f"[{reason.at[0]:g}, {reason.at[1]:g}]"
    if reason.change is None:
        return ("plates", "outline"), _("can't be laid out at {place} {at}: {why}").format(
            place=reason.place, at=at, why=reason.why
        )
    return ("layout", reason.change), _("can't be done to {place} at {at}: {why}").format(
        place=reason.place, at=at, why=reason.why
    )


def _unknown_rules(level: Level) -> Iterator[tuple[Where, str]]:
    from trainer.read import did_you_mean
    from trainer.rules import all_rules

    known = {rule.name for rule in all_rules()}
    for i, name in enumerate(level.lesson.teaches):
        if name not in known:
            yield (
                ("lesson", "teaches", i),
                _("no rule is called '{name}'; {guess}").format(
                    name=name, guess=did_you_mean(name, known) or _("take it out")
                ),
            )


def _style_faults(file: Path) -> tuple[Fault, ...]:
    from trainer.level import parse_style
    from trainer.read import Faulty, read_yaml

    text = file_bytes(file)
    try:
        style = parse_style(text, str(file))
    except Faulty as faulty:
        return faulty.faults
    if style.id == file.stem:
        return ()
    what = _("is '{id}', but levels call a style by its file's name; write {stem}").format(id=style.id, stem=file.stem)
    return (read_yaml(text, str(file)).fault(("id",), what),)


def _course_faults(file: Path) -> tuple[Fault, ...]:
    """What is wrong with a course; it may name the levels beside its folder and the shipped ones."""
    from trainer.course import parse_course
    from trainer.read import Faulty
    from trainer.shipped import level_paths

    try:
        parse_course(file_bytes(file), str(file), {path.stem for path in (*level_paths(), *_inside(file.parents[1]))})
    except Faulty as faulty:
        return faulty.faults
    return ()


def _path_faults(folder: Path, levels: set[str]) -> Iterator[Fault]:
    """What is wrong with the path of a folder: an id that no level has, or one twice."""
    from trainer.read import Fault, did_you_mean
    from trainer.shipped import PATH_FILE, path_lines

    seen: set[str] = set()
    for name, line in path_lines(folder):
        if name not in levels:
            guess = did_you_mean(name, levels) or _("take the line out")
            what = _("no level here is called '{name}'; {guess}").format(name=name[:40], guess=guess)
            yield Fault(str(folder / PATH_FILE), line, "path", what)
        elif name in seen:
            yield Fault(
                str(folder / PATH_FILE), line, "path", _("has '{name}' twice; keep one of the lines").format(name=name)
            )
        seen.add(name)


def _question_faults(questions: Iterable[Question], bank: str | None) -> list[Fault]:
    """What is wrong with questions one by one, and where they are a whole bank also as such."""
    from trainer.quiz import bank_faults, question_faults

    held = tuple(questions)
    if bank is not None and held:
        return bank_faults(held, bank)
    return [fault for question in held for fault in question_faults(question)]


def _files(path: str) -> tuple[list[Path], bool]:
    """Return the files that a path names, and whether a whole bank is among them."""
    from trainer.shipped import find_level

    try:
        folder = Path(path)
        if not folder.is_dir():
            return [find_level(path)], False
        files = [*_inside(folder), *_inside(folder / STYLES), *_inside(folder / BANK), *_inside(folder / COURSE)]
        return files or wrong_call(
            _("{path} holds no level file; level files end in {suffixes}.").format(
                path=path, suffixes=" or ".join(_SUFFIXES)
            )
        ), True
    except LookupError as error:
        wrong_call(str(error.args[0]))
    except OSError as error:
        wrong_call(_("{path}: can't be read: {why}.").format(path=path[:80], why=error.strerror or error))


def _inside(folder: Path) -> list[Path]:
    if not folder.is_dir():
        return []
    return sorted(file for file in folder.iterdir() if file.suffix.lower() in _SUFFIXES and file.is_file())
