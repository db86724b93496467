"""Documents that somebody signed: a kind, a content, the signer's public key and the signature, as canonical JSON."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import Field

from trainer.read import refuse
from trainer.records.chain import NotCanonical, canonical
from trainer.records.keys import PrivateKey, public_hex, sign, signed_by
from trainer.records.shape import Hash, Name, Recorded, Signature, Table, fault_of
from trainer.words import _

MOST_BYTES = 20_000_000


class Signed(Recorded):
    """A content under a signature that was found to hold; whether ``key`` is to be trusted is for the reader to say."""

    kind: Name
    schema_: Annotated[Literal[1], Field(alias="schema")]
    content: Table
    key: Hash
    signature: Signature

    @property
    def hash(self) -> str:
        """What names this very document elsewhere: a hash over kind and content, hexadecimal."""
        return hashlib.sha256(_message(self.kind, self.content)).hexdigest()

    def holds(self) -> bool:
        """Whether its key signed just this."""
        return signed_by(self.key, _message(self.kind, self.content), self.signature)


def sign_document(key: PrivateKey, kind: str, content: Mapping[str, Any]) -> Signed:
    """Sign a content. Raises :class:`NotCanonical` for what JSON can't hold."""
    signature = sign(key, _message(kind, content))
    return Signed(kind=kind, schema_=1, content=dict(content), key=public_hex(key), signature=signature)


def write_signed(document: Signed) -> bytes:
    """Return a signed document as the bytes of its file."""
    return canonical(document.as_json())


def read_signed(given: bytes | object, kind: str, model: type[Recorded], file: str) -> Signed:
    """Read a signed document of one kind, from a file's bytes or from what a record holds.

    Raises :class:`trainer.read.Faulty` where it is no such document, or its signature does not fit.
    """
    document = _parsed(given, file) if isinstance(given, bytes) else given
    if fault := fault_of(document, Signed):
        refuse(file, 1, "file", fault)
    signed = Signed.model_validate(document)
    if signed.kind != kind:
        refuse(file, 1, "file", _("'kind' should be: {kind}").format(kind=kind))
    if fault := fault_of(signed.content, model):
        refuse(file, 1, "content", fault)
    try:
        if not signed.holds():
            refuse(file, 1, "signature", _("does not fit; it was changed after it was signed"))
    except NotCanonical:
        refuse(file, 1, "content", _("holds a number or a sign that no document of ours can hold"))
    return signed


def _message(kind: str, content: Mapping[str, Any]) -> bytes:
    return f"roof truss trainer: {kind} 1\n".encode() + canonical(content)


def _parsed(content: bytes, file: str) -> object:
    if len(content) > MOST_BYTES:
        refuse(file, 1, "file", _("is larger than {most} MB").format(most=MOST_BYTES // 1_000_000))
    try:
        return json.loads(content.decode("utf-8"))
    except (ValueError, RecursionError):
        refuse(file, 1, "file", _("is no JSON that can be read; it may be cut short, or of another kind"))
