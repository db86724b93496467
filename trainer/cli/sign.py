"""``trainer sign``: an assessor's signature under results whose codes they wrote down."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from trainer.cli.data import (
    Assessors,
    DataFolder,
    KeyFile,
    PassphraseFile,
    private_key,
    records_explained,
    trusted_keys,
)
from trainer.cli.given import faults_explained, faulty, file_bytes, say, wrong_call
from trainer.cli.options import option
from trainer.cli.questions import the_bank
from trainer.cli.results import ResultFiles, beside, results_in
from trainer.records.clock import now
from trainer.words import _, listed

if TYPE_CHECKING:
    from trainer.cli.results import Given
    from trainer.records.keys import PrivateKey

Written = Annotated[str | None, option("--code", "CODE", "The code that you wrote down at the close of one.")]
Table = Annotated[
    Path | None, option("--codes", "FILE", "A table: a code name a row, the code that you wrote down beside it.")
]


def sign(
    files: ResultFiles,
    key: KeyFile,
    code: Written = None,
    codes: Table = None,
    passphrase_file: PassphraseFile = None,
    assessor: Assessors = None,
    data: DataFolder = None,
) -> None:
    """Counter-sign results whose codes you wrote down.

    Do it only for sittings that you watched. The signature goes into each file; nothing else of it changes. A file
    whose code is not the one you wrote down, or whose ticket or pack neither you nor an assessor known here signed, is
    named and left as it was.
    """
    from trainer.records.keys import public_hex

    if (code is None) == (codes is None):
        wrong_call(_("Give the code of one result with --code, or a table of code names and codes with --codes."))
    troubles: list[str] = []
    given = list(results_in(files, troubles))
    if code is not None and len(given) + len(troubles) > 1:
        wrong_call(_("One code is that of one result. Give a table of code names and codes with --codes."))
    written = {given[0].attempt.code: [code]} if code is not None and given else _table(codes)
    if given:
        signer = private_key(key, passphrase_file)
        known = {**trusted_keys(data, assessor), public_hex(signer): key.stem}
        _signed([*_may_be_signed(given, written, known, troubles)], [*given, *beside(given)], signer, known)
    missing = sorted(written.keys() - {each.attempt.code for each in given})
    if missing:
        troubles.append(_("No result of {codes} is there.").format(codes=listed(missing)))
    if troubles:
        faulty("\n".join(troubles))


def _table(path: Path | None) -> dict[str, list[str]]:
    from trainer.records.stick import read_closing_codes

    if path is None:
        return {}
    with faults_explained():
        return read_closing_codes(file_bytes(path), str(path))


def _may_be_signed(
    given: Sequence[Given], written: Mapping[str, Sequence[str]], known: dict[str, str], troubles: list[str]
) -> Iterator[Given]:
    """Yield the results that may be signed; why the others may not goes to ``troubles``."""
    from trainer.records.countersign import pack_is_missing, why_not_signed
    from trainer.records.stick import packs_of

    packs = packs_of(each.file for each in given)
    bank = the_bank() if any(pack.paper for pack in packs.values()) else ()
    for each in given:
        if why := why_not_signed(each.attempt, written, known, packs, bank):
            troubles.append(_("{file}: {why}. It was not signed.").format(file=each.file, why=why))
        else:
            if missing := pack_is_missing(each.attempt, packs):
                say(_("{file}: {text}").format(file=each.file, text=missing))
            yield each


def _signed(due: Sequence[Given], among: Sequence[Given], signer: PrivateKey, known: dict[str, str]) -> None:
    from trainer.records.attempt import Attempt
    from trainer.records.countersign import assessors_seal
    from trainer.records.files import write_whole
    from trainer.records.record_file import write_record
    from trainer.records.remarks import remarks, seen_together
    from trainer.records.trust import rank_by

    with records_explained():
        together = seen_together({each.attempt.head: each.attempt for each in among}.values(), now(), rank_by(known))
        for each in due:
            attempt, seal = each.attempt, assessors_seal(each.attempt, signer, now())
            if seal is None:
                say(_("{file}: signed already.").format(file=each.file))
                continue
            for text in (*remarks(attempt), *filter(None, [together.get(attempt.id)])):
                say(_("{file}: {text}").format(file=each.file, text=text))
            write_whole(each.file, write_record(Attempt(attempt.entries, (*attempt.seals, seal))))
            say(_("Signed {file}.").format(file=each.file))
