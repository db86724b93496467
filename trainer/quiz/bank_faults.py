"""What well-formed written questions can still get wrong: one by one, and as a bank."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations

from trainer.quiz.bank import LETTERS, ChooseOne, ChooseSeveral, Match, Number, PutInOrder, Question
from trainer.quiz.unit import TOPICS, UNIT_ITEMS
from trainer.read import Fault, did_you_mean
from trainer.rules import all_rules
from trainer.words import _, ngettext

LONGEST_SENTENCE = 15
"""Words in a sentence that a learner reads, at most."""
FEWEST_WHY = 4
"""Words an explanation has, at least."""
NEAR_REPEAT = 0.6
"""Share of their content words that two questions have in common, from which they count as one."""
FEWEST_JUDGED = 20
"""Choose-one questions from which a bank's habits are judged; fewer show chance, not habit."""
MOST_TELLING = 0.4
"""Share of choose-one questions whose right choice may stand out by its length; by chance it is about a quarter."""
PLACE_SLACK = 0.4
"""How far the count of right choices at one letter may be off an even share, as a part of that share."""

_CATCH_ALL = re.compile(
    r"\b(all|none|any|both|neither|either|some|two|more than one) (of )?(the |these|those|them)\b.*\babove\b"
    r"|^(all|none|any|both|neither) of (these|those|them|the (others|rest))\b"
    r"|^(both |neither |either )?[A-F],? (and|or|nor) [A-F]\.?$",
    re.IGNORECASE,
)
_SENTENCE_END = re.compile(r"(?<=[.!?])\s+")
_WORD = re.compile(r"[a-z0-9]+(?:[.'-][a-z0-9]+)*")
_EMPTY_WORDS = frozenset({
    "a", "an", "and", "any", "are", "as", "at", "be", "by", "can", "do", "does", "each", "for", "from", "has", "have",
    "how", "if", "in", "is", "it", "its", "may", "mm", "must", "no", "not", "of", "off", "on", "one", "or", "put",
    "so", "that", "the", "their", "them", "there", "these", "they", "this", "to", "up", "what", "when", "where",
    "which", "who", "why", "will", "with", "you", "your",
})  # fmt: skip


def question_faults(question: Question) -> list[Fault]:
    """Return what is wrong with one question by itself, at the place where it was read."""
    return [
        _fault(question, what)
        for check in (_catch_all, _reading, _explanation, _unknown_rules)
        for what in check(question)
    ]


def bank_faults(questions: Iterable[Question], bank: str = "bank") -> list[Fault]:
    """Return what is wrong with a bank: each question's own faults, and those that only show in the whole.

    ``bank`` names the whole where a fault is nobody's in particular. Takes time by the square of the questions.
    """
    held = tuple(questions)
    faults = list(sound_together(held))
    whole = (*_uncovered(held), *_habits([q for q in held if isinstance(q, ChooseOne)]))
    return faults + [Fault(bank, 1, "questions", what) for what in whole]


def sound_together(questions: Sequence[Question]) -> list[Fault]:
    """Return each question's own faults, and those that repeat another; a few questions need no more to be used."""
    return [*(fault for question in questions for fault in question_faults(question)), *_repeats(questions)]


def texts_of(question: Question) -> tuple[str, ...]:
    """Return everything of a question that a learner reads."""
    note = () if question.safety is None else (question.safety,)
    return question.text, *options_of(question), question.why, *note


def options_of(question: Question) -> tuple[str, ...]:
    """Return what a learner chooses from, orders or matches; nothing where a number is asked for."""
    match question:
        case ChooseOne() | ChooseSeveral():
            return question.choices
        case PutInOrder():
            return question.steps
        case Match():
            return (*question.pairs, *question.pairs.values())
        case Number():
            return ()


def _fault(question: Question, what: str) -> Fault:
    return Fault(question.place.file, question.place.line, question.id, what)


def _catch_all(question: Question) -> Iterator[str]:
    if isinstance(question, ChooseOne | ChooseSeveral):
        for choice in question.choices:
            if _CATCH_ALL.search(choice):
                yield _("has the choice '{choice}'; write one that says something by itself").format(choice=choice)


def _reading(question: Question) -> Iterator[str]:
    for text in texts_of(question):
        for sentence in _SENTENCE_END.split(text):
            count = len(sentence.split())
            if count > LONGEST_SENTENCE:
                start = " ".join(sentence.split()[:4])
                yield ngettext(
                    "has {n} word in the sentence '{start} …'; {most} are enough, so make two",
                    "has {n} words in the sentence '{start} …'; {most} are enough, so make two",
                    count,
                ).format(n=count, start=start, most=LONGEST_SENTENCE)


def _explanation(question: Question) -> Iterator[str]:
    if len(question.why.split()) < FEWEST_WHY:
        yield _("explains itself with '{why}'; say why the answer is right").format(why=question.why)


def _unknown_rules(question: Question) -> Iterator[str]:
    known = [rule.name for rule in all_rules()]
    for name in question.rules:
        if name not in known:
            guess = did_you_mean(name, known) or _("see the page of rules")
            yield _("is about a rule '{name}' that there is not; {guess}").format(name=name, guess=guess)


def _repeats(questions: Sequence[Question]) -> Iterator[Fault]:
    by_id: dict[str, Question] = {}
    for question in questions:
        first = by_id.setdefault(question.id, question)
        if first is not question:
            yield _fault(
                question, _("has the id of the question at {at}; give it one of its own").format(at=_at(first))
            )
    worded = [(question, _content_words(question)) for question in questions]
    for (first, words), (second, others) in combinations(worded, 2):
        if len(words & others) >= NEAR_REPEAT * len(words | others):
            what = _("asks nearly the same as '{id}' at {at}; leave one out or ask something else").format(
                id=first.id, at=_at(first)
            )
            yield _fault(second, what)


def _at(question: Question) -> str:
    return f"{question.place.file}:{question.place.line}"


def _content_words(question: Question) -> frozenset[str]:
    """Words of the question, and of its right choices, that say what it is about."""
    right = options_of(question)
    if isinstance(question, ChooseOne | ChooseSeveral):
        right = tuple(question.choices[i] for i in question.right)
    words = _WORD.findall(" ".join((question.text, *right)).casefold())
    return frozenset(words) - _EMPTY_WORDS or frozenset(words)


def _uncovered(questions: Sequence[Question]) -> Iterator[str]:
    topics = {question.topic for question in questions}
    items = {item for question in questions for item in question.serves}
    for topic in TOPICS:
        if topic not in topics:
            yield _("have none on the topic '{topic}'; write some").format(topic=topic)
    for item, words in UNIT_ITEMS.items():
        if item not in items:
            yield _("have none that serves '{item}' ({words}); write some").format(item=item, words=words)


def _habits(questions: Sequence[ChooseOne]) -> Iterator[str]:
    """What a learner who knows nothing could score by: where the right choice stands, and how long it is."""
    if len(questions) < FEWEST_JUDGED:
        return
    even = dict.fromkeys(LETTERS, 0.0)
    for question in questions:
        for letter in LETTERS[: len(question.choices)]:
            even[letter] += 1 / len(question.choices)
    found: Counter[str] = Counter(question.answer for question in questions)
    for letter, share in even.items():
        if share >= FEWEST_JUDGED / len(LETTERS) and abs(found[letter] - share) > PLACE_SLACK * share:
            n = found[letter]
            much = ngettext(
                "have {letter} right {n} time, where an even share is {share:.0f}",
                "have {letter} right {n} times, where an even share is {share:.0f}",
                n,
            )
            move = _("{what}; move some right choices to {letter}")
            if n > share:
                move = _("{what}; move some right choices from {letter}")
            yield move.format(what=much.format(letter=letter, n=n, share=share), letter=letter)
    longest = _("have the right choice as the longest in {times} of {all}; make the wrong ones longer in some")
    shortest = _("have the right choice as the shortest in {times} of {all}; make the wrong ones shorter in some")
    for text, stands_out in ((longest, max), (shortest, min)):
        times = sum(_alone(question, stands_out(map(len, question.choices))) for question in questions)
        if times > MOST_TELLING * len(questions):
            yield text.format(times=times, all=len(questions))


def _alone(question: ChooseOne, length: int) -> bool:
    """Whether the right choice, and no other, has this ``length``."""
    return [i for i, choice in enumerate(question.choices) if len(choice) == length] == list(question.right)
