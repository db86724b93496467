"""From a house chosen, or one left in the middle, to the screen on which it is built."""

from __future__ import annotations

import contextlib
from functools import partial
from typing import TYPE_CHECKING

from trainer.board.scenes.asking import tell, which
from trainer.board.when import moment
from trainer.words import _

if TYPE_CHECKING:
    from trainer.board.library import Entry
    from trainer.board.services import Services
    from trainer.records.attempt import Attempt
    from trainer.terms import Mode


def open_work(services: Services, entry: Entry, mode: Mode) -> None:
    """Open a house to be built. Where it was begun before and left, ask which of the two is wanted."""
    begun = _begun(services, entry.id)
    if not begun:
        _open_new(services, entry, mode)
        return

    def anew() -> None:
        for attempt in begun:
            _put_away(services, attempt)
        _open_new(services, entry, mode)

    which(
        services, _("Go on, or begin anew?"), _told(entry, begun[0]),
        (
            (_("Go on with it"), partial(open_again, services, begun[0])),
            (_("Begin anew"), anew),
            (_("Not now"), None),
        ),
    )  # fmt: skip


def _begun(services: Services, level: str) -> tuple[Attempt, ...]:
    """What is left in the middle of a house, the latest first; nothing where the records can't be asked."""
    from trainer.records.errors import RecordsError  # noqa: PLC0415

    seat = services.records.seat()
    try:
        left = seat.unfinished() if seat is not None else ()
    except RecordsError:
        return ()
    return tuple(each for each in left if each.houses[-1].level == level and each.houses[-1].acts)


def _told(entry: Entry, attempt: Attempt) -> list[str]:
    """Say what was begun of a house, and that it is not lost either way."""
    text = _("You began **{house}** in practice. It is not handed over yet.")
    if attempt.mode == "assessment":
        text = _("You began **{house}** to be assessed. It is not handed over yet.")
    done = _("You did {n} actions, the last on {when}.")
    return [
        text.format(house=entry.level.title),
        done.format(n=len(attempt.houses[-1].acts), when=moment(attempt.ended)),
        _("If you begin anew, what you built before is closed as it stands. You can still look back at it."),
    ]


def _put_away(services: Services, attempt: Attempt) -> None:
    """Close a house that was left in the middle, as it stands; where that can't be, it stays to be gone on with."""
    from trainer.layout import LayoutRefused  # noqa: PLC0415
    from trainer.read import Faulty  # noqa: PLC0415
    from trainer.records.errors import RecordsError  # noqa: PLC0415

    seat = services.records.seat()
    if seat is not None:
        with contextlib.suppress(RecordsError, Faulty, LayoutRefused, ValueError):
            seat.put_away(attempt)


def _open_new(services: Services, entry: Entry, mode: Mode) -> None:
    """Lay the house out and open it; where it can't be laid out, say why and open nothing."""
    # These load the core's libraries: only once a house is opened.
    from trainer.board.scenes.kept import NOT_KEPT, OneHouse  # noqa: PLC0415
    from trainer.board.scenes.work import Work  # noqa: PLC0415
    from trainer.layout import LayoutRefused  # noqa: PLC0415
    from trainer.records.errors import RecordsError  # noqa: PLC0415
    from trainer.session import Session  # noqa: PLC0415

    seed, seat, trouble = services.seed(), services.records.seat(), ""
    try:
        going = None
        try:
            going = seat.begin(entry.text, seed, mode) if seat is not None else None
        except RecordsError as error:
            trouble = str(error)
        kept = OneHouse(going.session if going else Session(entry.level, seed, mode), going)
    except LayoutRefused as refused:
        reasons = [f"**{r.place}**: {r.why}" for r in refused.reasons]
        tell(services, _("This house can't be built here"), reasons)
        return
    services.show(Work(services, entry, kept.session, mode, kept))
    if trouble := trouble or services.records.trouble:
        tell(services, _("Nothing is recorded"), [trouble, NOT_KEPT])


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
    entry = entry_of(going.session.level, attempt.houses[-1].text)
    if going.session.site.handed_over:
        kept.handed_over(services, entry, going.session)
        return
    services.show(Work(services, entry, going.session, attempt.mode, kept))
