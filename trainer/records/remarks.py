"""What happened on the way that a reader should know: each thing in one plain sentence, and nothing of it a verdict."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import pairwise

from trainer.records.attempt import Attempt
from trainer.words import _, ngettext

TOO_QUICK, WITHIN = 40, 2_000
"""More separate acts than this within so many ms are not done by hand."""


def remarks(attempt: Attempt) -> tuple[str, ...]:
    """Return what there is to say of the course of an attempt that holds, each entry of it at hand."""
    return tuple(_remarks(attempt))


def _remarks(attempt: Attempt) -> Iterator[str]:
    for since, until in attempt.gaps:
        minutes = max(0, until - since) / 60_000
        yield _("The program stopped once. It went on {n:.1f} minutes later.").format(n=minutes)
    times = [int(entry.body["at"]) for entry in attempt.entries]
    if any(later < sooner for sooner, later in pairwise(times)):
        yield _("The machine's clock went back on the way. Its times can't be relied on.")
    if (most := _most_at_once(attempt)) > TOO_QUICK:
        text = _("Separate acts within {s} seconds: {n}. No hand is as quick: they may have come from a file.")
        yield text.format(n=most, s=WITHIN // 1000)
    made = _ticket(attempt).get("made")
    if isinstance(made, int) and made > attempt.began:
        yield _("Its ticket is dated after it began. The clocks of the two machines differ.")
    if not attempt.closed:
        yield _("It was never closed. It may have gone on.")


def _most_at_once(attempt: Attempt) -> int:
    """The most acts within any stretch of :data:`WITHIN` ms."""
    times = sorted(int(entry.body["at"]) for entry in attempt.entries if entry.body["kind"] == "act")
    most = first = 0
    for last, at in enumerate(times):
        while at - times[first] > WITHIN:
            first += 1
        most = max(most, last - first + 1)
    return most


def tickets_used_twice(attempts: Iterable[Attempt]) -> dict[str, str]:
    """Return, by id, what is to be said of attempts that share a ticket with another."""
    nonces = {each.id: str(_ticket(each).get("nonce")) for each in attempts if _ticket(each)}
    often = Counter(nonces.values())
    return {id_: _used(often[nonce]) for id_, nonce in nonces.items() if often[nonce] > 1}


def _used(n: int) -> str:
    return ngettext(
        "Its ticket was used {n} time. One ticket is for one sitting.",
        "Its ticket was used {n} times. One ticket is for one sitting.",
        n,
    ).format(n=n)


def _ticket(attempt: Attempt) -> dict[str, object]:
    given = attempt.opening.get("ticket")
    content = given.get("content") if isinstance(given, dict) else None
    return content if isinstance(content, dict) else {}
