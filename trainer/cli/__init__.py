"""The ``trainer`` command: one short module a command, wired here.

Modules of commands import the rooms they need inside their functions, so that ``trainer --help`` and
a mistyped option answer at once.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from io import TextIOWrapper
from pathlib import Path

import typer

from trainer import __version__
from trainer.cli.bank import bank
from trainer.cli.check import check
from trainer.cli.class_ import class_
from trainer.cli.coverage import coverage
from trainer.cli.cutout import cutout
from trainer.cli.data import DataFolder
from trainer.cli.draw import draw
from trainer.cli.drills import drills
from trainer.cli.film import film
from trainer.cli.given import show
from trainer.cli.grade import grade
from trainer.cli.help import spoken, texts
from trainer.cli.items import items
from trainer.cli.key import key
from trainer.cli.layout import layout
from trainer.cli.make import make
from trainer.cli.pack import pack, ticket
from trainer.cli.paper import paper
from trainer.cli.quiz import quiz
from trainer.cli.records import records
from trainer.cli.regrade import regrade
from trainer.cli.rehearse import rehearse
from trainer.cli.report import report
from trainer.cli.roof import roof
from trainer.cli.rules import rules
from trainer.cli.schema import schema
from trainer.cli.sheet import sheet
from trainer.cli.sign import sign
from trainer.cli.sit import sit
from trainer.cli.today import today
from trainer.cli.verify import verify
from trainer.words import _

app = typer.Typer(
    name="trainer",
    help="Practise installing prefabricated timber roof trusses. Without a command it opens the board.",
    epilog="A practice aid: on site, the fabricator's drawings, the law and your supervisor decide.",
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)
commands: tuple[Callable[..., None], ...] = (
    *(roof, layout, draw, sheet, cutout, film, check, schema, rehearse, grade, rules, drills, make, coverage),
    *(key, pack, ticket, sit, verify, sign, regrade, report),
    *(today, paper, quiz, bank, items),
)
for command in commands:
    app.command()(command)
app.command("class")(class_)
app.add_typer(records)


@app.callback(invoke_without_command=True)
def _start(
    context: typer.Context,
    version: bool = typer.Option(False, "--version", help="Print the trainer's version and stop."),
    data: DataFolder = None,
) -> None:
    if version:
        show(f"trainer {__version__}")
    elif context.invoked_subcommand is None:
        board(data)
    elif data is not None:
        context.default_map = _for_all_under(context.command, {"data": str(data)})


def _for_all_under(command: object, options: dict[str, str]) -> dict[str, object]:
    """Make options that stand before a command the defaults of all commands under it."""
    below = getattr(command, "commands", {}).items()
    return {**options, **{name: _for_all_under(each, options) for name, each in below}}


def extract(*_given: object, **_options: object) -> Iterator[tuple[int, None, str, list[str]]]:
    """Yield every text of the help: a method of extraction for Babel."""
    return ((1, None, text, []) for text in texts(app))


def main() -> None:
    """Run the command line; text goes out as UTF-8 on every system."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="replace")
    spoken(app)()


INSTEAD = _("""\
These two commands do the same job without one: a right diary of the work, and its judgement.

  trainer rehearse wren --seed 1 -o wren-diary.yaml
  trainer grade wren wren-diary.yaml""")


def board(data: Path | None) -> None:
    """Open the board; without a screen, say which commands do the same. ``data`` is the folder for what it keeps."""
    from trainer.board import NoDisplay, run

    try:
        run(data=data)
    except NoDisplay as none:
        show(f"{none}\n{INSTEAD}")
