"""Plain words for trusses, lengths and lists, as findings use them."""

from __future__ import annotations

from collections.abc import Sequence

from trainer import words
from trainer.layout.model import Layout, Member
from trainer.terms import KIND_NAMES


def called(member: Member) -> str:
    """Return a truss by kind and tag: ``hip truss H1``."""
    return f"{KIND_NAMES[member.kind]} {member.tag}"


def called_bearing(layout: Layout, bearing: str) -> str:
    """Return what an end bears on: a truss by kind and tag, else as it is called: ``ledger C``."""
    return called(layout.by_tag[bearing]) if bearing in layout.by_tag else bearing


def mm(length: float, beside: float | None = None) -> str:
    """Return a length to the millimetre; as much finer as it takes for it not to read like the limit ``beside`` it."""
    return f"{_apart(length, beside)} mm"


def kg(mass: float, beside: float | None = None) -> str:
    """Return a mass to the kilogram; as much finer as it takes for it not to read like the limit ``beside`` it."""
    return f"{_apart(mass, beside)} kg"


def _apart(number: float, beside: float | None) -> str:
    for digits in (0, 1, 2):
        text = f"{number:.{digits}f}"
        if beside is None or number == beside or float(text) != float(f"{beside:.{digits}f}"):
            return text
    return text


def listed(names: Sequence[str]) -> str:
    """Return names in a row, at most three of them and how many more: a finding is short."""
    return words.listed(names, most=3)
