"""Setting out gone wrong: marks off, to the wrong face, bay by bay, out of square, or left out."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.chance import pick, shuffled
from trainer.layout.marks import along_bearing
from trainer.order import Step
from trainer.plan.points import half
from trainer.rehearse.mistakes.planting import Planted, Plantings, RightAttempt, needs, without
from trainer.rules.marks import FACE
from trainer.site import Job, Mark, Station
from trainer.words import _

CLEARLY = (60.0, 70.0, 80.0)
"""How much further out than the tolerance, mm."""
NEARLY = 0.85
"""Share of the tolerance that each end of a girder is out, to opposite sides."""
READ = 2.0
"""What the tape may add to that, mm, for both marks."""
CHAIN = 3
"""Marks on one wall that make it bay by bay."""


@needs(_("a mark with room beside it"))
def mark_off_station(job: Job, seed: int) -> Plantings:
    """A mark is made to one side of its station; the truss is stood true."""
    for i, action, stations in _marks(job, seed, "mark off"):
        out = job.station_tolerance + pick(CLEARLY, seed, "how far", i)
        width = job.layout.by_tag[stations[0].tag].width
        if all(abs(out - face) > FACE + READ for face in (width, width / 2)):
            yield from _moved(job, seed, i, action, stations, out)


@needs(_("a truss thicker than the level's tolerance"))
def mark_to_wrong_face(job: Job, seed: int) -> Plantings:
    """A mark shows another face of its truss."""
    for i, action, stations in _marks(job, seed, "wrong face"):
        out = _to_wrong_face(job, stations)
        if out > job.station_tolerance + READ:
            yield from _moved(job, seed, i, action, stations, out)


def _to_wrong_face(job: Job, stations: tuple[Station, ...]) -> float:
    """How far a mark is off that shows the other face of its truss, or a face in place of the centre, mm."""
    to_face = job.layout.house.trusses.stations_to == "near face"
    return job.layout.by_tag[stations[0].tag].width / (1 if to_face else 2)


@needs(_("a wall with three marks or more"))
def measured_bay_by_bay(job: Job, seed: int) -> Plantings:
    """All marks on one wall are made in one go, each measured from the one before."""
    attempt = RightAttempt.drawn(job, seed)
    for wall in shuffled([wall.name for wall in job.layout.house.plan.walls], seed, "bay by bay"):
        marks = {a.at: i for i, a in enumerate(attempt.actions) if isinstance(a, Mark) and a.wall == wall}
        runs = sorted(marks)
        if len(runs) >= CHAIN:
            first = min(marks.values())
            chain = [Mark(wall=wall, at=at, measured_from=runs[k - 1] if k else None) for k, at in enumerate(runs)]
            rest = [a for i, a in enumerate(attempt.actions) if i not in marks.values()]
            yield Planted([*rest[:first], *chain, *rest[first:]], f"wall {wall}", first + CHAIN - 1)


@needs(_("a girder with two marks, and room for error"))
def far_bearing_not_carried_across(job: Job, seed: int) -> Plantings:
    """The marks for the two ends of a girder are out to opposite sides, each by less than the tolerance."""
    attempt = RightAttempt.drawn(job, seed)
    out = half(NEARLY * job.station_tolerance)
    if 2 * out <= job.station_tolerance + 2 * READ:
        return
    girders = [m for m in job.layout.members if m.kind in ("girder", "truncated_girder")]
    for girder in shuffled(girders, seed, "askew"):
        ends = []
        for end in (1, 2):
            where, _start, (ux, uy) = along_bearing(job.layout, girder, end)
            run = next((s.run for s in job.stations.get(where, ()) if (s.tag, s.end) == (girder.tag, end)), None)
            left = ux * -girder.direction[1] + uy * girder.direction[0]
            found = [
                i
                for i, a in enumerate(attempt.actions)
                if isinstance(a, Mark) and (a.wall or a.on, a.at) == (where, run)
            ]
            if found and run is not None:
                ends.append((found[0], run + out * round(left) * (1 if end == 1 else -1)))
        if len(ends) == len((1, 2)):
            actions = list(attempt.actions)
            for i, at in ends:
                actions[i] = actions[i].model_copy(update={"at": at})
            yield Planted(actions, girder.tag, max(i for i, _at in ends))


@needs(_("a truss that is marked for"))
def station_not_marked(job: Job, seed: int) -> Plantings:
    """One mark is never made."""
    for step in shuffled([step for step in job.order.steps if step.verb == "mark"], seed, "not marked"):
        steps, actions = without(job, seed, [step])
        sharing = {Step("stand", station.tag) for station in _stations(job, step)}
        event = next(i for i, other in enumerate(steps) if other in sharing)
        yield Planted(actions, steps[event].tag, event)


def _marks(job: Job, seed: int, what: str) -> Iterator[tuple[int, Mark, tuple[Station, ...]]]:
    """The marks of an attempt: (index, mark, stations that it serves)."""
    attempt = RightAttempt.drawn(job, seed)
    found = [
        (i, action, _stations(job, step))
        for i, (step, action) in enumerate(zip(attempt.steps, attempt.actions, strict=True))
        if isinstance(action, Mark)
    ]
    yield from shuffled(found, seed, what)


def _stations(job: Job, step: Step) -> tuple[Station, ...]:
    """All the stations that one mark serves."""
    member = job.layout.by_tag[step.tag]
    stations = job.stations[along_bearing(job.layout, member, step.end)[0]]
    run = next(s.run for s in stations if (s.tag, s.end) == (step.tag, step.end))
    return tuple(s for s in stations if s.run == run)


def _moved(job: Job, seed: int, i: int, action: Mark, stations: tuple[Station, ...], out: float) -> Plantings:
    """The mark moved to one side or the other, where it is still nearest to its own station."""
    actions = RightAttempt.drawn(job, seed).actions
    where = action.wall or action.on or ""
    others = [s.run for s in job.stations[where] if s.run != stations[0].run]
    for sign in shuffled((1, -1), seed, "which side", i):
        at = half(action.at + sign * out)
        if all(abs(at - run) > abs(at - action.at) + job.station_tolerance for run in others):
            changed = action.model_copy(update={"at": at})
            yield Planted([*actions[:i], changed, *actions[i + 1 :]], stations[0].tag, i)
