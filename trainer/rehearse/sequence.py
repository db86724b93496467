"""Draws one right order of all steps from all right orders, so that whatever is free comes both ways round.

Choosing blindly among the steps that are ready would not do: a step with much before it would nearly
always come after one with nothing before it. Instead every draw has a list of wishes, and grants each in
turn as far as those before it leave room. In a *rush* a wished step comes as soon as can be, after no
more than what must come before it. In a *delay* it comes as late as can be, before no more than what must
come after it. Wishes come in groups at several scales (a wing, a row, a truss, a verb), and the first of
them walks evenly over the trusses from seed to seed.
"""

from __future__ import annotations

import heapq
import math

from trainer.chance import chance, shuffled
from trainer.layout import Layout, Member
from trainer.layout.marks import along_bearing, mark_run
from trainer.order import Order, Step, hold_steps
from trainer.order.model import spot
from trainer.plan import taped
from trainer.rehearse.constraint import Circle, Constraint
from trainer.rehearse.days import Days
from trainer.terms import StepVerb, TrussKind

GOLDEN = 0.618


def right_sequence(layout: Layout, order: Order, seed: int) -> list[Step]:
    """Return every step of ``order`` in an order that keeps all its edges.

    It also keeps that at every lift all that stands is held.

    :raises Circle: where no order does.
    """
    constraint = Constraint(layout, order)
    turn, part = divmod(seed, 3)
    rush = part == 0
    walked = turn if rush else 2 * turn + part - 1
    favoured = layout.members[_walk(walked, len(layout.members))]
    wishes = _nearest_first(constraint, _wishes(layout, order, seed, favoured.tag), favoured.tag, rush)
    if rush:
        return _drawn(layout, order, _rush(layout, order, constraint, wishes))
    constraint.stand_late(favoured.tag)
    return _drawn(layout, order, _delay(layout, order, constraint, wishes, favoured.tag))


TIDY: tuple[TrussKind, ...] = (
    "girder", "truncated_girder", "hip", "truncated", "jack", "creeper", "standard", "half", "gable", "saddle",
)  # fmt: skip
"""Kinds of truss in the order in which a gang that is not hurried goes through a wing."""
HIP_ENDS = ("truncated", "jack", "creeper")
FIRST: tuple[StepVerb, ...] = ("check", "report", "plan", "load", "mark")
AFTER: tuple[StepVerb, ...] = ("bridge", "slot", "plumb", "restrain", "frame", "read", "inspect", "hand_over")
"""What is done for all trusses at once, before the first of them stands and after the last."""


def tidy_sequence(layout: Layout, order: Order, seed: int) -> list[Step]:
    """Return every step in a right order that is easy to follow: all marks first, then wing by wing, end by end.

    ``seed`` chooses the wing and the end to begin with.

    :raises Circle: where no order keeps all edges.
    """
    constraint = Constraint(layout, order)
    wings = shuffled(sorted({member.wing for member in layout.members}), seed, "wings")
    back = chance(seed, "end") < 0.5
    middles = {wing.id: (wing.rect[0] + wing.rect[2], wing.rect[1] + wing.rect[3]) for wing in layout.wings}

    bearings = [*layout.house.plan.by_name, *layout.by_tag]

    def tape(member: Member, end: int) -> tuple[float, float]:
        """Where the tape runs that makes a mark, and what it shows there."""
        where, run = along_bearing(layout, member, end)[0], mark_run(layout, member, end)
        wall = layout.house.plan.by_name.get(where)
        return bearings.index(where), taped(layout.house.plan, wall, run) if wall else run

    def wish(step: Step) -> tuple[float, ...]:
        member = layout.by_tag.get(step.tag)
        if member is None or step.verb in AFTER:
            late = 1 + AFTER.index(step.verb) if step.verb in AFTER else 0
            return (late, FIRST.index(step.verb) if step.verb in FIRST else 0)
        if step.verb in FIRST:
            return (0, FIRST.index(step.verb), *(tape(member, step.end) if step.verb == "mark" else ()))
        (ax, ay), (bx, by) = member.start, member.finish
        doubled = middles.get(member.wing, (0.0, 0.0))
        far = (ax + bx - doubled[0] + ay + by - doubled[1] > 0) != back
        kind = TIDY.index(member.kind)
        saddle = member.kind == "saddle"
        crossing = step.verb == "cross"
        end = (TIDY.index("truncated"), far) if member.kind in HIP_ENDS or crossing else (kind, False)
        return (
            0,
            len(FIRST) + saddle,
            wings.index(member.wing),
            *end,
            crossing,
            kind,
            -spot(member) if back else spot(member),
        )

    return _drawn(layout, order, _rush(layout, order, constraint, sorted(order.steps, key=wish)))


def _walk(turn: int, choices: int) -> int:
    """An index that from turn to turn steps about the golden section on, and in ``choices`` turns meets each once."""
    step = next(s for s in range(round(choices * GOLDEN) or 1, choices + 2) if math.gcd(s, choices) == 1)
    return turn * step % choices


def _wishes(layout: Layout, order: Order, seed: int, favoured: str) -> list[Step]:
    """Every step, the most wished for first."""
    scales = shuffled(("wing", "row", "tag", "verb"), seed, "scales")
    scales = scales[: 1 + int(chance(seed, "how many scales") * len(scales))]

    def wish(step: Step) -> tuple[float, ...]:
        member = layout.by_tag.get(step.tag)
        groups = {
            "wing": member.wing if member else "",
            "row": member.row if member else "",
            "tag": step.tag,
            "verb": step.verb,
        }
        grouped = (chance(seed, scale, groups[scale]) for scale in scales)
        return (float(step.tag != favoured), *grouped, chance(seed, step.verb, step.tag, step.end))

    return sorted(order.steps, key=wish)


def _nearest_first(constraint: Constraint, wishes: list[Step], favoured: str, rush: bool) -> list[Step]:
    """Have the favoured truss's own steps that hang on the least come first: so none keeps another from its wish."""
    own = [step for step in wishes if step.tag == favoured]
    hangs_on = constraint.before(wishes) if rush else constraint.after(wishes)
    return sorted(own, key=lambda step: hangs_on[step].bit_count()) + wishes[len(own) :]


def _rush(layout: Layout, order: Order, constraint: Constraint, wishes: list[Step]) -> list[Step]:
    """Grant wishes to come early; what holds a truss follows at once, so that lifting is not kept shut."""
    before = constraint.before(wishes)
    held = {step: hold_steps(layout, order, step.tag) for step in wishes if step.verb == "stand"}
    follows = {tie for ties in held.values() for tie in ties}
    found: list[Step] = []
    stack: list[int | Step] = [(1 << len(wishes)) - 1]
    while stack:
        top = stack.pop()
        if isinstance(top, Step):
            if top not in follows:
                found += [top, *held.get(top, ())]
        elif top:
            first = top & -top
            step = wishes[first.bit_length() - 1]
            needed = before[step] & top
            stack += [top & ~needed, step, needed & ~first]
    return found


def _delay(layout: Layout, order: Order, constraint: Constraint, wishes: list[Step], last: str) -> list[Step]:
    """Grant wishes to come late. To hold a truss late is to stand it late too, but for the ``last`` to be stood."""
    after = constraint.after(wishes)
    untied = sorted(hold_steps(layout, order, last), key=lambda hold: (after[hold].bit_count(), hold))
    wishes = [*untied, *(step for step in wishes if step not in untied)]
    after = constraint.after(wishes)
    bit = {step: 1 << i for i, step in enumerate(wishes)}
    stands = {tie: step for step in wishes if step.verb == "stand" for tie in hold_steps(layout, order, step.tag)}
    found: list[Step] = []
    stack: list[int | Step] = [(1 << len(wishes)) - 1]
    while stack:
        top = stack.pop()
        if isinstance(top, Step):
            found.append(top)
        elif top:
            step = wishes[(top & -top).bit_length() - 1]
            if step in stands and step not in untied and bit[stands[step]] & top:
                step = stands[step]
            late = after[step] & top
            stack += [late & ~bit[step], step, top & ~late]
    return found


def _drawn(layout: Layout, order: Order, wanted: list[Step]) -> list[Step]:
    """Come as near to ``wanted`` as can be done: take the ready step that it has first, again and again.

    All lifting stays shut while the truss stood last is not held. Towards the end of a day each row is made safe for
    the night. What comes up on the day is dealt with before the next lift.
    """
    rank = {step: i for i, step in enumerate(wanted)}
    waiting = {step: len(order.into[step]) for step in order.steps}
    ready = [rank[step] for step in order.steps if not waiting[step]]
    heapq.heapify(ready)
    unheld: set[Step] = set()
    kept_out: list[int] = []
    days = Days(layout, order.day, order.late)
    drawn: list[Step] = []
    while ready:
        step = wanted[heapq.heappop(ready)]
        if step.verb == "stand":
            if unheld:
                kept_out.append(rank[step])
                continue
            drawn += days.secured()
            drawn += days.come_up
            unheld = set(hold_steps(layout, order, step.tag))
            days.stand(step)
        elif step in unheld:
            unheld.discard(step)
            while kept_out and not unheld:
                heapq.heappush(ready, kept_out.pop())
        drawn.append(step)
        for edge in order.out_of[step]:
            waiting[edge.then] -= 1
            if not waiting[edge.then]:
                heapq.heappush(ready, rank[edge.then])
    if any(waiting.values()) or kept_out:
        raise Circle("lifting stays shut for what waits behind it")
    return drawn
