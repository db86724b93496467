"""``trainer verify`` and ``trainer sign``: what holds of a result, and an assessor's signature under it."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trainer.cli.data import (
    Assessors,
    DataFolder,
    KeyFile,
    PassphraseFile,
    attempts_counted,
    entries_counted,
    every_attempt,
    given_pack,
    private_key,
    records_explained,
    trusted_keys,
)
from trainer.cli.given import AsJson, faulty, file_bytes, say, wrong_call
from trainer.cli.options import argument, option
from trainer.cli.progress import progress
from trainer.cli.questions import the_bank
from trainer.records.clock import now
from trainer.words import _

if TYPE_CHECKING:
    from trainer.records.attempt import Attempt
    from trainer.records.pack import AssessmentPack
    from trainer.records.verify import Said

ResultArgument = Annotated[Path, argument("FILE", "A result file (.attempt.json), or a store (.db).")]
ResultFile = Annotated[Path, argument("FILE", "A result file (.attempt.json).")]
PackFile = Annotated[Path | None, option("--pack", "PACK", "The pack that was sat.")]
Written = Annotated[str | None, option("--code", "CODE", "The code written down at the close.")]
MustWritten = Annotated[str, option("--code", "CODE", "The code that you wrote down at the close.")]


@dataclass(frozen=True)
class Examined:
    """What is found of one attempt, or under an empty name of a whole store."""

    said: list[Said]
    attempt: str = ""
    code: str = ""
    trust: str = ""
    head_code: str = ""


SIGNS = {"holds": "holds  ", "fails": "FAILS  ", "unknown": "unknown"}


def verify(
    file: ResultArgument,
    code: Written = None,
    pack: PackFile = None,
    assessor: Assessors = None,
    data: DataFolder = None,
    as_json: AsJson = False,
) -> None:
    """Say what holds of a result, and what can't be known.

    Checks the chain, the signatures and the ticket, and judges every house again. With --pack, a sitting of that
    pack is held against it too, its answers as well; of a store, every sitting of it. Leaves with 1 if anything fails.
    """
    trusted = trusted_keys(data, assessor)
    given = None if pack is None else given_pack(pack)
    if file.suffix != ".db":
        examined = _of_file(file, trusted, given, code)
    elif code is None:
        examined = _of_store(file, trusted, given)
    else:
        wrong_call(_("A code is that of one attempt. Give its result file with --code, not the store."))
    fails = any(said.state == "fails" for each in examined for said in each.said)
    if as_json:
        typer.echo(json.dumps({"file": str(file), "holds": not fails, "attempts": [*map(_for_programs, examined)]}))
    else:
        typer.echo(_for_people(examined))
    raise typer.Exit(1 if fails else 0)


def sign(
    file: ResultFile,
    code: MustWritten,
    key: KeyFile,
    passphrase_file: PassphraseFile = None,
) -> None:
    """Counter-sign a result whose code you wrote down.

    Do it only for a sitting that you watched. The signature goes into the file; nothing else of it changes.
    """
    from trainer.records.attempt import Attempt
    from trainer.records.chain import same_code
    from trainer.records.files import write_whole
    from trainer.records.proof import proofs_of
    from trainer.records.record_file import write_record
    from trainer.records.seal import seal

    attempt = given_result(file)[0]
    if not attempt.closed:
        faulty(_("{file}: this attempt was never closed, so there is no end to sign.").format(file=file))
    if not same_code(code, attempt.head_code):
        faulty(
            _("{file}: its code is {head_code}, not the one you wrote down. It was not signed.").format(
                file=file, head_code=attempt.head_code
            )
        )
    if doubts := [proof.why for proof in proofs_of(attempt) if not proof.stands]:
        faulty(_("{file}: {why}. It was not signed.").format(file=file, why=doubts[0]))
    with records_explained():
        signer = private_key(key, passphrase_file)
        signed = seal(signer, "assessor", attempt.id, attempt.head, len(attempt.entries), now())
        write_whole(file, write_record(Attempt(attempt.entries, (*attempt.seals, signed))))
    say(_("Signed {file}.").format(file=file))


def given_result(file: Path) -> tuple[Attempt, bool]:
    """Read a result file; return the attempt, and whether the file is byte for byte as it was written."""
    from trainer.records.record_file import MOST_BYTES, read_record

    with records_explained():
        read = read_record(file_bytes(file, MOST_BYTES), str(file))
    return read.attempt, read.untouched


def _of_file(file: Path, trusted: dict[str, str], pack: AssessmentPack | None, code: str | None) -> list[Examined]:
    from trainer.records.verify import Said

    attempt, untouched = given_result(file)
    examined = _examined(attempt, trusted, pack, code)
    if not untouched:
        text = _("Another program set the file's text out anew. What is recorded in it is unchanged.")
        examined.said.append(Said("unknown", text))
    return [examined]


def _of_store(file: Path, trusted: dict[str, str], pack: AssessmentPack | None) -> list[Examined]:
    from trainer.records.keeping import look_over
    from trainer.records.store import Store
    from trainer.records.verify import Said

    with records_explained(), Store.read(file) as store:
        health = look_over(store)
        held = f"{attempts_counted(health.attempts)}, {entries_counted(health.entries)}"
        sound = Said("holds", _("The store is sound: {held}.").format(held=held))
        said = [Said("fails", trouble) for trouble in health.troubles] or [sound]
        every = every_attempt(store)
    # A store holds practice and sittings of other packs too; that they are not of this one is no fault of theirs.
    sittings = {attempt.id for attempt in every if pack is not None and attempt.opening.get("pack") == pack.signed.hash}
    of_pack = {attempt.id: pack for attempt in every if attempt.id in sittings}
    each = [_examined(one, trusted, of_pack.get(one.id), None) for one in progress(every, _("Judging again"))]
    if pack is not None and not sittings:
        said.append(Said("unknown", _("No attempt in it is a sitting of the pack '{title}'.").format(title=pack.title)))
    return [Examined(said), *each]


def _examined(attempt: Attempt, trusted: dict[str, str], pack: AssessmentPack | None, code: str | None) -> Examined:
    from trainer.records.proof import prove
    from trainer.records.trust import examine_sitting, trust_of
    from trainer.records.verify import examine, examine_marks

    said = list(examine(attempt, trusted, code))
    if attempt.fault is None:
        bank = the_bank() if pack is not None and pack.paper is not None else ()
        said += [*examine_marks(attempt), *examine_sitting(attempt, trusted, pack, bank)]
    trust = trust_of(prove(attempt), trusted) if attempt.fault is None else "self-study"
    return Examined(said, attempt.id, attempt.code, trust, attempt.head_code)


def _for_programs(each: Examined) -> dict[str, object]:
    names = {name: getattr(each, name) for name in ("attempt", "code", "trust", "head_code")}
    return {**names, "said": [{"state": said.state, "text": said.text} for said in each.said]}


def _for_people(examined: list[Examined]) -> str:
    from trainer.records.verify import LIMITS

    parts = []
    for each in examined:
        text = _("{code}, attempt {attempt}: {trust}") if each.attempt else _("The store")
        head = text.format(code=each.code, attempt=each.attempt, trust=each.trust)
        parts.append("\n".join([head, *(f"  {SIGNS[said.state]}  {said.text}" for said in each.said)]))
    limits = "\n".join([_("What no record from such a machine can show:"), *(f"  {limit}" for limit in LIMITS)])
    return "\n\n".join([*parts, limits])
