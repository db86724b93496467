"""From a house chosen, or one left in the middle, to the screen on which it is built."""

from __future__ import annotations

import contextlib
from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from trainer.board.scenes.asking import ask_which, show_message
from trainer.board.scenes.assignment import NOT_KEPT, OneHouse
from trainer.board.when import moment
from trainer.words import _, ngettext

if TYPE_CHECKING:
    from trainer.board.library import HouseEntry
    from trainer.board.services import Services
    from trainer.records.attempt import Attempt
    from trainer.records.seat import OpenAttempt
    from trainer.session import Session
    from trainer.terms import Mode

    Assign = Callable[[Session, OpenAttempt | None], OneHouse]
    """Makes the assignment that a house is opened with."""


def open_work(services: Services, entry: HouseEntry, mode: Mode) -> None:
    """Open a house to be built. Where it was begun before and left, ask which of the two is wanted."""
    if (mode == "practice" or services.path.in_sitting(entry)) and kept(services, entry):
        return
    begun = _begun(services, entry.id)
    if not begun:
        open_new(services, entry, mode)
        return

    def anew() -> None:
        for attempt in begun:
            _put_away(services, attempt)
        open_new(services, entry, mode)

    ask_which(
        services, _("Go on, or begin anew?"), _begun_in_words(entry, begun[0]),
        (
            (_("Go on with it"), partial(open_again, services, begun[0])),
            (_("Begin anew"), anew),
            (_("Not now"), None),
        ),
    )  # fmt: skip


def kept(services: Services, entry: HouseEntry) -> bool:
    """Return whether a house is closed to practice, and say so: it is kept for assessment, or in a sitting just now."""
    if services.path.in_sitting(entry):
        lines = [
            _("A sitting that is not closed yet has this house in it."),
            _("Finish the sitting first, under Assessments. Till then there is no practice on it, and no hints, film, "
              "questions or drills."),
        ]  # fmt: skip
        show_message(services, _("This house is in a sitting"), lines)
    elif entry.level.lesson.unseen:
        _say_kept(services)
    return services.path.closed(entry)


def _say_kept(services: Services) -> None:
    """Say that a house is kept for assessment, and what can be done instead."""
    lines = [
        _("It is new to whoever sits it: so nobody practises on it, and there are no questions, drills or film of it."),
        _("You can be assessed on it. To practise, choose another house."),
    ]
    show_message(services, _("This house is kept for assessment"), lines)


def _begun(services: Services, level: str) -> tuple[Attempt, ...]:
    """What is left in the middle of a house, the latest first; nothing where the records can't be asked."""
    from trainer.records.errors import RecordsError

    seat = services.records.seat()
    try:
        left = seat.unfinished() if seat is not None else ()
    except RecordsError:
        return ()
    return tuple(each for each in left if each.houses[-1].level == level and each.houses[-1].acts)


def _begun_in_words(entry: HouseEntry, attempt: Attempt) -> list[str]:
    """Say what was begun of a house, and that it is not lost either way."""
    text = _("You began **{house}** in practice. It is not handed over yet.")
    if attempt.mode == "assessment":
        text = _("You began **{house}** to be assessed. It is not handed over yet.")
    acts = len(attempt.houses[-1].acts)
    done = ngettext("You did {n} action, on {when}.", "You did {n} actions, the last on {when}.", acts)
    return [
        text.format(house=entry.level.title),
        done.format(n=acts, when=moment(attempt.ended)),
        _("If you begin anew, what you built before is closed as it stands. You can still look back at it."),
    ]


def _put_away(services: Services, attempt: Attempt) -> None:
    """Close a house that was left in the middle, as it stands; where that can't be, it stays to be gone on with."""
    from trainer.layout import LayoutRefused
    from trainer.read import Faulty
    from trainer.records.errors import RecordsError

    seat = services.records.seat()
    if seat is not None:
        with contextlib.suppress(RecordsError, Faulty, LayoutRefused, ValueError):
            seat.put_away(attempt)


def open_new(services: Services, entry: HouseEntry, mode: Mode, assign: Assign = OneHouse) -> None:
    """Lay the house out and open it; where it can't be laid out, say why and open nothing."""
    # These load the core's libraries: only once a house is opened.
    from trainer.board.scenes.work import Work
    from trainer.layout import LayoutRefused
    from trainer.records.errors import RecordsError
    from trainer.session import Session

    seed, seat, trouble = services.seed(), services.records.seat(), ""
    try:
        recording = None
        try:
            recording = seat.begin(entry.text, seed, mode) if seat is not None else None
        except RecordsError as error:
            trouble = str(error)
        assignment = assign(recording.session if recording else Session(entry.level, seed, mode), recording)
    except LayoutRefused as refused:
        reasons = [f"**{r.place}**: {r.why}" for r in refused.reasons]
        show_message(services, _("This house can't be built here"), reasons)
        return
    services.show(Work(services, entry, assignment.session, mode, assignment))
    if trouble := trouble or services.records.trouble:
        show_message(services, _("Nothing is recorded"), [trouble, NOT_KEPT])


def open_again(services: Services, attempt: Attempt, assign: Assign = OneHouse) -> None:
    """Go on with a house that was left in the middle, one of the seat's ``unfinished``; say why where that can't be."""
    from trainer.board.library import entry_of
    from trainer.board.scenes.work import Work
    from trainer.layout import LayoutRefused
    from trainer.read import Faulty
    from trainer.records.errors import RecordsError

    seat = services.records.seat()
    if seat is None:
        return
    try:
        recording = seat.resume(attempt)
    except RecordsError as error:
        show_message(services, _("This can't be gone on with"), [str(error)])
        return
    except (Faulty, LayoutRefused, ValueError):
        why = _("This trainer no longer understands it. It stays recorded.")
        show_message(services, _("This can't be gone on with"), [why])
        return
    assignment = assign(recording.session, recording)
    entry = entry_of(recording.session.level, attempt.houses[-1].text)
    if recording.session.site.handed_over:
        assignment.handed_over(services, entry, recording.session)
        return
    services.show(Work(services, entry, recording.session, attempt.mode, assignment))
