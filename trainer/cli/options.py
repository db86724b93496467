"""How commands declare what they are given: short forms of the usual arguments and options.

Their help stands there in plain English; ``help.py`` puts it into the language of a catalogue.
"""

from __future__ import annotations

from typing import Any

import typer


def argument(metavar: str, text: str, **more: Any) -> Any:
    """Return an argument, shown as ``metavar``."""
    return typer.Argument(metavar=metavar, help=text, **more)


def option(name: str, metavar: str, text: str, **more: Any) -> Any:
    """Return an option whose value is shown as ``metavar``."""
    return typer.Option(name, metavar=metavar, help=text, **more)


def out_option(metavar: str, text: str) -> Any:
    """Return the option for where a result is written."""
    return typer.Option("-o", "--output", metavar=metavar, help=text)


def seed_option(text: str) -> Any:
    """Return the option for a seed: a whole number that JSON holds exactly."""
    return typer.Option("--seed", min=0, max=2**53 - 1, help=text)
