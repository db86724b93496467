"""Doing harm never raises the mark: one more harmful action, put anywhere into an attempt, right or faulty."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest
from attempts import layout_of, level_of

from trainer.rehearse import CannotOccur, mistakes, plant, rehearse
from trainer.score import mark
from trainer.session import Session, job_of
from trainer.site import AnyAction, Brace, Fix, Remove, Stand
from trainer.site.actions import Cut, Load, Unbrace

TRIES = 12


def score(level: str, actions: list[AnyAction]) -> int:
    done = Session(level_of(level), 0, layout=layout_of(level)).replay(actions)
    lesson = done.level.lesson
    return mark(done.findings, lesson.weights.by_severity(), lesson.practice_mark, done.site.handed_over).score


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


@pytest.mark.parametrize("level", ["shed", "corner", "barn", "windy-shed"])
def test_one_more_harmful_action_never_raises_the_mark(level: str) -> None:
    draw = random.Random(level)
    job = replace(job_of(level_of(level), 0, layout=layout_of(level)))
    attempts = [list(rehearse(level_of(level), 0, layout=layout_of(level)).actions)]
    for name in mistakes():
        try:
            attempts.append(plant(job, 0, name).actions)
        except CannotOccur:
            continue
    assert len(attempts) > 10
    tried = 0
    for actions in attempts:
        before = score(level, actions)
        for _ in range(TRIES):
            at = draw.randrange(len(actions))
            harm = harmful(actions, at, draw)
            if harm is not None:
                tried += 1
                assert score(level, [*actions[:at], harm, *actions[at:]]) <= before, f"{harm} at {at}"
    assert tried > 100


@pytest.mark.parametrize("level", ["shed", "barn"])
def test_the_worst_attempt_is_nothing_and_a_right_one_everything(level: str) -> None:
    right = list(rehearse(level_of(level), 4, layout=layout_of(level)).actions)
    assert score(level, right) == 100
    worst = [action for action in right if not isinstance(action, Brace | Fix)]
    assert score(level, worst) == 0
