"""``trainer sit``: a candidate sits an assessment pack at the terminal."""

from __future__ import annotations

import sys
import uuid
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trainer.cli.data import (
    Assessors,
    CodeName,
    DataFolder,
    given_pack,
    now,
    records_told,
    right_code,
    seat_key,
    stored,
    trusted_keys,
)
from trainer.cli.given import faulty, file_bytes, say, wrong_call

if TYPE_CHECKING:
    from trainer.records.attempt import Attempt
    from trainer.records.pack import Pack
    from trainer.records.sitting import Sitting
    from trainer.records.store import Store
    from trainer.site import AnyAction

PackFile = Annotated[Path, typer.Argument(metavar="PACK", help="The assessment pack.")]
TicketFile = Annotated[Path | None, typer.Option("--ticket", metavar="FILE", help="The ticket your assessor gave you.")]
ResultFolder = Annotated[
    Path | None, typer.Option("-o", "--output", metavar="DIR", help="Write the result file into this folder too.")
]
HEADS = ("schema:", "level:", "seed:", "actions:", "#")
"""Beginnings of lines of a diary that are no actions: a diary can be sent through as it is."""


def sit(
    pack: PackFile,
    code: CodeName,
    ticket: TicketFile = None,
    output: ResultFolder = None,
    data: DataFolder = None,
    assessor: Assessors = None,
) -> None:
    """Sit an assessment pack.

    Type one action a line, as a diary has them, such as {do: stand, tag: TG1, from: [1800, 0], to: [1800, 7800]}.
    {do: hand_over} ends a house. Nothing is said of mistakes. Each action is on the disk before the next is asked
    for. Stopped in the middle, the same command goes on. At the end it shows a code: your assessor writes it down.
    """
    right_code(code)
    given = given_pack(pack)
    _known(given, trusted_keys(data, assessor))
    with stored(data, write=True) as store, records_told():
        seat = seat_key(data)
        sitting = _begun(store, given, code, ticket, data)
        say(f"{given.title}. {_STORED}")
        _work(sitting)
        if sitting.session is not None and sitting.left() != 0:
            place, houses = sitting.place
            say(f"Stopped in house {place} of {houses}. All that you did is recorded. The same command goes on.")
            return
        done = sitting.finish(seat)
        _hand_out(done, output)


_STORED = "Recorded here: your code name, what you do and when. No name, and nothing else."


def _known(pack: Pack, trusted: dict[str, str]) -> None:
    from trainer.records.keys import fingerprint  # noqa: PLC0415

    if pack.signed.key in trusted:
        say(f"The pack is signed by {trusted[pack.signed.key]}.")
    elif trusted:
        faulty("The pack is not signed by an assessor that this seat knows. Nothing was begun.")
    else:
        say(f"This seat knows no assessor. The pack is signed by the key {fingerprint(pack.signed.key)}.")


def _begun(store: Store, pack: Pack, code: str, ticket: Path | None, data: Path | None) -> Sitting:
    from trainer.records.pack import read_ticket  # noqa: PLC0415
    from trainer.records.sitting import Sitting, sittings_of  # noqa: PLC0415

    begun = sittings_of(store, pack, code)
    if begun:
        say("You began before. It goes on where it stopped; the gap is recorded.")
        return Sitting.resume(store, pack, begun[0], now)
    leave = None if ticket is None else read_ticket(file_bytes(ticket), str(ticket))
    return Sitting.begin(store, pack, code, leave, str(uuid.uuid4()), seat_key(data), now)


def _work(sitting: Sitting) -> None:
    """Take actions until the last house is handed over, the time is up, or no more come."""
    from trainer.records.sitting import TimeUp  # noqa: PLC0415

    _announce(sitting)
    for line in _lines():
        action = _action(line)
        if action is None:
            continue
        try:
            refused = sitting.do(action)
        except TimeUp as up:
            say(str(up))
            return
        if refused:
            say(f"Nobody could do that: {refused}")
        if sitting.session is not None and sitting.session.site.handed_over:
            if sitting.next() is None:
                return
            _announce(sitting)


def _announce(sitting: Sitting) -> None:
    if sitting.session is None:
        return
    place, houses = sitting.place
    left = sitting.left()
    time = "" if left is None else f" {-(-left // 60_000)} minutes left."
    level = sitting.session.level
    say(f"House {place} of {houses}: {level.title}. {level.brief}{time}")


def _lines() -> Iterator[str]:
    """Lines as they come; at a terminal each is asked for."""
    asked = sys.stdin.isatty()
    while True:
        if asked:
            typer.echo("> ", nl=False, err=True)
        line = sys.stdin.readline()
        if not line:
            return
        text = line.strip().removeprefix("- ").strip()
        if text and not text.startswith(HEADS):
            yield text


def _action(line: str) -> AnyAction | None:
    from trainer.read import Faulty  # noqa: PLC0415
    from trainer.site import parse_diary  # noqa: PLC0415

    text = line if line.startswith("{") else f"{{{line}}}"
    try:
        return parse_diary(f"{{schema: 1, level: typed, actions: [{text}]}}", "line").actions[0]
    except Faulty as error:
        for fault in error.faults:
            say(f"Not understood: {fault.path.removeprefix('actions[0].')}: {fault.what}")
        return None


def _hand_out(done: Attempt, output: Path | None) -> None:
    from trainer.records.files import write_whole  # noqa: PLC0415
    from trainer.records.record_file import file_name, write_record  # noqa: PLC0415

    if output is not None:
        path = output / file_name(done)
        try:
            output.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            wrong_call(f"{output}: can't be made: {error.strerror or error}. Your work is recorded on this seat.")
        write_whole(path, write_record(done))
        say(f"Wrote {path}.")
    say("Closed. Have your assessor write down this code:")
    typer.echo(done.head_code)
