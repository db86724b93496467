"""The trade words, each with a picture and a few plain sentences, and where they stand in a text."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import cast

from trainer.read import read_yaml
from trainer.shipped import art_path
from trainer.words import _


@dataclass(frozen=True, slots=True)
class Term:
    """A trade word: its picture, its name, what it means, and other forms that it stands in, parted by commas."""

    drawn: str
    name: str
    text: str
    others: str = ""

    @property
    def forms(self) -> tuple[str, ...]:
        """Every form of the word."""
        return (self.name, *filter(None, self.others.split(", ")))

    @property
    def picture(self) -> str:
        """Name of its picture in the art folder."""
        return f"words/{self.drawn}"


def _terms() -> Iterator[Term]:
    """Yield the words of the file beside their drawings, in the language that is spoken."""
    file = art_path("words/words.yaml")
    words = cast(dict[str, dict[str, str]], read_yaml(file.read_bytes(), str(file)).data)
    for drawn, of_it in words.items():
        yield Term(drawn, *(_(of_it[key]) if key in of_it else "" for key in ("name", "text", "others")))


TERMS = tuple(_terms())


def extract(*_given: object, **_options: object) -> Iterator[tuple[int, None, str, list[str]]]:
    """Yield the texts of that file: a method of extraction for Babel."""
    return ((1, None, text, []) for term in TERMS for text in (term.name, term.text, term.others) if text)


@cache
def _by_form() -> dict[str, Term]:
    return {form: term for term in TERMS for form in term.forms}


@cache
def _pattern() -> re.Pattern[str]:
    """Matches any form of a word, the longest first; the mark that is given for work is none of chalk."""
    forms = sorted(_by_form(), key=len, reverse=True)
    return re.compile(
        r"(?<!best )(?<!practice )\b(" + "|".join(re.escape(form) for form in forms) + r")\b", re.IGNORECASE
    )


@lru_cache(maxsize=4000)
def words_in(text: str) -> tuple[tuple[int, int, Term], ...]:
    """Return (begin, end, term) of every trade word in a text, in order."""
    return tuple((m.start(), m.end(), _by_form()[m.group(1).casefold()]) for m in _pattern().finditer(text))


def term_of(word: str) -> Term | None:
    """Return the term that a word is a form of, if it is a trade word."""
    return _by_form().get(word.casefold())


def met_in(texts: Iterable[str]) -> list[Term]:
    """Return the terms that stand in texts, in the order of their names."""
    found = {term for text in texts for _begin, _end, term in words_in(text)}
    return [term for term in TERMS if term in found]
