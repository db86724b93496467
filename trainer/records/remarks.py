"""What happened on the way that a reader should know: each thing in one plain sentence, and nothing of it a verdict."""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from itertools import groupby, pairwise

from trainer.records.attempt import Attempt
from trainer.records.chain import JsonObject, canonical
from trainer.records.gradebook import MINUTE, allowed_minutes, granted_to, lost_ms, ticket_content, used_ms
from trainer.words import _, listed, ngettext

TOO_QUICK, WITHIN = 40, 2_000
"""More separate acts than this within so many ms are not done by hand."""
FIRST = 1_577_836_800_000
"""The year 2020 began, ms UTC: before that there was no such program."""
LEAST_COPIED = 10
"""Fewer acts than this may be the same by chance."""
LEAST_ALIKE = 40
"""So many acts may be the same in the same order by chance, at each one's own speed."""
STOPPED = 0.1
"""More of the time allowed than this spent in stops is worth a question."""


def remarks(attempt: Attempt) -> tuple[str, ...]:
    """Return what there is to say of the course of an attempt that holds, each entry of it at hand."""
    return tuple(_remarks(attempt))


def _remarks(attempt: Attempt) -> Iterator[str]:
    for since, until in attempt.gaps:
        minutes = max(0, until - since) / MINUTE
        yield _("The program stopped once. It went on {n:.1f} minutes later.").format(n=minutes)
    yield from _of_time(attempt)
    times = [int(entry.body["at"]) for entry in attempt.entries]
    if any(later < sooner for sooner, later in pairwise(times)):
        yield _("The machine's clock went back on the way. Its times can't be relied on.")
    if attempt.began < FIRST:
        yield _("It is dated before there was such a program. The clock of its machine was wrong.")
    if why := not_by_hand(attempt):
        yield why
    made = ticket_content(attempt).get("made")
    if isinstance(made, int) and made > attempt.began:
        yield _("Its ticket is dated after it began. The clocks of the two machines differ.")
    if not attempt.closed:
        yield _("It was never closed. It may have gone on.")


def not_by_hand(attempt: Attempt) -> str:
    """Say why an attempt can't all have been done by hand, or return an empty text."""
    if any(entry.body["kind"] == "from file" for entry in attempt.entries):
        return _("What was done in it was sent in from a file or by a program. Nobody typed or pressed it.")
    if (most := _most_at_once(attempt)) > TOO_QUICK:
        text = _("Separate acts within {s} seconds: {n}. No hand is as quick: they may have come from a file.")
        return text.format(n=most, s=WITHIN // 1000)
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


def tickets_used_twice(attempts: Iterable[Attempt]) -> dict[str, str]:
    """Return, by id, what is to be said of attempts that share a ticket with another."""
    nonces = {each.id: str(nonce) for each in attempts if (nonce := ticket_content(each).get("nonce")) is not None}
    often = Counter(nonces.values())
    return {id_: _used(often[nonce]) for id_, nonce in nonces.items() if often[nonce] > 1}


def copies(attempts: Iterable[Attempt]) -> dict[str, str]:
    """Return, by id, what is to be said of attempts that did the same as another, each act at the same time in it."""
    by_course: dict[bytes, dict[str, str]] = {}
    for each in attempts:
        acts = [
            [int(act["at"]) - house.began, act["action"]] for house in each.houses for act in house.acts
        ]  # fmt: skip
        if len(acts) >= LEAST_COPIED:
            by_course.setdefault(hashlib.sha256(canonical(acts)).digest(), {})[each.id] = each.code
    text = _("Each act of it was done in {code} too, at the same time to the millisecond. One of them is a copy.")
    return {
        id_: text.format(code=listed(sorted({f"{code} ({other[:8]})" for other, code in same.items() if other != id_})))
        for same in by_course.values()
        if len(same) > 1
        for id_ in same
    }


def same_order(attempts: Iterable[Attempt]) -> dict[str, str]:
    """Return, by id, what is to be said of attempts that did the same acts in the same order as somebody else's."""
    by_order: dict[bytes, dict[str, str]] = {}
    for each in attempts:
        done = [[house.level, [act["action"] for act in house.acts]] for house in each.houses]
        if sum(len(house.acts) for house in each.houses) > LEAST_ALIKE:
            order = canonical([each.opening.get("pack"), done])
            by_order.setdefault(hashlib.sha256(order).digest(), {})[each.id] = each.code
    text = _("Its acts are the same, in the same order, as in {code}. Ask both how they came to that.")
    found = {}
    for same in by_order.values():
        for id_, code in same.items():
            others = sorted({f"{other} ({one[:8]})" for one, other in same.items() if other != code})
            if others:
                found[id_] = text.format(code=listed(others))
    return found


def in_the_future(attempt: Attempt, now: int) -> str:
    """Say that an attempt began or ended after ``now``, ms UTC, or return an empty text."""
    if max(attempt.began, attempt.ended) <= now:
        return ""
    return _("It is dated later than this machine's clock shows. One of the two clocks is wrong.")


def seen_together(attempts: Iterable[Attempt], now: int | None = None) -> dict[str, str]:
    """Return, by id, what an attempt alone does not show: tickets used twice, copies, and dates after ``now``."""
    every = list(attempts)
    used, copied = tickets_used_twice(every), copies(every)
    late = {} if now is None else {each.id: text for each in every if (text := in_the_future(each, now))}
    alike = {id_: text for id_, text in same_order(every).items() if id_ not in copied}
    kinds = (used, copied, alike, late)
    return {id_: " ".join(kind[id_] for kind in kinds if id_ in kind) for id_ in used | copied | alike | late}


def in_one_cell(attempt: Attempt, together: Mapping[str, str]) -> str:
    """Return all remarks on an attempt as a table has them; ``together`` is of :func:`seen_together`."""
    return " ".join((*remarks(attempt), *filter(None, [together.get(attempt.id)])))


def _used(n: int) -> str:
    return ngettext(
        "Its ticket was used {n} time. One ticket is for one sitting.",
        "Its ticket was used {n} times. One ticket is for one sitting.",
        n,
    ).format(n=n)
