"""Says in plain words what of an attempt holds, what does not, and what can't be known from it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from trainer.quiz.judge import ROUNDING
from trainer.records.attempt import Attempt
from trainer.records.chain import JsonObject, same_code
from trainer.records.judging import Judged, judge_again, moved_on
from trainer.records.keys import fingerprint
from trainer.records.remarks import remarks
from trainer.records.seal import Seal
from trainer.words import _, ngettext

State = Literal["holds", "fails", "unknown", "noticed"]
"""Of what is said: good news, bad, what can't be known, and what happened on the way and is worth a look."""
Keys = Mapping[str, str]
"""Public keys that the reader trusts, each with the name it is known by."""

LIMITS = (
    _("It can't show who sat at the machine, unless somebody was there."),
    _("It can't show that the program was as we made it, or the clock right."),
    _("It can't show that no other attempt was thrown away."),
    _("It is for an assessor to consider. It says nothing of competency or of a licence."),
)
"""What no record from a machine that the trainee looks after can show. Stands under every result."""


@dataclass(frozen=True, slots=True)
class Said:
    """One sentence about an attempt, and what kind of news it is."""

    state: State
    text: str


def examine(attempt: Attempt, trusted: Keys, code: str | None = None, own: str = "") -> tuple[Said, ...]:
    """Return all that can be said; ``code`` is the head code that somebody wrote down at the close.

    ``own`` is the public key of the seat that this machine is.
    """
    if fault := attempt.fault:
        text = _("Entry {entry} does not hold: {what} Nothing after it can be trusted.")
        return (Said("fails", text.format(entry=fault.ordinal, what=fault.what)), *_signatures(attempt, trusted, own))
    n = len(attempt.entries)
    text = ngettext(
        "The {n} entry is as it was written.", "All {n} entries are as they were written, each in its place.", n
    )
    return (
        Said("holds", text.format(n=n)),
        *_signatures(attempt, trusted, own),
        *_compared(attempt, code),
        *_answered(attempt),
        *(Said("noticed", text) for text in remarks(attempt)),
        *(Said("unknown", text) for text in filter(None, [closed_elsewhere(attempt)])),
    )


def examine_marks(attempt: Attempt) -> tuple[Said, ...]:
    """Judge every house of an attempt that holds again, and say whether its marks are what its actions come to."""
    moved = moved_on(attempt)
    found = [(_judged(judged, moved), judged.level) for judged in judge_again(attempt)]
    return tuple(_unsaid(said, level) if attempt.silent else said for said, level in found)


def covers(seal: Seal, attempt: Attempt) -> bool:
    """Whether a signature holds and is under the whole of just this attempt."""
    ours = (attempt.id, attempt.head.hex(), attempt.count)
    return (seal.attempt, seal.head, seal.entries) == ours and seal.holds()


def cut_off(attempt: Attempt) -> str:
    """Say that the seat on which an attempt was sat signed more of it, or other entries; else return an empty text.

    What another key signed says nothing here: anybody can put such a signature under somebody else's work.
    """
    mine = (seal for seal in attempt.seals if seal.role == "seat" and seal.key == attempt.opening.get("seat"))
    said = (_signature(seal, attempt, {seal.key: _("its own seat")}) for seal in mine)
    return next((each.text for each in said if each.state == "fails"), "")


def closed_elsewhere(attempt: Attempt) -> str:
    """Say that a closed sitting lacks the signature of the seat on which it was begun; else return an empty text.

    A seat closes and signs in the same moment, so no stop on the way parts the two.
    """
    began = attempt.opening.get("seat")
    if began is None or "pack" not in attempt.opening or not attempt.closed:
        return ""
    seats = {seal.key for seal in attempt.seals if seal.role == "seat" and covers(seal, attempt)}
    if began in seats:
        return ""
    if seats:
        return _("It was begun on one seat and closed on another.")
    return _("The seat on which it was begun did not sign it at the close.")


def _signatures(attempt: Attempt, trusted: Keys, own: str) -> Iterator[Said]:
    named = {own: _("this machine's own seat"), **trusted}
    if not attempt.seals:
        yield Said("unknown", _("Nobody signed it. Whoever had the file could have written all of it anew."))
    for seal in attempt.seals:
        yield _signature(seal, attempt, named if seal.role == "seat" else trusted)


def _signature(seal: Seal, attempt: Attempt, trusted: Keys) -> Said:
    who = trusted.get(seal.key, _("a key not known here, {code}").format(code=fingerprint(seal.key)))
    as_who = _("the seat") if seal.role == "seat" else _("an assessor")
    if not seal.holds():
        return Said("fails", _("A signature as {role} does not fit its key. It was changed.").format(role=as_who))
    if covers(seal, attempt):
        state: State = "holds" if seal.key in trusted else "unknown"
        return Said(state, _("Signed as {role} by {who}, all of it.").format(role=as_who, who=who))
    heads = [entry.hash.hex() for entry in attempt.entries]
    if seal.head in heads and heads.index(seal.head) + 1 == seal.entries:
        text = _("Signed as {role} by {who} up to entry {entry} only. More came after.")
        return Said("unknown", text.format(role=as_who, who=who, entry=seal.entries - 1))
    text = ngettext(
        "{who} signed {signed} entry as {role}, and not these {n}. Some were cut off, or all were written anew.",
        "{who} signed {signed} entries as {role}, and not these {n}. Some were cut off, or all were written anew.",
        seal.entries,
    )
    return Said("fails", text.format(who=who, signed=seal.entries, role=as_who, n=len(attempt.entries)))


def _unsaid(said: Said, level: str) -> Said:
    """The same, of an assessment that is not closed: without the mark."""
    if said.state == "fails":
        return Said("fails", _("{level}: its actions do not come to what is recorded.").format(level=level))
    text = _("{level}: judged again. What it comes to is shown after the close.")
    return Said(said.state, text.format(level=level))


def _judged(judged: Judged, moved: bool) -> Said:
    level, now = judged.level, judged.now
    if now is None:
        state: State = "unknown" if moved or judged.then is None else "fails"
        return Said(state, _("{level}: it can't be judged again: {why}.").format(level=level, why=judged.trouble))
    if judged.same:
        if judged.then is None:
            return Said("holds", _("{level}: not marked; its actions show what was recorded.").format(level=level))
        text = _("{level}: judged again, it comes to the same mark, {score} ({outcome}).")
        if moved:
            text = _(
                "{level}: judged again, it comes to the same mark, {score} ({outcome}). "
                "It was made under another edition of the layout or rules."
            )
        return Said("holds", text.format(level=level, score=now[0], outcome=now[1]))
    then = judged.then or (_("none"), _("not marked"))
    said = {"level": level, "then": then[0], "was": then[1], "now": now[0], "is_": now[1]}
    if moved:
        text = _("{level}: rules or layout have moved on. The mark was {then} ({was}) and would now be {now} ({is_}).")
        return Said("unknown", text.format(**said))
    text = _("{level}: the record says {then} ({was}), and its actions come to {now} ({is_}) or show other findings.")
    return Said("fails", text.format(**said))


def _compared(attempt: Attempt, code: str | None) -> Iterator[Said]:
    if code is None:
        return
    if same_code(code, attempt.head_code):
        yield Said("holds", _("It is the attempt whose code was written down: {code}.").format(code=attempt.head_code))
    else:
        text = _("Its code is {code}, not the one written down. It is another attempt, or was changed.")
        yield Said("fails", text.format(code=attempt.head_code))


def _answered(attempt: Attempt) -> Iterator[Said]:
    """Whether answers count as right just where what was given is what was wanted."""
    if wrong := misjudged(attempt):
        text = _("Its answers do not come to what it says of them: {ids}.")
        yield Said("fails", text.format(ids=", ".join(wrong)))
    elif attempt.answers and not attempt.silent:
        right = sum(bool(entry.body["right"]) for entry in attempt.answers)
        n = len(attempt.answers)
        text = ngettext(
            "{n} question was answered, {right} of them right, by what was wanted of them.",
            "{n} questions were answered, {right} of them right, by what was wanted of them.",
            n,
        )
        yield Said("holds", text.format(n=n, right=right))


def misjudged(attempt: Attempt) -> list[str]:
    """Return the questions whose answers are not right or wrong as the record says, by what was wanted of them."""
    return [str(e.body["question"]) for e in attempt.answers if bool(e.body["right"]) != _fits(e.body)]


def _fits(answer: JsonObject) -> bool:
    given, want = answer["given"], answer["want"]
    if answer["asked"] == "numeric":
        return given is not None and bool(want[0] - ROUNDING <= given <= want[1] + ROUNDING)
    if answer["asked"] == "sequencing":
        return bool(given == want)
    return sorted(map(str, given)) == sorted(map(str, want))
