"""Documents that somebody signed: a kind, a content, the signer's public key and the signature, as canonical JSON."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, NoReturn

from trainer.read import Fault, Faulty
from trainer.records.chain import NotCanonical, canonical
from trainer.records.keys import PrivateKey, public_hex, sign, signed_by
from trainer.records.shape import Shape, fault_of, hexes, of_shape, one_of, whole
from trainer.words import _

MOST_BYTES = 20_000_000


@dataclass(frozen=True, slots=True)
class Signed:
    """A content under a signature that was found to hold; whether ``key`` is to be trusted is for the reader to say."""

    kind: str
    content: Mapping[str, Any]
    key: str
    signature: str

    @property
    def hash(self) -> str:
        """What names this very document elsewhere: a hash over kind and content, hexadecimal."""
        return hashlib.sha256(_message(self.kind, self.content)).hexdigest()

    def as_json(self) -> dict[str, Any]:
        """Return it as a file or a record holds it."""
        return {"kind": self.kind, "schema": 1, "content": self.content, "key": self.key, "signature": self.signature}

    def holds(self) -> bool:
        """Whether its key signed just this."""
        return signed_by(self.key, _message(self.kind, self.content), self.signature)


def sign_document(key: PrivateKey, kind: str, content: Mapping[str, Any]) -> Signed:
    """Sign a content. Raises :class:`NotCanonical` for what JSON can't hold."""
    return Signed(kind, content, public_hex(key), sign(key, _message(kind, content)))


def write_signed(document: Signed) -> bytes:
    """Return a signed document as the bytes of its file."""
    return canonical(document.as_json())


def read_signed(given: bytes | object, kind: str, shape: Shape, file: str) -> Signed:
    """Read a signed document of one kind, from a file's bytes or from what a record holds.

    Raises :class:`trainer.read.Faulty` where it is no such document, or its signature does not fit.
    """
    document = _parsed(given, file) if isinstance(given, bytes) else given
    outer: Shape = {
        "kind": one_of(kind), "schema": whole(1, 1), "content": of_shape({}), "key": hexes(64), "signature": hexes(128),
    }  # fmt: skip
    if fault := fault_of(document, outer):
        _refuse(file, "file", fault)
    assert isinstance(document, dict)
    if fault := fault_of(document["content"], shape):
        _refuse(file, "content", fault)
    signed = Signed(kind, document["content"], document["key"], document["signature"])
    try:
        if not signed.holds():
            _refuse(file, "signature", _("does not fit; it was changed after it was signed"))
    except NotCanonical:
        _refuse(file, "content", _("holds a number or a sign that no document of ours can hold"))
    return signed


def _message(kind: str, content: Mapping[str, Any]) -> bytes:
    return f"roof truss trainer: {kind} 1\n".encode() + canonical(content)


def _parsed(content: bytes, file: str) -> object:
    if len(content) > MOST_BYTES:
        _refuse(file, "file", _("is larger than {most} MB").format(most=MOST_BYTES // 1_000_000))
    try:
        return json.loads(content.decode("utf-8"))
    except (ValueError, RecursionError):
        _refuse(file, "file", _("is no JSON that can be read; it may be cut short, or of another kind"))


def _refuse(file: str, path: str, what: str) -> NoReturn:
    raise Faulty([Fault(file, 1, path, what)])
