"""Which attempts count in what is said of a whole class: in the tables of questions and skills, and in the charts."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from trainer.records.attempt import Attempt
from trainer.records.clock import moment
from trainer.records.proof import Proved
from trainer.records.remarks import copied
from trainer.records.verify import misjudged
from trainer.words import _, ngettext

Relied = tuple[Attempt, str]
"""An attempt, and its label of trust."""
MOST_NAMED = 20
"""Of more than this that are left out, the others are only counted."""


def counted_in(attempts: Sequence[Relied], ranks: Mapping[bytes, int]) -> tuple[list[Relied], str]:
    """Return the attempts that count, and in words which do not, and why; an empty text where all do.

    Work that got no mark since its actions do not come to it says nothing of a class, and of a copy nobody knows whose
    it is. Of two that are the same and rank unlike, by their last hashes, only the lesser is left out. An assessment
    that was sent in from a file counts where an assessor signed for it.
    """
    copies = copied((attempt for attempt, _trust in attempts), lambda each: ranks[each.head])
    whys = {attempt.head: _why(attempt, trust, copies) for attempt, trust in attempts}
    said = list(_said(attempts, whys))
    more = len(said) - MOST_NAMED
    named = said if more <= 0 else [*said[:MOST_NAMED], ngettext("{n} more", "{n} more", more).format(n=more)]
    return [each for each in attempts if not whys[each[0].head]], "; ".join(named)


def _why(attempt: Attempt, trust: str, copies: frozenset[str]) -> str:
    if isinstance(attempt, Proved) and not all(proof.stands for proof in attempt.proofs):
        return _("its mark is not proved")
    if misjudged(attempt):
        return _("its answers do not come to what it says of them")
    if isinstance(attempt, Proved) and attempt.unmanned and attempt.mode == "assessment" and trust == "self-study":
        return _("it was not all done by hand, and nobody signed for it")
    return _("a copy, or what was copied") if attempt.id in copies else ""


def _said(attempts: Sequence[Relied], whys: Mapping[bytes, str]) -> Iterator[str]:
    for attempt, _trust in sorted(attempts, key=lambda each: (each[0].code, each[0].began, each[0].head)):
        if why := whys[attempt.head]:
            text = _("{code}, begun {when}: {why}")
            yield text.format(code=attempt.code, when=moment(attempt.began), why=why)
