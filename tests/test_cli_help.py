"""The command line is documentation: every command and option says what it is for."""

from __future__ import annotations

import pytest
from typer.main import get_command

from trainer.cli import app

ROOT = get_command(app)
COMMANDS = dict(getattr(ROOT, "commands"))  # noqa: B009 - its type isn't public


def test_the_trainer_itself_says_what_it_is() -> None:
    assert ROOT.help
    assert set(COMMANDS) >= {"roof", "layout", "draw", "check", "schema", "grade", "rehearse"}


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_has_help_that_fits_the_list(name: str) -> None:
    command = COMMANDS[name]
    assert command.help
    first = command.help.strip().split("\n\n")[0]
    assert first.endswith("."), "a sentence"
    assert not command.get_short_help_str(limit=60).endswith("..."), "the first sentence must not be cut in the list"


PARAMETERS = [(name, each) for name, command in {"trainer": ROOT, **COMMANDS}.items() for each in command.params]


def test_every_argument_and_option_has_help() -> None:
    assert [f"trainer {name}: {each.name}" for name, each in PARAMETERS if not getattr(each, "help", None)] == []
