"""A finding: a small record of facts about one mistake."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.terms import Severity


@dataclass(frozen=True, slots=True)
class Finding:
    """One mistake: the ``rule`` broken at diary action ``event`` by ``member``; ``got`` and ``want`` in plain words.

    ``what why fix safety source`` are the rule's texts, ``what`` with this case's own numbers. Findings
    that share a ``cause`` came of one thing done or left undone, and are marked once; empty: this one alone.
    ``missing``: the roof was handed over with this wanting, so that it is not whole.
    """

    rule: str
    event: int
    member: str
    severity: Severity
    got: str
    want: str
    what: str
    why: str
    fix: str
    safety: str
    source: str
    cause: str = ""
    missing: bool = False
