"""For those who read English as a second language: short sentences, and few rare words that no glossary explains.

Rare is what is not among the 2,949 words of Dale and Chall's list (1995), which most children of ten know, as
``textstat`` carries it; in any of its usual endings. Words of the picture glossary and of the site are explained where
they stand.
"""

from __future__ import annotations

import re
from functools import cache
from importlib.resources import files

import pytest
import yaml
from attempts import SHIPPED, level_of

from trainer.quiz import parse_bank
from trainer.quiz.bank_faults import texts_of
from trainer.rules import all_rules
from trainer.shipped import bank_paths
from trainer.terms.verbs import WHAT_FOR

WORDS = yaml.safe_load((bank_paths()[0].parents[2] / "art" / "words" / "words.yaml").read_text(encoding="utf-8"))
OF_THE_SITE = frozenset(
    re.findall(
        r"[a-z'-]+",
        "apprentice bolt bracket builder carpenter carrier connector crane crew delivery dogger drawing eave "
        "fabricator fascia fixing girder hanger ledger licence lift lintel load nailplate offcut pack panel "
        "pitch plumb ply prop rafter ridge rigger roofer scaffold schedule sling slot spacing stud supervisor "
        "tag tape tie timber tolerance truss uplift veneer verandah web wing inspection inspector permanent "
        "temporary tension tensioner statement span storey batten bearer harness lanyard platform spreader "
        "designer anchor chord metre millimetre site",
    )
)
"""What a learner of the trade has to learn in any case; the glossary, a job sheet or a lesson explains it."""
MOST_RARE = 0.04
"""Share of rare words in all that is read of one kind."""
MOST_IN_A_SENTENCE = 3
LONGEST = 16
_ENDINGS = ("'s", "s", "es", "ed", "d", "ing", "er", "est", "ly", "ies", "ied", "ier", "iest", "n't")


@cache
def easy() -> frozenset[str]:
    text = (files("textstat") / "resources" / "en" / "easy_words.txt").read_text(encoding="utf-8")
    known = {word.strip().casefold() for word in text.splitlines()}
    phrases = [f"{name} {entry['name']} {entry.get('others', '')}" for name, entry in WORDS.items()]
    glossary = re.findall(r"[a-z]+", " ".join(phrases).casefold())
    return frozenset(known.union(glossary, OF_THE_SITE))


def is_rare(word: str) -> bool:
    plain = word.casefold().replace("’", "'")
    if len(plain) < 4 or plain in easy():
        return False
    stems = {plain.removesuffix(end) for end in _ENDINGS if plain.endswith(end)}
    stems |= {stem + "e" for stem in stems} | {stem + "y" for stem in stems}
    stems |= {stem[:-1] for stem in stems if len(stem) > 3 and stem[-1] == stem[-2]}
    return not stems & easy()


def sentences(text: str) -> list[list[str]]:
    parts = re.split(r"(?<=[.!?:;])\s+", text)
    return [re.findall(r"(?<![\w{])[A-Za-z][a-z’']+(?![\w}])", re.sub(r"\{\w+\}", "", part)) for part in parts]


def of_rules() -> list[str]:
    return [text for rule in all_rules() for text in (rule.what, rule.why, rule.fix, rule.safety)]


def of_questions() -> list[str]:
    bank = [question for path in bank_paths() for question in parse_bank(path.read_bytes(), path.name)]
    return [text for q in bank for text in (*texts_of(q), *getattr(q, "why_not", {}).values())]


def of_the_glossary() -> list[str]:
    return [entry["text"] for entry in WORDS.values()]


def of_levels() -> list[str]:
    return [level_of(name).brief for name in SHIPPED]


TEXTS = {
    "levels": of_levels, "rules": of_rules, "questions": of_questions, "glossary": of_the_glossary,
    "hints": lambda: [*WHAT_FOR.values()],
}  # fmt: skip


@pytest.mark.parametrize("kind", TEXTS)
def test_few_words_are_rare(kind: str) -> None:
    words = [word for text in TEXTS[kind]() for sentence in sentences(text) for word in sentence]
    rare = [word for word in words if is_rare(word)]
    assert len(rare) <= MOST_RARE * len(words), sorted(set(map(str.casefold, rare)))


@pytest.mark.parametrize("kind", TEXTS)
def test_no_sentence_is_long_or_full_of_rare_words(kind: str) -> None:
    for text in TEXTS[kind]():
        for sentence in sentences(text):
            assert len(sentence) <= LONGEST, sentence
            assert sum(map(is_rare, sentence)) <= MOST_IN_A_SENTENCE, sentence


def test_the_measure_can_fail() -> None:
    assert is_rare("notwithstanding") and is_rare("configuration")
    assert not any(map(is_rare, ("stopped", "carries", "trusses", "braced", "heavier", "don't")))
