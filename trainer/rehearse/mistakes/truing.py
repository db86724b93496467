"""Trusses left crooked: not plumbed, not lined up by a string, or loaded with saddles too soon."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from trainer.chance import shuffled
from trainer.order import TIED, Step
from trainer.order.straightening import LineOfTops, lines
from trainer.rehearse.mistakes.planting import Planted, Plantings, needs, planted_in_order, without
from trainer.site import Job, Site, act, plates_out, start, step_actions, untrue
from trainer.site.shape import Way
from trainer.words import _


@needs(_("a truss that leans as it is stood"))
def out_of_plumb(job: Job, seed: int) -> Plantings:
    """A truss that leans as stood is never plumbed."""
    yield from _never_plumbed(job, seed, "plumb")


@needs(_("a truss that is bowed as it is stood"))
def truss_bowed(job: Job, seed: int) -> Plantings:
    """A truss that is bowed as stood is never straightened."""
    yield from _never_plumbed(job, seed, "bow")


@needs(_("a plate bowed as far as plates may be"))
def apex_off_line(job: Job, seed: int) -> Plantings:
    """Trusses are lined up by a bowed plate, and no string is pulled."""
    for line in _over_bowed_plates(job, seed):
        steps, actions = without(job, seed, [line.step])
        for tag in shuffled(line.between, seed, "off the line"):
            if _misled(job, tag):
                yield Planted(actions, tag, len(steps) - 1)


@needs(_("a plate bowed as far as plates may be"))
def no_string_line(job: Job, seed: int) -> Plantings:
    """The trusses of a row are stood over a bowed plate with no string up."""
    for line in _over_bowed_plates(job, seed):
        steps, actions = without(job, seed, [line.step])
        stands = (step for step in steps if step.verb == "stand" and step.tag in line.between)
        first = next(step for step in stands if abs(plates_out(_alone(job, step.tag), step.tag)) > job.limits.apex)
        yield Planted(actions, first.tag, steps.index(first))


@needs(_("a saddle over a truss that leans"))
def saddle_over_crooked_truss(job: Job, seed: int) -> Plantings:
    """A saddle is set down before a truss under it that leans is plumbed."""
    over = [
        (Step("plumb", under), Step("stand", member.tag))
        for member in job.layout.members
        if member.kind == "saddle"
        for under in member.carried_by
        if Step("plumb", under) in job.order.into and any(untrue(_alone(job, under), under))
    ]
    for late, early in shuffled(over, seed, "over crooked"):
        if planted := planted_in_order(job, seed, late, early):
            yield planted


CLEARLY = 5.0
"""How much more a plate is out than a top may be, for a mistake to be found whatever the hands do, mm."""


def crooked_as_stood(job: Job, way: Way | None = None) -> list[str]:
    """Return the places whose own truss leans or is bowed by too much until it is plumbed; ``way`` asks for one."""
    tips = (member.tag for member in job.layout.members if member.kind in TIED)
    return [tag for tag in tips if any(way in (None, out.way) for out in untrue(_alone(job, tag), tag))]


def _never_plumbed(job: Job, seed: int, way: Way) -> Plantings:
    for tag in shuffled(crooked_as_stood(job, way), seed, "never plumbed"):
        if Step("plumb", tag) in job.order.into:
            steps, actions = without(job, seed, [Step("plumb", tag)])
            yield Planted(actions, tag, len(steps) - 1)


def _over_bowed_plates(job: Job, seed: int) -> Iterator[LineOfTops]:
    """The rows over a plate that stays bowed, as far as plates may be, so that only a string shows the line."""
    for line in shuffled(list(lines(job.layout)), seed, "bowed"):
        if line.step in job.order.into and any(_misled(job, tag) for tag in line.between):
            yield line


def _misled(job: Job, tag: str) -> bool:
    """Whether the plate puts the truss further off the line than its top may be, whatever the hands do."""
    return abs(plates_out(_alone(job, tag), tag)) > job.limits.apex + CLEARLY


def _alone(job: Job, tag: str) -> Site:
    """The site with one truss just stood in its own place, and nothing else."""
    stay = tuple(flaw for flaw in job.conditions.flaws if flaw.wall and not job.limits.matters(flaw))
    conditions = replace(job.conditions, flaws=stay)
    bare = start(replace(job, stages=frozenset({"stand"}), conditions=conditions))
    result = act(bare, 0, step_actions(bare, Step("stand", tag))[0])
    assert isinstance(result, tuple)
    return result[0]
