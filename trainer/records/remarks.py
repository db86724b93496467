"""What happened on the way that a reader should know: each thing in one plain sentence, and nothing of it a verdict."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from heapq import nsmallest
from itertools import groupby, pairwise

from trainer.records.alike import Likeness, same_mistakes, same_order, same_times
from trainer.records.attempt import Attempt
from trainer.records.chain import JsonObject
from trainer.records.gradebook import (
    MINUTE,
    Rank,
    all_the_same,
    allowed_minutes,
    granted_to,
    lost_ms,
    ticket_content,
    used_ms,
)
from trainer.words import _, listed, ngettext

TOO_QUICK, WITHIN = 40, 2_000
"""More separate acts than this within so many ms are not done by hand."""
FIRST = 1_577_836_800_000
"""The year 2020 began, ms UTC: before that there was no such program."""
MOST_NAMED = 3
"""Of more attempts than this that are alike, the others are only counted."""
GAP = _("It was left for {n:.1f} minutes.")
"""Whether the program was closed, or somebody went to another screen, no record can show."""
STOPPED = 0.1
"""More of the time allowed than this spent in stops is worth a question."""


def remarks(attempt: Attempt) -> tuple[str, ...]:
    """Return what there is to say of the course of an attempt that holds, each entry of it at hand."""
    return tuple(_remarks(attempt))


def _remarks(attempt: Attempt) -> Iterator[str]:
    left = _("The sitting was left for {n:.1f} minutes.") if "pack" in attempt.opening else GAP
    for since, until in attempt.gaps:
        yield left.format(n=max(0, until - since) / MINUTE)
    yield from _of_time(attempt)
    times = [int(entry.body["at"]) for entry in attempt.entries]
    if any(later < sooner for sooner, later in pairwise(times)):
        yield _("The machine's clock went back on the way. Its times can't be relied on.")
    if attempt.began < FIRST:
        yield _("It is dated before there was such a program. The clock of its machine was wrong.")
    if why := not_by_hand(attempt):
        yield why
    if why := went_on_elsewhere(attempt):
        yield why
    made = ticket_content(attempt).get("made")
    if isinstance(made, int) and made > attempt.began:
        yield _("Its ticket is dated after it began. The clocks of the two machines differ.")
    if not attempt.closed:
        yield _("It was never closed. It may have gone on, or its end was cut off.")


def not_by_hand(attempt: Attempt) -> str:
    """Say why an attempt can't all have been done by hand, or return an empty text."""
    if any(entry.body["kind"] == "from file" for entry in attempt.entries):
        return _("What was done in it was sent in from a file or by a program. Nobody typed or pressed it.")
    if (most := _most_at_once(attempt)) > TOO_QUICK:
        text = _("Separate acts within {s} seconds: {n}. No hand is as quick: they may have come from a file.")
        return text.format(n=most, s=WITHIN // 1000)
    return ""


def went_on_elsewhere(attempt: Attempt) -> str:
    """Say that a sitting went on from a file, or on another seat than it was begun on, or return an empty text.

    Older records do not say on which seat they went on.
    """
    gaps = [entry.body for entry in attempt.entries if entry.body["kind"] == "gap"]
    if any(body.get("from_file") for body in gaps):
        return _("It stopped in the middle and went on from records that came in a file. Some of it may be cut off.")
    if any(body.get("seat") not in (None, attempt.opening.get("seat")) for body in gaps):
        return _("It was begun on one seat and went on on another.")
    return ""


def _of_time(attempt: Attempt) -> Iterator[str]:
    """What is to be said where a sitting had a limit of time."""
    allowed = allowed_minutes(attempt)
    if allowed is None:
        return
    breaks = granted_to(attempt)[1]
    lost = lost_ms(attempt) - breaks * MINUTE
    if lost > STOPPED * allowed * MINUTE:
        text = _("It stood still for {n:.0f} minutes that no break allows, beside the {allowed} it might take.")
        yield text.format(n=lost / MINUTE, allowed=allowed)
    if used_ms(attempt) > (allowed + 1) * MINUTE:
        text = _("It took {n:.0f} minutes. It might take {allowed}.")
        yield text.format(n=used_ms(attempt) / MINUTE, allowed=allowed)


def _most_at_once(attempt: Attempt) -> int:
    """The most acts within any stretch of :data:`WITHIN` ms; what one hand did in one go, the same each, is one."""
    acts = (entry.body for entry in attempt.entries if entry.body["kind"] == "act")
    times = sorted(int(next(group)["at"]) for _hand, group in groupby(acts, key=_by_hand))
    most = first = 0
    for last, at in enumerate(times):
        while at - times[first] > WITHIN:
            first += 1
        most = max(most, last - first + 1)
    return most


def _by_hand(act: JsonObject) -> tuple[object, object]:
    """Acts of one hand in one go: the number that it bears, and the verb, since no hand does two things at once."""
    hand = act.get("hand")
    return (hand if hand is not None else ("alone", act["index"])), act["action"].get("do")


def tickets_used_twice(attempts: Iterable[Attempt], rank: Rank = all_the_same) -> dict[str, str]:
    """Return, by id, what is to be said of attempts that share a ticket with another of no lower ``rank``."""
    nonces: dict[str, dict[str, int]] = {}
    for each in attempts:
        if (nonce := ticket_content(each).get("nonce")) is not None:
            nonces.setdefault(str(nonce), {})[each.id] = rank(each)
    often = {
        id_: sum(other >= own for other in sharing.values())
        for sharing in nonces.values()
        for id_, own in sharing.items()
    }
    return {id_: _used(n) for id_, n in often.items() if n > 1}


def copied(attempts: Iterable[Attempt], rank: Rank = all_the_same) -> frozenset[str]:
    """Return the ids of attempts whose acts, at the same times, are another person's too, whose ranks no lower."""
    every = {each.head.hex(): each for each in attempts if each.fault is None}
    pairs = ((one, other) for one, other in _timed(every) if every[one].code != every[other].code)
    beside = _beside(pairs, {head: rank(each) for head, each in every.items()})
    return frozenset(every[head].id for head in beside)


def _timed(every: Mapping[str, Attempt]) -> set[Likeness]:
    """The pairs of attempts, by their heads, with the same times, but for two ends of one and the same."""
    pairs = same_times({head: each.courses for head, each in every.items()})
    return {(one, other) for one, other in pairs if every[one].id != every[other].id}


def copies(attempts: Iterable[Attempt], rank: Rank = all_the_same) -> dict[str, str]:
    """Return, by id, what is to be said of attempts that are too like another to be each one's own work.

    In practice hints lead everybody the same way, so there only the times say anything. Of two of unlike ``rank`` it is
    said of the lesser alone.
    """
    every = {each.head.hex(): each for each in attempts if each.fault is None}
    whose = {head: (each.code, each.id[:8]) for head, each in every.items()}
    sat = {head: each.courses for head, each in every.items() if each.mode == "assessment"}

    def of_two(pairs: Iterable[Likeness]) -> set[Likeness]:
        return {pair for pair in pairs if whose[pair[0]][0] != whose[pair[1]][0]}

    timed = _timed(every)
    over = {head: courses for head, courses in sat.items() if not every[head].silent}
    wrong = of_two(same_mistakes(over) - timed)
    alike = of_two(same_order(sat) - timed - wrong)
    texts = (
        (timed, _("Its acts, or most of them, were done in {code} too, at the same times to the millisecond. "
                  "One of them is a copy.")),
        (wrong, _("It has the same mistakes at the same places as {code}, and most acts in the same order. "
                  "Ask both how they came to that.")),
        (alike, _("Its acts, or nearly all of them, come in the same order as in {code}. "
                  "Ask both how they came to that.")),
    )  # fmt: skip
    said: dict[str, list[str]] = {}
    ranks = {head: rank(each) for head, each in every.items()}
    for pairs, text in texts:
        for head, others in _beside(pairs, ranks).items():
            said.setdefault(every[head].id, []).append(text.format(code=_named([whose[other] for other in others])))
    return {id_: " ".join(lines) for id_, lines in said.items()}


def _beside(pairs: Iterable[Likeness], ranks: Mapping[str, int]) -> dict[str, list[str]]:
    """Each of the pairs' members with all that it is paired with, and that rank no lower."""
    found: dict[str, list[str]] = {}
    for one, other in (both for pair in pairs for both in (pair, pair[::-1])):
        if ranks[other] >= ranks[one]:
            found.setdefault(one, []).append(other)
    return found


def _named(whose: Sequence[tuple[str, str]]) -> str:
    """Attempts by code name and the beginning of their ids; of many the first few."""
    most = len(whose) if len(whose) <= MOST_NAMED + 1 else MOST_NAMED
    more = len(whose) - most
    names = [f"{code} ({id_})" for code, id_ in dict.fromkeys(nsmallest(most, whose))]
    return listed([*names, ngettext("{n} more", "{n} more", more).format(n=more)] if more else names)


def in_the_future(attempt: Attempt, now: int) -> str:
    """Say that an attempt began or ended after ``now``, ms UTC, or return an empty text."""
    if max(attempt.began, attempt.ended) <= now:
        return ""
    return _("It is dated later than this machine's clock shows. One of the two clocks is wrong.")


def seen_together(
    attempts: Iterable[Attempt], now: int | None = None, rank: Rank = all_the_same
) -> dict[str, str]:  # fmt: skip
    """Return, by id, what an attempt alone does not show: tickets used twice, copies, and dates after ``now``.

    ``rank`` is how far each can be relied on: what comes of a lesser one, such as a forgery, is not said of a better.
    """
    every = list(attempts)
    used, copied = tickets_used_twice(every, rank), copies(every, rank)
    late = {} if now is None else {each.id: text for each in every if (text := in_the_future(each, now))}
    kinds = (used, copied, late)
    return {id_: " ".join(kind[id_] for kind in kinds if id_ in kind) for id_ in used | copied | late}


def in_one_cell(attempt: Attempt, together: Mapping[str, str]) -> str:
    """Return all remarks on an attempt as a table has them; ``together`` is of :func:`seen_together`."""
    return " ".join((*remarks(attempt), *filter(None, [together.get(attempt.id)])))


def _used(n: int) -> str:
    return ngettext(
        "Its ticket was used {n} time. One ticket is for one sitting.",
        "Its ticket was used {n} times. One ticket is for one sitting.",
        n,
    ).format(n=n)
