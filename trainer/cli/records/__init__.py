"""``trainer records``: what is recorded on this machine."""

from __future__ import annotations

import typer

from trainer.cli.records.look import list_, show_, what
from trainer.cli.records.move import backup, collect, export, save_what_holds
from trainer.cli.records.people import erase, keep, name

records = typer.Typer(
    name="records",
    help="Collect, show and export records; erase people.",
    rich_markup_mode=None,
    no_args_is_help=True,
)
records.command("list")(list_)
records.command("save-what-holds")(save_what_holds)
records.command("show")(show_)
for command in (what, collect, export, backup, erase, keep, name):
    records.command()(command)
