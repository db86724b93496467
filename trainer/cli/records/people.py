"""``trainer records erase``, ``keep`` and ``name``: people, and how long records are kept."""

from __future__ import annotations

from typing import Annotated

import typer

from trainer.cli.data import DataFolder, attempts_counted, right_code, stored
from trainer.cli.given import say, show, wrong_call
from trainer.cli.options import argument
from trainer.records.clock import moment, now
from trainer.words import _, ngettext

Code = Annotated[str, argument("CODE", "A code name.")]
Name = Annotated[str, argument("NAME", "The name behind it; it stays in this store.")]
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
    from trainer.records.people import attempts_of, names
    from trainer.records.people import erase as remove

    with stored(data, write=True) as store:
        count = len({attempt.id for attempt in attempts_of(store, code)})
        if not count and code not in names(store):
            wrong_call(_("Nothing is recorded of '{code}'.").format(code=code))
        if not yes:
            typer.confirm(
                _("Remove {code} with {attempts}, for good?").format(code=code, attempts=attempts_counted(count)),
                abort=True,
                err=True,
            )
        remove(store, code, keep_statistics)
    say(
        _("Removed {code} with {attempts}. Exports and backups made before are not reached.").format(
            code=code, attempts=attempts_counted(count)
        )
    )


def keep(days: Days = None, forever: Forever = False, erase_due: EraseDue = False, data: DataFolder = None) -> None:
    """Set how long attempts are kept, and see what is due.

    Without DAYS it only shows the setting. Nothing is ever erased by itself: --erase-due does it, and leaves
    statistics that lead back to nobody.
    """
    from trainer.records.people import keep_for, let_go, overdue, retention_days

    if days is not None and forever:
        wrong_call(_("Give DAYS or --forever, not both."))
    with stored(data, write=True) as store:
        if days is not None or forever:
            keep_for(store, days)
        kept, due = retention_days(store), overdue(store, now())
        if kept is None:
            show(_("Attempts are kept until somebody erases them."))
        else:
            text = ngettext("Attempts are kept {n} day.", "Attempts are kept {n} days.", kept)
            show(text.format(n=kept))
        for attempt in due:
            show(
                _("Due: {id} of {code}, last written to {ended}").format(
                    id=attempt.id[:8], code=attempt.code, ended=moment(attempt.ended)
                )
            )
        if erase_due:
            let_go(store, due, keep_statistics=True)
            say(_("Erased {attempts}.").format(attempts=attempts_counted(len({attempt.id for attempt in due}))))


def name(code: Code, name: Name, data: DataFolder = None) -> None:
    """Note the name behind a code name, in this store only."""
    from trainer.records.people import name_person

    right_code(code)
    with stored(data, write=True) as store:
        name_person(store, code, name)
    say(_("Noted. The name stays in {path} and goes into no file.").format(path=store.path))
