"""Answers to questions as the journal keeps them, and what a learner's journal says of what to come back to."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

from trainer.quiz.history import Seen, of_answer, of_drill, of_mistakes
from trainer.quiz.judge import LETTERS, options, right_answer
from trainer.quiz.measure import Unclear, read_measure
from trainer.quiz.question import Amount, Answer, Asked, InOrder, OneOf, Pairs, SomeOf, numbers_alone
from trainer.quiz.sitting import Given
from trainer.records.chain import JsonObject
from trainer.records.entries import ANSWERS, AnswerEntry, Offered, QuestionKind
from trainer.records.store import Store, read_body


def answered(at: int, asked: Asked, given: Given, took: int) -> AnswerEntry:
    """Return the entry of one answer: its question, what was given and what is right; ``took`` in ms."""
    kind, got, want, offered = _said(asked, given.answer)
    return ANSWERS[kind](
        at=at, question=asked.id, asked=kind, text=asked.text, offered=offered, right=given.right, hinted=given.hinted,
        took=took, serves=list(asked.serves), given=got, want=want,
    )  # fmt: skip


def _said(asked: Asked, answer: Answer) -> tuple[QuestionKind, Any, Any, dict[Offered, dict[str, str]] | None]:
    """The kind of an answer, what was given, what is right, and what was offered."""
    task = asked.task
    if isinstance(task, Amount):
        read = read_measure(str(answer), task.unit)
        value = None if isinstance(read, Unclear) else read.value
        return "numeric", value, [task.value - task.tolerance, task.value + task.tolerance], None
    got, want = _indices(answer), _indices(right_answer(asked))
    if isinstance(task, Pairs):
        source = {str(n): side for n, side in enumerate(task.left, 1)}
        target = dict(zip(LETTERS, task.others, strict=False))
        return "matching", _partners(got), _partners(want), {"source": source, "target": target}
    choices: dict[Offered, dict[str, str]] = {"choices": dict(zip(LETTERS, options(asked), strict=False))}
    return ("sequencing" if isinstance(task, InOrder) else "choice"), _letters(got), _letters(want), choices


def is_sum(body: JsonObject) -> bool:
    """Whether the question of an answer's entry was a sum: a number was given, or chosen among numbers."""
    if body["asked"] != "choice" or len(body["want"]) != 1:
        return bool(body["asked"] == "numeric")
    choices = ((body.get("offered") or {}).get("choices") or {}).values()
    return bool(choices) and numbers_alone(map(str, choices))


def given_again(asked: Asked, body: JsonObject) -> Given:
    """Return the answer that an entry holds, as it was given to ``asked``."""
    got = body["given"]
    answer: Answer
    if isinstance(asked.task, Amount):
        answer = "" if got is None else f"{got:.10g}"
    elif isinstance(asked.task, Pairs):
        answer = tuple(LETTERS.index(other) for _one, other in got)
    elif isinstance(asked.task, OneOf | SomeOf):
        answer = tuple(sorted(_place(asked.task.choices, letter, body) for letter in got))
    else:
        answer = tuple(LETTERS.index(letter) for letter in got)
    return Given(asked.id, answer, bool(body["right"]), bool(body["hinted"]))


def _place(choices: tuple[str, ...], letter: str, body: JsonObject) -> int:
    """Where the choice of this letter stands now: by its words, as each candidate's may stand in another order."""
    offered = ((body.get("offered") or {}).get("choices") or {}).get(letter)
    return choices.index(offered) if choices.count(offered) == 1 else LETTERS.index(letter)


def history(store: Store, code: str) -> list[Seen]:
    """Return what one code name has met so far, oldest first: answers, drills, rules broken in practice or assessed.

    Of an assessment nothing counts before it is closed.
    """
    silent = {each.id for each in store.unfinished(code) if each.silent}
    mine = {str(opening.get("attempt")) for opening in store.openings() if opening.get("code") == code} - silent
    question = (
        'SELECT attempt, body FROM entries WHERE body LIKE \'%"kind":"answer"%\''
        ' OR body LIKE \'%"kind":"drill"%\''
        ' OR (body LIKE \'%"kind":"act"%\' AND body NOT LIKE \'%"found":[]%\')'
    )
    found = [read_body(text) for attempt, text in store.rows(question) if attempt in mine]
    return [seen for body in sorted(found, key=lambda body: int(body.get("at", 0))) for seen in _seen(body)]


def _seen(body: JsonObject) -> tuple[Seen, ...]:
    when = datetime.fromtimestamp(int(body.get("at", 0)) / 1000, UTC)
    if body.get("kind") == "answer":
        return of_answer(str(body["question"]), bool(body["right"]), bool(body["hinted"]), when)
    if body.get("kind") == "act":
        return of_mistakes([str(found["rule"]) for found in body["found"]], when)
    if body.get("kind") == "drill":
        broken = [str(found["rule"]) for found in body["found"]]
        return of_drill([str(rule) for rule in body["rules"]], broken, bool(body["right"]), bool(body["hinted"]), when)
    return ()


def _indices(answer: Answer) -> tuple[int, ...]:
    """An answer in indices; one that was typed was read into them before it was judged."""
    if isinstance(answer, str):
        raise TypeError(answer)
    return answer


def _letters(indices: tuple[int, ...]) -> list[str]:
    return [LETTERS[i] for i in indices]


def _partners(indices: tuple[int, ...]) -> list[list[str]]:
    return [[str(n), LETTERS[i]] for n, i in enumerate(indices, 1)]
