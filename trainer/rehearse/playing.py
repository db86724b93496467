"""Turns steps into actions, choosing among the right ways to do each."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from trainer.chance import pick
from trainer.order import HAND_OVER, Step
from trainer.site import AnyAction, Job, Refused, Site, act, start, step_actions

STRIKE = Step("strike", "")


@dataclass(frozen=True)
class Played:
    """Steps with the action that does each, and the site after them all.

    A step that nothing was to be done for any more is left out: a row that was safe for the night already. ``numbers``
    are those of the rest in what was played.
    """

    steps: list[Step]
    numbers: list[int]
    actions: list[AnyAction]
    site: Site


def actions_of(job: Job, steps: Iterable[Step], seed: int) -> list[AnyAction]:
    """Return the actions that do ``steps``, in order; ``seed`` chooses among the right ways to do each."""
    return play(start(job), steps, seed).actions


def play(site: Site, steps: Iterable[Step], seed: int) -> Played:
    """Do ``steps`` on a site where all before them is done; before the hand-over, braces needed no more come out."""
    done: list[Step] = []
    numbers: list[int] = []
    actions: list[AnyAction] = []
    for number, step in enumerate(steps):
        for part in (STRIKE, step) if step == HAND_OVER else (step,):
            while choices := step_actions(site, part):
                for action in (
                    choices if part == STRIKE else (pick(choices, seed, "way", part.verb, part.tag, part.end),)
                ):
                    result = act(site, site.done, action)
                    if isinstance(result, Refused):
                        raise AssertionError(f"{action!r} should have been possible: {result.why}")
                    site = result[0]
                    done.append(part)
                    numbers.append(number)
                    actions.append(action)
                if part != STRIKE:
                    break
    return Played(done, numbers, actions, site)
