"""``trainer check``: level files held against all that a level must be."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trainer.cli.given import file_bytes, say, wrong_call

if TYPE_CHECKING:
    from trainer.level import Level
    from trainer.read import Fault, Where

_SUFFIXES = (".yaml", ".yml")


def check(
    paths: Annotated[
        list[str], typer.Argument(metavar="PATH...", help="Level files, folders of them, or ids of shipped levels.")
    ],
) -> None:
    """Check level files.

    Prints every fault of every file: the line, what is wrong, and what to do.
    """
    files = [file for path in paths for file in _files(path)]
    faults = [fault for file in files for fault in level_file_faults(file_bytes(file), str(file))]
    for fault in faults:
        typer.echo(str(fault))
    say(f"{_count(len(files), 'file')} checked, {_count(len(faults), 'fault')}.")
    raise typer.Exit(1 if faults else 0)


def level_file_faults(text: bytes, file: str) -> tuple[Fault, ...]:
    """Return every fault of a level file, also those that only show beside the layout and the rules."""
    from trainer.level import parse_level  # noqa: PLC0415
    from trainer.read import Faulty, read_yaml  # noqa: PLC0415

    try:
        level = parse_level(text, file)
    except Faulty as faulty:
        return faulty.faults
    document = read_yaml(text, file)
    return tuple(document.fault(where, what) for where, what in (*_not_laid_out(level), *_unknown_rules(level)))


def _not_laid_out(level: Level) -> Iterator[tuple[Where, str]]:
    from trainer.layout import LayoutRefused, lay_out  # noqa: PLC0415

    try:
        lay_out(level.house())
    except LayoutRefused as refused:
        for reason in refused.reasons:
            at = f"[{reason.at[0]:g}, {reason.at[1]:g}]"
            yield ("plates", "outline"), f"can't be laid out at {reason.place} {at}: {reason.why}"


def _unknown_rules(level: Level) -> Iterator[tuple[Where, str]]:
    from trainer.read import did_you_mean  # noqa: PLC0415
    from trainer.rules import all_rules  # noqa: PLC0415

    known = {rule.name for rule in all_rules()}
    for i, name in enumerate(level.lesson.teaches):
        if name not in known:
            yield ("lesson", "teaches", i), f"no rule is called '{name}'; {did_you_mean(name, known) or 'take it out'}"


def _files(path: str) -> list[Path]:
    from trainer.shipped import find_level  # noqa: PLC0415

    try:
        if Path(path).is_dir():
            files = sorted(file for file in Path(path).iterdir() if file.suffix.lower() in _SUFFIXES and file.is_file())
            return files or wrong_call(f"{path} holds no level file; level files end in {' or '.join(_SUFFIXES)}.")
        return [find_level(path)]
    except LookupError as error:
        wrong_call(str(error.args[0]))
    except OSError as error:
        wrong_call(f"{path[:80]}: can't be read: {error.strerror or error}.")


def _count(number: int, noun: str) -> str:
    return f"{number or 'no'} {noun}{'' if number == 1 else 's'}"
