"""The question paper of a pack: which questions one candidate is asked, and what their recorded answers come to."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence

from trainer.layout import lay_out
from trainer.level import parse_level
from trainer.quiz.bank import Question
from trainer.quiz.from_bank import reshuffled
from trainer.quiz.judge import judge
from trainer.quiz.measure import Unclear
from trainer.quiz.paper import make_paper
from trainer.quiz.question import Asked
from trainer.quiz.worked import Subject, subject_of
from trainer.records.answers import given_again
from trainer.records.attempt import RecordedPaper
from trainer.records.chain import canonical
from trainer.records.errors import RecordsError
from trainer.records.pack import AssessmentPack
from trainer.words import _


class OtherQuestions(RecordsError):  # noqa: N818 - an answer about a seat
    """Raised where this seat's questions are not those that a pack asks."""


def bank_hash(bank: Sequence[Question]) -> str:
    """Return what names these very questions, whatever their order: a hash, hexadecimal."""
    asked = [question.model_dump(mode="json") for question in sorted(bank, key=lambda question: question.id)]
    return hashlib.sha256(canonical(asked)).hexdigest()


def subjects_of(pack: AssessmentPack) -> dict[str, Subject]:
    """Return the pack's houses, by their levels' ids, as questions are asked about them."""
    levels = [parse_level(text, level) for level, text in pack.houses]
    return {level.id: subject_of(level, lay_out(level.house())) for level in levels}


def questions_for(pack: AssessmentPack, code: str, bank: Sequence[Question]) -> tuple[Asked, ...]:
    """Return the questions that a candidate is asked, in order; none where the pack has no paper.

    Their choices stand in another order for each code name, so that a neighbour's letter helps nobody.

    :raises OtherQuestions: where ``bank`` is not the one that the pack was made with.
    """
    if pack.paper is None:
        return ()
    if bank_hash(bank) != pack.paper.bank:
        text = _("This seat has other questions than the pack asks. Have the same trainer on both. Nothing was begun.")
        raise OtherQuestions(text)
    subjects = tuple(subjects_of(pack).values())
    seed = pack.seed(code, len(pack.houses))
    paper = make_paper(bank, subjects, seed, pack.paper.questions, tuple(pack.paper.topics))
    return tuple(reshuffled(question, code) for question in paper.questions)


def judged_wrongly(paper: RecordedPaper, asked: Sequence[Asked]) -> tuple[str, ...]:
    """Return the ids of questions that were not asked there, or whose answer is not what the record says of it."""
    found = []
    due = [question.id for question in asked]
    for place, body in enumerate(paper.answers):
        id_ = str(body["question"])
        question = next((each for each in asked if each.id == id_), None)
        if question is None or due[place : place + 1] != [id_]:
            found.append(id_)
            continue
        verdict = judge(question, given_again(question, body).answer)
        if isinstance(verdict, Unclear) or verdict.right != body["right"]:
            found.append(id_)
    return tuple(found)
