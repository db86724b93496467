"""Reports written from the board: of the attempt that is shown, and of everybody on this machine."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from trainer.board.scenes.asking import show_message
from trainer.board.type_files import regular, semibold
from trainer.records.errors import RecordsError
from trainer.records.files import not_written, write_whole
from trainer.records.proof import prove
from trainer.records.regrade import later_marks
from trainer.records.store import Store
from trainer.records.waiting import assessors_in
from trainer.report.write import Fonts, attempt_report, class_report, content_of
from trainer.shipped import level_paths
from trainer.words import _

if TYPE_CHECKING:
    from trainer.board.services import Services
    from trainer.records.attempt import Attempt
    from trainer.records.seat import Seat

REPORTS = "reports"
"""Folder of the data folder for reports."""


def report_attempt(services: Services, code: str) -> None:
    """Write the report of the attempt with this head code as a page, and say where it is."""
    seat = services.records.seat()
    if seat is None:
        show_message(services, _("There is no report"), [services.records.trouble or _("Nothing is recorded here.")])
        return
    try:
        made = _with_code(seat.store, code)
        trusted, later = assessors_in(seat.folder), later_marks(seat.store, made)
        page = attempt_report(".html", prove(made), later, trusted, services.look.light, _type())
        _written(services, seat, f"{made.code}-{made.id[:8]}.html", page)
    except (RecordsError, LookupError) as error:
        show_message(services, _("There is no report"), [str(error)])


def report_class(services: Services) -> None:
    """Write the report of all code names on this machine as a page, and say where it is."""
    seat = services.records.seat()
    if seat is None:
        show_message(services, _("There is no report"), [services.records.trouble or _("Nothing is recorded here.")])
        return
    try:
        sound = [prove(made) for id_ in seat.store.ids() for made in seat.store.attempts(id_) if made.fault is None]
        facts = content_of(sound, assessors_in(seat.folder), level_paths())
        page = class_report(".html", facts, services.look.light, _type())
        _written(services, seat, "class.html", page)
    except RecordsError as error:
        show_message(services, _("There is no report"), [str(error)])


def _type() -> Fonts:
    return Path(regular()), Path(semibold())


def _with_code(store: Store, code: str) -> Attempt:
    for outline in store.outlines():
        if outline.head_code == code:
            return next(made for made in store.attempts(outline.id) if made.head_code == code)
    raise LookupError(_("This attempt is not in the records."))


def _written(services: Services, seat: Seat, name: str, page: bytes) -> None:
    path = seat.folder / REPORTS / name
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise not_written(path, error) from error
    write_whole(path, page)
    show_message(services, _("The report is written"), [_("It opens in any browser, without a network:"), str(path)])
