"""A class on a stick: one folder with what each seat needs, which comes back with the results.

It is laid out as a seat's own data folder is: ``packs`` holds packs and tickets, ``assessors`` the assessor's public
key, ``results`` what was sat. Nothing in it is secret, and nothing in it is trusted for lying there.
"""

from __future__ import annotations

import contextlib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import get_args

from trainer.read import Fault, Faulty, read_table, refuse
from trainer.records.attempt import Attempt
from trainer.records.entries import is_code
from trainer.records.errors import RecordsError
from trainer.records.files import write_whole
from trainer.records.gradebook import ticket_content
from trainer.records.keys import PrivateKey, public_hex, trust_key
from trainer.records.pack import AssessmentPack, Ticket, make_ticket
from trainer.records.record_file import MOST_BYTES, SUFFIX, read_record
from trainer.records.signed import write_signed
from trainer.records.ticket import EASED, PLAIN, TEXT, Eased, TextSize
from trainer.records.waiting import ASSESSORS, PACKS, handed_out
from trainer.words import _

RESULTS = "results"
"""Folder into which the file of a sitting is written at its close."""
MOST_CANDIDATES = 400
_MOST_MINUTES = 1440


@dataclass(frozen=True, slots=True)
class Candidate:
    """Who is to sit: a code name, what is granted to them in minutes, and how the board is eased for them."""

    code: str
    extra: int = 0
    breaks: int = 0
    eased: Eased = PLAIN

    def line(self) -> str:
        """Return the candidate's line in a list of code names."""
        cells = [self.code, *map(str, (self.extra, self.breaks)), *self.eased.words()]
        while len(cells) < 4 and cells[-1] == "0":
            cells.pop()
        return ",".join(cells)


@dataclass(frozen=True, slots=True)
class Place:
    """One ticket, and what came of it: its sittings, the latest last; none where the result is missing.

    ``title`` is that of the pack, empty where it is not there. Results whose ticket is not there have a place too.
    """

    code: str
    title: str
    sat: tuple[Attempt, ...]
    ticket_there: bool = True


def write_class(
    folder: Path,
    key: PrivateKey,
    name: str,
    handed: Sequence[tuple[AssessmentPack, Sequence[Ticket]]],
    *,
    beside_others: bool = False,
) -> None:
    """Write packs and their tickets into ``folder``, with the public half of ``key`` as that of ``name``.

    Nothing that was handed out before is replaced: who sits it could not go on. ``beside_others`` lets it lie there
    too.

    :raises RecordsError: where something is handed out in that folder already, or it can't be written.
    """
    if not beside_others and any(handed_out(folder)):
        text = _("{folder}: a class lies in it already. Take another folder: one ticket is for one sitting.")
        raise RecordsError(text.format(folder=folder))
    for pack, tickets in handed:
        write_whole(_pack_file(folder, pack), write_signed(pack.signed))
        for ticket in tickets:
            write_whole(_ticket_file(folder, ticket), write_signed(ticket.signed))
    trust_key(public_hex(key), folder / ASSESSORS, name)


def withdraw(folder: Path, pack: AssessmentPack, ticket: Ticket) -> None:
    """Take a ticket that nobody began with out of ``folder`` again, and its pack where no other ticket is for that."""
    with contextlib.suppress(OSError):  # it is then said to be missing, as any other
        _ticket_file(folder, ticket).unlink(missing_ok=True)
        if all(each.content.pack != pack.signed.hash for each in handed_out(folder)[1]):
            _pack_file(folder, pack).unlink(missing_ok=True)


def _pack_file(folder: Path, pack: AssessmentPack) -> Path:
    return folder / PACKS / f"pack-{pack.signed.hash[:12]}.json"


def _ticket_file(folder: Path, ticket: Ticket) -> Path:
    return folder / PACKS / f"ticket-{ticket.content.code}-{ticket.content.nonce[:12]}.json"


def tickets_for(
    key: PrivateKey, pack: AssessmentPack, candidates: Iterable[Candidate], nonces: Iterable[str], made: int, until: int
) -> tuple[Ticket, ...]:
    """Sign a ticket to ``pack`` for each candidate; ``made`` and ``until`` in ms UTC, each of ``nonces`` for one."""
    return tuple(
        make_ticket(key, pack, each.code, nonce, made, until, each.extra, each.breaks, each.eased)
        for each, nonce in zip(candidates, nonces, strict=False)
    )


def read_candidates(content: bytes, file: str) -> tuple[Candidate, ...]:
    """Read code names, one a row; beside those who are granted some, extra minutes and minutes of breaks.

    After these may stand what is eased for them: *text 150*, *high contrast*, *still*.

    Pasted text or a table; a first row that names the columns is passed over.

    :raises Faulty: with every row that can't be read.
    """
    found: dict[str, Candidate] = {}
    faults = []
    for line, cells in _rows(content, file):
        code, *granted = [cell.strip() for cell in cells]
        minutes, eased = [_minutes(cell) for cell in granted[:2]], _eased(granted[2:])
        if not is_code(code):
            what = _("is no code name: use letters, figures, - and _, 40 at most, and no real name")
            faults.append(Fault(file, line, code[:40] or "code", what))
        elif code in found:
            faults.append(Fault(file, line, code, _("is there twice; one ticket is for one sitting")))
        elif None in minutes:
            what = _("has something else than extra minutes and minutes of breaks beside it, 0 to 1440")
            faults.append(Fault(file, line, code, what))
        elif eased is None:
            what = _("has beside its minutes what is not known: write {words}")
            words = ", ".join((*(f"{TEXT} {size}" for size in get_args(TextSize)[1:]), *EASED))
            faults.append(Fault(file, line, code, what.format(words=words)))
        else:
            extra, breaks = (*(n or 0 for n in minutes), 0, 0)[:2]
            found[code] = Candidate(code, extra, breaks, eased)
    if len(found) > MOST_CANDIDATES:
        faults.append(Fault(file, 1, "file", _("names more people than {n}; split it").format(n=MOST_CANDIDATES)))
    if faults:
        raise Faulty(faults)
    return tuple(found.values()) or refuse(file, 1, "file", _("has no code name in it; write one a line"))


def read_closing_codes(content: bytes, file: str) -> dict[str, list[str]]:
    """Read what was written down at the close: a code name and its closing code a row; return the codes by name.

    :raises Faulty: with every row that can't be read.
    """
    found: dict[str, list[str]] = {}
    faults = []
    for line, cells in _rows(content, file):
        code, *rest = [cell.strip() for cell in cells]
        if not is_code(code) or not rest or any(rest[1:]):
            what = _("is to have a code name and beside it the code at the close")
            faults.append(Fault(file, line, code[:40] or "code", what))
        elif rest[0]:
            found.setdefault(code, []).append(rest[0])
    if faults:
        raise Faulty(faults)
    return found


def places(folder: Path, attempts: Iterable[Attempt], troubles: list[str] | None = None) -> tuple[Place, ...]:
    """Return every ticket that lies in ``folder``, with what of ``attempts`` was sat with it, by code name.

    Those of ``attempts`` whose ticket does not lie there come after; what can't be read there goes to ``troubles``.
    """
    sat: dict[tuple[str, str], dict[bytes, Attempt]] = {}
    for attempt in sorted(attempts, key=lambda each: (each.ended, each.head)):
        nonce = str(ticket_content(attempt).get("nonce", attempt.id))
        sat.setdefault((attempt.code, nonce), {})[attempt.head] = attempt
    packs, tickets = handed_out(folder, troubles)
    titles = {hash_: pack.title for hash_, pack in packs.items()}
    rows = [(each.content.code, titles.get(each.content.pack, ""), each.content.nonce) for each in tickets]
    found = [Place(code, title, tuple(sat.pop((code, nonce), {}).values())) for code, title, nonce in sorted(rows)]
    for (code, _nonce), made in sorted(sat.items()):
        last = [*made.values()][-1]
        found.append(Place(code, titles.get(str(last.opening.get("pack")), ""), (*made.values(),), ticket_there=False))
    return tuple(found)


def missing_results(folder: Path, attempts: Iterable[Attempt], troubles: list[str] | None = None) -> tuple[str, ...]:
    """Return the code names whose ticket lies in ``folder`` while none of ``attempts`` was sat with it."""
    return tuple(dict.fromkeys(each.code for each in places(folder, attempts, troubles) if not each.sat))


def packs_of(results: Iterable[Path]) -> dict[str, AssessmentPack]:
    """Return the packs, by their hashes, of the classes in whose folders the files of results lie."""
    folders = {path.parent.parent for path in results if path.parent.name == RESULTS}
    return {hash_: pack for folder in sorted(folders) for hash_, pack in handed_out(folder)[0].items()}


@dataclass(frozen=True)
class Result:
    """A result that was found in a folder, and its file."""

    file: Path
    attempt: Attempt


def results_in(folder: Path, troubles: list[str]) -> tuple[Result, ...]:
    """Return the results that lie in the folder of a class; what is to be said of others goes to ``troubles``."""
    found = []
    for path in sorted((folder / RESULTS).glob(f"*{SUFFIX}")):
        try:
            with path.open("rb") as file:
                found.append(Result(path, read_record(file.read(MOST_BYTES + 1), path.name).attempt))
        except Faulty as error:
            troubles.append(str(error))
        except OSError as error:
            troubles.append(_("{path}: can't be read: {why}.").format(path=path, why=error.strerror or error))
    return tuple(found)


def _rows(content: bytes, file: str) -> list[tuple[int, list[str]]]:
    rows = read_table(content, file, _("is empty"))
    named = bool(rows) and rows[0][1][0].strip().casefold() in ("code", "code name", "code_name")
    return rows[1:] if named else rows


def _eased(cells: Sequence[str]) -> Eased | None:
    """Return what words beside a code name ease; None where one is not known."""
    known: dict[str, object] = {word: {key: True} for word, key in EASED.items()}
    known |= {f"{TEXT} {size}": {"text_size": size} for size in get_args(TextSize)}
    found: dict[str, object] = {}
    for cell in filter(None, cells):
        one = known.get(" ".join(cell.casefold().split()))
        if not isinstance(one, dict):
            return None
        found |= one
    return Eased.model_validate(found)


def _minutes(cell: str) -> int | None:
    if not cell:
        return 0
    return int(cell) if cell.isascii() and cell.isdigit() and len(cell) < 5 and int(cell) <= _MOST_MINUTES else None
