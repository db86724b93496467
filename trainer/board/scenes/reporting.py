"""Reports written from the board: of the attempt that is shown, and of everybody on this machine."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from trainer.board.open_file import offer_files
from trainer.board.scenes.asking import show_message
from trainer.board.type_files import regular, semibold
from trainer.records.errors import RecordsError
from trainer.records.files import not_written, write_whole
from trainer.records.proof import prove
from trainer.records.regrade import later_marks
from trainer.records.remarks import seen_together
from trainer.records.stick import missing_results
from trainer.records.store import Store
from trainer.records.trust import rank_by
from trainer.records.waiting import assessors_in
from trainer.report.write import Fonts, Format, attempt_report, class_report, content_of
from trainer.shipped import level_paths
from trainer.shipped.course import course
from trainer.words import _

if TYPE_CHECKING:
    from trainer.board.services import Services
    from trainer.records.attempt import Attempt
    from trainer.records.seat import Seat

FORMS: tuple[Format, ...] = (".html", ".pdf")
LOOK, PRINT = _("Open the page"), _("Open the PDF, to print it")
EVERYBODY = _("All that was taken in on this machine, from every folder")
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
        proved, among = prove(made), _among(seat, made)
        forms = [
            (form, attempt_report(form, proved, later, trusted, services.look.light, _type(), among, course()))
            for form in FORMS
        ]
        _written(services, seat, f"{made.code}-{made.id[:8]}", forms)
    except (RecordsError, LookupError) as error:
        show_message(services, _("There is no report"), [str(error)])


def report_class(services: Services, folder: Path | None = None) -> None:
    """Write the report of all code names on this machine as a page, and say where it is.

    Who has a ticket in ``folder``, that of a class, and no result here is named in it. A report that was written before
    stays.
    """
    seat = services.records.seat()
    if seat is None:
        show_message(services, _("There is no report"), [services.records.trouble or _("Nothing is recorded here.")])
        return
    try:
        sound = [prove(made) for id_ in seat.store.ids() for made in seat.store.attempts(id_) if made.fault is None]
        troubles: list[str] = []
        missing = missing_results(folder, sound, troubles) if folder else ()
        facts = content_of(sound, assessors_in(seat.folder), level_paths(), course(), missing, seat.clock())
        unread = [(_("Could not be read"), " ".join(troubles))] if troubles else []
        facts = replace(facts, facts=((_("Taken from"), EVERYBODY), *unread, *facts.facts))
        forms = [(form, class_report(form, facts, services.look.light, _type())) for form in FORMS]
        _written(services, seat, f"class-{services.stamp()}", forms, EVERYBODY)
    except RecordsError as error:
        show_message(services, _("There is no report"), [str(error)])


def _among(seat: Seat, made: Attempt) -> str:
    """What only shows beside the other assessments on this machine."""
    others = (each.id for each in seat.store.outlines() if each.mode == made.mode == "assessment")
    every = [each for id_ in {*others, made.id} for each in seat.store.attempts(id_)]
    return seen_together(every, seat.clock(), rank_by(assessors_in(seat.folder))).get(made.id, "")


def _type() -> Fonts:
    return Path(regular()), Path(semibold())


def _with_code(store: Store, code: str) -> Attempt:
    for outline in store.outlines():
        if outline.head_code == code:
            made = next(each for each in store.attempts(outline.id) if each.head_code == code)
            if made.silent:
                raise LookupError(
                    _("This assessment is not closed yet. What was found in it is shown after the close.")
                )
            return made
    raise LookupError(_("This attempt is not in the records."))


def _written(
    services: Services, seat: Seat, name: str, forms: Sequence[tuple[Format, bytes]], source: str = ""
) -> None:
    paths = [seat.folder / REPORTS / f"{name}{form}" for form, _content in forms]
    try:
        (seat.folder / REPORTS).mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise not_written(seat.folder / REPORTS, error) from error
    for path, (_form, content) in zip(paths, forms, strict=True):
        write_whole(path, content)
    lines = [_("It is here twice: a page for any browser, without a network, and a PDF to print."), *map(str, paths)]
    lines[:0] = [f"{source}."] if source else []
    offer_files(services, _("The report is written"), lines, tuple(zip((LOOK, PRINT), paths, strict=True)))
