"""What planters share: a right attempt to change, and ways to change its order."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from trainer.order import HAND_OVER, Edge, Order, Step
from trainer.rehearse.constraint import Circle
from trainer.rehearse.playing import STRIKE, play
from trainer.rehearse.sequence import right_sequence
from trainer.site import AnyAction, Event, HandOver, Job, Refused, Site, Stand, act, start

KEPT = 4
"""So many right attempts are kept."""


@dataclass(frozen=True)
class Planted:
    """Actions with one mistake in them, which is to be found with ``member`` at the action ``event``.

    ``strikes`` says whether braces that are needed no more come out at the end.
    """

    actions: list[AnyAction]
    member: str
    event: int
    strikes: bool = True


Plantings = Iterator[Planted]
Planter = Callable[[Job, int], Plantings]
"""Yields attempts with the mistake in different places, in an order that the seed decides."""


@dataclass(frozen=True, slots=True)
class Mistake:
    """How to plant a mistake, and in plain words what a level needs for it. It bears the name of its rule."""

    plant: Planter
    needs: str


def needs(what: str) -> Callable[[Planter], Mistake]:
    """Turn a planter into the mistake that it plants, on a level that has ``what`` it takes."""
    return lambda plant: Mistake(plant, what)


@dataclass(frozen=True)
class RightAttempt:
    """A right attempt: its steps, the action that does each, and the site before each and after the last.

    ``sequence`` has the steps that nothing was to be done for as well; ``numbers`` are the numbers of the others in it.
    """

    job: Job
    sequence: Sequence[Step]
    numbers: Sequence[int]
    steps: Sequence[Step]
    actions: Sequence[AnyAction]
    sites: Sequence[Site]

    @staticmethod
    @lru_cache(maxsize=KEPT)
    def drawn(job: Job, seed: int) -> RightAttempt:
        """Draw one for ``seed``; the last few are kept, since each mistake is planted in the same ones."""
        sequence = right_sequence(job.layout, job.order, seed)
        played = play(start(job), sequence, seed)
        sites = [site := played.site]
        while site.before is not None:
            sites.append(site := site.before)
        return RightAttempt(job, sequence, played.numbers, played.steps, played.actions, sites[::-1])

    def done(self, planted: Planted) -> Planted | None:
        """Return what was planted, if nothing of it is refused; it is tried from where it parts from this attempt on.

        Which braces are needed no more at its end may have changed: what this attempt takes out is left out of it, and
        what may come out then is taken out.
        """
        if not planted.strikes:
            return planted
        struck = {id(a) for step, a in zip(self.steps, self.actions, strict=True) if step == STRIKE}
        actions = [action for action in planted.actions if id(action) not in struck]
        last = planted.event == len(planted.actions) - 1
        end = HAND_OVER if isinstance(actions[-1], HandOver) else None
        body = actions[:-1] if end else actions
        alike = _alike(self.actions, body)
        site, event = self.sites[alike], sum(id(action) not in struck for action in planted.actions[: planted.event])
        whole = [*body[:alike]]
        for action in body[alike:]:
            result = act(site, site.done, action)
            if isinstance(result, Refused):
                return None
            if len(whole) != event and (rows := left_unsafe(result[1])):
                # What was to keep the row by then is what went wrong: it is made safe for the night in its place.
                secured = play(site, [Step("secure", row) for row in rows], self.job.seed)
                event += len(secured.actions) if len(whole) <= event else 0
                whole += secured.actions
                result = act(secured.site, secured.site.done, action)
                if isinstance(result, Refused):
                    return None
            site = result[0]
            whole.append(action)
        whole += play(site, [end] if end else [], self.job.seed).actions
        return Planted(whole, planted.member, len(whole) - 1 if last else event)

    def with_stand(self, tag: str, stand: Stand) -> Planted:
        """Stand ``tag`` like this instead, which is the mistake."""
        event = self.steps.index(Step("stand", tag))
        return Planted([*self.actions[:event], stand, *self.actions[event + 1 :]], tag, event)

    @property
    def quiet_lifts(self) -> list[int]:
        """The numbers of the lifts after the last danger of the day: one more or less moves none of them."""
        quiet = max((late.after for late in self.job.order.late), default=0)
        return [i for i, step in enumerate(self.steps) if step.verb == "stand"][quiet:]

    def stand_of(self, tag: str) -> Stand | None:
        """How ``tag`` is stood here, if it is."""
        return next((a for a in self.actions if isinstance(a, Stand) and a.tag == tag), None)


def left_unsafe(event: Event) -> list[str]:
    """The rows that a night before an action found unsafe; mostly there was no night."""
    return [row for row, _tags in event.night.unsafe] if event.night else []


BETWEEN = ("cross", "bridge", "slot")
"""Steps that want two trusses to stand, whichever of them they are told of."""


def all_about(job: Job, tag: str) -> Iterator[Step]:
    """Yield the steps that can't be done without a truss in the place ``tag``: standing it, and what follows that.

    Bracing that lies over others too can be.
    """
    waiting = [Step("stand", tag)]
    while waiting:
        step = waiting.pop()
        yield step
        can = (edge.then for edge in job.order.out_of.get(step, ()) if edge.strength == "can")
        waiting += [then for then in can if then.verb in BETWEEN or (then.tag == tag and then.verb != "string")]


def without(job: Job, seed: int, dropped: Iterable[Step]) -> tuple[list[Step], list[AnyAction]]:
    """Return a right order but for the steps ``dropped``, and its actions."""
    gone = set(dropped)
    attempt = RightAttempt.drawn(job, seed)
    alike = next((i for i, step in enumerate(attempt.steps) if step in gone), len(attempt.steps))
    left = attempt.sequence[attempt.numbers[alike] :] if alike < len(attempt.steps) else ()
    rest = play(attempt.sites[alike], (step for step in left if step not in gone), seed)
    return [*attempt.steps[:alike], *rest.steps], [*attempt.actions[:alike], *rest.actions]


def _alike(one: Sequence[object], other: Sequence[object]) -> int:
    """How many of two lists are the same from the start on."""
    return next((i for i, (a, b) in enumerate(zip(one, other, strict=False)) if a != b), min(len(one), len(other)))


def reversed_order(order: Order, late: Step, early: Step, freed: str = "") -> Order | None:
    """The order with ``early`` before ``late``, against its edge; none where more than that edge holds them apart.

    ``freed`` is the reason of other edges that ``early`` need not wait for then.
    """
    kept = {
        step: tuple(e for e in edges if e.then != early or (e.first != late and e.why != freed))
        for step, edges in order.out_of.items()
    }
    if _leads_to(kept, late, early):
        return None
    kept[early] = (*kept[early], Edge(early, late, "must", "planted"))
    kept[late] = kept[late] or (Edge(late, HAND_OVER, "can", "last"),)
    into: dict[Step, list[Edge]] = {step: [] for step in order.steps}
    for edges in kept.values():
        for edge in edges:
            into[edge.then].append(edge)
    return Order(order.steps, {step: tuple(edges) for step, edges in into.items()}, kept, order.day, order.late)


def planted_in_order(job: Job, seed: int, late: Step, early: Step, freed: str = "") -> Planted | None:
    """Return an attempt that is right but for doing ``early``, a stand, before ``late``, and ``freed`` of a reason."""
    order = reversed_order(job.order, late, early, freed)
    if order is None:
        return None
    try:
        steps = right_sequence(job.layout, order, seed)
    except Circle:
        return None
    played = play(start(job), steps, seed)
    return Planted(played.actions, early.tag, played.steps.index(early))


def _leads_to(out_of: dict[Step, tuple[Edge, ...]], first: Step, then: Step) -> bool:
    seen, waiting = {first}, [first]
    while waiting:
        for edge in out_of[waiting.pop()]:
            if edge.then == then:
                return True
            if edge.then not in seen:
                seen.add(edge.then)
                waiting.append(edge.then)
    return False
