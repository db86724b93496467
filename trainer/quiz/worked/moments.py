"""A moment of a day on site, twice: with one mistake planted in it, and mended.

The mistake is planted by :mod:`trainer.rehearse` and found by its rule. It is mended with what a right attempt does
there, as little of it as it takes. That nothing is found any more is for the rules to say, never for this module.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from trainer.plan import Point
from trainer.quiz.worked.subject import Subject
from trainer.rehearse import CannotOccur, plant
from trainer.rehearse.mistakes.planting import RightAttempt
from trainer.rules import Finding
from trainer.rules.judge import judge
from trainer.site import AnyAction, HandOver, Job, Mark, Refused, Site, Stand, act, start

MOST_MENDED = 4
"""A mistake that takes more actions than these to mend is not asked about."""
MOST_TRIED = 40
"""Things to do that may mend a mistake, at most."""
ATTEMPTS = 2
"""So many right attempts are tried for one in which the mistake can be shown."""
NEAR = 300.0
"""Places nearer to each other than this are meant as the same, mm."""
CONTEXT = 2
"""So many lifts that both crews made before are told, at most."""


@dataclass(frozen=True)
class Crew:
    """What one crew has done up to the moment, all of it; what of it is ``shown``; the ``site`` before it comes out."""

    actions: tuple[AnyAction, ...]
    shown: tuple[AnyAction, ...]
    site: Site


@dataclass(frozen=True)
class Moment:
    """``wrong`` and ``right`` have done the same but for what parts them. ``finding`` is in the one only."""

    finding: Finding
    wrong: Crew
    right: Crew


@dataclass(frozen=True)
class _Mend:
    """What is taken ``out`` of a list of actions, by index, and what is put in: each before an index."""

    out: tuple[int, ...] = ()
    put: tuple[tuple[int, AnyAction], ...] = ()
    each: bool = False
    """Whether every one that is taken out has its own put in, so that none of these can be left out."""

    @property
    def first(self) -> int:
        """The first index that it changes something at."""
        return min([*self.out, *(at for at, _action in self.put)])


def moment_of(subject: Subject, rule: str, seed: int) -> Moment | None:
    """Return a moment at which the mistake of ``rule`` is made on a house; none where it can't be shown there."""
    for again in range(ATTEMPTS if (rule, seed) not in subject.nothing_on else 0):
        job = subject.day(seed * ATTEMPTS + again)
        try:
            planted = plant(job, job.seed, rule)
        except CannotOccur:
            break
        day = _Day(job, planted.actions[: planted.event + 1], RightAttempt.drawn(job, job.seed).actions)
        if (moment := day.moment(rule)) is not None:
            return moment
    subject.nothing_on.add((rule, seed))
    return None


class _Day:
    """What was done up to a mistake, and what a right attempt does."""

    def __init__(self, job: Job, done: Sequence[AnyAction], right: Sequence[AnyAction]) -> None:
        self.done = list(done)
        self.sites = [start(job)]
        self.missing = list(right)
        """What a right attempt does that was not done."""
        self.extra: list[int] = []
        """What was done that a right attempt does not."""
        for i, action in enumerate(self.done):
            if action in self.missing:
                self.missing.remove(action)
            else:
                self.extra.append(i)

    def moment(self, rule: str) -> Moment | None:
        """Return the moment of the mistake and of what mends it; none where nothing simple does."""
        finding = None
        for index, action in enumerate(self.done):
            result = act(self.sites[-1], index, action)
            if isinstance(result, Refused):
                return None
            if index == len(self.done) - 1:
                found = judge(self.sites[-1], result[1], result[0])
                finding = next((one for one in found if one.rule == rule), None)
            self.sites.append(result[0])
        if finding is None:
            return None
        about = tags_in(finding, self.sites[0]) | {tag for i in self.extra for tag in tags_of(self.done[i])}
        mend = next((least for mend in self._mends(about) if (least := self._least(mend)) is not None), None)
        return None if mend is None else self._parted(mend, finding, about)

    def _mends(self, about: set[str]) -> Iterator[_Mend]:
        """Yield ways to mend it, the plainest first."""
        event = len(self.done) - 1
        after = [action for action in self.missing if action.do != "hand_over"]
        if 1 < len(self.extra) <= MOST_MENDED:
            # All of a slip made over and over is mended, also what is no mistake yet: else the right crew slips too.
            own = {i: one for i in self.extra for one in reversed(after) if _in_place_of(one, self.done[i])}
            if len(own) == len(self.extra):
                yield _Mend(tuple(self.extra), tuple(own.items()), each=True)
        near = [action for action in after if tags_of(action) & about or not tags_of(action)][:MOST_TRIED]
        for out in self.extra[: -MOST_MENDED - 1 : -1]:
            was = self.done[out]
            like = [action for action in after if _in_place_of(action, was)]
            for action in like[:3]:
                yield _Mend((out,), ((out, action),))
            yield _Mend((out,))
        for action in near:
            yield _Mend((), ((event, action),))
        if len(near) > 1:
            yield _Mend((), tuple((event, action) for action in near))
        if 0 < len(self.extra) <= MOST_MENDED and near:
            yield _Mend(tuple(self.extra), tuple((self.extra[0], action) for action in near))

    def _least(self, mend: _Mend) -> _Mend | None:
        """Return as little of a mend as it takes; none where it does not mend."""
        if self._played(mend) is None:
            return None
        put = list(mend.put)
        for each in () if mend.each else mend.put:
            fewer = [one for one in put if one is not each]
            if len(mend.put) > 1 and (fewer or mend.out) and self._played(_Mend(mend.out, tuple(fewer))) is not None:
                put = fewer
        return _Mend(mend.out, tuple(put)) if len(put) <= MOST_MENDED else None

    def _mended(self, mend: _Mend) -> list[AnyAction]:
        """What is done from where a mend begins."""
        todo: list[AnyAction] = []
        for i in range(mend.first, len(self.done)):
            todo += [action for at, action in mend.put if at == i]
            todo += [] if i in mend.out else [self.done[i]]
        return todo

    def _played(self, mend: _Mend) -> list[Site] | None:
        """The sites from where a mend begins; none where something of it can't be done or is found fault with."""
        sites = [self.sites[mend.first]]
        for action in self._mended(mend):
            result = act(sites[-1], sites[-1].done, action)
            if isinstance(result, Refused) or judge(sites[-1], result[1], result[0]):
                return None
            sites.append(result[0])
        return sites

    def _parted(self, mend: _Mend, finding: Finding, about: set[str]) -> Moment | None:
        """Tell both apart by what differs, after a lift or two that both made."""
        event = len(self.done) - 1
        sites = self._played(mend)
        assert sites is not None
        common = event not in mend.out
        both = [i for i in range(event) if i not in mend.out]
        scene = [i for i in both if _sets_the_scene(self.done[i], about)][-CONTEXT:] or both[-CONTEXT:]
        last = [event] if common else []
        wrong = [self.done[i] for i in sorted({*scene, *mend.out, *last})]
        if common and not mend.out and not isinstance(self.done[event], HandOver):
            wrong += [action for _at, action in mend.put]  # too late
        right: list[AnyAction] = []
        for i in sorted({*scene, *last, *(at for at, _action in mend.put)}):
            right += [action for at, action in mend.put if at == i]
            right += [self.done[i]] if i in {*scene, *last} else []
        wrong_site = self.sites[event] if common else self.sites[-1]
        right_site = sites[-2] if common else sites[-1]
        mended = (*self.done[: mend.first], *self._mended(mend))
        return Moment(
            finding,
            Crew(tuple(self.done), tuple(wrong), wrong_site),
            Crew(mended, tuple(right), right_site),
        )


def _in_place_of(action: AnyAction, was: AnyAction) -> bool:
    """Whether an action does rightly what another did: at the same truss, or at the same place."""
    if isinstance(action, Mark) and isinstance(was, Mark):
        return (action.wall, action.on) == (was.wall, was.on) and abs(action.at - was.at) < NEAR
    if isinstance(action, Stand) and isinstance(was, Stand) and action.tag != was.tag:
        ends = [(was.start, was.finish), (was.finish, was.start)]
        return any(_close(action.start, a) and _close(action.finish, b) for a, b in ends)
    return action.do == was.do and tags_of(action) == tags_of(was)


def _close(one: Point, other: Point) -> bool:
    return math.dist(one, other) < NEAR


def _sets_the_scene(action: AnyAction, about: set[str]) -> bool:
    return isinstance(action, Stand) and action.tag in about


def tags_of(action: AnyAction) -> frozenset[str]:
    """The trusses that an action names."""
    named = {getattr(action, key, None) for key in ("tag", "on", "start", "finish")}
    return frozenset({each for each in named if isinstance(each, str)} | set(getattr(action, "tags", ())))


def tags_in(finding: Finding, site: Site) -> set[str]:
    """The trusses that a finding speaks of."""
    said = f"{finding.member} {finding.got} {finding.want}"
    words = {word.strip(".,;:()") for word in said.split()}
    return {tag for tag in words if tag in site.layout.by_tag}
