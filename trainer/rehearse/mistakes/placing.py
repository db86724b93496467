"""Trusses stood wrong: the wrong one, the wrong place, the wrong way about."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from trainer.chance import pick, shuffled
from trainer.layout.model import Member
from trainer.order import Step
from trainer.order.straightening import lines
from trainer.order.verge import FRAMED
from trainer.plan.points import half, to_half
from trainer.rehearse.mistakes.planting import Planted, Plantings, RightAttempt, all_about, needs, without
from trainer.rules.gaps import far_too_wide
from trainer.site import AnyAction, Brace, Fit, Fix, Job, Stand, same_both_ways
from trainer.site.actions import Inspect, Plumb, String, Unbrace
from trainer.terms import TrussKind
from trainer.words import _

CLEARLY = (20.0, 30.0, 45.0)
"""How much further out than the tolerance, mm."""
FAR = 0.2
"""How much of the spacing a truss is moved by, to leave a bay far too wide."""
FEWEST = 2
"""As many trusses as a piece of permanent bracing has to cross."""
SWAPPED: frozenset[TrussKind] = frozenset({"standard", "truncated", "gable", "half"})
SHIFTED: frozenset[TrussKind] = frozenset({"standard", "truncated", "gable", "jack", "creeper", "saddle", "half"})


@needs(_("two unlike trusses of one length"))
def wrong_truss_for_place(job: Job, seed: int) -> Plantings:
    """Two trusses as long as each other change places."""
    attempt = RightAttempt.drawn(job, seed)
    for one, other in shuffled(_mistakable(job), seed, "wrong truss"):
        renamed = {one.tag: other.tag, other.tag: one.tag}
        event = min(attempt.steps.index(Step("stand", tag)) for tag in renamed)
        actions = [_renamed(action, renamed) for action in _unframed(attempt.actions, renamed)]
        yield Planted(actions, renamed[attempt.steps[event].tag], event)


@needs(_("two unlike trusses of one length"))
def truss_left_over(job: Job, seed: int) -> Plantings:
    """A truss takes another's place; its own stays empty, and the other stays in the yard."""
    for one, other in shuffled(_mistakable(job), seed, "left over"):
        for astray, left in ((one, other), (other, one)):
            if _can_be_left_out(job, seed, astray):
                inspecting = [step for step in all_about(job, left.tag) if step.verb in ("read", "inspect")]
                _steps, actions = without(job, seed, [*all_about(job, astray.tag), *inspecting])
                names = {left.tag: astray.tag}
                changed = [_renamed(action, names) for action in _unframed(actions, names)]
                verdict = (
                    [Inspect(tag=astray.tag, accept=False)] if Step("inspect", astray.tag) in job.order.into else []
                )
                yield Planted([*changed[:-1], *verdict, changed[-1]], left.tag, len(changed) + len(verdict) - 1)


@needs(_("a truss that nothing waits for"))
def truss_missing(job: Job, seed: int) -> Plantings:
    """A truss that nothing waits for is never stood."""
    for member in shuffled(job.layout.members, seed, "missing"):
        if _can_be_left_out(job, seed, member):
            steps, actions = without(job, seed, all_about(job, member.tag))
            yield Planted(actions, member.tag, len(steps) - 1)


@needs(_("a truss with room beside it"))
def off_station(job: Job, seed: int) -> Plantings:
    """A truss is stood to one side of its mark."""
    yield from _to_one_side(
        job, seed, (m for m in job.layout.members if m.kind in SHIFTED and not job.layout.carries[m.tag])
    )


@needs(_("a truss between two others a full spacing apart"))
def bay_left_too_wide(job: Job, seed: int) -> Plantings:
    """A truss is stood so far to one side that the bay on its other side is far too wide."""
    far = job.layout.house.trusses.spacing * FAR
    # Permanent bracing that ends at a truss would no longer reach it.
    at_an_end = {tag for piece in job.restraints for tag in (piece.over[0], piece.over[-1])}
    shifted = (m for m in job.layout.members if m.kind in SWAPPED and not job.layout.carries[m.tag])
    free = [m for m in shifted if m.tag not in at_an_end]
    for planted in _to_one_side(job, seed, free, far):
        stand = planted.actions[planted.event]
        if isinstance(stand, Stand) and _leaves_wide(job, stand):
            yield Planted(planted.actions, planted.member, len(planted.actions) - 1)


def _leaves_wide(job: Job, stand: Stand) -> bool:
    """Whether a truss stood to one side leaves a bay far too wide: one that closes with a short bay may not.

    Nor does one that is nearer to another truss's place: it takes that.
    """
    if job.places.near(stand.start, stand.finish)[0].tag != stand.tag:
        return False
    place = job.layout.by_tag[stand.tag]
    here = min((stand.start, stand.finish), key=lambda end: math.dist(end, place.start))
    for bay in job.bays[stand.tag]:
        i = 0 if bay.axis == "x" else 1
        moved = (here[i] - place.start[i]) * (1 if bay.second == stand.tag else -1)
        if bay.gap + moved > far_too_wide(job, bay):
            return True
    return False


@needs(_("a truncated girder"))
def setback_not_the_levels(job: Job, seed: int) -> Plantings:
    """A truncated girder is stood at another setback."""
    yield from _to_one_side(job, seed, (m for m in job.layout.members if m.kind == "truncated_girder"))


@needs(_("a girder over an opening"))
def girder_off_plate_line(job: Job, seed: int) -> Plantings:
    """A girder is stood off the line of the plates."""
    yield from _to_one_side(job, seed, (m for m in job.layout.members if m.kind == "girder" and not m.is_dutch))


@needs(_("a dutch gable"))
def dutch_girder_off_station(job: Job, seed: int) -> Plantings:
    """The girder of a dutch gable is stood too near its wall, or too far in."""
    yield from _to_one_side(job, seed, (m for m in job.layout.members if m.is_dutch))


@needs(_("a truss with unlike ends"))
def end_for_end(job: Job, seed: int) -> Plantings:
    """A truss with unlike ends is turned round; each end is fastened where it then is."""
    attempt = RightAttempt.drawn(job, seed)
    unlike = [m for m in job.layout.members if not same_both_ways(m)]
    for member in shuffled(unlike, seed, "end for end"):
        if stand := attempt.stand_of(member.tag):
            turned = attempt.with_stand(member.tag, _moved(stand, stand.finish, stand.start))
            actions = [
                a.model_copy(update={"end": 3 - a.end}) if isinstance(a, Fix) and a.tag == member.tag and a.end else a
                for a in turned.actions
            ]
            yield Planted(actions, member.tag, turned.event)


@needs(_("two neighbours a full spacing apart"))
def spacing_too_wide(job: Job, seed: int) -> Plantings:
    """Two neighbours stand apart from each other, each within the tolerance of its own station."""
    attempt = RightAttempt.drawn(job, seed)
    by_tag, near = job.layout.by_tag, job.station_tolerance
    out = max(half(near * 0.8), near / 2 + 0.5) if near >= 1 else near
    spacing = job.layout.house.trusses.spacing
    pairs = dict.fromkeys(
        (bay.first, bay.second, bay.axis)
        for bays in job.bays.values()
        for bay in bays
        if {by_tag[bay.first].kind, by_tag[bay.second].kind} <= SWAPPED and bay.gap + 2 * out > spacing + near
    )
    for first, second, axis in shuffled(list(pairs), seed, "spacing"):
        stands = attempt.stand_of(first), attempt.stand_of(second)
        if stands[0] and stands[1]:
            one = attempt.with_stand(first, _shifted(stands[0], *((-out, 0.0) if axis == "x" else (0.0, -out))))
            other = attempt.with_stand(second, _shifted(stands[1], *((out, 0.0) if axis == "x" else (0.0, out))))
            earlier, later = sorted((one, other), key=lambda planted: planted.event)
            actions = list(later.actions)
            actions[earlier.event] = earlier.actions[earlier.event]
            yield Planted(actions, later.member, later.event)


def _to_one_side(job: Job, seed: int, members: Iterable[Member], further: float = 0.0) -> Plantings:
    attempt = RightAttempt.drawn(job, seed)
    for member in shuffled(list(members), seed, "to one side"):
        stand = attempt.stand_of(member.tag)
        out = further + job.station_tolerance + pick(CLEARLY, seed, member.tag, "how far")
        ux, uy = member.direction
        for sign in shuffled((1, -1), seed, member.tag, "which side"):
            if stand:
                yield attempt.with_stand(member.tag, _shifted(stand, -uy * out * sign, ux * out * sign))


def _mistakable(job: Job) -> list[tuple[Member, Member]]:
    """Pairs of trusses with the same length and bearings that are not the same piece, and carry nothing."""
    free = [m for m in job.layout.members if m.kind in SWAPPED and not job.layout.carries[m.tag]]
    return [
        (a, b)
        for i, a in enumerate(free)
        for b in free[i + 1 :]
        if a.span == b.span and _bearings(a) == _bearings(b) and _height(a) != _height(b)
    ]


def _bearings(member: Member) -> tuple[tuple[bool, bool, float], ...]:
    return tuple((end.on_plate, end.on_ledger, end.tail) for end in member.ends)


def _height(member: Member) -> int:
    return round(max(z for _, z in member.top))


def _can_be_left_out(job: Job, seed: int, member: Member) -> bool:
    """Whether no other truss's standing comes after this one's, no string from it, and no brace between it and one.

    Nor is a danger of the day still to come up then: it would a lift later.
    """
    attempt = RightAttempt.drawn(job, seed)
    if member.tag not in {attempt.steps[i].tag for i in attempt.quiet_lifts}:
        return False
    if any(member.tag in (line.first, line.last) for line in lines(job.layout) if line.step in job.order.into):
        return False
    stand = Step("stand", member.tag)
    later = [edge.then for edge in job.order.out_of.get(stand, ())]
    return stand in job.order.out_of and all(
        step.verb != "stand" and not (step.verb == "restrain" and len(job.restraint(step.tag).over) <= FEWEST)
        for step in later
    )


def _unframed(actions: Iterable[AnyAction], tags: Iterable[str]) -> Iterator[AnyAction]:
    """The same but for gable framing on ``tags``: it goes on no other truss."""
    return (a for a in actions if not (isinstance(a, Fit) and a.on in tags and a.part in (*FRAMED, "packer")))


def _renamed(action: AnyAction, names: dict[str, str]) -> AnyAction:
    if isinstance(action, (Stand, Fix, Plumb)):
        return action.model_copy(update={"tag": names.get(action.tag, action.tag)})
    if isinstance(action, String):
        ends = (names.get(tag, tag) for tag in (action.start, action.finish))
        return action.model_copy(update=dict(zip(("start", "finish"), ends, strict=True)))
    if isinstance(action, Brace | Unbrace):
        return action.model_copy(update={"tags": tuple(names.get(tag, tag) for tag in action.tags)})
    if isinstance(action, Fit):
        return action.model_copy(update={"on": names.get(action.on, action.on)})
    return action


def _shifted(stand: Stand, dx: float, dy: float) -> Stand:
    (ax, ay), (bx, by) = stand.start, stand.finish
    return _moved(stand, (ax + dx, ay + dy), (bx + dx, by + dy))


def _moved(stand: Stand, start: tuple[float, float], finish: tuple[float, float]) -> Stand:
    return stand.model_copy(update={"start": to_half(start), "finish": to_half(finish)})
