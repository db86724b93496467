"""Somebody's own houses as a whole: a new one is named, one of them is chosen, one is deleted and put back."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path

from trainer.board.scenes.asking import ask_which, show_message
from trainer.board.services import Services
from trainer.board.table.files import clear_sheet_of, own_paths, put_away, put_back
from trainer.board.widgets import Button, Flow, Label, LineEntry, Listing, Row, Widget, dialog
from trainer.records.errors import RecordsError
from trainer.words import _

LONGEST_TITLE = 80


def ask_title(services: Services, suggested: str, then: Callable[[str], None]) -> None:
    """Ask what a house is called that is saved for the first time; an empty line takes what is suggested."""
    typed = [""]

    def take(text: str) -> None:
        typed[0] = text

    def save() -> None:
        services.close()
        then(typed[0].strip() or suggested)

    def question() -> Widget:
        usual = _("Left empty, it is called: {title}").format(title=suggested)
        buttons = [
            Button(_("Save it"), save, kind="primary", key="title/save"),
            Button(_("Not now"), services.close, shortcut="Esc", key="title/close"),
        ]
        parts: list[Widget] = [
            LineEntry(_("Its name"), typed[0], take, key="title/entry", enter=save, most=LONGEST_TITLE),
            Label(usual, "small", "panel_faint", key="title/usual"),
            Flow([*buttons], gap=8, key="title/buttons"),
        ]
        return dialog(_("What is this house called?"), parts, first="title/entry")

    services.ask(question)


def choose_own(services: Services, then: Callable[[Path], None], deleted: Callable[[], None]) -> None:
    """Ask which of one's own houses is meant; one can be deleted here too, which ``deleted`` shows."""
    paths = {path.stem: path for path in own_paths(services.records.folder)}
    if not paths:
        show_message(services, _("Your own houses"), [_("None is saved yet.")])
        return

    def take(name: str) -> None:
        services.close()
        then(paths[name])

    def choose(name: str) -> None:
        chosen[0] = name
        services.ui.refresh()

    def delete() -> None:
        services.close()
        ask_to_delete(services, paths[chosen[0]], chosen[0], deleted)

    def question() -> Widget:
        rows = [Row(name, name) for name in paths]
        listing = Listing(_("Your own houses"), rows, chosen[0], choose, take=take, key="own/list", show=4)
        buttons = [
            Button(_("Open"), lambda: take(chosen[0]), kind="primary", key="own/open"),
            Button(_("Delete it"), delete, key="own/delete"),
            Button(_("Not now"), services.close, shortcut="Esc", key="own/close"),
        ]
        return dialog(_("Your own houses"), [listing, Flow([*buttons], gap=8, key="own/buttons")], first="own/list")

    chosen = [next(iter(paths))]
    services.ask(question)


def ask_to_delete(services: Services, path: Path, title: str, then: Callable[[], None] = lambda: None) -> None:
    """Ask, then take one's own house off the path; its file is kept, and it can be put back. ``then`` shows that."""
    lines = [
        _("**{title}** is taken off your path. What you did on it stays on record.").format(title=title),
        _("An assessment that was made of it stays, and can still be sat."),
        _("Its file is kept in the folder “deleted” beside the others."),
    ]
    yes = partial(_delete, services, path, title, then)
    options = ((_("Delete it"), yes), (_("Stay"), None))
    ask_which(services, _("Delete this house?"), lines, options, first=1)


def _delete(services: Services, path: Path, title: str, then: Callable[[], None]) -> None:
    try:
        clear_sheet_of(services.records.folder, path)
        kept = put_away(path)
    except RecordsError as why:
        show_message(services, _("It was not deleted"), [str(why)])
        return
    _read_again(services, path)
    then()
    lines = [_("**{title}** is off your path. Its file:").format(title=title), str(kept)]
    options = ((_("Put it back"), partial(_put_back, services, kept, path, then)), (_("Close"), None))
    ask_which(services, _("Deleted"), lines, options, first=1)


def _put_back(services: Services, kept: Path, path: Path, then: Callable[[], None]) -> None:
    try:
        put_back(kept, path)
    except RecordsError as why:
        show_message(services, _("It was not put back"), [str(why)])
    _read_again(services, path)
    then()


def _read_again(services: Services, path: Path) -> None:
    if services.library is not None:
        services.library.read_again(path)
