"""From a house chosen, or one left in the middle, to the screen on which it is built."""

from __future__ import annotations

import contextlib
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


def put_away(services: Services, attempt: Attempt) -> None:
    """Close a house that was left in the middle, as it stands; where that can't be, it stays to be gone on with."""
    from trainer.layout import LayoutRefused  # noqa: PLC0415
    from trainer.read import Faulty  # noqa: PLC0415
    from trainer.records.errors import RecordsError  # noqa: PLC0415

    seat = services.records.seat()
    if seat is not None:
        with contextlib.suppress(RecordsError, Faulty, LayoutRefused, ValueError):
            seat.put_away(attempt)


def open_result(services: Services, id_: str) -> None:
    """Show again what came of an attempt that was handed over; say why where that can't be."""
    from trainer.board.library import entry_of  # noqa: PLC0415
    from trainer.layout import LayoutRefused  # noqa: PLC0415
    from trainer.read import Faulty  # noqa: PLC0415
    from trainer.records.errors import RecordsError  # noqa: PLC0415
    from trainer.records.judging import session_of  # noqa: PLC0415

    seat = services.records.seat()
    if seat is None:
        return
    try:
        attempt = next(iter(seat.store.attempts(id_)))
        session = session_of(attempt.houses[-1], attempt.mode)
    except (RecordsError, StopIteration) as error:
        tell(services, _("This can't be looked back at"), [str(error) or _("It is not in the records any more.")])
        return
    except (Faulty, LayoutRefused, ValueError):
        tell(services, _("This can't be looked back at"), [_("This trainer no longer understands it.")])
        return
    services.go_result(entry_of(session.level), session, attempt.head_code)
