"""``trainer verify``: what holds of results."""

from __future__ import annotations

import json
from dataclasses import dataclass
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
    given_pack,
    records_explained,
    trusted_keys,
)
from trainer.cli.given import AsJson, say, show, wrong_call
from trainer.cli.options import argument, option
from trainer.cli.progress import progress
from trainer.cli.questions import the_bank
from trainer.cli.results import Given, beside, result_paths, results_in
from trainer.words import _

if TYPE_CHECKING:
    from trainer.records.attempt import Attempt
    from trainer.records.pack import AssessmentPack
    from trainer.records.verify import Said

ResultArguments = Annotated[
    list[Path], argument("FILE...", "Result files (.attempt.json), folders of them, or stores (.db).")
]
PackFile = Annotated[Path | None, option("--pack", "PACK", "The pack that was sat.")]
Written = Annotated[str | None, option("--code", "CODE", "The code written down at the close.")]


@dataclass(frozen=True)
class Examined:
    """What is found of one attempt, or under an empty name of a whole store."""

    said: list[Said]
    file: Path
    attempt: Attempt | None = None
    trust: str = ""


SIGNS = {"holds": "holds  ", "fails": "FAILS  ", "unknown": "unknown"}


def verify(
    files: ResultArguments,
    code: Written = None,
    pack: PackFile = None,
    assessor: Assessors = None,
    data: DataFolder = None,
    as_json: AsJson = False,
) -> None:
    """Say what holds of results, and what can't be known.

    Checks the chain, the signatures and the ticket, and judges every house again. A sitting is held against its pack
    too, its answers as well: that of --pack, or the one that lies in the folder of its class. Leaves with 1 if anything
    fails.
    """
    from trainer.records.seat import own_seat
    from trainer.records.stick import packs_of

    stores, results = [file for file in files if file.suffix == ".db"], [file for file in files if file.suffix != ".db"]
    paths = result_paths(results)
    if code is not None and (stores or len(paths) > 1):
        wrong_call(_("A code is that of one attempt. Give its result file with --code, not the store."))
    trusted, own = trusted_keys(data, assessor), own_seat(folder_of(data))
    of = None if pack is None else given_pack(pack)
    troubles: list[str] = []
    given = list(results_in(paths, troubles))
    packs = packs_of(each.file for each in given) if of is None else {}
    examined = [
        _of_file(each, trusted, packs.get(str(each.attempt.opening.get("pack")), of), code, own)
        for each in progress(given, JUDGING)
    ]
    for store in stores:
        examined += _of_store(store, trusted, of, own)
    _across(examined, [each.attempt for each in beside(given)], trusted)
    fails = bool(troubles) or any(said.state == "fails" for each in examined for said in each.said)
    if as_json:
        names = [*map(str, files)]
        head = {"file": names[0] if len(names) == 1 else None, "files": names, "holds": not fails, "faults": troubles}
        show(json.dumps({**head, "attempts": [*map(_for_programs, examined)]}))
    elif examined:
        show(_for_people(examined))
    if troubles:
        say("\n".join(troubles))
    raise typer.Exit(1 if fails else 0)


JUDGING = _("Judging again")


def _across(examined: list[Examined], others: list[Attempt], trusted: dict[str, str]) -> None:
    """Say what only shows where several attempts are looked at together, with the ``others`` that lie beside them."""
    from trainer.records.clock import now
    from trainer.records.remarks import seen_together
    from trainer.records.trust import rank_by
    from trainer.records.verify import Said

    every = {each.head: each for each in (*(each.attempt for each in examined if each.attempt), *others)}
    twice = seen_together(every.values(), now(), rank_by(trusted))
    for each in examined:
        if each.attempt is not None and each.attempt.id in twice:
            each.said.append(Said("noticed", twice[each.attempt.id]))


def _of_file(
    given: Given, trusted: dict[str, str], pack: AssessmentPack | None, code: str | None, own: str
) -> Examined:
    from trainer.records.verify import Said

    examined = _examined(given.file, given.attempt, trusted, pack, code, own)
    if not given.untouched:
        text = _("Another program set the file's text out anew. What is recorded in it is unchanged.")
        examined.said.append(Said("unknown", text))
    return examined


def _of_store(file: Path, trusted: dict[str, str], pack: AssessmentPack | None, own: str) -> list[Examined]:
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
    each = [_examined(file, one, trusted, of_pack.get(one.id), None, own) for one in progress(every, JUDGING)]
    if pack is not None and not sittings:
        said.append(Said("unknown", _("No attempt in it is a sitting of the pack '{title}'.").format(title=pack.title)))
    return [Examined(said, file), *each]


def _examined(
    file: Path, attempt: Attempt, trusted: dict[str, str], pack: AssessmentPack | None, code: str | None, own: str
) -> Examined:
    from trainer.records.proof import prove
    from trainer.records.trust import examine_sitting, trust_of
    from trainer.records.verify import examine, examine_marks

    said = list(examine(attempt, trusted, code, own))
    if attempt.fault is None:
        bank = the_bank() if pack is not None and pack.paper is not None else ()
        said += [*examine_marks(attempt), *examine_sitting(attempt, trusted, pack, bank)]
    fails = attempt.fault is not None or any(each.state == "fails" for each in said)
    trust = "self-study" if fails else trust_of(prove(attempt), trusted)
    return Examined(said, file, attempt, trust)


def _for_programs(each: Examined) -> dict[str, object]:
    one = each.attempt
    names = {
        "attempt": one.id if one else "", "code": one.code if one else "", "trust": each.trust,
        "head_code": one.head_code if one else "", "file": str(each.file),
    }  # fmt: skip
    return {**names, "said": [{"state": said.state, "text": said.text} for said in each.said]}


def _for_people(examined: list[Examined]) -> str:
    from trainer.records.verify import LIMITS

    parts = []
    for each in examined:
        text = _("{code}, attempt {attempt}: {trust}") if each.attempt else _("The store")
        one = each.attempt
        # What fails gets no label: who reads only the first line is not to take it for good.
        trust = _("DOES NOT HOLD") if any(said.state == "fails" for said in each.said) else each.trust
        head = text.format(code=one.code if one else "", attempt=one.id if one else "", trust=trust)
        lines = [f"  {SIGNS[said.state]}  {said.text}" for said in each.said if said.state in SIGNS]
        noticed = [f"    {said.text}" for said in each.said if said.state not in SIGNS]
        signed = one is not None and any(seal.role == "assessor" for seal in one.seals)
        worth = _("  Worth a look, though it is signed:") if signed else _("  Worth a look before anything is signed:")
        parts.append("\n".join([head, *lines, *([worth] if noticed else []), *noticed]))
    limits = "\n".join([_("What no record from such a machine can show:"), *(f"  {limit}" for limit in LIMITS)])
    return "\n\n".join([*parts, limits])
