"""What a command was given: files read, faults shown, and the exit codes everybody keeps to.

0 done, 1 what was given is faulty or a check does not hold, 2 the call itself was wrong.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, NoReturn

import typer

from trainer.cli.options import argument
from trainer.words import _, printable

if TYPE_CHECKING:
    from trainer.layout import Layout
    from trainer.level import Level

LevelName = Annotated[str, argument("LEVEL", "A level file, or the id of a level that comes with the trainer.")]
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON for programs instead of text for people.")]


def show(text: str, nl: bool = True) -> None:
    """Print a command's result; a file's text in it can't move the cursor or turn the writing round."""
    typer.echo(printable(text), nl=nl)


def say(text: str, nl: bool = True) -> None:
    """Say something that is not the command's result."""
    typer.echo(printable(text), err=True, nl=nl)


def faulty(text: str) -> NoReturn:
    """Stop because what was given is faulty."""
    say(text)
    raise typer.Exit(1)


def wrong_call(text: str) -> NoReturn:
    """Stop because the call itself was wrong."""
    say(text)
    raise typer.Exit(2)


@contextmanager
def faults_explained() -> Iterator[None]:
    """Show every fault of a file, one a line, and stop."""
    from trainer.read import Faulty

    try:
        yield
    except Faulty as error:
        faulty("\n".join(map(str, error.faults)))


def file_bytes(path: Path, most: int | None = None) -> bytes:
    """Read a file that the person named; more than the reader takes, or than ``most`` bytes, is not read."""
    from trainer.read import SIZE_LIMIT

    try:
        with path.open("rb") as file:
            return file.read((SIZE_LIMIT if most is None else most) + 1)
    except OSError as error:
        wrong_call(_("{path}: can't be read: {why}.").format(path=path, why=error.strerror or error))


@contextmanager
def writing(path: Path) -> Iterator[None]:
    """Say why a file that the person named can't be written, and stop."""
    try:
        yield
    except OSError as error:
        wrong_call(_("{path}: can't be written: {why}.").format(path=path, why=error.strerror or error))


def write_out(path: Path, content: bytes) -> None:
    """Write a file that the person named."""
    with writing(path):
        path.write_bytes(content)


def print_or_write(text: str, output: Path | None, made: str) -> None:
    """Print a result; or write it to the file that the person named, and say what was ``made``."""
    if output is None:
        show(text, nl=False)
    else:
        write_out(output, text.encode("utf-8"))
        say(_("Wrote {output}: {made}.").format(output=output, made=made))


def given_level(name: str) -> Level:
    """Read the level called or filed under ``name``; show its faults and stop if there are any."""
    from trainer.level import parse_level
    from trainer.shipped import find_level, style_texts

    try:
        path = find_level(name)
    except LookupError as error:
        wrong_call(str(error.args[0]))
    with faults_explained():
        return parse_level(file_bytes(path), str(path), style_texts(path))


def given_layout(level: Level) -> Layout:
    """Lay the level's house out; say why and stop where it can't be."""
    from trainer.layout import LayoutRefused, lay_out

    try:
        return lay_out(level.house())
    except LayoutRefused as refused:
        lines = [f"{r.place} at ({r.at[0]:g}, {r.at[1]:g}): {r.why}" for r in refused.reasons]
        faulty("\n".join([_("This plan can't be laid out by the rules here."), *lines]))
