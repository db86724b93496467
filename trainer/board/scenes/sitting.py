"""An assessment pack sat on the board: what waits, house after house and the questions in silence, and the close."""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from trainer.board.library import entry_of
from trainer.board.scenes.asking import ask_which, show_message
from trainer.board.scenes.assignment import Assignment
from trainer.board.scenes.closed import Closed
from trainer.board.scenes.finished import choose_finished
from trainer.board.when import moment
from trainer.board.widgets import Button, Column, Label, LineEntry, Paragraph, Prose, Scroll, Widget, dialog
from trainer.layout import LayoutRefused
from trainer.read import Faulty
from trainer.records.errors import RecordsError
from trainer.records.handing_in import finished, hand_in, hand_in_missing, is_back
from trainer.records.keys import fingerprint, trust_key
from trainer.records.sitting import OpenSitting, TimeUp
from trainer.records.waiting import ASSESSORS, PACKS, begun_elsewhere, strangers, under, waiting_on
from trainer.records.what import WHAT
from trainer.words import _, ngettext

if TYPE_CHECKING:
    from trainer.board.library import HouseEntry
    from trainer.board.services import Services
    from trainer.quiz.question import Asked
    from trainer.quiz.sitting import Given
    from trainer.records.attempt import Attempt
    from trainer.records.handing_in import HandedIn
    from trainer.records.seat import Seat
    from trainer.records.ticket import Eased
    from trainer.records.waiting import Waiting
    from trainer.session import ActionResult, Session
    from trainer.site.actions import AnyAction

SILENT = _("Nothing is said of mistakes before the end. There are no hints, and nothing is taken back.")
AGAIN = _("All that you did is recorded. Open its folder again under Assessments to close it.")
YOUR_CODE = _("Your code name, as it is in your assessor's list")
NO_CODE = _("That is no code name. It has letters, figures, - and _, without spaces. Ask your assessor.")
LEFT = _("The sitting of {code} was begun and is not closed. Open the folder of its class to go on with it.")
NONE_WAITS = _("No assessment waits here. Your assessor puts its pack, and your ticket, into this folder:")


def choose_sitting(services: Services) -> None:
    """Ask which of the packs that wait here is to be sat."""
    seat = services.records.seat()
    if seat is None:
        show_message(
            services, _("No assessment can be sat"), [services.records.trouble or _("There is no folder for records.")]
        )
        return
    _offer(services, seat, seat.folder)


def _offer(services: Services, seat: Seat, folder: Path) -> None:
    """Offer what waits in a folder: the seat's own, or that of a class."""
    try:
        found = waiting_on(seat, folder)
        late, done, left = hand_in_missing(seat, folder), finished(seat), begun_elsewhere(seat, found)
    except RecordsError as error:
        show_message(services, _("No assessment can be sat"), [str(error)])
        return

    def choice() -> Widget:
        buttons: list[Widget] = [
            Button(_named(each), partial(before_sitting, services, seat, each), key=f"sitting/{n}")
            for n, each in enumerate(found)
        ]
        lines = [_late(made, written) for made, written in late]
        lines += [LEFT.format(code=code) for code in left]
        lines += [] if found or left else [NONE_WAITS, str(folder / PACKS)]
        said = [Prose([Paragraph(text) for text in lines], key="sitting/said")] if lines else []
        other = Button(_("Open the folder of a class"), partial(_choose_class, services, seat), key="sitting/class")
        desk = Button(_("Assessor's desk"), partial(_to_desk, services), key="sitting/desk")
        close = Button(_("Close"), services.close, shortcut="Esc", kind="quiet", key="sitting/close")
        old = Button(_("Finished sittings"), partial(choose_finished, services, seat, folder), key="sitting/finished")
        more = [old] if done else []
        parts: list[Widget] = [Scroll(Column([*said, *buttons], gap=8), _("What waits")), *more, other, desk, close]
        return dialog(_("Assessments"), parts)

    services.ask(choice)


def _late(made: Attempt, written: HandedIn) -> str:
    """Say of a result that the folder lacked what came of writing it."""
    if written.trouble:
        return f"{made.code}: {written.trouble}"
    return _("The result of {code} was missing here. It is now in this file: {file}").format(
        code=made.code, file=written.file
    )


def _to_desk(services: Services) -> None:
    services.close()
    services.go_desk()


def _choose_class(services: Services, seat: Seat) -> None:
    """Ask for the folder of a class, such as one on a stick."""
    from trainer.board.scenes.folders import choose_folder

    start = services.ui.memory.get("folders/last", Path.home())
    choose_folder(services, _("The folder of a class"), start, partial(open_class, services, seat))


def open_class(services: Services, seat: Seat, folder: Path) -> None:
    """Open the folder of a class; whoever signed it is asked about where this seat does not know them."""
    services.ui.memory["folders/last"] = folder
    unknown = strangers(seat, folder)
    if not unknown:
        _offer(services, seat, folder)
        return
    lines = [_("What lies in this folder is signed by a key that this seat does not know yet:")]
    lines += [
        _("**{name}**, with the code {code}").format(name=name, code=fingerprint(k)) for k, name in unknown.items()
    ]
    lines.append(_("Go on only if your assessor says that it is theirs. They see the same code on their own machine."))
    yes = partial(_trust, services, seat, folder, unknown)
    ask_which(services, _("Whose key is this?"), lines, ((_("It is theirs"), yes), (_("Not now"), None)), first=1)


def _trust(services: Services, seat: Seat, folder: Path, unknown: dict[str, str]) -> None:
    try:
        for key, name in unknown.items():
            trust_key(key, seat.folder / ASSESSORS, name)
    except (RecordsError, OSError) as error:
        show_message(services, _("No assessment can be sat"), [str(error)])
        return
    _offer(services, seat, folder)


def _named(waiting: Waiting) -> str:
    if waiting.ticket is None:
        text = _("{title}, without a ticket, made {when}")
        return text.format(title=waiting.pack.title, when=moment(waiting.pack.content.made))
    text = _("{title}, for {code}, handed out {when}")
    if waiting.begun:
        text = _("{title}, for {code}: go on, handed out {when}")
    elif is_back(waiting.folder, waiting.code):
        text = _("{title}, for {code}: a result is back, handed out {when}")
    when = moment(waiting.ticket.content.made)
    return text.format(title=waiting.pack.title, code=waiting.code, when=when)


def before_sitting(
    services: Services, seat: Seat, waiting: Waiting, put_off: Callable[[], None] | None = None
) -> None:  # fmt: skip
    """Say what is asked and what is recorded, before anything begins; without a ticket, ask for the code name.

    ``put_off`` is called where it is not begun now.
    """
    services.ask(_Before(services, seat, waiting, put_off).dialog)


class _Before:
    """What is asked before a sitting. ``code`` is what is typed of the code name, where no ticket has it."""

    def __init__(
        self, services: Services, seat: Seat, waiting: Waiting, put_off: Callable[[], None] | None
    ) -> None:  # fmt: skip
        self.services = services
        self.seat = seat
        self.waiting = waiting
        self.put_off = put_off
        self.code = waiting.code
        self.unclear = ""

    def write(self, code: str) -> None:
        """Take a letter more or less of the code name; what that code began of the pack goes on."""
        self.code, self.unclear = code, ""
        with contextlib.suppress(ValueError, RecordsError):  # said by ``go``, once it is typed
            self.waiting = under(self.seat, self.waiting, code)

    def go(self) -> None:
        """Begin, or say what is wrong with the code name."""
        try:
            if self.waiting.ticket is None:
                self.waiting = under(self.seat, self.waiting, self.code)
        except (ValueError, RecordsError) as error:
            self.unclear = str(error) if isinstance(error, RecordsError) else NO_CODE
            self.services.ui.refresh()
            return
        self.services.close()
        begin_sitting(self.services, self.seat, self.waiting)

    def leave(self) -> None:
        """Begin nothing now."""
        self.services.close()
        if self.put_off is not None:
            self.put_off()

    def lines(self) -> list[str]:
        """What is said: what is asked, how long it may take, who vouches for it, what is recorded."""
        waiting, pack = self.waiting, self.waiting.pack
        houses, asked = len(pack.houses), pack.paper.questions if pack.paper else 0
        parts = [ngettext("{n} house", "{n} houses", houses).format(n=houses)] if houses else []
        parts += [ngettext("{n} question", "{n} questions", asked).format(n=asked)] if asked else []
        minutes, extra = pack.content.minutes, waiting.ticket.content.extra_minutes if waiting.ticket else 0
        minutes = None if minutes is None else minutes + extra
        time = _("There is no limit of time.")
        if minutes is not None:
            time = ngettext("It may take {n} minute.", "It may take {n} minutes.", minutes).format(n=minutes)
        gap = _("You began before. It goes on where it stopped, and the gap is recorded.") if waiting.begun else ""
        alone = "" if waiting.ticket else _("You have no ticket: nobody vouches that you were watched.")
        eased = waiting.ticket.content.eased if waiting.ticket else None
        granted = _("For you the board is set so: {what}.").format(what=", ".join(eased.words())) if eased else ""
        return [f"{', '.join(parts)}. {time}", *filter(None, (gap, alone, granted)), SILENT, *WHAT]

    def dialog(self) -> Widget:
        """Return the question."""
        name = _named(self.waiting)
        parts: list[Widget] = [
            Scroll(Prose([Paragraph(line) for line in self.lines()], key="sitting/said"), self.waiting.pack.title),
        ]
        if self.waiting.ticket is None:
            parts.append(LineEntry(YOUR_CODE, self.code, self.write, key="sitting/code", enter=self.go))
        if self.unclear:
            parts.append(Label(self.unclear, "body", key="sitting/unclear"))
        begin = _("Go on") if self.waiting.begun else _("Begin")
        parts.append(
            Column(
                [
                    Button(begin, self.go, kind="primary", key="sitting/begin"),
                    Button(_("Not now"), self.leave, shortcut="Esc", key="sitting/not now"),
                ],
                gap=8, key="sitting/ways",
            )
        )  # fmt: skip
        return dialog(name, parts, first="sitting/begin" if self.waiting.ticket else "sitting/code")


def begin_sitting(services: Services, seat: Seat, waiting: Waiting) -> None:
    """Begin to sit, or go on where it stopped."""
    from trainer.board.quiz_start import bank

    asked = bank() if waiting.pack.paper is not None else ()
    try:
        if waiting.begun is not None:
            sitting = OpenSitting.resume(seat.store, waiting.pack, waiting.begun, seat.key, seat.clock, asked)
        else:
            args = (seat.store, waiting.pack, waiting.code, waiting.ticket, seat.new_id(), seat.key, seat.clock, asked)
            sitting = OpenSitting.begin(*args)
    except RecordsError as error:
        show_message(services, _("The sitting was not begun"), [str(error)])
        return
    except (Faulty, LayoutRefused, ValueError):
        why = _("This trainer does not understand it. Have the same trainer on every seat.")
        show_message(services, _("The sitting was not begun"), [why])
        return
    if waiting.ticket is not None and waiting.ticket.content.eased is not None:
        _ease(services, waiting.ticket.content.eased)
    InSitting(services, seat, sitting, waiting.folder).go_on()


def _ease(services: Services, eased: Eased) -> None:
    """Set the board as one candidate's ticket says, until they leave it."""
    values: dict[str, object] = {"scale": eased.text_size / 100} if eased.text_size else {}
    values |= {"theme": "contrast"} if eased.high_contrast else {}
    values |= {"still": True} if eased.still else {}
    services.comfort.lend(**values)


class InSitting(Assignment):
    """Keeps the house, or the questions, of a sitting, and goes from part to part."""

    def __init__(self, services: Services, seat: Seat, sitting: OpenSitting, folder: Path) -> None:
        self.services = services
        self.seat = seat
        self.sitting = sitting
        self.folder = folder
        self._closed = False

    def status(self) -> str:
        """Where in the sitting this is, and how much time is left."""
        place, houses = self.sitting.place
        parts = [_("house {n} of {all}").format(n=place, all=houses)] if self.sitting.session is not None else []
        left = self.sitting.left()
        if left is not None:
            minutes = -(-left // 60_000)
            parts.append(ngettext("{n} min left", "{n} min left", minutes).format(n=minutes))
        return ", ".join(parts)

    def beat(self) -> None:
        """Record that the program is still there: a stop counts from then on."""
        with contextlib.suppress(RecordsError):  # said at the next action, which can't be recorded either
            self.sitting.beat()

    def before_leaving(self) -> str:
        """How to come back to it."""
        return _("The sitting is not closed. It is kept: open its folder again under Assessments to go on.")

    def do(self, actions: Sequence[AnyAction]) -> tuple[ActionResult, ...]:
        """Do what one hand does in one go; after the time the sitting is closed instead."""
        try:
            return self.sitting.do_in_one_go(actions)
        except TimeUp:
            self.close()
            raise

    def handed_over(self, services: Services, entry: HouseEntry, session: Session) -> None:
        """Go on to the next house, the questions, or the close."""
        try:
            self.sitting.next()
        except RecordsError as error:
            show_message(services, _("The next part can't be begun"), [str(error)])
            return
        self.go_on()

    def go_on(self) -> None:
        """Show what comes next."""
        from trainer.board.scenes.work import Work

        session = self.sitting.session
        if session is not None and session.site.handed_over:
            self.handed_over(self.services, entry_of(session.level), session)
        elif session is not None:
            self.services.show(Work(self.services, entry_of(session.level), session, "assessment", self))
        elif self.sitting.asked is not None:
            self._ask()
        else:
            self.close()

    def _ask(self) -> None:
        from trainer.board.quizzing import Quizzing
        from trainer.board.scenes.quiz import Quiz
        from trainer.records.asking import subjects_of

        if self.sitting.paper is not None:
            subjects = subjects_of(self.sitting.pack)
            questions = tuple(self.sitting.questions.values())
            quiz = Quizzing(
                questions, subjects, self.sitting.paper, self._keep, self.close, self.beat, self.status,
                closes_sitting=True,
            )  # fmt: skip
            self.services.show(Quiz(self.services, quiz))

    def _keep(self, asked: Asked, given: Given, took: int) -> None:
        try:
            self.sitting.keep(asked, given, took)
        except TimeUp:
            self.close()
            raise

    def close(self) -> None:
        """Close the sitting, sign it, write its file, and show the code to be written down."""
        if self._closed:
            return
        try:
            made = self.sitting.finish(self.seat.key)
        except RecordsError as error:
            self.services.go_home()
            show_message(self.services, _("The sitting is not closed yet"), [str(error), AGAIN])
            return
        self._closed = True
        write = partial(hand_in, self.seat, self.folder, made)
        self.services.show(Closed(self.services, made, write, self.sitting.pack.content.withhold or False))
