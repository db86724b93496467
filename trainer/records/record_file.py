"""One attempt as a file: canonical JSON, complete in itself, checked through and through when it is read.

A file is written as RFC 8785 has it, so any byte of it that changes shows: either the chain, the head or a signature no
longer fits, or (spacing, order of keys) the text is not the canonical one any more.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Annotated, Any, Literal, NoReturn

from pydantic import Field

from trainer.read import Fault, Faulty
from trainer.records.attempt import Attempt
from trainer.records.chain import Entry, canonical
from trainer.records.seal import Seal
from trainer.records.shape import Exact, Hash, Table, fault_of
from trainer.words import _

SUFFIX = ".attempt.json"
KIND = "attempt record"
MOST_BYTES = 5_000_000
_END = re.compile(rb'\],"head":"([0-9a-f]{64})","kind":"attempt record","schema":1,"seals":(\[.*\])\}')


class _File(Exact):
    """A whole file; what its parts are is asked of each, so that a fault has its number."""

    kind: Literal["attempt record"]
    schema_: Annotated[Literal[1], Field(alias="schema")]
    head: Hash
    entries: Annotated[list[Any], Field(max_length=100_000)]
    seals: Annotated[list[Any], Field(max_length=1000)]
    gradebook: Table | None = None
    """What a line for other programs says besides; it is worked out of the entries, and nothing here reads it."""


class _Entry(Exact):
    body: Table
    hash: Hash


@dataclass(frozen=True, slots=True)
class Read:
    """An attempt from a file, and whether the file's text is byte for byte as it was written."""

    attempt: Attempt
    untouched: bool


def write_record(attempt: Attempt) -> bytes:
    """Return an attempt as the bytes of its file; the same attempt always gives the same bytes."""
    entries = ((entry.text, entry.hash) for entry in attempt.entries)
    return record_of(entries, attempt.head, (canonical(seal.as_json()) for seal in attempt.seals))


def record_of(entries: Iterable[tuple[bytes, bytes]], head: bytes, seals: Iterable[bytes]) -> bytes:
    """Return the bytes of the file of entries, (RFC 8785 text, hash) each, and of the texts of seals."""
    linked = b",".join(b'{"body":%b,"hash":"%b"}' % (text, hash_.hex().encode()) for text, hash_ in entries)
    parts = (linked, head.hex().encode(), KIND.encode(), b",".join(sorted(seals)))
    return b'{"entries":[%b],"head":"%b","kind":"%b","schema":1,"seals":[%b]}' % parts


def named_at_its_end(content: bytes) -> tuple[bytes, list[bytes]] | None:
    """Return the head that a file names and the texts of its seals, unchecked; None where it is not written so."""
    found = _END.fullmatch(content, max(0, content.rfind(b'],"head":"')))
    try:
        seals = json.loads(found[2]) if found else None
        return None if found is None or seals is None else (bytes.fromhex(found[1].decode()), [*map(canonical, seals)])
    except (ValueError, RecursionError):
        return None


def write_line(attempt: Attempt, gradebook: Mapping[str, Any]) -> bytes:
    """Return an attempt as one line for other programs: what its file holds, and its line of the gradebook."""
    return canonical({**json.loads(write_record(attempt)), "gradebook": dict(gradebook)})


def file_name(attempt: Attempt) -> str:
    """Return a name for an attempt's file: code name, level, and the beginnings of its id and its head."""
    level = attempt.houses[0].level if attempt.houses else "drill" if attempt.drills else "paper"
    return f"{attempt.code}-{level}-{attempt.id[:8]}-{attempt.head.hex()[:8]}{SUFFIX}"


def read_record(content: bytes, file: str) -> Read:
    """Read a file's bytes and check all of it but who signed; ``file`` is the name that faults carry.

    Raises :class:`trainer.read.Faulty` with what does not hold: no part of such a file is taken.
    """
    document = _parse(content, file)
    if fault := fault_of(document, _File):
        _refuse(file, ("file", fault))
    attempt = Attempt(_entries(document, file), tuple(_seals(document, file)))
    _hold(attempt, str(document["head"]), file)
    untouched = write_record(attempt) == content
    if not untouched:
        _no_key_twice(content, file)
    return Read(attempt, untouched)


def _parse(content: bytes, file: str) -> dict[str, Any]:
    if len(content) > MOST_BYTES:
        _refuse(file, ("file", _("is larger than {most} MB; no attempt is").format(most=MOST_BYTES // 1_000_000)))
    try:
        document = json.loads(content.decode("utf-8"), parse_constant=_no_number)
    except (ValueError, RecursionError):
        _refuse(file, ("file", _("is no JSON that can be read; it may be cut short, or no record at all")))
    return document if isinstance(document, dict) else {}


def _no_number(word: str) -> NoReturn:
    raise ValueError(word)


def _entries(document: dict[str, Any], file: str) -> tuple[Entry, ...]:
    entries = []
    for ordinal, given in enumerate(document["entries"]):
        if fault := fault_of(given, _Entry):
            _refuse(file, (f"entries[{ordinal}]", fault))
        entries.append(Entry(given["body"], bytes.fromhex(given["hash"])))
    if not entries:
        _refuse(file, ("entries", _("is empty; an attempt has at least its opening")))
    return tuple(entries)


def _seals(document: dict[str, Any], file: str) -> Iterable[Seal]:
    for ordinal, given in enumerate(document["seals"]):
        if fault := fault_of(given, Seal):
            _refuse(file, (f"seals[{ordinal}]", fault))
        yield Seal(**given)


def _hold(attempt: Attempt, head: str, file: str) -> None:
    """Refuse an attempt that does not hold, with everything that doesn't."""
    faults = []
    if fault := attempt.fault:
        faults.append((f"entries[{fault.ordinal}]", fault.what))
    if head != attempt.head.hex():
        faults.append(("head", _("is not the hash of the last entry; entries may be missing at the end")))
    for ordinal, seal in enumerate(attempt.seals):
        if seal.attempt != attempt.id:
            faults.append((f"seals[{ordinal}]", _("is under another attempt")))
        elif not seal.holds():
            faults.append((f"seals[{ordinal}]", _("does not fit its key; it was changed, or made for something else")))
    if faults:
        _refuse(file, *faults)


def _no_key_twice(content: bytes, file: str) -> None:
    """Refuse a key given twice in one place, which two readers may read differently."""

    def once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        found: dict[str, Any] = {}
        for key, value in pairs:
            if key in found:
                _refuse(file, ("file", _("'{key}' is given twice in one place").format(key=key[:40])))
            found[key] = value
        return found

    json.loads(content.decode("utf-8"), object_pairs_hook=once)


def _refuse(file: str, *faults: tuple[str, str]) -> NoReturn:
    raise Faulty(Fault(file, 1, path, what) for path, what in faults)
