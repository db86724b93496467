"""What waits to be sat on a seat: the packs and tickets that an assessor put into its folder ``packs``."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from trainer.level import Level, parse_level
from trainer.read import Faulty
from trainer.records.attempt import Attempt
from trainer.records.entries import is_code
from trainer.records.errors import RecordsError
from trainer.records.gradebook import ticket_content
from trainer.records.keys import read_public
from trainer.records.pack import AssessmentPack, Ticket, read_pack, read_ticket
from trainer.records.seat import Seat
from trainer.records.signed import MOST_BYTES
from trainer.records.sitting import sittings_of, used
from trainer.records.store import Store
from trainer.words import _

T = TypeVar("T")
Outline = tuple[tuple[float, float], ...]
"""Corners of plates, mm."""
PACKS = "packs"
"""Folder of a data folder for packs, and for tickets to them."""
ASSESSORS = "assessors"
"""Folder of a data folder for the public keys of assessors."""


@dataclass(frozen=True)
class Waiting:
    """A pack that one code name may sit here; ``begun`` is their sitting where it stopped in the middle.

    ``folder`` is where it lies: the seat's own, or that of a class on a stick, into which the result goes too.
    """

    pack: AssessmentPack
    code: str
    ticket: Ticket | None
    begun: Attempt | None
    folder: Path


def assessors_in(folder: Path, troubles: list[str] | None = None) -> dict[str, str]:
    """Return the public keys of the assessors that a folder knows, each with the name of its file.

    A file that holds no key, or can't be read, is passed over; what is to be said of it goes to ``troubles``.
    """
    found = {}
    for path in sorted((folder / ASSESSORS).glob("*.pub.pem")) if (folder / ASSESSORS).is_dir() else ():
        try:
            found[read_public(path.read_bytes(), str(path))] = path.name.removesuffix(".pub.pem")
        except OSError as error:
            why = _("{path}: can't be read: {why}.").format(path=path, why=error.strerror or error)
            (troubles if troubles is not None else []).append(why)
        except RecordsError as error:
            (troubles if troubles is not None else []).append(str(error))
    return found


def handed_out(folder: Path, troubles: list[str] | None = None) -> tuple[dict[str, AssessmentPack], list[Ticket]]:
    """Return the packs that lie in a folder, by their hash, and the tickets.

    What is neither, or can't be read, is passed over; what is to be said of it goes to ``troubles``.
    """
    said = troubles if troubles is not None else []
    packs: dict[str, AssessmentPack] = {}
    tickets: list[Ticket] = []
    for path in sorted((folder / PACKS).glob("*.json")):
        try:
            with path.open("rb") as file:
                content = file.read(MOST_BYTES + 1)
        except OSError as error:
            said.append(_("{path}: can't be read: {why}.").format(path=path, why=error.strerror or error))
            continue
        if pack := _read(read_pack, content, path.name):
            packs.setdefault(pack.signed.hash, pack)
        elif ticket := _read(read_ticket, content, path.name):
            tickets.append(ticket)
        else:
            text = _("{path}: no pack and no ticket can be read in it. It was damaged, or changed after it was signed.")
            said.append(text.format(path=path))
    return packs, tickets


def waiting_on(seat: Seat, folder: Path | None = None) -> tuple[Waiting, ...]:
    """Return what waits on a seat: for each ticket its pack, and a pack without a ticket for the seat's own code name.

    ``folder`` is where they lie, the seat's own where it is left out. Where the seat knows assessors, only what one of
    them signed counts.
    """
    known = assessors_in(seat.folder)
    folder = seat.folder if folder is None else folder
    every, tickets = handed_out(folder)
    packs = {hash_: pack for hash_, pack in every.items() if not known or pack.signed.key in known}
    found: list[Waiting] = []
    for ticket in tickets:
        of = packs.get(ticket.content.pack)
        if of is not None:
            code = ticket.content.code
            begun = _begun(seat, of, code)
            if begun is not None or (ticket.fits(of.signed.hash, code, seat.clock()) and not used(seat.store, ticket)):
                found.append(Waiting(of, code, ticket, begun, folder))
    given = {each.pack.signed.hash for each in found} | {each.content.pack for each in tickets}
    alone = (pack for hash_, pack in packs.items() if hash_ not in given)
    return (*found, *(Waiting(pack, seat.code, None, _begun(seat, pack, seat.code), folder) for pack in alone))


def begun_elsewhere(seat: Seat, found: Iterable[Waiting]) -> tuple[str, ...]:
    """Return the code names of sittings that were begun here and not closed, of packs that lie in another folder."""
    here = {each.begun.id for each in found if each.begun is not None}
    left = (each for each in seat.store.unfinished() if "pack" in each.opening and each.id not in here)
    return tuple(dict.fromkeys(each.code for each in left))


def strangers(seat: Seat, folder: Path) -> dict[str, str]:
    """Return the keys that signed packs in ``folder`` and that the seat does not know, each with a name for it."""
    packs, _tickets = handed_out(folder)
    names = {key: name for key, name in assessors_in(folder).items() if is_code(name)}
    unknown = {pack.signed.key for pack in packs.values()} - assessors_in(seat.folder).keys()
    return {key: names.get(key, "assessor") for key in sorted(unknown)}


def under(seat: Seat, waiting: Waiting, code: str) -> Waiting:
    """Return the same pack as another code name may sit it, where there is no ticket to say whose it is.

    :raises ValueError: where that is no code name: letters, figures, - and _, 40 at most.
    """
    if waiting.ticket is not None or not is_code(code):
        raise ValueError(code)
    return Waiting(waiting.pack, code, None, _begun(seat, waiting.pack, code), waiting.folder)


@dataclass(frozen=True)
class BeingSat:
    """What belongs to sittings that are not closed yet.

    ``named`` are ids of houses and hashes of their files' texts. ``plans`` are their plates: a house whose level file
    got another id or title is the same house.
    """

    named: frozenset[str] = frozenset()
    plans: frozenset[Outline] = frozenset()

    def has(self, level: Level, text: str) -> bool:
        """Whether a level, whose file has this ``text``, is one of these houses."""
        return bool(self.named) and (
            bool(self.named & {level.id, _hash(text)}) or plan_of(level.plates.outline) in self.plans
        )


def plan_of(outline: Sequence[tuple[float, float]]) -> Outline:
    """Return plates by their shape and size alone, mm: wherever they lie, and at whichever corner they begin."""
    x, y = (min(corner[axis] for corner in outline) for axis in (0, 1))
    moved = [(corner[0] - x, corner[1] - y) for corner in outline]
    first = moved.index(min(moved))
    return (*moved[first:], *moved[:first])


def being_sat(store: Store, folder: Path, shipped: Iterable[Path]) -> BeingSat:
    """Return what belongs to sittings that were begun on a seat and not closed.

    The pack may lie on a stick that is not here; then the houses that come next are known by the hash on the ticket,
    and their plans where they are among the ``shipped`` files.
    """
    packs, _tickets = handed_out(folder)
    named: set[str] = set()
    texts: set[str] = set()
    for attempt in store.unfinished():
        if "pack" not in attempt.opening or attempt.fault is not None:
            continue
        houses = [(house.level, house.text) for house in attempt.houses]
        if pack := packs.get(str(attempt.opening["pack"])):
            houses += pack.houses
        named.update(level for level, _text in houses)
        texts.update(text for _level, text in houses)
        due = ticket_content(attempt).get("due")
        named.update(str(each.get("text")) for each in (due.get("houses") if isinstance(due, dict) else None) or ())
    if named:
        texts.update(text for path in shipped if _hash(text := path.read_text(encoding="utf-8")) in named)
    plans = {plan_of(level.plates.outline) for text in texts if (level := _level(text))}
    return BeingSat(frozenset(named), frozenset(plans))


def _level(text: str) -> Level | None:
    try:
        return parse_level(text, "level")
    except Faulty:
        return None


def _hash(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def _begun(seat: Seat, pack: AssessmentPack, code: str) -> Attempt | None:
    return next(iter(sittings_of(seat.store, pack, code)), None)


def _read(read: Callable[[bytes, str], T], content: bytes, name: str) -> T | None:
    try:
        return read(content, name)
    except Faulty:
        return None
