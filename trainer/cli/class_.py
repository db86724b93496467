"""``trainer class``: a whole class on one stick, and who of it is back."""

from __future__ import annotations

import secrets
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trainer.cli.data import Assessors, DataFolder, PassphraseFile, private_key, records_explained, trusted_keys
from trainer.cli.given import file_bytes, say, show, wrong_call
from trainer.cli.options import argument, option
from trainer.cli.pack import HOUR, Asked, Hours, Levels, Minutes, OwnSeeds, Questions, Seed, Title, ToMeet
from trainer.cli.questions import Topics
from trainer.cli.results import results_in
from trainer.cli.table import table
from trainer.records.clock import now
from trainer.words import _, listed, ngettext

if TYPE_CHECKING:
    from trainer.records.pack import AssessmentPack, Ticket
    from trainer.records.stick import Candidate

Folder = Annotated[Path, argument("FOLDER", "The folder that goes to the seats, such as one on a stick.")]
Codes = Annotated[
    Path | None,
    option("--codes", "FILE", "Code names, one a row; extra minutes and minutes of breaks may stand beside them."),
]
NewHouse = Annotated[
    str | None,
    option("--new-house", "SHAPE", "A new house for each candidate, as much work for everybody: such as gable or l."),
]
Hard = Annotated[int, typer.Option("--difficulty", min=1, max=10, help="How hard the new houses are, from 1 to 10.")]
KeyFile = Annotated[Path | None, option("--key", "FILE", "The assessor's private key (.pem).")]


def class_(
    folder: Folder,
    levels: Levels = None,
    codes: Codes = None,
    key: KeyFile = None,
    questions: Questions = 0,
    topics: Topics = None,
    title: Title = "Assessment",
    minutes: Minutes = None,
    practice_mark: ToMeet = None,
    seed: Seed = None,
    own_seeds: OwnSeeds = False,
    new_house: NewHouse = None,
    difficulty: Hard = 5,
    hours: Hours = 12,
    passphrase_file: PassphraseFile = None,
    assessor: Assessors = None,
    data: DataFolder = None,
) -> None:
    """Put a whole class into one folder, or say who of it is back.

    With --codes and --key it makes the pack, a ticket for each code name, and a place for the results, all in FOLDER:
    take it from seat to seat. With --new-house nobody can copy: each gets a house of their own, of the same shape,
    kinds and faults, with other measures. With FOLDER alone it lists who has a ticket, and whose result is there; with
    --codes beside it, also of whom neither is there.
    """
    if key is None and not levels and not questions and not new_house:
        _list(folder, codes, trusted_keys(data, assessor))
        return
    if codes is None or key is None:
        wrong_call(_("Give the code names with --codes and your key with --key; or FOLDER alone, to see who is back."))
    from trainer.records.stick import RESULTS, read_candidates, tickets_for, write_class

    asked = Asked(
        levels or [], questions, topics, title, minutes, practice_mark, seed, own_seeds, family=new_house is not None
    )
    texts = asked.texts()
    with records_explained():
        candidates = read_candidates(file_bytes(codes), str(codes))
        own = _own_houses(seed, difficulty, new_house, len(candidates)) if new_house else None
        signer, at = private_key(key, passphrase_file), now()

        def handed(sat: list[str], who: Sequence[Candidate]) -> tuple[AssessmentPack, tuple[Ticket, ...]]:
            pack, nonces = asked.made(signer, sat), [secrets.token_hex(16) for _each in who]
            return pack, tickets_for(signer, pack, who, nonces, at, at + hours * HOUR)

        each = zip(own or (), candidates, strict=False)
        made = [handed([*texts, house], [who]) for house, who in each] if own else [handed(texts, candidates)]
        write_class(folder, signer, key.stem, made)
        _make(folder / RESULTS)
    n = len(candidates)
    text = ngettext("Wrote {folder}: {n} ticket; {parts}.", "Wrote {folder}: {n} tickets; {parts}.", n)
    say(text.format(folder=folder, n=n, parts=asked.in_words()))


def _own_houses(seed: int | None, difficulty: int, shape: str, count: int) -> list[str]:
    """The texts of as many new houses of one family."""
    from trainer.generate import CannotMake, make_family
    from trainer.level import write_level

    drawn = secrets.randbelow(2**48) if seed is None else seed
    try:
        return [write_level(level) for level in make_family(drawn, difficulty, shape, count)]
    except CannotMake as why:
        wrong_call(_("The houses can't be made: {why}.").format(why=why))


def _make(folder: Path) -> None:
    from trainer.records.files import not_written

    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise not_written(folder, error) from error


def _list(folder: Path, codes: Path | None, known: dict[str, str]) -> None:
    from trainer.records.countersign import standing
    from trainer.records.stick import RESULTS, places, read_candidates

    troubles: list[str] = []
    results = folder / RESULTS
    found = [each.attempt for each in results_in([results], troubles)] if any(results.glob("**/*.json")) else []
    rows = places(folder, found, troubles)
    if not rows and not troubles:
        wrong_call(_("{folder}: no tickets lie in it. Make it with --codes and --key.").format(folder=folder))
    # The code at the close is not shown: what the file says of itself would vouch for any file.
    lines = [(each.code, each.title or _("missing or damaged"), standing(each, known)) for each in rows]
    show(table((_("code"), _("pack"), _("result")), lines))
    if codes is not None:
        with records_explained():
            named = [each.code for each in read_candidates(file_bytes(codes), str(codes))]
        if gone := [code for code in named if code not in {each.code for each in rows}]:
            troubles.append(
                _("No ticket and no result of {codes} is in {folder}.").format(codes=listed(gone), folder=folder)
            )
    for trouble in troubles:
        say(trouble)
    if troubles:
        raise typer.Exit(1)
