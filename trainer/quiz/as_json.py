"""Questions and papers as the JSON that other programs lean on; changed only by adding."""

from __future__ import annotations

from typing import Any

from trainer.quiz.paper import Paper
from trainer.quiz.question import Amount, Asked, InOrder, OneOf, Pairs, PointAt, SomeOf, SpotFault

Json = dict[str, Any]


def paper_json(paper: Paper, answers: bool = False) -> Json:
    """Return a paper; with ``answers`` each question has also its ``answer``, ``working`` and ``why``."""
    return {"seed": paper.seed, "questions": [question_json(question, answers) for question in paper.questions]}


def question_json(asked: Asked, answers: bool = False) -> Json:
    """Return one question. Choices, steps and lines are texts; answers are given as the texts themselves."""
    found: Json = {
        "id": asked.id,
        "kind": asked.kind,
        "topic": asked.topic,
        "difficulty": asked.difficulty,
        "serves": list(asked.serves),
        "text": asked.text,
        **_shown(asked),
    }
    if asked.level:
        found |= {"level": asked.level}
    if answers:
        found |= {
            "answer": answer_json(asked),
            "working": list(asked.working),
            "why": asked.why,
            "safety": asked.safety,
            "source": asked.source,
            "mistakes": [{"answer": slip.text, "why": slip.why} for slip in asked.slips],
            "about": list(asked.about),
            "rules": list(asked.rules),
        }
    return found


def answer_json(asked: Asked) -> Any:
    """Return the right answer: a text, a list of texts, a number, or left sides with their right sides."""
    answer: Any
    match asked.task:
        case OneOf(choices=texts, right=right) | SpotFault(lines=texts, right=right):
            answer = texts[right]
        case SomeOf(choices=texts, right=chosen) | InOrder(steps=texts, right=chosen):
            answer = [texts[i] for i in chosen]
        case Amount(value=value):
            answer = int(value) if float(value).is_integer() else value
        case Pairs(left=left, others=others, right=order):
            answer = {side: others[i] for side, i in zip(left, order, strict=True)}
        case PointAt(places=places, right=right):
            answer = places[right].label
    return answer


def _shown(asked: Asked) -> Json:
    match asked.task:
        case OneOf(choices=choices) | SomeOf(choices=choices):
            return {"choices": list(choices)}
        case Amount(unit=unit, tolerance=tolerance):
            return {"unit": unit, "tolerance": tolerance}
        case InOrder(steps=steps):
            return {"steps": list(steps)}
        case Pairs(left=left, others=others):
            return {"left": list(left), "right": list(others)}
        case PointAt(places=places):
            return {"places": [{"label": p.label, "at": [round(v, 1) for v in p.at], "words": p.words} for p in places]}
        case SpotFault(lines=lines):
            return {"lines": list(lines)}
