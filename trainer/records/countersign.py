"""An assessor's signature under results: which may be signed, by the codes that were written down at the close."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from trainer.quiz.bank import Question
from trainer.records.attempt import Attempt
from trainer.records.chain import same_code
from trainer.records.gradebook import ticket_content
from trainer.records.keys import PrivateKey, public_hex
from trainer.records.pack import AssessmentPack
from trainer.records.proof import proofs_of
from trainer.records.seal import Seal, seal
from trainer.records.stick import Place
from trainer.records.trust import no_good_ticket, not_as_due, not_of_pack, signed_by
from trainer.records.verify import Keys, covers
from trainer.words import _, ngettext

COLLEAGUE = _(
    "If a colleague handed it out, put their public key (.pub.pem) into the folder 'assessors' of your data folder "
    "first"
)
NO_PACK = _("its pack is missing or damaged, and only that says what was to be sat. Put the pack's file back first")


def pack_is_missing(attempt: Attempt, packs: Mapping[str, AssessmentPack]) -> str:
    """Say that the pack of a sitting is not among ``packs``, by their hashes, or return an empty text."""
    if "pack" not in attempt.opening or str(attempt.opening["pack"]) in packs:
        return ""
    return _("Its pack is missing or damaged in this folder. It can be held against its ticket alone.")


def why_not_signed(
    attempt: Attempt,
    written: Mapping[str, Sequence[str]],
    known: Keys,
    packs: Mapping[str, AssessmentPack] | None = None,
    bank: Sequence[Question] = (),
) -> str:
    """Return why an attempt that holds may not be signed, or an empty text; ``written`` are codes by code name.

    Its ticket and pack must be signed by one of the ``known`` keys, the signer's own among them. It is held against the
    one of ``packs``, by their hashes, that it names, with the ``bank`` of their questions. Where that pack is missing
    the ticket says which houses were due; which questions were, only the pack can say.
    """
    mine = written.get(attempt.code, ())
    if not attempt.closed:
        return _("this attempt was never closed, so there is no end to sign")
    if not mine:
        return _("{code} has no code in the table").format(code=attempt.code)
    if not any(same_code(each, attempt.head_code) for each in mine):
        return _("the code you wrote down is not the one of this result")  # the right one is for the seat to show
    pack = (packs or {}).get(str(attempt.opening.get("pack")))
    if why := _not_handed_out(attempt, known, pack) or ("" if pack is None else not_of_pack(attempt, pack, bank)):
        return why
    return next((proof.why for proof in proofs_of(attempt) if not proof.stands), "")


def _not_handed_out(attempt: Attempt, known: Keys, pack: AssessmentPack | None) -> str:
    """Say why an attempt is no sitting that one of the ``known`` keys handed out, or return an empty text."""
    if why := no_good_ticket(attempt, known):
        strange = "ticket" in attempt.opening and not not_as_due(attempt)
        return f"{why}. {COLLEAGUE}" if strange else why
    if pack is None:
        return NO_PACK if attempt.papers or not ticket_content(attempt).get("due") else ""
    if pack.signed.key not in known:
        return _("its pack is signed by a key that is not known here. {help}").format(help=COLLEAGUE)
    return ""


TYPE_CODE = _("closed; type the code that you wrote down")
"""How a place stands of whose result there is nothing else to say."""


def standing(place: Place, known: Keys) -> str:
    """Say in a few words what came of one ticket of a class, and what of it is in doubt."""
    if not place.sat:
        return _("ticket given, result missing")
    made = signed_result(place, known) or place.sat[-1]
    who, why = signed_by(made, known), no_good_ticket(made, known)
    said = TYPE_CODE if made.closed else _("not closed yet")
    if who:
        said = _("signed by {who}, but {why}").format(who=who, why=why) if why else _("counter-signed")
    elif any(each.role == "assessor" for each in made.seals):
        said = _("signed by a key that is not known here")
    elif why and made.closed:
        said = _("closed, but {why}").format(why=why)
    if not place.ticket_there:
        said = _("{said}; no ticket of it lies in this folder").format(said=said)
    n = len(place.sat)
    several = ngettext("{n} result of one ticket; {said}", "{n} results of one ticket; {said}", n)
    return several.format(n=n, said=said) if n > 1 else said


def signed_result(place: Place, known: Keys) -> Attempt | None:
    """Return the result of a place that one of the ``known`` assessors signed, if there is one."""
    return next((each for each in place.sat if signed_by(each, known)), None)


def assessors_seal(attempt: Attempt, key: PrivateKey, at: int) -> Seal | None:
    """Return the signature of an assessor under a closed attempt at ``at``, ms UTC; None where it has it already."""
    mine = public_hex(key)
    if any(each.key == mine and each.role == "assessor" and covers(each, attempt) for each in attempt.seals):
        return None
    return seal(key, "assessor", attempt.id, attempt.head, len(attempt.entries), at)
