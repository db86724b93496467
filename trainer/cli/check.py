"""``trainer check``: level files held against all that a level must be."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trainer.cli.given import file_bytes, say, wrong_call

if TYPE_CHECKING:
    from trainer.read import Fault

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
    """Return every fault of a level file, also those that only show when its house is laid out."""
    from trainer.layout import LayoutRefused, lay_out  # noqa: PLC0415
    from trainer.level import parse_level  # noqa: PLC0415
    from trainer.read import Faulty, read_yaml  # noqa: PLC0415

    try:
        lay_out(parse_level(text, file).house())
    except Faulty as faulty:
        return faulty.faults
    except LayoutRefused as refused:
        document = read_yaml(text, file)
        whats = (f"can't be laid out at {r.place} [{r.at[0]:g}, {r.at[1]:g}]: {r.why}" for r in refused.reasons)
        return tuple(document.fault(("plates", "outline"), what) for what in whats)
    return ()


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
