"""Signatures under a head: who vouches for a whole attempt, and what they signed.

A signature covers the attempt, its head and the number of its entries, so that a tail cut off or a chain written
anew no longer fits it.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal

from trainer.records.chain import canonical
from trainer.records.keys import PrivateKey, public_hex, sign, signed_by
from trainer.records.shape import Exact, Hash, Moment, Name, Signature, Whole, fault_of

Role = Literal["seat", "assessor"]
"""Who signs: the machine at the close, or an assessor who was there and compared the code."""
_TAG = b"roof truss trainer: seal 1\n"


class Seal(Exact):
    """One signature under one head; ``entries`` is their number, ``at`` in ms UTC."""

    attempt: Name
    head: Hash
    entries: Whole
    role: Role
    at: Moment
    key: Hash
    signature: Signature

    def holds(self) -> bool:
        """Whether the key named in it has signed just this."""
        return signed_by(self.key, _message(self.as_json()), self.signature)


def seal(key: PrivateKey, role: Role, attempt: str, head: bytes, entries: int, at: int) -> Seal:
    """Sign a head of ``entries`` entries at the time ``at``, ms UTC."""
    said: dict[str, Any] = {
        "attempt": attempt, "head": head.hex(), "entries": entries, "role": role, "at": at, "key": public_hex(key),
    }  # fmt: skip
    return Seal(**said, signature=sign(key, _message(said)))


def read_seal(body: Mapping[str, Any]) -> Seal | None:
    """Return what is kept of a signature as one, or None where it is no longer one."""
    return None if fault_of(body, Seal) else Seal(**body)


def _message(said: Mapping[str, Any]) -> bytes:
    return _TAG + canonical({name: value for name, value in said.items() if name != "signature"})
