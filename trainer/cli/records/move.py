"""``trainer records collect``, ``export``, ``backup`` and ``save-what-holds``: records in and out."""

from __future__ import annotations

import json
import os
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from enum import StrEnum
from functools import partial
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trainer.cli.data import (
    Assessors,
    DataFolder,
    attempts_counted,
    entries_counted,
    every_attempt,
    folder_of,
    outlines,
    proved,
    records_explained,
    said_attempts,
    stored,
    trusted_keys,
)
from trainer.cli.given import faulty, say, show, wrong_call
from trainer.cli.options import argument, option, out_option
from trainer.cli.progress import progress
from trainer.cli.records.look import OfCode
from trainer.records.clock import moment, now
from trainer.words import _, listed, ngettext

if TYPE_CHECKING:
    from trainer.records.attempt import Attempt
    from trainer.records.proof import Looked, Proofs, Proved
    from trainer.records.store import Store


class Form(StrEnum):
    """What records are exported as."""

    files = "files"
    csv = "csv"
    lines = "lines"
    xapi = "xapi"


Folders = Annotated[list[Path], argument("FOLDER...", "Folders to look through, or single files.")]
As = Annotated[Form, typer.Option("--as", help="One file an attempt, a table, JSON lines, or xAPI 1.0.3 statements.")]
Out = Annotated[Path, out_option("PATH", "The file to write; for 'files' a folder.")]
Home = Annotated[str, option("--home", "IRI", "Your college's own address for xAPI; none of ours by default.")]
NewFile = Annotated[Path, argument("FILE", "The new file to write.")]
Damaged = Annotated[Path, argument("FILE", "The damaged store (records.db).")]
ENDINGS = (".attempt.json", ".jsonl", ".db")
READING = _("Reading")
BATCH = 100
FEW = 16
"""Files that are read and judged sooner than other processes start."""
Found = tuple["Attempt", "Looked | None"]
"""An attempt that was read, and what a look at it showed where one was taken."""


def collect(folders: Folders, data: DataFolder = None) -> None:
    """Bring the records of many seats together.

    Takes result files, JSON lines and whole stores, from any depth. In whatever order and however often they come,
    the outcome is the same. A file that does not hold is named and left out; everything else is taken.
    """
    from trainer.records.collect import conflicts
    from trainer.records.proof import Proofs

    troubles: list[str] = []
    fates: Counter[str] = Counter()
    new: set[bytes] = set()
    with stored(data, write=True) as store:
        kept = Proofs(folder_of(data))
        checked = kept.heads()
        paths = list(_files(folders, store.path))
        unread = [path for path in paths if not _unchanged(store, path, checked)]
        fates["known"] = len(paths) - len(unread)
        for batch in _batches(_found(unread, checked, troubles)):
            fates.update(_taken(store, batch, kept, troubles, new))
        clashes = conflicts(store)
        seen = list(_worth_a_look(proved(store, outlines(store), data), new, trusted_keys(data, None)))
    said = {
        "new": _("new"), "known": _("here already"), "signed": _("newly signed"), "longer": _("longer than before"),
        "conflict": _("in conflict"),
        "erased": _("left out, since the person was erased here"),
        "other": _("left out, since its id is another's"),
    }  # fmt: skip
    show("; ".join(f"{fates[fate]} {words}" for fate, words in said.items() if fates[fate]) or _("Nothing found."))
    for ends in clashes:
        codes = listed([end.head_code for end in ends])
        say(
            _("Conflict: attempt {id} of {code} has several ends, with the codes {codes}. All are kept.").format(
                id=ends[0].id, code=ends[0].code, codes=codes
            )
        )
    for text in seen:
        say(text)
    if troubles:
        faulty("\n".join(troubles))


def _unchanged(store: Store, path: Path, checked: frozenset[bytes]) -> bool:
    """Whether a file says just what is here already; one that can't be read is left to those who say why."""
    from trainer.records.collect import is_here
    from trainer.records.record_file import MOST_BYTES, SUFFIX

    if not checked or not path.name.endswith(SUFFIX):
        return False
    try:
        with path.open("rb") as file:
            return is_here(store, file.read(MOST_BYTES + 1), checked)
    except OSError:
        return False


def _batches(attempts: Iterable[Found]) -> Iterator[list[Found]]:
    """So many at once as one change of the store takes."""
    waiting = iter(attempts)
    while batch := list(islice(waiting, BATCH)):
        yield batch


def _taken(store: Store, batch: list[Found], kept: Proofs, troubles: list[str], new: set[bytes]) -> Iterator[str]:
    """Take attempts in; yield what came of each, and say what was left out; what is ``new`` goes there by its head.

    What a look at them showed is ``kept``, of those that are here now.
    """
    from trainer.records.collect import take_in

    taken = take_in(store, (attempt for attempt, _looked in batch))
    stays = [each.fate not in ("other", "erased") for each in taken]
    kept.keep([(a.head, looked) for (a, looked), here in zip(batch, stays, strict=True) if here and looked])
    for each in taken:
        if each.fate == "other":
            text = _("Attempt {id} of {code} was left out: its id is here already, under the code name {other}. ")
            more = _("One of the two is false. 'trainer records erase {other}' makes room for this one.")
            troubles.append((text + more).format(id=each.attempt.id, code=each.attempt.code, other=each.under))
        elif each.fate not in ("known", "erased"):
            new.add(each.attempt.head)
        yield each.fate


def _worth_a_look(every: Sequence[Proved], new: set[bytes], trusted: dict[str, str]) -> Iterator[str]:
    """What is to be said of what came in just now, and of all that only shows where all are looked at."""
    from trainer.records.remarks import seen_together
    from trainer.records.trust import rank_by
    from trainer.records.verify import cut_off

    together = seen_together(every, now(), rank_by(trusted))
    for each in every:
        alone = (*filter(None, [cut_off(each)]), *each.doubts, *each.remarks) if each.head in new else ()
        for text in (*alone, *filter(None, [together.get(each.id)])):
            yield remarked(each, text)


def remarked(attempt: Attempt, text: str) -> str:
    """Return what is to be said of an attempt, with whose it is and when it was begun."""
    return _("{code}, begun {when}: {text}").format(code=attempt.code, when=moment(attempt.began), text=text)


def export(
    output: Out,
    as_: As = Form.files,
    code: OfCode = None,
    home: Home = "",
    data: DataFolder = None,
    assessor: Assessors = None,
) -> None:
    """Write records out: files, a table, lines or xAPI.

    Code names only; the names behind them never leave the store. An assessment is left out until it is closed.
    """
    from trainer.records.files import write_whole
    from trainer.records.gradebook import tries
    from trainer.records.record_file import file_name, write_record
    from trainer.records.remarks import seen_together
    from trainer.records.tables import as_csv, as_lines
    from trainer.records.trust import rank_by, trust_and_why
    from trainer.records.xapi import BASE, statements

    trusted = trusted_keys(data, assessor)
    with stored(data) as store:
        beside = proved(store, said_attempts(store), data)
        every = [each for each in beside if code is None or each.code == code]
        match as_:
            case Form.files:
                for attempt in every:
                    write_whole(output / file_name(attempt), write_record(attempt))
            case Form.csv:
                rows = ((attempt, *trust_and_why(attempt, trusted)) for attempt in every)
                table = as_csv(rows, seen_together(beside, now(), rank_by(trusted)))
                write_whole(output, table.encode("utf-8"))
            case Form.lines:
                write_whole(output, b"".join(as_lines(every, rank_by(trusted))))
            case Form.xapi:
                base = home.rstrip("/") + "/" if home else BASE
                times = tries(every, rank_by(trusted))
                said = [
                    each
                    for one in every
                    for each in statements(
                        one, base, trust_and_why(one, trusted)[0], [times[one.head, n] for n in range(len(one.houses))]
                    )
                ]
                write_whole(output, json.dumps(said, ensure_ascii=False).encode("utf-8"))
    say(_("Wrote {output}: {attempts}.").format(output=output, attempts=attempts_counted(len(every))))


def backup(file: NewFile, data: DataFolder = None) -> None:
    """Copy the whole store and look the copy over.

    The copy holds names too, since it must be able to stand in for the store: keep it as carefully.
    """
    from trainer.records.keeping import back_up

    with stored(data) as store:
        health = back_up(store, file)
    say(
        _("Wrote {file}: {attempts}, {entries}.").format(
            file=file, attempts=attempts_counted(health.attempts), entries=entries_counted(health.entries)
        )
    )
    if health.troubles:
        faulty("\n".join([_("The copy is exact, and this does not hold in it:"), *health.troubles]))


def save_what_holds(file: Damaged, output: Out) -> None:
    """Write what still holds of a damaged store to a new one.

    The damaged file is only read. Put the new one in its place yourself, once you have kept the old one.
    """
    from trainer.records.keeping import save_what_holds as save

    if not file.is_file():
        wrong_call(_("{file}: no such file.").format(file=file))
    with records_explained():
        saved = save(file, output)
    say(
        _("Wrote {output}: {entries}; {whole} to their close, {cut} without one.").format(
            output=output, entries=entries_counted(saved.entries), whole=attempts_counted(saved.whole), cut=saved.cut
        )
    )
    say(
        ngettext(
            "{n} more entry could be read, and does not hold.",
            "{n} more entries could be read, and do not hold.",
            saved.lost,
        ).format(n=saved.lost)
        if saved.lost
        else _("Nothing read was left out.")
    )


def _files(folders: list[Path], ours: Path) -> Iterator[Path]:
    """Every file to take in, but our own store and what was judged before, in an order that gives nothing away."""
    from trainer.records.proof import FILE

    for folder in folders:
        if folder.is_file():
            yield folder
        elif folder.is_dir():
            found = (path for path in sorted(folder.rglob("*")) if path.name.endswith(ENDINGS) and path.is_file())
            yield from (path for path in found if path.name != FILE and path.resolve() != ours.resolve())
        else:
            wrong_call(_("{folder}: no such file or folder.").format(folder=folder))


def _found(paths: list[Path], checked: frozenset[bytes], troubles: list[str]) -> Iterator[Found]:
    """Read and judge every attempt, in several processes where there are many; what does not hold: ``troubles``."""
    processes, read = os.cpu_count() or 1, partial(attempts_in, checked=checked)
    if len(paths) <= FEW or processes == 1:
        for attempts, bad in progress(map(read, paths), READING, len(paths)):
            troubles += bad
            yield from attempts
        return
    from concurrent.futures import ProcessPoolExecutor

    with ProcessPoolExecutor(processes) as pool:
        for attempts, bad in progress(pool.map(read, paths, chunksize=4), READING, len(paths)):
            troubles += bad
            yield from attempts


def _lines(path: Path, most: int) -> Iterator[bytes]:
    """The lines of a file; of one that is longer than any attempt only as much as shows that."""
    with path.open("rb") as file:
        while line := file.readline(most + 1):
            ended = line.endswith(b"\n")
            yield line.rstrip(b"\r\n")
            while not ended and (rest := file.readline(most)):
                ended = rest.endswith(b"\n")


def attempts_in(path: Path, checked: frozenset[bytes] = frozenset()) -> tuple[list[Found], list[str]]:
    """Return the attempts of one file that hold, and what is to be said of the others.

    A file of one attempt is judged in the same go, unless its last hash is among those ``checked``.
    """
    from trainer.read import Faulty
    from trainer.records.errors import RecordsError
    from trainer.records.keeping import lost_in
    from trainer.records.proof import looked_at
    from trainer.records.record_file import MOST_BYTES, read_record
    from trainer.records.store import Store

    found: list[Found] = []
    troubles: list[str] = []
    try:
        if path.suffix == ".db":
            with Store.read(path) as store:
                every = every_attempt(store)
                if lost := lost_in(store, every):
                    troubles.append(f"{path}: {lost}.")
            found += ((attempt, None) for attempt in every if attempt.fault is None)
            broken = [attempt for attempt in every if attempt.fault is not None]
            troubles += [
                _("{path}: attempt {id} does not hold; it was left out.").format(path=path, id=attempt.id)
                for attempt in broken
            ]
        elif path.suffix == ".jsonl":
            for n, line in enumerate(_lines(path, MOST_BYTES), 1):
                try:
                    read = read_record(line, _("{path}, attempt {n}").format(path=path, n=n))
                    found.append((read.attempt, None))
                except (Faulty, RecordsError) as error:  # the lines after it are none the worse
                    troubles.append(str(error))
        else:
            with path.open("rb") as file:
                attempt = read_record(file.read(MOST_BYTES + 1), str(path)).attempt
            found.append((attempt, None if attempt.head in checked else looked_at(attempt)))
    except (Faulty, RecordsError) as error:
        troubles.append(str(error))
    except OSError as error:
        troubles.append(_("{path}: can't be read: {why}.").format(path=path, why=error.strerror or error))
    return found, troubles
