"""The hash chain: each entry's hash covers its own content and the hash before it.

``hash = SHA-256(tag ‖ previous hash ‖ RFC 8785 JSON of the entry)``; the first entry follows 32 zero bytes. A chain by
itself shows an entry changed, dropped or moved. It does not see a cut tail or a chain written anew from
the start: for those, the last hash (the head) must be kept or signed somewhere else.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import rfc8785

from trainer.words import _

JsonObject = Mapping[str, Any]
"""What one entry says: an object that JSON can hold."""

START = bytes(32)
"""Stands for the hash before the first entry."""
_ENTRY = b"roof truss trainer: entry 1\n"
_CODE = b"roof truss trainer: head code 1\n"
ALPHABET = "0123456789ACDEFGHJKMNPRTVWXY"
"""Figures and capitals of head codes: one of each set that looks alike by hand (O and Q for 0, I and L for 1, …)."""
_LOOKALIKES = str.maketrans("OQILZSBU", "0011258V")
CODE_LENGTH = 16

_WRITER = json.JSONEncoder(sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)
_UNSURE_NUMBER = re.compile(r"[0-9](?:[eE]|[0-9]{15})")
"""Where Python's JSON may not write a number as RFC 8785 has it: long, very small or very large ones."""
_WHOLE_FRACTION = re.compile(r"\.0(?![0-9])")
_UNSURE_SIGN = re.compile(r"[^\x00-\ud7ff\ue000-\uffff]")
"""Signs beyond 16 bits, by which keys are sorted otherwise, and half ones."""


class NotCanonical(ValueError):  # noqa: N818 - it is an answer about a value
    """Raised for what RFC 8785 has no form for: numbers from 2⁵³ on, NaN, infinities, half characters."""


@dataclass(frozen=True)
class Entry:
    """One link: what it says, and the hash that it bears."""

    body: JsonObject
    hash: bytes

    @cached_property
    def text(self) -> bytes:
        """What it says in its RFC 8785 form, worked out once; raises :class:`NotCanonical`."""
        return canonical(self.body)

    @classmethod
    def stored(cls, body: JsonObject, hash_: bytes, text: str) -> Entry:
        """Return an entry whose form was written down before: its hash is held against just that ``text``."""
        entry = cls(body, hash_)
        entry.__dict__["text"] = text.encode("utf-8", errors="replace")
        return entry


@dataclass(frozen=True, slots=True)
class Break:
    """The first place where a chain does not hold: the entry's number from 0, and in words what is wrong."""

    ordinal: int
    what: str


def canonical(value: object) -> bytes:
    """Return the RFC 8785 form of ``value``. Raises :class:`NotCanonical` where it has none.

    Most of what is recorded comes out the same from Python's own writer, five times as fast; whatever might
    not goes through the library.
    """
    try:
        text = _WRITER.encode(value)
        if _alike(text):
            return text.encode("utf-8")
        return rfc8785.dumps(value)  # type: ignore[arg-type]  # what it can't write it refuses itself
    except (rfc8785.CanonicalizationError, ValueError, TypeError, RecursionError) as error:
        raise NotCanonical(str(error)) from error


def _alike(text: str) -> bool:
    """Whether RFC 8785 writes the same. The common cases are told by the quickest questions first."""
    if _UNSURE_NUMBER.search(text) or (".0" in text and _WHOLE_FRACTION.search(text)):
        return False
    return text.isascii() or not _UNSURE_SIGN.search(text)


def entry_hash(previous: bytes, text: bytes) -> bytes:
    """Return the hash of the entry with the RFC 8785 ``text`` that follows the entry of hash ``previous``."""
    return hashlib.sha256(_ENTRY + previous + text).digest()


def link(previous: bytes, bodies: Iterable[JsonObject]) -> tuple[Entry, ...]:
    """Return ``bodies`` as entries that follow the entry of hash ``previous``."""
    entries = []
    for body in bodies:
        previous = entry_hash(previous, canonical(body))
        entries.append(Entry(body, previous))
    return tuple(entries)


def first_break(entries: Sequence[Entry]) -> Break | None:
    """Return where a whole chain, from its first entry on, stops holding; None where all of it holds."""
    previous = START
    for ordinal, entry in enumerate(entries):
        try:
            hashed = entry_hash(previous, entry.text)
        except NotCanonical:
            return Break(ordinal, _("It holds a number or a sign that no record of ours can hold."))
        if hashed != entry.hash:
            return Break(ordinal, _("It was changed, or entries before it were dropped, added or moved."))
        if entry.body.get("n") != ordinal:
            return Break(ordinal, _("It does not bear its own number."))
        previous = entry.hash
    return None


def head_code(head: bytes) -> str:
    """Return the code to write down for a head: 16 characters in fours, 76 bits of a hash of the head."""
    value = int.from_bytes(hashlib.sha256(_CODE + head).digest())
    signs = []
    for _place in range(CODE_LENGTH):
        value, sign = divmod(value, len(ALPHABET))
        signs.append(ALPHABET[sign])
    return "-".join("".join(signs[at : at + 4]) for at in range(0, CODE_LENGTH, 4))


def same_code(one: str, other: str) -> bool:
    """Whether two codes are the same as people write them: small letters, gaps and look-alikes make no difference."""
    return _plain_code(one) == _plain_code(other)


def _plain_code(code: str) -> str:
    return re.sub(r"[\s-]", "", code.upper()).translate(_LOOKALIKES)
