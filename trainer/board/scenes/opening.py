"""From a house chosen, or one left in the middle, to the screen on which it is built."""

from __future__ import annotations

from typing import TYPE_CHECKING

from trainer.board.scenes.asking import tell
from trainer.words import _

if TYPE_CHECKING:
    from trainer.board.library import Entry
    from trainer.board.services import Mode, Services
    from trainer.records.attempt import Attempt


def open_work(services: Services, entry: Entry, mode: Mode) -> None:
    """Lay the house out and open it; where it can't be laid out, say why and open nothing."""
    # These load the core's libraries: only once a house is opened.
    from trainer.board.scenes.kept import NOT_KEPT, OneHouse  # noqa: PLC0415
    from trainer.board.scenes.work import Work  # noqa: PLC0415
    from trainer.layout import LayoutRefused  # noqa: PLC0415
    from trainer.level import whole_text  # noqa: PLC0415
    from trainer.session import Session  # noqa: PLC0415

    seed, seat = services.seed(), services.records.seat()
    try:
        if seat is None:
            kept = OneHouse(Session(entry.level, seed, mode), None)
        else:
            going = seat.begin(whole_text(entry.level, entry.path.read_text(encoding="utf-8")), seed, mode)
            kept = OneHouse(going.session, going)
    except LayoutRefused as refused:
        reasons = [f"**{r.place}**: {r.why}" for r in refused.reasons]
        tell(services, _("This house can't be built here"), reasons)
        return
    services.show(Work(services, entry, kept.session, mode, kept))
    if services.records.trouble:
        tell(services, _("Nothing is recorded"), [services.records.trouble, NOT_KEPT])


def open_again(services: Services, attempt: Attempt) -> None:
    """Go on with a house that was left in the middle, one of the seat's ``unfinished``; say why where that can't be."""
    from trainer.board.library import entry_of  # noqa: PLC0415
    from trainer.board.scenes.kept import OneHouse  # noqa: PLC0415
    from trainer.board.scenes.work import Work  # noqa: PLC0415
    from trainer.layout import LayoutRefused  # noqa: PLC0415
    from trainer.read import Faulty  # noqa: PLC0415
    from trainer.records.errors import RecordsError  # noqa: PLC0415

    seat = services.records.seat()
    if seat is None:
        return
    try:
        going = seat.resume(attempt)
    except RecordsError as error:
        tell(services, _("This can't be gone on with"), [str(error)])
        return
    except (Faulty, LayoutRefused, ValueError):
        why = _("This trainer no longer understands it. It stays recorded.")
        tell(services, _("This can't be gone on with"), [why])
        return
    kept = OneHouse(going.session, going)
    entry = entry_of(going.session.level)
    if going.session.site.handed_over:
        kept.handed_over(services, entry, going.session)
        return
    services.show(Work(services, entry, going.session, attempt.mode, kept))
