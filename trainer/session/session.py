"""One attempt while it is going on."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import takewhile, zip_longest

from trainer.layout import Layout
from trainer.level import Level
from trainer.rules.finding import Finding
from trainer.rules.judge import judge
from trainer.session.hints import Hint, hints
from trainer.session.job import job_of
from trainer.site import AnyAction, Diary, Event, Job, Refused, Site, act, start
from trainer.site.actions import Undo
from trainer.terms import Mode


@dataclass(frozen=True, slots=True)
class ActionResult:
    """What came of one action: the event, or why it was refused; and what was found in it."""

    index: int
    action: AnyAction
    event: Event | None
    refused: Refused | None
    findings: tuple[Finding, ...] = ()
    hint_depth: int = 0
    """How deep a hint went before this action and after the one before it: 0 for none, up to :data:`DEEPEST`."""
    hand: int | None = None
    """The number, from 1, of what one hand did in one go, where this is a part of that."""

    @property
    def hinted(self) -> bool:
        """Whether a hint was taken before it."""
        return self.hint_depth > 0


DEPTHS = ("why", "which", "where", "do it")
"""The steps of a hint, each deeper than the one before."""
DEEPEST = len(DEPTHS)
MOST_SHOWN = 0.1
"""The part of a house that may be done by the deepest hints; beyond, it was shown and not done."""
Listener = Callable[[Sequence[ActionResult]], None]
"""Takes what came of one act, all of it, before its findings are shown; it may raise, and then nothing was done."""


def hand_runs(hands: Iterable[int | None]) -> tuple[tuple[int, int], ...]:
    """Return the first and the last action of each hand, from the number that each action has, none where it has none.

    >>> hand_runs([None, 1, 1, None, 2, 2])
    ((1, 2), (4, 5))
    """
    runs: dict[int, tuple[int, int]] = {}
    for index, hand in enumerate(hands):
        if hand is not None:
            runs[hand] = (runs.get(hand, (index,))[0], index)
    return tuple(runs.values())


class Session:
    """Everything done so far on one level. It alone changes; the sites that it holds never do.

    ``given`` is what others did before it: it is neither judged nor in the diary, and can't be undone. ``job`` is what
    the level sets for this seed and mode, where that was worked out before.
    """

    def __init__(
        self,
        level: Level,
        seed: int = 0,
        mode: Mode = "practice",
        journal: Listener | None = None,
        layout: Layout | None = None,
        given: Iterable[AnyAction] = (),
        job: Job | None = None,
    ) -> None:
        self.level = level
        self.mode = mode
        self.job = job or job_of(level, seed, mode, layout)
        self._journal = journal
        self._first = self._site = _as_given(start(self.job), given)
        self._outcomes: list[ActionResult] = []
        self._standing: list[ActionResult] = []
        self._found: tuple[Finding, ...] | None = None
        self._depth = 0

    @property
    def site(self) -> Site:
        """The site as it is now."""
        return self._site

    @property
    def outcomes(self) -> tuple[ActionResult, ...]:
        """What came of every action, refused ones and undos included, in order."""
        return tuple(self._outcomes)

    @property
    def findings(self) -> tuple[Finding, ...]:
        """All that was found, in order; what was undone took its findings with it."""
        if self._found is None:
            self._found = tuple(finding for outcome in self._standing for finding in outcome.findings)
        return self._found

    @property
    def taken_back(self) -> tuple[Finding, ...]:
        """What was found in actions that were undone since: it is not marked, and was there all the same."""
        standing = {outcome.index for outcome in self._standing}
        return tuple(f for outcome in self._outcomes if outcome.index not in standing for f in outcome.findings)

    @property
    def moments(self) -> tuple[tuple[ActionResult, Site], ...]:
        """Each action that was done and not undone, with the site after it, in order."""
        sites = [self._site]
        while len(sites) < len(self._standing) and (before := sites[-1].before) is not None:
            sites.append(before)
        return tuple(zip(self._standing, reversed(sites), strict=True)) if self._standing else ()

    @property
    def first_site(self) -> Site:
        """The site before the first action."""
        return self._first

    @property
    def refused(self) -> tuple[tuple[int, str], ...]:
        """(index of the action, why) of everything that nobody could do."""
        return tuple((o.index, o.refused.why) for o in self._outcomes if o.refused)

    def do(self, action: AnyAction) -> ActionResult:
        """Do one action, write it to the journal, and return what came of it."""
        return self._act([action], None)[0]

    def do_in_one_go(self, actions: Sequence[AnyAction]) -> tuple[ActionResult, ...]:
        """Do actions as one hand does them: written to the journal all at once, and taken back all at once.

        It stops after the first that can't be done, at a fall, and in practice after the first that is found wrong.
        """
        hands = (outcome.hand or 0 for outcome in self._outcomes)
        return self._act(actions, 1 + max(hands, default=0) if len(actions) > 1 else None)

    def _act(self, actions: Sequence[AnyAction], hand: int | None) -> tuple[ActionResult, ...]:
        """Do actions up to the first that stops them; nothing of it counts before the journal has all of it."""
        done: list[tuple[ActionResult, Site]] = []
        site = self._site
        for action in actions:
            index, depth = len(self._outcomes) + len(done), 0 if done else self._depth
            result = act(site, index, action)
            if isinstance(result, Refused):
                done.append((ActionResult(index, action, None, result, (), depth, hand), site))
                break
            after, event = result
            found = () if isinstance(action, Undo) else judge(site, event, after)
            done.append((ActionResult(index, action, event, None, found, depth, hand), after))
            site = after
            if event.fell or (found and self.mode == "practice"):
                break
        outcomes = tuple(outcome for outcome, _site in done)
        if self._journal is not None:
            self._journal(outcomes)
        for outcome, self._site in done:
            self._outcomes.append(outcome)
            self._found = None
            if isinstance(outcome.action, Undo) and outcome.event is not None:
                self._standing.pop()
            elif outcome.event is not None:
                self._standing.append(outcome)
        self._depth = 0
        return outcomes

    @property
    def last_act(self) -> AnyAction | None:
        """The first action of what an undo would take back; None where there is nothing."""
        undone = len(self.undos)
        return self._standing[-undone].action if len(self._standing) >= undone else None

    @property
    def undos(self) -> tuple[Undo, ...]:
        """What takes back the act before, all that its hand did; one undo even where there is nothing to take back."""
        hand = self._standing[-1].hand if self._standing else None
        same = takewhile(lambda outcome: hand is not None and outcome.hand == hand, reversed(self._standing))
        return (Undo(),) * max(1, sum(1 for _each in same))

    def undo(self) -> ActionResult:
        """Take back the act before, with all that its hand did in one go; practice only."""
        return self.do_in_one_go(self.undos)[-1]

    def replay(
        self,
        actions: Iterable[AnyAction],
        hints: Iterable[int] = (),
        depths: Iterable[int] = (),
        hands: Iterable[tuple[int, int]] = (),
    ) -> Session:
        """Do ``actions`` one after another, as a diary gives them.

        ``hints`` number those with a hint before them, ``depths`` say how deep each went, where that is known;
        ``hands`` have the first and the last of what was done in one go.
        """
        hinted = dict(zip_longest(hints, depths, fillvalue=1))
        in_hand = {index: n for n, (first, last) in enumerate(hands, 1) for index in range(first, last + 1)}
        for action in actions:
            index = len(self._outcomes)
            self._depth = hinted.get(index, 0)
            self._act([action], in_hand.get(index))
        return self

    def hint(self) -> tuple[Hint, ...]:
        """Return all that would be right now; none in an assessment, or where the level gives no hints."""
        if self.mode == "assessment" or not self.level.lesson.hints:
            return ()
        return hints(self._site, {f.cause for f in self.findings if f.severity == "stop-work" and f.cause})

    def take_hint(self, depth: int = 1) -> tuple[Hint, ...]:
        """Return all that would be right now, and count it as a hint of that ``depth`` with the next action."""
        found = self.hint()
        if found:
            self._depth = max(self._depth, depth)
        return found

    @property
    def hint_depths(self) -> tuple[int, ...]:
        """How deep each of :attr:`hints` went, from 1 to :data:`DEEPEST`."""
        return tuple(outcome.hint_depth for outcome in self._outcomes if outcome.hinted)

    @property
    def shown(self) -> bool:
        """Whether more of what stands was done by the deepest hints than may be."""
        by_hint = sum(outcome.hint_depth == DEEPEST for outcome in self._standing)
        return by_hint > MOST_SHOWN * len(self._standing)

    @property
    def hands(self) -> tuple[tuple[int, int], ...]:
        """The first and the last action, by index, of each thing that was done in one go."""
        return hand_runs(outcome.hand for outcome in self._outcomes)

    @property
    def hints(self) -> tuple[int, ...]:
        """The actions, by index, before which a hint was taken; undoing an action does not give its hint back."""
        return tuple(outcome.index for outcome in self._outcomes if outcome.hinted)

    def diary(self) -> Diary:
        """Return the attempt so far as a diary."""
        actions = tuple(o.action for o in self._outcomes)
        return Diary(
            level=self.level.id,
            seed=self.job.seed,
            actions=actions,
            hints=self.hints,
            hint_depths=self.hint_depths,
            hand=self.hands,
        )


def _as_given(site: Site, given: Iterable[AnyAction]) -> Site:
    for index, action in enumerate(given):
        result = act(site, index, action)
        if isinstance(result, Refused):
            raise ValueError(f"action {index} of what is given can't be done: {result.why}")
        site = replace(result[0], before=None)
    return site
