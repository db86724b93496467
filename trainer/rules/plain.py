"""Plain words for trusses, lengths and lists, as findings use them."""

from __future__ import annotations

from collections.abc import Sequence

from trainer import words
from trainer.layout.model import Member
from trainer.terms import KIND_NAMES


def called(member: Member) -> str:
    """Return a truss by kind and tag: ``hip truss H1``."""
    return f"{KIND_NAMES[member.kind]} {member.tag}"


def mm(length: float) -> str:
    """Return a length to the millimetre."""
    return f"{length:.0f} mm"


def kg(mass: float) -> str:
    """Return a mass to the kilogram."""
    return f"{mass:.0f} kg"


def listed(names: Sequence[str]) -> str:
    """Return names in a row, at most three of them and how many more: a finding is short."""
    return words.listed(names, most=3)
