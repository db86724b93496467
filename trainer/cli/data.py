"""Where the records are, and what commands that use them share: the keys to trust, attempts, plain words."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, TypeVar

import typer

from trainer.cli.given import faults_explained, faulty, file_bytes, say, wrong_call
from trainer.cli.options import option
from trainer.cli.progress import progress
from trainer.words import _, ngettext

if TYPE_CHECKING:
    from trainer.records.attempt import Attempt
    from trainer.records.keys import PrivateKey
    from trainer.records.pack import AssessmentPack
    from trainer.records.proof import Proved
    from trainer.records.store import Store

T = TypeVar("T")
AT_ONCE = 200
"""So many whole attempts are in memory at once."""
FEW = 16
"""Attempts that are judged sooner than other processes start."""
DataFolder = Annotated[Path | None, option("--data", "DIR", "Folder of the records; your own data folder by default.")]
Assessors = Annotated[
    list[Path] | None, option("--assessor", "FILE", "An assessor's public key to trust (.pub.pem); may be repeated.")
]
KeyFile = Annotated[Path, option("--key", "FILE", "The assessor's private key (.pem).")]
PassphraseFile = Annotated[
    Path | None,
    typer.Option(
        "--passphrase-file",
        metavar="FILE",
        envvar="TRAINER_PASSPHRASE_FILE",
        help="Read the passphrase from a file's first line, unasked.",
    ),
]
CodeName = Annotated[str, option("--code", "NAME", "Code name of who does it, never the real name.")]


def folder_of(data: Path | None) -> Path:
    """Return the data folder: the one given, or the user's own."""
    from platformdirs import user_data_path

    return data if data is not None else user_data_path("roof-truss-trainer", appauthor=False)


@contextmanager
def records_explained() -> Iterator[None]:
    """Explain what goes wrong with records, and leave with the right code."""
    from trainer.records.errors import NotWritten, RecordsError

    try:
        with faults_explained():
            yield
    except NotWritten as error:
        wrong_call(str(error))
    except RecordsError as error:
        faulty(str(error))


@contextmanager
def stored(data: Path | None, *, write: bool = False) -> Iterator[Store]:
    """Open the store of a data folder, to read it or also to write; explain what goes wrong."""
    from trainer.records.store import FILE, Store

    path = folder_of(data) / FILE
    with records_explained():
        if not write and not path.exists():
            wrong_call(_("{path}: there are no records here yet.").format(path=path))
        # Records are many small things without circles: looking for circles among them took half of the time.
        gc.disable()
        try:
            with Store.open(path) if write else Store.read(path) as store:
                yield store
        finally:
            gc.enable()


def trusted_keys(data: Path | None, given: list[Path] | None) -> dict[str, str]:
    """Return the public keys of assessors that are trusted, each with the name of its file."""
    from trainer.records.keys import read_public
    from trainer.records.waiting import assessors_in

    troubles: list[str] = []
    with records_explained():
        named = {read_public(file_bytes(path), str(path)): path.name.removesuffix(".pub.pem") for path in given or ()}
    known = assessors_in(folder_of(data), troubles)
    for trouble in troubles:
        say(trouble)
    return {**known, **named}


def private_key(path: Path, passphrase_file: Path | None) -> PrivateKey:
    """Read an assessor's private key, asking for its passphrase where no file gives it."""
    from trainer.records.keys import read_private

    pem = file_bytes(path)
    with records_explained():
        return read_private(pem, passphrase(passphrase_file), str(path))


def passphrase(file: Path | None, *, new: bool = False) -> str:
    """Return a passphrase, from a file's first line or typed unseen; a ``new`` one is typed twice."""
    if file is not None:
        return file_bytes(file).decode("utf-8", errors="replace").split("\n")[0].rstrip("\r")
    try:
        return str(typer.prompt(_("Passphrase"), hide_input=True, confirmation_prompt=new, err=True))
    except typer.Abort:
        if sys.stdin.isatty():
            raise
        wrong_call(_("Nobody can type the passphrase here. Give a file with it: --passphrase-file FILE."))


def seat_key(data: Path | None) -> PrivateKey:
    """Return this seat's own key, made the first time it is asked for."""
    from trainer.records.seat import seat_key as key_of

    with records_explained():
        return key_of(folder_of(data))


def given_pack(path: Path) -> AssessmentPack:
    """Read an assessment pack; show its faults and stop if there are any."""
    from trainer.records.pack import read_pack
    from trainer.records.signed import MOST_BYTES

    with records_explained():
        return read_pack(file_bytes(path, MOST_BYTES), str(path))


def every_attempt(store: Store) -> list[Attempt]:
    """Return all attempts of a store by when they began."""
    ids = sorted({str(o.get("attempt")) for o in store.openings() if o})
    return _in_time(attempt for id_ in ids for attempt in store.attempts(id_))


def attempt_meant(store: Store, beginning: str, *, one_end: bool = False) -> list[Attempt]:
    """Return the attempt whose id begins so, each of its ends where it has several; stop where it is not one."""
    found = [each for each in every_attempt(store) if each.id.startswith(beginning)]
    if (len(found) if one_end else len({each.id for each in found})) != 1:
        text = _("No single attempt begins with '{beginning}'. 'trainer records list' shows their ids.")
        wrong_call(text.format(beginning=beginning[:80]))
    return found


def sound_attempts(store: Store) -> list[Attempt]:
    """Return the same without those that do not hold, and say how many these were."""
    every = every_attempt(store)
    sound = [attempt for attempt in progress(every, _("Checking the records")) if attempt.fault is None]
    if left := len(every) - len(sound):
        text = ngettext(
            "{n} attempt does not hold and was left out: 'trainer verify' says why.",
            "{n} attempts do not hold and were left out: 'trainer verify' says why.",
            left,
        )
        say(text.format(n=left))
    return sound


def said_attempts(store: Store) -> list[Attempt]:
    """Return of the sound ones those of which may be said how they went, and say how many assessments are open."""
    sound = sound_attempts(store)
    found = [attempt for attempt in sound if not attempt.silent]
    if left := len(sound) - len(found):
        text = ngettext(
            "{n} assessment is not closed yet and was left out. What was found in it is shown after the close.",
            "{n} assessments are not closed yet and were left out. What was found in them is shown after the close.",
            left,
        )
        say(text.format(n=left))
    return found


def proved(store: Store, attempts: Sequence[Attempt], data: Path | None) -> list[Proved]:
    """Return attempts judged again, as far as that was not done before; several processes for many.

    What was not checked yet, such as an outline, is left out where it turns out not to hold.
    """
    from trainer.records.proof import Proofs, Proved, packed_proofs
    from trainer.records.regrade import pack_up

    kept = Proofs(folder_of(data))
    known = kept.known(attempts)
    due = [each for each in {each.head: each for each in attempts}.values() if each.head not in known]
    for n in range(0, len(due), AT_ONCE):
        waiting = {each.head: pack_up(whole(store, each)) for each in due[n : n + AT_ONCE]}
        found = in_processes(packed_proofs, [*waiting.values()], _("Judging again"))
        new = [(head, looked) for head, looked in zip(waiting, found, strict=True) if looked is not None]
        kept.keep(new)
        known.update(new)
    return [Proved(each.entries, each.seals, *known[each.head]) for each in attempts if each.head in known]


def whole(store: Store, outline: Attempt) -> Attempt:
    """Return an attempt with all that is recorded of it, for an outline."""
    return next(each for each in store.attempts(outline.id) if each.head == outline.head)


def in_processes(
    work: Callable[[bytes], T], packed: Sequence[bytes], doing: str, processes: int | None = None
) -> list[T]:
    """Do the same with each of many packed attempts, in several processes where there are many."""
    count = processes or (1 if len(packed) <= FEW else os.cpu_count() or 1)
    if count == 1:
        return [work(each) for each in progress(packed, doing)]
    from concurrent.futures import ProcessPoolExecutor

    with ProcessPoolExecutor(count) as pool:
        found = pool.map(work, packed, chunksize=max(1, len(packed) // (8 * count)))
        return list(progress(found, doing, len(packed)))


def attempts_counted(n: int) -> str:
    """Return how many attempts there are, in words."""
    return ngettext("{n} attempt", "{n} attempts", n).format(n=n)


def entries_counted(n: int) -> str:
    """Return how many entries there are, in words."""
    return ngettext("{n} entry", "{n} entries", n).format(n=n)


def outlines(store: Store) -> list[Attempt]:
    """Return all attempts in outline, where that is enough."""
    return _in_time(store.outlines())


def _in_time(attempts: Iterable[Attempt]) -> list[Attempt]:
    return sorted(attempts, key=lambda each: (each.began, each.id, each.head))


def right_code(code: str) -> None:
    """Stop at a code name that is none."""
    from trainer.records.entries import is_code

    if not is_code(code):
        wrong_call(
            _("'{code}' is no code name: use letters, figures, - and _, 40 at most, and no real name.").format(
                code=code[:40]
            )
        )
