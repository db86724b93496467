"""A drawn house on paper: its sheets, and its card model to cut out and build."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from trainer.board.open_file import offer_files
from trainer.board.scenes.asking import show_message
from trainer.board.services import Services
from trainer.board.type_files import regular, semibold
from trainer.board.widgets import Label, dialog
from trainer.words import INVENTED, _

if TYPE_CHECKING:
    from trainer.level import Level

SHEETS = "sheets"
"""Folder of the data folder for what is to be printed."""
PAPER = "A4"
"""What most printers have."""


def print_sheets(services: Services, level: Level) -> Iterator[None]:
    """Write the sheets and the card model of a house to files that can be printed, and say where.

    It takes a second or more, so it goes in steps, a frame each: that it is being done is to be seen first.
    """
    from trainer.records.errors import RecordsError
    from trainer.records.files import write_whole
    from trainer.report.cutout_pdf import NoRoomError, cutout_pdf
    from trainer.report.sheet_pdf import sheet_pdf
    from trainer.report.write import on_white

    folder = services.records.folder
    if folder is None:
        show_message(services, _("Not written"), [_("There is no folder for what you save here.")])
        return
    services.ask(lambda: dialog(_("On paper"), [Label(_("Making the sheets …"), role="status")]))
    yield
    white, type_ = on_white(services.look.light), (Path(regular()), Path(semibold()))
    sheets, card = (folder / SHEETS / f"{level.id}{what}.pdf" for what in ("", "-card-model"))
    lines = [_("Open them and print them:")]
    files = [(_("Open the sheets, to print them"), sheets)]
    try:
        write_whole(sheets, sheet_pdf(level, PAPER, white, *type_))
        lines.append(_("The job on sheets, layout drawing first: {path}").format(path=sheets))
        made, at = cutout_pdf(level, None, PAPER, white, *type_)
        write_whole(card, made)
        files.append((_("Open the card model, to print it"), card))
        lines.append(_("The card model to cut out, at 1 to {scale}: {path}").format(scale=at, path=card))
    except NoRoomError as large:
        lines.append(str(large))
    except RecordsError as error:
        show_message(services, _("Not written"), [str(error)])
        return
    services.close()
    offer_files(services, _("On paper"), [*lines, INVENTED], files)
