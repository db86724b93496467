"""Questions and news over any screen."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Literal

from trainer.board.services import Services
from trainer.board.widgets import Block, Button, Column, Label, Pad, Prose, Scroll, Widget
from trainer.words import _

if TYPE_CHECKING:
    from trainer.session import Session


def tell(services: Services, title: str, lines: Sequence[str]) -> None:
    """Tell something that only wants closing."""

    def dialog() -> Widget:
        text = Scroll(Prose([Block(line) for line in lines]), title)
        close = Button(_("Close"), services.close, kind="primary", shortcut="Esc")
        return Pad(
            Column([Label(title, "heading", role="heading"), text, close], gap=12), pad=24, name=title, key="dialog"
        )

    services.ask(dialog)


def sure(
    services: Services, title: str, lines: Sequence[str], yes: str, then: Callable[[], None], *, no: str = _("Stay"),
    first: Literal["yes", "no"] = "no", otherwise: Callable[[], None] | None = None,
) -> None:  # fmt: skip
    """Ask before something that can't be taken back; ``then`` is called on yes, ``first`` has the focus.

    ``otherwise`` is called on no, where that does more than to stay.
    """

    def go() -> None:
        services.close()
        then()

    def stay() -> None:
        services.close()
        if otherwise is not None:
            otherwise()

    def dialog() -> Widget:
        buttons = Column(
            [
                Button(yes, go, kind="primary", key="sure/yes"),
                Button(no, stay, shortcut="Esc", key="sure/no"),
            ],
            gap=8,
        )
        text = Prose([Block(line) for line in lines])
        column = Column([Label(title, "heading", role="heading"), text, buttons], gap=12)
        root = Pad(column, pad=24, name=title, key="dialog")
        root.first_focus = f"sure/{first}"
        return root

    services.ask(dialog)


def save_diary(services: Services, session: Session) -> None:
    """Save a diary as a file for ``trainer grade`` and tell where, or why not."""
    from trainer.board.keeping import save_diary_file  # noqa: PLC0415
    from trainer.records.errors import RecordsError  # noqa: PLC0415
    from trainer.site.diary import write_diary  # noqa: PLC0415

    if services.records.folder is None:
        tell(services, _("The diary could not be saved"), [_("There is no folder to save to.")])
        return
    name = f"{session.level.id}-{services.stamp()}"
    try:
        path = save_diary_file(services.records.folder, name, write_diary(session.diary()))
    except RecordsError as error:
        tell(services, _("The diary could not be saved"), [str(error)])
        return
    tell(services, _("The diary is saved"), [_("It is in this file:"), str(path)])
