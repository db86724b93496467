"""``trainer class``: a whole class on one stick, and who of it is back."""

from __future__ import annotations

import secrets
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trainer.cli.data import PassphraseFile, private_key, records_explained
from trainer.cli.given import file_bytes, say, show, wrong_call
from trainer.cli.options import argument, option
from trainer.cli.pack import HOUR, Asked, Hours, Levels, Minutes, OwnSeeds, Questions, Seed, Title, ToMeet
from trainer.cli.questions import Topics
from trainer.cli.results import results_in
from trainer.cli.table import table
from trainer.records.clock import now
from trainer.words import _, ngettext

if TYPE_CHECKING:
    from trainer.records.stick import Place

Folder = Annotated[Path, argument("FOLDER", "The folder that goes to the seats, such as one on a stick.")]
Codes = Annotated[
    Path | None,
    option("--codes", "FILE", "Code names, one a row; extra minutes and minutes of breaks may stand beside them."),
]
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
    hours: Hours = 12,
    passphrase_file: PassphraseFile = None,
) -> None:
    """Put a whole class into one folder, or say who of it is back.

    With --codes and --key it makes the pack, a ticket for each code name, and a place for the results, all in FOLDER:
    take it from seat to seat. With FOLDER alone it lists who has a ticket, and whose result is there.
    """
    if codes is None and key is None and not levels and not questions:
        _list(folder)
        return
    if codes is None or key is None:
        wrong_call(_("Give the code names with --codes and your key with --key; or FOLDER alone, to see who is back."))
    from trainer.records.stick import RESULTS, read_candidates, tickets_for, write_class

    asked = Asked(levels or [], questions, topics, title, minutes, practice_mark, seed, own_seeds)
    texts = asked.texts()
    with records_explained():
        candidates = read_candidates(file_bytes(codes), str(codes))
        signer = private_key(key, passphrase_file)
        pack, at = asked.made(signer, texts), now()
        nonces = [secrets.token_hex(16) for _each in candidates]
        tickets = tickets_for(signer, pack, candidates, nonces, at, at + hours * HOUR)
        write_class(folder, signer, key.stem, [(pack, tickets)])
        _make(folder / RESULTS)
    n = len(candidates)
    text = ngettext("Wrote {folder}: {n} ticket; {parts}.", "Wrote {folder}: {n} tickets; {parts}.", n)
    say(text.format(folder=folder, n=n, parts=asked.in_words()))


def _make(folder: Path) -> None:
    from trainer.records.files import not_written

    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise not_written(folder, error) from error


def _list(folder: Path) -> None:
    from trainer.records.stick import RESULTS, places

    troubles: list[str] = []
    results = folder / RESULTS
    found = [each.attempt for each in results_in([results], troubles)] if any(results.glob("**/*.json")) else []
    rows = places(folder, found)
    if not rows:
        wrong_call(_("{folder}: no tickets lie in it. Make it with --codes and --key.").format(folder=folder))
    show(table((_("code"), _("pack"), _("result"), _("code at the close")), [_row(each) for each in rows]))
    for trouble in troubles:
        say(trouble)
    if troubles:
        raise typer.Exit(1)


def _row(place: Place) -> tuple[str, ...]:
    if not place.sat:
        return place.code, place.title, _("ticket given, result missing"), ""
    last = place.sat[-1]
    result = _("closed") if last.closed else _("not closed")
    if len(place.sat) > 1:
        n = len(place.sat)
        result = ngettext("{n} result of one ticket", "{n} results of one ticket", n).format(n=n)
    return place.code, place.title, result, last.head_code if last.closed else ""
