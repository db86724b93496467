"""Right orders are never marked down: not for how wings or teams interleave, early permanent ties, or sighting.

Trade brief, "Order of work" (common practice, no source): more than one order is right; nothing is marked down for how
wings interleave, from one held state to the next; permanent ties early are as good; sighting along straight plates is
as good as a string.
"""

from __future__ import annotations

import random
from collections.abc import Callable

import pytest
from attempts import layout_of, level_of, right
from sizes import some

from trainer.order import Step, hold_steps
from trainer.rehearse.playing import actions_of
from trainer.rehearse.sequence import right_sequence
from trainer.session import Session, job_of
from trainer.site import AnyAction, Job
from trainer.site.actions import String

TWO_WINGS = some(("wren", "kookaburra", "currawong", "shelduck", "lorikeet"), 2)
SWAPS = 4000


def job(level: str, seed: int) -> Job:
    return job_of(level_of(level), seed, layout=layout_of(level))


def wing(of: Job, step: Step) -> str:
    member = of.layout.by_tag.get(step.tag)
    return member.wing if member else ""


def tied(of: Job, first: Step, then: Step) -> bool:
    """Whether one step has to come before another that follows it at once: by the order, or to hold what stands."""
    holds = (
        then.verb == "stand" and first.tag in of.layout.by_tag and first in hold_steps(of.layout, of.order, first.tag)
    )
    return holds or any(edge.then == then for edge in of.order.out_of[first])


def nothing_found(level: str, seed: int, actions: list[AnyAction]) -> None:
    done = Session(level_of(level), seed, layout=layout_of(level)).replay(actions)
    assert [(f.event, f.rule, f.member, f.got) for f in done.findings] == []
    assert done.refused == ()
    assert done.site.handed_over


def brought_forward(of: Job, steps: list[Step], wanted: Callable[[Step], bool], other: Callable[[Step], bool]) -> None:
    """Let what is ``wanted`` come before what is ``other`` wherever nothing keeps it back."""
    moved = True
    while moved:
        moved = False
        for i in range(len(steps) - 1):
            first, then = steps[i], steps[i + 1]
            if wanted(then) and other(first) and not tied(of, first, then):
                steps[i], steps[i + 1] = then, first
                moved = True


@pytest.mark.parametrize("level", TWO_WINGS)
def test_two_wings_may_be_built_by_turns_of_any_length(level: str) -> None:
    of = job(level, 5)
    draw = random.Random(level)
    steps = right_sequence(of.layout, of.order, 5)
    swapped = 0
    for _ in range(SWAPS):
        i = draw.randrange(len(steps) - 1)
        first, then = steps[i], steps[i + 1]
        apart = "" not in (wing(of, first), wing(of, then)) and wing(of, first) != wing(of, then)
        if apart and not tied(of, first, then):
            steps[i], steps[i + 1] = then, first
            swapped += 1
    assert swapped > 20
    nothing_found(level, 5, actions_of(of, steps, 5))


@pytest.mark.parametrize("level", TWO_WINGS)
def test_either_team_may_be_as_far_ahead_as_it_can(level: str) -> None:
    of = job(level, 6)
    for ahead in sorted({member.wing for member in of.layout.members}):
        steps = right_sequence(of.layout, of.order, 6)
        was = list(steps)
        brought_forward(of, steps, lambda s, w=ahead: wing(of, s) == w, lambda s, w=ahead: wing(of, s) not in ("", w))
        nothing_found(level, 6, actions_of(of, steps, 6))
        assert steps != was


@pytest.mark.parametrize("level", ["fantail", "wren", "whistler"])
def test_permanent_bracing_may_go_in_as_early_as_it_can(level: str) -> None:
    of = job(level, 7)
    steps = right_sequence(of.layout, of.order, 7)
    brought_forward(of, steps, lambda s: s.verb == "restrain", lambda s: s.verb != "restrain")
    assert any(step.verb == "restrain" for step in steps)
    nothing_found(level, 7, actions_of(of, steps, 7))


@pytest.mark.parametrize("level", ["pardalote", "fantail", "wren"])
def test_sighting_along_straight_plates_is_as_good_as_a_string(level: str) -> None:
    assert not any(wall.fault == "bowed wall" for wall in level_of(level).site.walls)
    actions = list(right(level, 8))
    sighted = [action for action in actions if not isinstance(action, String)]
    assert len(sighted) < len(actions)
    nothing_found(level, 8, sighted)
