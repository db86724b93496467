"""``trainer records erase``, ``keep`` and ``name``: people, and how long records are kept."""

from __future__ import annotations

from typing import Annotated

import typer

from trainer.cli.data import DataFolder, right_code, stored
from trainer.cli.given import counted, say, wrong_call
from trainer.records.clock import moment, now

Code = Annotated[str, typer.Argument(metavar="CODE", help="A code name.")]
Name = Annotated[str, typer.Argument(metavar="NAME", help="The name behind it; it stays in this store.")]
KeepStatistics = Annotated[
    bool, typer.Option("--keep-statistics", help="Leave level, mark and rules broken, with nothing that leads back.")
]
Yes = Annotated[bool, typer.Option("--yes", help="Do it without asking.")]
Days = Annotated[int | None, typer.Argument(metavar="DAYS", min=1, max=36_500, help="How long attempts are kept.")]
Forever = Annotated[bool, typer.Option("--forever", help="Keep them until somebody erases them.")]
EraseDue = Annotated[bool, typer.Option("--erase-due", help="Erase what was kept long enough.")]


def erase(code: Code, keep_statistics: KeepStatistics = False, yes: Yes = False, data: DataFolder = None) -> None:
    """Remove a person: name, attempts, signatures.

    Collecting an old file does not bring them back. Exports and backups made before are not reached: erase or
    throw away those yourself.
    """
    from trainer.records.people import attempts_of, names  # noqa: PLC0415
    from trainer.records.people import erase as remove  # noqa: PLC0415

    with stored(data, write=True) as store:
        count = len({attempt.id for attempt in attempts_of(store, code)})
        if not count and code not in names(store):
            wrong_call(f"Nothing is recorded of '{code}'.")
        if not yes:
            typer.confirm(f"Remove {code} with {counted(count, 'attempt')}, for good?", abort=True, err=True)
        remove(store, code, keep_statistics)
    say(f"Removed {code} with {counted(count, 'attempt')}. Exports and backups made before are not reached.")


def keep(days: Days = None, forever: Forever = False, erase_due: EraseDue = False, data: DataFolder = None) -> None:
    """Set how long attempts are kept, and see what is due.

    Without DAYS it only shows the setting. Nothing is ever erased by itself: --erase-due does it, and leaves
    statistics that lead back to nobody.
    """
    from trainer.records.people import keep_for, kept_for, let_go, overdue  # noqa: PLC0415

    if days is not None and forever:
        wrong_call("Give DAYS or --forever, not both.")
    with stored(data, write=True) as store:
        if days is not None or forever:
            keep_for(store, days)
        kept, due = kept_for(store), overdue(store, now())
        typer.echo("Attempts are kept " + ("until somebody erases them." if kept is None else f"{kept} days."))
        for attempt in due:
            typer.echo(f"Due: {attempt.id[:8]} of {attempt.code}, last written to {moment(attempt.ended)}")
        if erase_due:
            let_go(store, due, keep_statistics=True)
            say(f"Erased {counted(len({attempt.id for attempt in due}), 'attempt')}.")


def name(code: Code, name: Name, data: DataFolder = None) -> None:
    """Note the name behind a code name, in this store only."""
    from trainer.records.people import name_person  # noqa: PLC0415

    right_code(code)
    with stored(data, write=True) as store:
        name_person(store, code, name)
    say(f"Noted. The name stays in {store.path} and goes into no file.")
