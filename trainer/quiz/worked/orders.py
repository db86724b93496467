"""Questions of the order of work: what may come next, what must not, which way a chain runs, and why."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from trainer.layout import Member
from trainer.quiz.from_bank import in_order
from trainer.quiz.worked.family import QuestionChance, QuestionDraft, family, needs, one_of
from trainer.quiz.worked.subject import Subject
from trainer.quiz.worked.wording import called, rows_of_tags
from trainer.rules import PRACTICE
from trainer.words import _, listed

SAFETY = _("Before each lift, every truss that stands is held.")
REASONS: Mapping[str, str] = {
    "carrier": _("because {then} hangs on it"),
    "support": _("because {then} sits on it"),
    "girders first": _("because other trusses hang on it or land on it"),
    "truncated first": _("because extensions run over the truncated trusses and are fixed to them"),
    "hip end first": _("because a finished hip end holds the row after it"),
    "outermost first": _("because a string between the outermost full-height tops lines up the rest"),
}
"""Why one truss goes up before another, by the key of the order's edge."""
TO_THE_STRING = _("because the string runs over the standard trusses, and the gable truss is set to it")
"""Why a gable truss comes after: it stands lower where the verge overhangs it, so no string runs from its top."""
TURNED_ROUND: Mapping[str, tuple[str, str]] = {
    "hangs": (
        _("because it hangs on {then}"), _("What hangs comes after what carries it. It would have to wait for {then}.")
    ),
    "sits": (
        _("because it sits on {then}"), _("What sits on another comes after it. It would have to wait for {then}.")
    ),
    "braced": (
        _("because {then} is what it is braced to"), _("Then {then} would have to stand first, and be held.")
    ),
}  # fmt: skip
"""Reasons that would ask for the other order, by what is mixed up, with what is wrong with them."""
MOST_UP = 7
"""Trusses that a question says are up already, at most."""


def _lacking(subject: Subject, tag: str, up: set[str]) -> dict[str, tuple[str, str]]:
    """What usually stands before ``tag`` and does not: tag to (strength, reason)."""
    return {first: how for first, how in subject.before[tag].items() if first not in up}


def _waits_for(subject: Subject, tag: str) -> dict[str, tuple[str, str]]:
    """What must or should stand before ``tag``: the other way round is wrong, or worse."""
    return {first: how for first, how in subject.before[tag].items() if how[0] != "as good"}


def _so_far(subject: Subject, draw: QuestionChance) -> tuple[list[str], set[str]]:
    """A right beginning of the work: the tags up so far, in order, and those ready to come next."""
    wing = draw.pick(sorted({m.wing for m in subject.layout.members}), "wing")
    members = [m.tag for m in subject.layout.members if m.kind != "saddle"]
    rank = {tag: (subject.layout.by_tag[tag].wing != wing, draw.chance("rank", tag)) for tag in members}
    many = 1 + int(draw.chance("how many up") * MOST_UP)
    up: list[str] = []
    for _turn in range(many):
        ready = [tag for tag in members if tag not in up and not _lacking(subject, tag, set(up))]
        if not ready:
            break
        up.append(min(ready, key=lambda tag: rank[tag]))
    done = set(up)
    return up, {tag for tag in members if tag not in done and not _lacking(subject, tag, done)}


def _up_text(subject: Subject, up: list[str]) -> str:
    members = sorted((subject.layout.by_tag[tag] for tag in up), key=subject.layout.members.index)
    return _("Up, braced and fixed so far: {up}.").format(up=rows_of_tags(members))


def _why_not(subject: Subject, tag: str, up: set[str]) -> str:
    first, (strength, why) = next((f, how) for f, how in _waits_for(subject, tag).items() if f not in up)
    reason = _reason(subject, why, tag) if why in REASONS else ""
    text = _("{first} must stand first, {reason}.") if strength == "must" else _("{first} is better first, {reason}.")
    return text.format(first=first, reason=reason)


@family(
    topic="order",
    difficulty=2,
    serves=("plan", "erecting"),
    rules=("out-of-order", "carried-before-carrier", "hip-before-truncated-girder"),
    why=_("More than one order is right. But each truss waits for what carries it and for what steadies its row."),
    source=PRACTICE,
    safety=SAFETY,
    hint=_("For each: what does it hang on, sit on or run over, and is that up?"),
)
def what_comes_next(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Which truss may rightly go up next."""
    up, ready = _so_far(subject, draw)
    done = set(up)
    wings = {subject.layout.by_tag[tag].wing for tag in up}
    waiting = [m.tag for m in subject.layout.members if m.tag not in done and _waits_for(subject, m.tag).keys() - done]
    waiting = [tag for tag in waiting if subject.layout.by_tag[tag].wing in wings]
    needs(ready and len(waiting) >= 3)
    right = draw.pick(sorted(ready), "right")
    wrong = [
        (called(subject.layout.by_tag[tag]), _why_not(subject, tag, done))
        for tag in _unlike(subject, draw.shuffled(waiting, "wrong"))[:3]
    ]
    text = _("{up} Of the trusses below, which may rightly go up next?").format(up=_up_text(subject, up))
    member = subject.layout.by_tag[right]
    firsts = [subject.layout.by_tag[tag] for tag in subject.before[right]]
    waits = _("It waits for {firsts}, and they are up.").format(firsts=rows_of_tags(firsts)) if firsts else ""
    working = [_("What carries {truss}? {carriers}.").format(truss=right, carriers=_carriers(member))]
    working += [waits or _("Nothing else has to stand before it."), *(f"{name}: {why}" for name, why in wrong)]
    return one_of(text, called(member), wrong, working, (right,))


def _unlike(subject: Subject, tags: list[str]) -> list[str]:
    """The tags with the first of each kind before all others, so that choices differ in kind."""
    seen: set[str] = set()
    first: list[str] = []
    rest: list[str] = []
    for tag in tags:
        kind = subject.layout.by_tag[tag].kind
        (rest if kind in seen else first).append(tag)
        seen.add(kind)
    return first + rest


def _carriers(member: Member) -> str:
    if not member.carried_by:
        return _("The walls")
    return listed([*member.carried_by, *([_("a wall")] if any(end.on_plate for end in member.ends) else [])])


@family(
    topic="safety",
    difficulty=2,
    serves=("plan", "safety"),
    rules=("carried-before-carrier", "hip-before-truncated-girder", "saddle-before-support"),
    why=_("A truss set on a carrier that is not finished can bring both down, and people with them."),
    source=PRACTICE,
    safety=SAFETY,
    hint=_("For each: what does it hang on or sit on, and is that up?"),
)
def what_must_wait(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Which truss must not go up yet."""
    up, ready = _so_far(subject, draw)
    done = set(up)
    must_wait = [
        m.tag
        for m in subject.layout.members
        if m.tag not in done and any(strength == "must" for strength, _why in _lacking(subject, m.tag, done).values())
    ]
    needs(len(ready) >= 2 and must_wait)
    right = draw.pick(must_wait, "right")
    why = _why_not(subject, right, done)
    fine = [
        (called(subject.layout.by_tag[tag]), _("It may go up: what it waits for is up."))
        for tag in _unlike(subject, draw.shuffled(sorted(ready), "fine"))[:3]
    ]
    text = _("{up} Of the trusses below, which must not go up yet?").format(up=_up_text(subject, up))
    member = subject.layout.by_tag[right]
    working = (
        _("What carries {truss}? {carriers}.").format(truss=right, carriers=_carriers(member)),
        why,
    )
    return one_of(text, called(member), fine, working, (right,))


@family(
    topic="order",
    difficulty=2,
    serves=("plan", "erecting"),
    rules=("out-of-order", "carried-before-carrier"),
    why=_("Each of them comes after the one before. That is one thread of the job; others can run beside it."),
    source=PRACTICE,
    safety=SAFETY,
)
def chain_of_work(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Trusses each of which waits for the one before, to be put in order."""
    chains = []
    for member in draw.shuffled(subject.layout.members, "last")[:12]:
        chain = [member.tag]
        while len(chain) < 4 and (firsts := _waits_for(subject, chain[0])):
            chain.insert(0, draw.pick(sorted(firsts), "before", chain[0]))
        if len(chain) >= 3:
            chains.append(chain)
    needs(chains)
    chain = max(chains, key=len)
    steps = tuple(_("stand {truss}").format(truss=called(subject.layout.by_tag[tag])) for tag in chain)
    working = []
    for first, then in pairwise(chain):
        _strength, why = subject.before[then][first]
        working.append(
            _("{first} before {then}, {reason}.").format(first=first, then=then, reason=_reason(subject, why, then))
        )
    text = _("Put these in the usual order of work. Each truss is braced and fixed before the next.")
    task = in_order(steps, draw.seed, f"{draw.house} {draw.family}")
    return QuestionDraft(text, task, tuple(working), (), tuple(chain))


def _reason(subject: Subject, why: str, then: str) -> str:
    gable = why == "outermost first" and subject.layout.by_tag[then].kind == "gable"
    return (TO_THE_STRING if gable else REASONS[why]).format(then=then)


@family(
    topic="order",
    difficulty=2,
    serves=("plan",),
    rules=("out-of-order", "carried-before-carrier"),
    why=_("Who knows the reason finds the order on a house never seen before."),
    source=PRACTICE,
)
def why_before(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Why one truss goes up before another."""
    by_reason: dict[str, list[tuple[str, str]]] = {}
    for then, firsts in subject.before.items():
        for first, (_strength, why) in firsts.items():
            by_reason.setdefault(why, []).append((first, then))
    reasons = sorted(why for why in by_reason if why in REASONS)
    why = draw.pick(reasons, "reason")
    first, then = draw.pick(by_reason[why], "pair")
    right = _reason(subject, why, then)
    true = {_reason(subject, each, then) for each in REASONS if _holds(subject, each, first, then)}
    others = [
        (_reason(subject, each, then), _("That is so of other trusses. It is not so of these two."))
        for each in REASONS
        if each != why and _reason(subject, each, then) not in true
    ]
    turned = [(reason.format(then=then), why_not.format(then=then)) for reason, why_not in TURNED_ROUND.values()]
    wrong = [*draw.shuffled(others, "others")[:2], *draw.shuffled(turned, "turned")[:1]]
    wrong += [each for each in turned if each not in wrong][: 3 - len(wrong)]
    text = _("Why does {first} go up before {then}?").format(
        first=called(subject.layout.by_tag[first]), then=called(subject.layout.by_tag[then])
    )
    strength = subject.before[then][first][0]
    working = (
        _("This order is a must: otherwise it falls, or someone gets hurt.")
        if strength == "must"
        else _("This order is good habit: the roof goes together straight this way."),
    )
    return one_of(text, right, wrong, working, (first, then))


def _holds(subject: Subject, why: str, first: str, then: str) -> bool:
    """Whether a reason could be defended for two trusses, also where the order gives another."""
    one, other = subject.layout.by_tag[first], subject.layout.by_tag[then]
    crossed = {c.under for c in subject.layout.crossings if c.over == then}
    match why:
        case "carrier":
            return first in other.carried_by
        case "support":
            return other.kind == "saddle" and (first in other.carried_by or first in crossed)
        case "girders first":
            return bool(subject.layout.carries[first]) or one.kind in ("girder", "truncated_girder")
        case "truncated first":
            return one.kind in ("truncated", "truncated_girder") or first in crossed
        case "hip end first":
            return one.kind in ("hip", "jack", "creeper", "truncated", "truncated_girder")
        case _:  # outermost first
            return one.kind == "standard" and (one.row == other.row or other.kind == "gable")
