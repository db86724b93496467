"""``trainer sit``: a candidate sits an assessment pack at the terminal."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from trainer.cli.data import (
    Assessors,
    CodeName,
    DataFolder,
    folder_of,
    given_pack,
    records_explained,
    right_code,
    seat_key,
    stored,
    trusted_keys,
)
from trainer.cli.given import faults_explained, faulty, file_bytes, say, show, wrong_call
from trainer.cli.options import argument, option, out_option
from trainer.cli.questions import the_bank
from trainer.cli.quiz import house_text, question_text
from trainer.records.clock import now
from trainer.words import _, ngettext

if TYPE_CHECKING:
    from trainer.records.attempt import Attempt
    from trainer.records.keys import PrivateKey
    from trainer.records.pack import AssessmentPack, Ticket
    from trainer.records.sitting import OpenSitting
    from trainer.records.store import Store
    from trainer.site import AnyAction

PackFile = Annotated[Path, argument("PACK", "The assessment pack; or the folder of a class, with your ticket in it.")]
TicketFile = Annotated[Path | None, option("--ticket", "FILE", "The ticket your assessor gave you.")]
ResultFolder = Annotated[Path | None, out_option("DIR", "Write the result file into this folder too.")]
RESULTS = "results"
HEADS = ("schema:", "level:", "seed:", "hints:", "actions:", "#")
"""Beginnings of lines of a diary that are no actions: a diary can be sent through as it is."""


def sit(
    pack: PackFile,
    code: CodeName,
    ticket: TicketFile = None,
    output: ResultFolder = None,
    data: DataFolder = None,
    assessor: Assessors = None,
) -> None:
    """Sit an assessment pack by a script.

    It is for scripts and tests: people sit it on the board.

    Type one action a line, as a diary has them, such as {do: stand, tag: TG1, from: [1800, 0], to: [1800, 7800]}.
    {do: hand_over} ends a house. Questions come after the houses, an answer a line. Nothing is said of mistakes. Each
    line is on the disk before the next is asked for. Stopped in the middle, the same command goes on. At the end it
    shows a code: your assessor writes it down.
    """
    right_code(code)
    given, leave = (given_pack(pack), _ticket(ticket)) if not pack.is_dir() else _of_class(pack, code)
    if pack.is_dir():
        output = output or pack / RESULTS
    _known(given, trusted_keys(data, assessor), data)
    with stored(data, write=True) as store, records_explained():
        seat = seat_key(data)
        sitting = _begun(store, given, code, leave, seat)
        say(f"{given.title}. {_STORED}")
        if not sys.stdin.isatty() and (sitting.session or sitting.asked):
            sitting.from_file()
            say(_FROM_FILE)
        _work(sitting, given)
        if (sitting.session is not None or sitting.asked is not None) and sitting.left() != 0:
            place, houses = sitting.place
            where = (
                _("in the questions")
                if sitting.session is None
                else _("in house {place} of {houses}").format(place=place, houses=houses)
            )
            say(_("Stopped {where}. All that you did is recorded. The same command goes on.").format(where=where))
            return
        done = sitting.finish(seat)
        _hand_out(done, output)


_FROM_FILE = _("What comes from a file or a program is recorded as that. A ticket then does not make it supervised.")
_STORED = _("Recorded here: your code name, what you do and when. No name, and nothing else.")


def _known(pack: AssessmentPack, trusted: dict[str, str], data: Path | None) -> None:
    from trainer.records.keys import fingerprint
    from trainer.records.waiting import ASSESSORS

    if pack.signed.key in trusted:
        say(_("The pack is signed by {who}.").format(who=trusted[pack.signed.key]))
    elif trusted:
        faulty(_("The pack is not signed by an assessor that this seat knows. Nothing was begun."))
    else:
        say(
            _(
                "This seat knows no assessor. The pack is signed by the key {fingerprint}. Ask whether that is the "
                "code of your assessor's key. If it is, have the seat know it: give the file that ends in .pub.pem "
                "with --assessor, or copy it into {folder}. If it is not, stop here, with Ctrl C."
            ).format(fingerprint=fingerprint(pack.signed.key), folder=folder_of(data) / ASSESSORS)
        )


def _ticket(path: Path | None) -> Ticket | None:
    from trainer.records.pack import read_ticket

    with faults_explained():
        return None if path is None else read_ticket(file_bytes(path), str(path))


def _of_class(folder: Path, code: str) -> tuple[AssessmentPack, Ticket]:
    """The pack and the ticket of a code name, out of the folder of a class."""
    from trainer.records.waiting import handed_out

    packs, tickets = handed_out(folder)
    mine = next((each for each in tickets if each.content.code == code and each.content.pack in packs), None)
    if mine is None:
        wrong_call(_("{folder}: there is no ticket for {code} in it.").format(folder=folder, code=code))
    return packs[mine.content.pack], mine


def _begun(store: Store, pack: AssessmentPack, code: str, leave: Ticket | None, seat: PrivateKey) -> OpenSitting:
    from trainer.records.seat import new_id
    from trainer.records.sitting import OpenSitting, sittings_of

    begun = sittings_of(store, pack, code)
    bank = the_bank() if pack.paper is not None else ()
    if begun:
        say(_("You began before. It goes on where it stopped; the gap is recorded."))
        return OpenSitting.resume(store, pack, begun[0], seat, now, bank)
    return OpenSitting.begin(store, pack, code, leave, new_id(), seat, now, bank)


def _work(sitting: OpenSitting, pack: AssessmentPack) -> None:
    """Take lines until all is handed over and answered, the time is up, or no more come."""
    from trainer.records.sitting import TimeUp

    _announce(sitting)
    shown = now()
    for line in _lines() if sitting.session or sitting.asked else ():
        try:
            if sitting.session is not None:
                _build(sitting, line)
            elif line.casefold() == "plan":
                _say_house(sitting, pack)
            elif unclear := sitting.answer(line, now() - shown):
                say(unclear)
            else:
                _announce(sitting)
        except TimeUp as up:
            say(str(up))
            return
        shown = now()
        if sitting.session is None and sitting.asked is None:
            return


def _build(sitting: OpenSitting, line: str) -> None:
    action = _action(line)
    if action is None:
        return
    outcome = sitting.do(action)
    if outcome.refused:
        say(_("Nobody could do that: {why}").format(why=outcome.refused.why))
    if sitting.session is not None and sitting.session.site.handed_over:
        sitting.next()
        _announce(sitting)


def _announce(sitting: OpenSitting) -> None:
    if sitting.session is None:
        _ask(sitting)
        return
    place, houses = sitting.place
    left = sitting.left()
    minutes = 0 if left is None else -(-left // 60_000)
    time = "" if left is None else ngettext(" {n} minute left.", " {n} minutes left.", minutes).format(n=minutes)
    level = sitting.session.level
    say(
        _("House {place} of {houses}: {title}. {brief}{time}").format(
            place=place, houses=houses, title=level.title, brief=level.brief, time=time
        )
    )


def _ask(sitting: OpenSitting) -> None:
    asked = sitting.asked
    if asked is not None and sitting.paper is not None:
        number = len(sitting.paper.given) + 1
        house = _("About house {level}; 'plan' reads it. ").format(level=asked.level) if asked.level else ""
        say(
            "\n"
            + _("Question {n} of {all}. {house}").format(n=number, all=len(sitting.questions), house=house)
            + question_text(asked)
        )


def _say_house(sitting: OpenSitting, pack: AssessmentPack) -> None:
    from trainer.records.asking import subjects_of

    subject = subjects_of(pack).get(sitting.asked.level) if sitting.asked else None
    say(house_text(subject) if subject else _("This question is about no house."))


def _lines() -> Iterator[str]:
    """Lines as they come; at a terminal each is asked for."""
    asked = sys.stdin.isatty()
    while True:
        if asked:
            say("> ", nl=False)
        line = sys.stdin.readline()
        if not line:
            return
        text = line.strip().removeprefix("- ").strip()
        if text and not text.startswith(HEADS):
            yield text


def _action(line: str) -> AnyAction | None:
    from trainer.read import Faulty
    from trainer.site import parse_diary

    text = line if line.startswith("{") else f"{{{line}}}"
    try:
        return parse_diary(f"{{schema: 1, level: typed, actions: [{text}]}}", "line").actions[0]
    except Faulty as error:
        for fault in error.faults:
            say(
                _("Not understood: {where}: {what}").format(
                    where=fault.path.removeprefix("actions[0]."), what=fault.what
                )
            )
        return None


def _hand_out(done: Attempt, output: Path | None) -> None:
    from trainer.records.errors import NotWritten
    from trainer.records.files import write_whole
    from trainer.records.record_file import file_name, write_record

    if output is not None:
        path = output / file_name(done)
        try:
            write_whole(path, write_record(done))
        except NotWritten as error:
            wrong_call(_("{error} Your work is recorded on this seat.").format(error=error))
        say(_("Wrote {path}.").format(path=path))
    say(_("Closed. Have your assessor write down this code:"))
    show(done.head_code)
