"""Files written whole or not at all."""

from __future__ import annotations

import contextlib
import errno
import os
import secrets
from pathlib import Path

from trainer.records.errors import AlreadyThere, DiskFull, NotWritten, ReadOnly

_FULL = {errno.ENOSPC, getattr(errno, "EDQUOT", errno.ENOSPC)}
_SHUT = {errno.EACCES, errno.EPERM, errno.EROFS}
PRIVATE = 0o600
"""Read and written by its owner alone, whatever the umask."""
_BINARY = getattr(os, "O_BINARY", 0)


def write_whole(path: Path, content: bytes, *, replace: bool = True, private: bool = False) -> None:
    """Write ``content`` to ``path``: after a crash at any moment the file is the old one or the new one, whole.

    Its folder is made where there is none. ``replace`` False leaves a file that is there alone and raises
    :class:`AlreadyThere`. A ``private`` file is readable by its owner only, where the system knows owners. Raises
    :class:`NotWritten` in plain words.
    """
    new = beside(path)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle = os.open(new, os.O_CREAT | os.O_EXCL | os.O_WRONLY | _BINARY, 0o600 if private else 0o666)
        try:
            if private:
                new.chmod(PRIVATE)
            with os.fdopen(handle, "wb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
            put_in_place(new, path, replace=replace)
        finally:
            new.unlink(missing_ok=True)
        sync_folder(path.parent)
    except OSError as error:
        raise not_written(path, error) from error


def sync_folder(folder: Path) -> None:
    """Have the names in a folder reach the disk, on systems where a program can ask for that."""
    if os.name == "nt":
        return
    with contextlib.suppress(OSError):  # some file systems can't; the file itself is on disk by now
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def not_written(path: Path, error: OSError) -> NotWritten:
    """Say in plain words why a file could not be written."""
    if error.errno in _FULL:
        return DiskFull(str(path))
    if error.errno in _SHUT:
        return ReadOnly(str(path))
    return NotWritten(f"{path}: can't be written: {error.strerror or error}.")


def beside(path: Path) -> Path:
    """Return a name that nobody else uses, to build what is to be ``path`` under."""
    return path.with_name(f".{path.name}.{secrets.token_hex(4)}.new")


def put_in_place(new: Path, path: Path, *, replace: bool) -> None:
    """Give a file that is whole its name; without ``replace`` one that is there is left alone: AlreadyThere."""
    if replace:
        new.replace(path)
        return
    try:
        os.link(new, path)  # unlike a rename, refuses a name that is taken
    except FileExistsError:
        raise AlreadyThere(str(path)) from None
    except OSError:  # a file system without second names, as on memory sticks
        if path.exists():
            raise AlreadyThere(str(path)) from None
        new.replace(path)
