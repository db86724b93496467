"""Rows left unsafe at the end of a day."""

from __future__ import annotations

from collections.abc import Sequence

from trainer.chance import pick, shuffled
from trainer.order import Step, spot
from trainer.rehearse.mistakes.ordering import DRAWS, DRAWS_APART
from trainer.rehearse.mistakes.planting import Planted, Plantings, RightAttempt, needs
from trainer.site import AnyAction, Brace, Job, Refused, Site, act, held, standing_in_row, start, step_actions
from trainer.site.holding import one_bay
from trainer.words import _


@needs(_("a job of several days"))
def row_left_unsafe_overnight(job: Job, seed: int) -> Plantings:
    """A row is tied with battens alone from its first brace on, and left like that for the night."""
    if job.conditions.day is None:
        return
    for again in range(DRAWS):
        steps = RightAttempt.drawn(job, seed + again * DRAWS_APART).sequence
        for row in shuffled(list(job.layout.rows), seed, "unsafe", again):
            if planted := _battens_alone(job, seed, steps, row):
                yield planted


def _battens_alone(job: Job, seed: int, steps: Sequence[Step], row: str) -> Planted | None:
    site = start(job)
    actions: list[AnyAction] = []
    found: tuple[str, int] | None = None
    for step in steps:
        if (step.verb, step.tag) == ("secure", row) and not found:
            continue
        batten = _batten(site, step.tag) if step.verb == "tie" and _in_row(job, step, row) and not found else None
        choices = step_actions(site, step)
        if not choices:
            continue
        action: AnyAction = batten or pick(choices, seed, "way", step.verb, step.tag, step.end)
        result = act(site, len(actions), action)
        if isinstance(result, Refused):
            return None
        site, event = result
        for other, tags in event.night.unsafe if event.night and not found else ():
            if other == row and not found:
                found = (tags[0], len(actions))
        actions.append(action)
    return Planted(actions, *found) if found else None


def _in_row(job: Job, step: Step, row: str) -> bool:
    return job.layout.by_tag[step.tag].row == row


def _batten(site: Site, tag: str) -> Brace | None:
    """A batten to the nearest truss of the row that is held, if one is a bay away."""
    by_tag = site.layout.by_tag
    near = [
        (abs(spot(by_tag[other]) - spot(by_tag[tag])), other)
        for other in standing_in_row(site, by_tag[tag].row)
        if held(site, other) and other in by_tag and other != tag and one_bay(site, tag, other)
    ]
    if not near:
        return None
    return Brace(kind="batten", tags=(min(near)[1], tag))
