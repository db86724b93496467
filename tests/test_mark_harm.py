"""Doing harm never raises the mark: one more harmful action, put anywhere into an attempt, right or faulty."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest
from attempts import layout_of, level_of
from recall import Judged, gone_on
from sizes import by_size, some

from trainer.rehearse import CannotOccur, mistakes, plant, rehearse
from trainer.score import mark
from trainer.session import job_of
from trainer.site import AnyAction, Brace, Fix, Remove, Site, Stand, start
from trainer.site.actions import Cut, Load, Unbrace

TRIES = by_size(2, 4, 12)


class Done:
    """An attempt with the site before each action and after the last, so that another can go on from any of them."""

    def __init__(self, level: str, sites: list[Site], found: Judged) -> None:
        self.level, self.sites, self.found = level, sites, found

    @staticmethod
    def begun(level: str) -> Done:
        return Done(level, [start(job_of(level_of(level), 0, layout=layout_of(level)))], Judged([], []))

    def then(self, at: int, actions: list[AnyAction]) -> Done:
        """This one up to the action numbered ``at``, and then these."""
        found = Judged([finding for finding in self.found.findings if finding.event < at], [])
        after = [*gone_on(self.sites[at], actions, at, found)]
        return Done(self.level, [*self.sites[: at + 1], *after], found)

    @property
    def score(self) -> int:
        lesson, over = level_of(self.level).lesson, self.sites[-1].handed_over
        return mark(self.found.findings, lesson.weights.by_severity(), lesson.practice_mark, over).score


def harmful(actions: list[AnyAction], at: int, draw: random.Random) -> AnyAction | None:
    """Something that no supervisor would want done there."""
    stood = [a.tag for a in actions[:at] if isinstance(a, Stand)]
    braces = [a for a in actions[:at] if isinstance(a, Brace)]
    if not stood:
        return None
    tag = draw.choice(stood)
    # Taking down what hands still hold is no harm: loose, it is better down.
    down = [Remove(tag=tag)] if tag != stood[-1] else []
    choices: list[AnyAction] = [
        *down,
        Cut(tag=tag, where=draw.choice(("web", "tail", "top chord", "bottom chord"))),
        Load(what=draw.choice(("battens", "tiles"))),
        Fix(tag=tag, end=1, with_="nails"),
    ]
    if braces:
        brace = draw.choice(braces)
        choices.append(Unbrace(kind=brace.kind, tags=brace.tags))
    return draw.choice(choices)


@pytest.mark.parametrize("level", some(["shed", "corner", "barn", "windy-shed"], 2))
def test_one_more_harmful_action_never_raises_the_mark(level: str) -> None:
    draw = random.Random(level)
    job = replace(job_of(level_of(level), 0, layout=layout_of(level)))
    attempts = [list(rehearse(level_of(level), 0, layout=layout_of(level)).actions)]
    for name in mistakes()[:: by_size(3, 1, 1)]:
        try:
            attempts.append(plant(job, 0, name).actions)
        except CannotOccur:
            continue
    assert len(attempts) > by_size(5, 10, 10)
    tried = 0
    for actions in attempts:
        done = Done.begun(level).then(0, actions)
        for _ in range(TRIES):
            at = draw.randrange(len(actions))
            harm = harmful(actions, at, draw)
            if harm is not None:
                tried += 1
                assert done.then(at, [harm, *actions[at:]]).score <= done.score, f"{harm} at {at}"
    assert tried > by_size(4, 9, 9) * TRIES


@pytest.mark.parametrize("level", ["shed", "barn"])
def test_the_worst_attempt_is_nothing_and_a_right_one_everything(level: str) -> None:
    right = list(rehearse(level_of(level), 4, layout=layout_of(level)).actions)
    assert Done.begun(level).then(0, right).score == 100
    worst = [action for action in right if not isinstance(action, Brace | Fix)]
    assert Done.begun(level).then(0, worst).score == 0
