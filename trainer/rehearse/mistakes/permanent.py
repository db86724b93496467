"""Permanent bracing left out, or put in so that it does not do its work."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from trainer.chance import shuffled
from trainer.layout.bracing import Restraint, RestraintKind
from trainer.layout.row_lines import RowLines
from trainer.order import Step
from trainer.plan import Point
from trainer.rehearse.mistakes.planting import Planted, Plantings, RightAttempt, needs, without
from trainer.rehearse.mistakes.truing import crooked_as_stood
from trainer.site import AnyAction, Job, Refused, Restrain, Restrained, Site, act, start
from trainer.site.restraints import (
    angle_is_right,
    foot_and_top,
    foot_truss,
    leans,
    leans_in,
    loose_ends,
    pulls_alone,
    runs_of,
    sound,
    top_truss,
    unserved,
)
from trainer.words import _

SHORT = 0.3
"""How much of a brace is left off at an end."""
OUTSIDE = 8.0
"""How far outside the level's range of angles, degrees."""


@needs(_("a row long enough for a roof brace"))
def roof_brace_missing(job: Job, seed: int) -> Plantings:
    """A roof brace is never put in."""
    yield from _left_out(job, seed, "roof brace")


@needs(_("a row long enough for roof braces both ways, over plates"))
def roof_braces_all_one_way(job: Job, seed: int) -> Plantings:
    """On one slope the braces that lean one way are turned round, or of a cross left out."""
    attempt = RightAttempt.drawn(job, seed)
    for piece in shuffled(_planned(job, ("roof brace",)), seed, "one way"):
        lines = job.rows[piece.row]
        own = next(leans(lines, piece.start, piece.finish))
        alike = [
            p for p in _planned(job, ("roof brace",)) if p.row == piece.row and own in leans(lines, p.start, p.finish)
        ]
        gone, put_in = set(), {}
        for one in alike:
            if one.group != one.name:
                gone.add(Step("restrain", one.name))
            else:
                turned = Restrain(
                    kind="roof brace", start=_at(lines, one.start, one.finish), finish=_at(lines, one.finish, one.start)
                )
                put_in[Step("restrain", one.name)] = turned
        pairs = [
            (step, put_in.get(step, action))
            for step, action in zip(attempt.steps, attempt.actions, strict=True)
            if step not in gone
        ]
        actions = [action for _step, action in pairs]
        site = _site(job, actions)
        if site and _one_way_alone(site, piece):
            first = next(p for p in _planned(job, ("roof brace",)) if p in alike)
            yield Planted(actions, site.at_place[first.wants[0].tag], len(actions) - 1)


def _at(lines: RowLines, across: Point, along: Point) -> Point:
    """The place as far across the row as the one point, and as far along it as the other."""
    return lines.spot(along[lines.along], across[1 - lines.along])


def _one_way_alone(site: Site, piece: Restraint) -> bool:
    """Whether every truss is crossed by braces that do their work, and those on the piece's slope all lean one way."""
    plans = [p for p in site.job.restraints if (p.kind, p.row) == ("roof brace", piece.row)]
    own = set(leans(site.job.rows[piece.row], piece.start, piece.finish))
    put_in = [p for p in site.permanent if (p.kind, p.row) == ("roof brace", piece.row)]
    whole = all(sound(site, p) for p in put_in) and not any(unserved(site, p, only_sound=True) for p in plans)
    return whole and not own & leans_in(site, piece.row, only_sound=True)


@needs(_("a truss under a roof brace that leans as it is stood"))
def braced_while_crooked(job: Job, seed: int) -> Plantings:
    """A roof brace is put in before a truss under it that leans is plumbed, and that can't be done afterwards."""
    crooked = set(crooked_as_stood(job))
    for piece in shuffled(_planned(job, ("roof brace",)), seed, "crooked"):
        for tag in shuffled([tag for tag in piece.over if tag in crooked], seed, "crooked"):
            late = Step("plumb", tag)
            if late in job.order.into:
                steps, actions = without(job, seed, [late])
                over = {p.name for p in _planned(job, ("roof brace",)) if tag in p.over}
                first = min(i for i, step in enumerate(steps) if step.verb == "restrain" and step.tag in over)
                yield Planted(actions, tag, first)


@needs(_("a row long enough for a roof brace"))
def strap_pulled_too_hard(job: Job, seed: int) -> Plantings:
    """The first strap on a slope is pulled hard."""
    attempt = RightAttempt.drawn(job, seed)
    for piece in shuffled(_planned(job, ("roof brace",)), seed, "hard"):
        event = attempt.steps.index(Step("restrain", piece.name))
        action = attempt.actions[event]
        assert isinstance(action, Restrain)
        hard = action.model_copy(update={"tension": "hard"})
        actions = [*attempt.actions[:event], hard, *attempt.actions[event + 1 :]]
        put_in = attempt.sites[event + 1].permanent[-1]
        if pulls_alone(attempt.sites[event], put_in):
            yield Planted(actions, put_in.crosses[0][0], event)


@needs(_("bottom chords long enough to be tied"))
def bottom_chord_ties_too_far_apart(job: Job, seed: int) -> Plantings:
    """A bottom-chord tie is never put in."""
    yield from _left_out(job, seed, "bottom-chord tie")


@needs(_("webs long enough to be tied"))
def long_web_not_tied(job: Job, seed: int) -> Plantings:
    """A web tie is never put in."""
    yield from _left_out(job, seed, "web tie")


@needs(_("saddles over more than one truss"))
def top_chords_not_tied_under_saddles(job: Job, seed: int) -> Plantings:
    """A top-chord tie under saddles is never put in."""
    yield from _left_out(job, seed, "top-chord tie")


@needs(_("a house that asks for end braces"))
def end_brace_missing(job: Job, seed: int) -> Plantings:
    """An end brace is never put in."""
    yield from _left_out(job, seed, "end brace")


@needs(_("a row long enough for a roof brace"))
def roof_brace_at_wrong_angle(job: Job, seed: int) -> Plantings:
    """The upper end of a roof brace is moved along the ridge, until it lies too near the trusses' line."""
    for event, actions, site in _changed(job, seed, ("roof brace",), _steep):
        piece = _after(site, event)
        if piece and not angle_is_right(site, piece):
            yield Planted(actions, piece.crosses[0][0], event)


@needs(_("a row long enough for a roof brace"))
def roof_brace_not_tied_down(job: Job, seed: int) -> Plantings:
    """The lower end of a roof brace stops short of the plate."""
    for event, actions, site in _changed(job, seed, ("roof brace",), lambda _job, a, b: (_part(a, b, SHORT), b)):
        piece = _after(site, event)
        if piece and foot_and_top(site, piece)[0] in ("loose", "ridge"):
            yield Planted(actions, foot_truss(site, piece), len(actions) - 1)


@needs(_("a row long enough for a roof brace"))
def roof_brace_broken(job: Job, seed: int) -> Plantings:
    """The upper end of a roof brace stops on the slope."""
    for event, actions, site in _changed(job, seed, ("roof brace",), lambda _job, a, b: (a, _part(b, a, SHORT))):
        piece = _after(site, event)
        if piece and foot_and_top(site, piece)[1] == "loose":
            yield Planted(actions, top_truss(site, piece), len(actions) - 1)


@needs(_("a row long enough for a tie"))
def tie_end_loose(job: Job, seed: int) -> Plantings:
    """A tie stops part of the way along its row."""
    kinds: tuple[RestraintKind, ...] = ("bottom-chord tie", "web tie")
    for event, actions, site in _changed(job, seed, kinds, lambda _job, a, b: (a, _part(b, a, SHORT))):
        piece = _after(site, event)
        for tag in loose_ends(site, piece) if piece else ():
            yield Planted(actions, tag, len(actions) - 1)


def _left_out(job: Job, seed: int, kind: RestraintKind) -> Plantings:
    for piece in shuffled(_planned(job, (kind,)), seed, "left out", kind):
        # The two of a cross serve the same trusses: one alone is one way, and both have to go to leave these uncrossed.
        gone = [p for p in _planned(job, (kind,)) if p == piece or (kind == "roof brace" and p.group == piece.group)]
        steps, actions = without(job, seed, [Step("restrain", p.name) for p in gone])
        site = _site(job, actions)
        lost = unserved(site, piece, only_sound=False) if site else ()
        if site and lost:
            gaps = [want.widest_gap(runs_of(site, kind, site.at_place[want.tag])) for want in lost]
            worst = gaps.index(max(gaps)) if kind == "top-chord tie" else 0
            yield Planted(actions, site.at_place[lost[worst].tag], len(steps) - 1)


def _planned(job: Job, kinds: tuple[RestraintKind, ...]) -> list[Restraint]:
    return [p for p in job.restraints if p.kind in kinds and Step("restrain", p.name) in job.order.into]


Change = Callable[[Job, Point, Point], tuple[Point, Point]]
"""Gives other ends for a piece."""


def _changed(
    job: Job, seed: int, kinds: tuple[RestraintKind, ...], change: Change
) -> Iterator[tuple[int, list[AnyAction], Site]]:
    """Yield a right attempt with one piece put in otherwise: (the action changed, all actions, the site they leave)."""
    attempt = RightAttempt.drawn(job, seed)
    for piece in shuffled(_planned(job, kinds), seed, "changed", *kinds):
        event = attempt.steps.index(Step("restrain", piece.name))
        first, last = change(job, piece.start, piece.finish)
        changed = Restrain(kind=piece.kind, start=first, finish=last)
        actions = [*attempt.actions[:event], changed, *attempt.actions[event + 1 :]]
        if site := _site(job, actions):
            yield event, actions, site


def _site(job: Job, actions: list[AnyAction]) -> Site | None:
    """The site that actions leave; none where one of them could not be done."""
    site = start(job)
    for index, action in enumerate(actions):
        result = act(site, index, action)
        if isinstance(result, Refused):
            return None
        site = result[0]
    return site


def _after(site: Site, event: int) -> Restrained | None:
    """The piece that was put in at an event."""
    while site.before and site.done > event + 1:
        site = site.before
    return site.permanent[-1] if site.permanent else None


def _steep(job: Job, foot: Point, top: Point) -> tuple[Point, Point]:
    """A brace from the same foot, its top nearer along the ridge."""
    half = next(
        abs(foot[1 - lines.along] - lines.ridge)
        for lines in job.rows.values()
        if abs(top[1 - lines.along] - lines.ridge) < 1 and foot[1 - lines.along] in (lines.low, lines.high)
    )
    along = half * math.tan(math.radians(max(1.0, job.bracing.least_angle - OUTSIDE)))
    axis = 0 if abs(abs(foot[1] - top[1]) - half) < 1 else 1
    moved = [*top]
    moved[axis] = round(foot[axis] + math.copysign(along, top[axis] - foot[axis]))
    return foot, (moved[0], moved[1])


def _part(a: Point, b: Point, share: float) -> Point:
    """A point on the way from ``a`` to ``b``."""
    return round(a[0] + (b[0] - a[0]) * share), round(a[1] + (b[1] - a[1]) * share)
