"""An assessor's signature under results: which may be signed, by the codes that were written down at the close."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from trainer.quiz.bank import Question
from trainer.records.attempt import Attempt
from trainer.records.chain import same_code
from trainer.records.keys import PrivateKey, public_hex
from trainer.records.pack import AssessmentPack
from trainer.records.proof import proofs_of
from trainer.records.seal import Seal, seal
from trainer.records.trust import not_as_due, not_of_pack
from trainer.records.verify import covers
from trainer.words import _


def why_not_signed(
    attempt: Attempt,
    written: Mapping[str, Sequence[str]],
    packs: Mapping[str, AssessmentPack] | None = None,
    bank: Sequence[Question] = (),
) -> str:
    """Return why an attempt that holds may not be signed, or an empty text; ``written`` are codes by code name.

    Against ``packs`` by their hashes, with the ``bank`` of their questions, it is held where it names one of them.
    """
    mine = written.get(attempt.code, ())
    if not attempt.closed:
        return _("this attempt was never closed, so there is no end to sign")
    if not mine:
        return _("{code} has no code in the table").format(code=attempt.code)
    if not any(same_code(each, attempt.head_code) for each in mine):
        return _("the code you wrote down is not the one of this result")  # the right one is for the seat to show
    pack = (packs or {}).get(str(attempt.opening.get("pack")))
    if why := not_as_due(attempt) or ("" if pack is None else not_of_pack(attempt, pack, bank)):
        return why
    return next((proof.why for proof in proofs_of(attempt) if not proof.stands), "")


def assessors_seal(attempt: Attempt, key: PrivateKey, at: int) -> Seal | None:
    """Return the signature of an assessor under a closed attempt at ``at``, ms UTC; None where it has it already."""
    mine = public_hex(key)
    if any(each.key == mine and each.role == "assessor" and covers(each, attempt) for each in attempt.seals):
        return None
    return seal(key, "assessor", attempt.id, attempt.head, len(attempt.entries), at)
