"""Questions and news over any screen."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING

from trainer.board.services import Services
from trainer.board.widgets import Button, Column, Paragraph, Prose, Scroll, Widget, dialog
from trainer.words import _

if TYPE_CHECKING:
    from trainer.session import Session


def show_message(services: Services, title: str, lines: Sequence[str]) -> None:
    """Show a message that only wants closing."""

    def message() -> Widget:
        close = Button(_("Close"), services.close, kind="primary", shortcut="Esc")
        return dialog(title, [Scroll(Prose([Paragraph(line) for line in lines]), title), close])

    services.ask(message)


def ask_which(
    services: Services, title: str, lines: Sequence[str], options: Sequence[tuple[str, Callable[[], None] | None]],
    first: int = 0,
) -> None:  # fmt: skip
    """Ask which way to go on. ``options`` are names and what to do; Esc takes the last.

    An option that does nothing stays where one is. ``first`` is the number of the one that Enter takes.
    """

    def go(then: Callable[[], None] | None) -> None:
        services.close()
        if then is not None:
            then()

    def question() -> Widget:
        last = len(options) - 1
        buttons = [
            Button(
                name, partial(go, then), kind="primary" if n == first else "plain", shortcut="Esc" if n == last else "",
                key=f"option/{n}",
            )
            for n, (name, then) in enumerate(options)
        ]  # fmt: skip
        text = Scroll(Prose([Paragraph(line) for line in lines]), title)
        return dialog(title, [text, Column([*buttons], gap=8, key="options")], first=f"option/{first}")

    services.ask(question)


def confirm(services: Services, title: str, lines: Sequence[str], yes: str, then: Callable[[], None]) -> None:
    """Ask before something that can't be taken back; ``then`` is called on yes."""
    ask_which(services, title, lines, ((yes, then), (_("Stay"), None)), first=1)


def save_diary(services: Services, session: Session) -> None:
    """Save a diary as a file for ``trainer grade`` and say where, or why not."""
    from trainer.board.keeping import save_diary_file
    from trainer.records.errors import RecordsError
    from trainer.site.diary import write_diary

    if services.records.folder is None:
        show_message(services, _("The diary could not be saved"), [_("There is no folder to save to.")])
        return
    name = f"{session.level.id}-{services.stamp()}"
    try:
        path = save_diary_file(services.records.folder, name, write_diary(session.diary()))
    except RecordsError as error:
        show_message(services, _("The diary could not be saved"), [str(error)])
        return
    show_message(services, _("The diary is saved"), [_("It is in this file:"), str(path)])
