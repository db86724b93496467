"""Ed25519 keys (RFC 8032): made, kept under a passphrase, and used to sign.

An assessor's private key is a PEM file (PKCS #8, encrypted under a passphrase) that never lies on a seat; seats hold
its public half. The passphrase is stretched by scrypt (RFC 7914), with a salt that stands in the line before the key,
before it goes into the encryption of the file itself; a file without that line is an older one. A seat's own key signs
without anybody there, so it has no passphrase: it ties a result to this machine's files and to nothing more.

The library that signs is slow to load, so it is loaded by the first who makes, reads or uses a key.
"""

from __future__ import annotations

import hashlib
import re
import secrets
from pathlib import Path
from typing import Any, Protocol

from trainer.records.chain import head_code
from trainer.records.errors import AlreadyThere, NotWritten, RecordsError
from trainer.records.files import write_whole
from trainer.words import _

SHORTEST_PASSPHRASE = 8
SCRYPT_N = 2**17
"""How costly one guess at a passphrase is: 128 MB and about half a second."""
_SALT = re.compile(rb"roof truss trainer key, scrypt 1, salt ([0-9a-f]{32})\r?\n")
_MOST_BYTES = 10_000


class PrivateKey(Protocol):
    """A private key of the library's own kind."""

    def public_key(self) -> Any:
        """Return its public half."""

    def sign(self, data: bytes) -> bytes:
        """Return the signature of ``data``."""

    def private_bytes(self, encoding: Any, format: Any, encryption_algorithm: Any) -> bytes:
        """Return it as bytes."""


class KeyTrouble(RecordsError):  # noqa: N818 - an answer about a file
    """Raised where a key can't be read or a passphrase is not its own."""


def new_key() -> PrivateKey:
    """Make a key, from the system's own randomness."""
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey  # noqa: PLC0415

    return Ed25519PrivateKey.generate()


def public_hex(key: PrivateKey) -> str:
    """Return the public half: 64 hexadecimal figures, as records carry it."""
    return _raw(key.public_key()).hex()


def _raw(public: Any) -> bytes:
    from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat  # noqa: PLC0415

    return bytes(public.public_bytes(Encoding.Raw, PublicFormat.Raw))


def fingerprint(public: str) -> str:
    """Return the short code by which people compare a public key over the telephone."""
    return head_code(hashlib.sha256(bytes.fromhex(public)).digest())


def sign(key: PrivateKey, message: bytes) -> str:
    """Return the signature of ``message``: 128 hexadecimal figures."""
    return key.sign(message).hex()


def signed_by(public: str, message: bytes, signature: str) -> bool:
    """Whether ``signature`` is that of ``message`` by the key whose public half is ``public``."""
    from cryptography.exceptions import InvalidSignature  # noqa: PLC0415
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey  # noqa: PLC0415

    try:
        Ed25519PublicKey.from_public_bytes(bytes.fromhex(public)).verify(bytes.fromhex(signature), message)
    except (InvalidSignature, ValueError):
        return False
    return True


def private_pem(key: PrivateKey, passphrase: str | None) -> bytes:
    """Return the key as a PEM file's bytes; ``passphrase`` None is for a seat's own key only."""
    if passphrase is not None and len("".join(passphrase.split())) < SHORTEST_PASSPHRASE:
        text = _("The passphrase is too short. Use {least} signs or more, beside spaces.")
        raise KeyTrouble(text.format(least=SHORTEST_PASSPHRASE))
    from cryptography.hazmat.primitives import serialization  # noqa: PLC0415

    lock: serialization.KeySerializationEncryption = serialization.NoEncryption()
    head = b""
    if passphrase is not None:
        salt = secrets.token_bytes(16)
        lock = serialization.BestAvailableEncryption(_stretched(passphrase, salt))
        head = b"roof truss trainer key, scrypt 1, salt %b\n" % salt.hex().encode()
    return head + key.private_bytes(serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, lock)


def _stretched(passphrase: str, salt: bytes) -> bytes:
    from cryptography.hazmat.primitives.kdf.scrypt import Scrypt  # noqa: PLC0415

    return Scrypt(salt, 32, SCRYPT_N, 8, 1).derive(passphrase.encode("utf-8")).hex().encode()


def public_pem(public: str) -> bytes:
    """Return the public half as a PEM file's bytes (SubjectPublicKeyInfo)."""
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey  # noqa: PLC0415
    from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat  # noqa: PLC0415

    key = Ed25519PublicKey.from_public_bytes(bytes.fromhex(public))
    return key.public_bytes(Encoding.PEM, PublicFormat.SubjectPublicKeyInfo)


def read_private(pem: bytes, passphrase: str | None, file: str) -> PrivateKey:
    """Read a private key's PEM file; ``file`` is the name that a trouble carries."""
    from cryptography.exceptions import InternalError, UnsupportedAlgorithm  # noqa: PLC0415
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey  # noqa: PLC0415
    from cryptography.hazmat.primitives.serialization import load_pem_private_key  # noqa: PLC0415

    pem = pem[:_MOST_BYTES]
    secret = None if passphrase is None else passphrase.encode("utf-8")
    salt = _SALT.match(pem)
    if salt and passphrase is not None:
        secret = _stretched(passphrase, bytes.fromhex(salt[1].decode()))
    try:
        key = load_pem_private_key(pem[salt.end() :] if salt else pem, secret)
    except TypeError:
        if passphrase is None:
            raise KeyTrouble(_("{file}: this key is under a passphrase. Give it.").format(file=file)) from None
        raise KeyTrouble(_("{file}: this key has no passphrase. Give none.").format(file=file)) from None
    except (ValueError, UnsupportedAlgorithm, InternalError):  # the last of a cipher that was changed in the file
        text = _("{file}: the passphrase does not open this key, or the file is no private key.")
        raise KeyTrouble(text.format(file=file)) from None
    if not isinstance(key, Ed25519PrivateKey):
        raise KeyTrouble(_("{file}: this key is of another kind. Make one with 'trainer key'.").format(file=file))
    return key


def read_public(pem: bytes, file: str) -> str:
    """Read a public key's PEM file."""
    from cryptography.exceptions import UnsupportedAlgorithm  # noqa: PLC0415
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey  # noqa: PLC0415
    from cryptography.hazmat.primitives.serialization import load_pem_public_key  # noqa: PLC0415

    try:
        key = load_pem_public_key(pem[:_MOST_BYTES])
    except (ValueError, UnsupportedAlgorithm):
        raise KeyTrouble(_("{file}: this is no public key. It ends in .pub.pem.").format(file=file)) from None
    if not isinstance(key, Ed25519PublicKey):
        raise KeyTrouble(_("{file}: this key is of another kind. Make one with 'trainer key'.").format(file=file))
    return _raw(key).hex()


def save_key(key: PrivateKey, passphrase: str | None, path: Path) -> Path:
    """Write a key to ``path`` for its owner alone, and its public half beside it; return where that is.

    A key that is there already is never replaced, nor is a public half: it may be that of a key in use.
    """
    public, private = path.with_suffix(".pub.pem"), private_pem(key, passphrase)
    if public.exists():
        raise AlreadyThere(str(public))
    write_whole(path, private, replace=False, private=True)
    try:
        write_whole(public, public_pem(public_hex(key)), replace=False)
    except NotWritten:
        path.unlink(missing_ok=True)
        raise
    return public


def trust_key(key: str, folder: Path, name: str) -> Path:
    """Put a public key into a folder of keys that are trusted, and return where; one that is there is never replaced.

    Another key of that ``name`` stays, and this one is called after its fingerprint too.
    """
    path = folder / f"{name}.pub.pem"
    if path.exists() and path.read_bytes() != public_pem(key):
        path = folder / f"{name}-{fingerprint(key)[:9]}.pub.pem"
    if not path.exists():
        write_whole(path, public_pem(key), replace=False)
    return path
