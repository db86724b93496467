"""The help of every command, which stands in plain English where the command is: spoken, and listed for Babel."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import typer

from trainer.words import _


def spoken(app: typer.Typer) -> Callable[[], None]:
    """Return the command line with all of its help in the language that is spoken."""
    command: Callable[[], None] = typer.main.get_command(app)
    for holder, name in _texts(command):
        setattr(holder, name, _(getattr(holder, name)))
    return command


def texts(app: typer.Typer) -> Iterator[str]:
    """Yield every text of the help in English."""
    yield from (getattr(holder, name) for holder, name in _texts(typer.main.get_command(app)))


def _texts(command: Any) -> Iterator[tuple[object, str]]:
    """Where the texts of a command and of those under it stand: objects and the names of their attributes."""
    holders = [(command, "help"), (command, "epilog"), *((param, "help") for param in command.params)]
    yield from ((holder, name) for holder, name in holders if getattr(holder, name, None))
    for under in getattr(command, "commands", {}).values():
        yield from _texts(under)
