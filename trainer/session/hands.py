"""What one hand does in one go, as the single actions that a diary holds; and when a learner is offered it.

Each is routine that a carpenter does without a stop between: the tape run on at a spacing, the same fixing along what
the ends bear on, brackets along a girder, a truss fixed and tied as it stands, a row straightened after the string.
Nothing here knows what is right: a wrong start, connector or spacing goes wrong all along, as on site.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import Literal, get_args

from trainer.layout.inner_walls import InnerWall
from trainer.order import is_tied, needs_bracket
from trainer.plan import Point
from trainer.plan.points import half, to_half
from trainer.session.session import ActionResult
from trainer.site import Refused, act
from trainer.site.actions import AnyAction, Brace, Fit, Fix, Mark, Measure, Plumb, Restrain, Stand, Unbrace, Undo
from trainer.site.fastening import BRACKETS
from trainer.site.load_path import crossed
from trainer.site.marking import ON_IT
from trainer.site.model import Site
from trainer.site.query import beside, bracket_wanted, held, row_of, standing_in_row
from trainer.site.restraints import locked
from trainer.site.spots import spots_of

Routine = Literal[
    "run on", "fix along", "brackets along", "hold it", "straighten along", "straps alike", "strike alike", "go round"
]
ROUTINES: tuple[Routine, ...] = get_args(Routine)
RIGHT_BEFORE = 3
"""So many acts of a kind done singly and right before a hand for them is offered, and again after a mistake."""
FIRST_HOUSES = 3
"""Until so many houses were handed over well, hands wait for that; after it they are always offered."""
LEAST_RUN = 100.0
"""A tape is run on by no less than this from mark to mark, mm."""


# when they are offered


def offered(outcomes: Iterable[ActionResult]) -> frozenset[Routine]:
    """Return what has been done singly and right often enough, and not wrong since, by what came of all actions.

    An act that was taken back no longer counts as right; a mistake taken back was made all the same.
    """
    right = dict.fromkeys(ROUTINES, 0)
    counted: list[Routine | None] = []
    for outcome in outcomes:
        if outcome.event is None:
            continue
        if isinstance(outcome.action, Undo):
            gone = counted.pop()
            if gone is not None:
                right[gone] = max(0, right[gone] - 1)
            continue
        practised = _practised(outcome.action)
        if outcome.findings:
            right.update(dict.fromkeys(_broken(outcome.action), 0))
        elif practised is not None:
            right[practised] += 1
        counted.append(practised if not outcome.findings else None)
    return frozenset(routine for routine, times in right.items() if times >= RIGHT_BEFORE)


def _practised(action: AnyAction) -> Routine | None:
    """The routine that a single action is the practice of."""
    if isinstance(action, Fit):
        return "brackets along" if action.part in BRACKETS else None
    if isinstance(action, Brace):
        return "hold it" if action.kind == "batten" else None
    if isinstance(action, Restrain):
        return "straps alike" if action.kind == "roof brace" else None
    if isinstance(action, Measure):
        return "go round" if action.tag else None
    kinds: dict[type, Routine] = {
        Mark: "run on", Fix: "fix along", Plumb: "straighten along", Unbrace: "strike alike",
    }  # fmt: skip
    return kinds.get(type(action))


def _broken(action: AnyAction) -> tuple[Routine, ...]:
    """The routines that a mistake in an action is a mistake in: who stands a truss wrong, or past a loose one, too."""
    if isinstance(action, Stand | Brace):
        return ("hold it",)
    practised = _practised(action)
    return () if practised is None else (practised,)


# what they do


def run_on(site: Site, on: str, at: float, every: float, back: bool, from_last: bool) -> tuple[Mark, ...]:
    """Mark a wall or truss at ``at`` and from there on at a spacing, to the next mark or the end; or ``back`` to its
    start.

    ``from_last``: the tape is set down on each mark in turn, and not read in one run from the end.
    """
    walls = site.layout.house.plan.by_name
    end = 0.0 if back else walls[on].length if on in walls else site.layout.by_tag[on].span
    way = -1 if back else 1
    made = [mark.at for mark in site.set_out.get(on, ())]
    stop = min(((each - at) * way for each in (*made, end) if (each - at) * way > ON_IT), default=0.0)
    steps = range(0, 1 + max(0, int((stop - ON_IT) // max(every, LEAST_RUN))))
    places = [half(at + way * step * every) for step in steps]
    if any(abs(each - at) <= ON_IT for each in made):
        places = places[1:]
    last = [made[-1] if from_last and made else None, *(places if from_last else [None] * len(places))]
    wall, truss = (on, None) if on in walls else (None, on)
    return tuple(Mark(wall=wall, on=truss, at=each, measured_from=f) for each, f in zip(places, last, strict=False))


def fix_along(site: Site, one: Fix) -> tuple[Fix, ...]:
    """Do one fixing at every place like it that has none yet: ends on the same plate or truss; at a crossing, all of
    the truss; over an internal wall, every truss over that.
    """
    stood = site.stood.get(one.tag)
    if stood is None:
        return (one,)
    if one.end is None:
        return _crossings_along(site, one)
    member = site.layout.by_tag[stood.place or one.tag]
    bears_on = member.ends[stood.own_end(one.end) - 1].bears_on
    more = [
        one.model_copy(update={"tag": other.tag, "end": other.own_end(end)})
        for other in site.stood.values()
        if other.place
        for end in (1, 2)
        if site.layout.by_tag[other.place].ends[end - 1].bears_on == bears_on
        and not site.fixed.get((other.tag, other.own_end(end)))
    ]
    return (one, *(fix for fix in more if (fix.tag, fix.end) != (one.tag, one.end)))


def _crossings_along(site: Site, one: Fix) -> tuple[Fix, ...]:
    at = one.at or (0.0, 0.0)
    here = min(spots_of(site, one.tag), key=lambda spot: math.dist(spot.at, at), default=None)
    if here is None:
        return (one,)
    if here.other:
        found = [(one.tag, place) for place in _loose_crossings(site, one.tag)]
    else:
        walls = [wall for wall in site.job.inner_walls if _is_on(wall, here.at)]
        found = [
            (tag, spot.at)
            for tag in site.stood
            for spot in spots_of(site, tag)
            if not spot.other and any(_is_on(wall, spot.at) for wall in walls) and not site.fixed.get((tag, spot.at))
        ]
    more = (one.model_copy(update={"tag": tag, "at": place}) for tag, place in found)
    return (one, *(fix for fix in more if (fix.tag, fix.at) != (one.tag, one.at)))


def _is_on(wall: InnerWall, at: Point) -> bool:
    return abs(at[1 - wall.along] - wall.line) < 1 and wall.low <= at[wall.along] <= wall.high


def _loose_crossings(site: Site, tag: str) -> Iterator[Point]:
    """The places at which a truss crosses an extension that stands and is not fixed to it yet."""
    for crossing in site.job.crossings.get(site.stood[tag].place or "", ()):
        both = crossing.over in site.at_place and crossing.under in site.at_place
        if both and not crossed(site, crossing):
            yield to_half(crossing.at)


def brackets_along(site: Site, part: str, on: str) -> tuple[Fit, ...]:
    """Fit a bracket at every mark of a truss or ledger that has the fewest: done again, every mark has two."""
    there = [fitted.at for fitted in site.fitted.get(on, ()) if fitted.part in BRACKETS and fitted.at is not None]
    marks = sorted(bracket_places(site, on))
    many = {at: sum(abs(at - each) <= ON_IT for each in there) for at in marks}
    return tuple(Fit(part=part, on=on, at=at) for at in marks if many[at] == min(many.values()))


def bracket_places(site: Site, on: str) -> set[float]:
    """Return where brackets go by the marks on a truss or ledger: on the mark, or on the side of it on which the truss
    stands where marks show the near face of each.
    """
    stations, hung = site.job.stations.get(on, ()), {(one.tag, one.end): one.at for one in site.job.hung.get(on, ())}
    to_face = site.layout.house.trusses.stations_to == "near face"
    found: set[float] = set()
    for mark in site.set_out.get(on, ()):
        station = min(stations, key=lambda each: abs(each.run - mark.at), default=None) if to_face else None
        aside = hung.get((station.tag, station.end), station.run) - station.run if station else 0.0
        found.add(mark.at + aside)
    return found


def hold_it(site: Site, stand: Stand, with_: str) -> tuple[AnyAction, ...]:
    """Stand a truss, fix it with ``with_`` where it sits on a plate and in its brackets where it hangs, and tie its top
    to a neighbour that is held.

    Rows of battens go as they went last, or as the job sheet says. Where no neighbour is held, it is not tied.
    """
    result = act(site, site.done, stand)
    if isinstance(result, Refused):
        return (stand,)
    after = result[0]
    return (stand, *_fixed(after, stand.tag, with_), *_tied(after, stand.tag))


def _fixed(site: Site, tag: str, with_: str) -> Iterator[Fix]:
    if "fix" not in site.job.stages:
        return
    stood = site.stood[tag]
    for end in (1, 2):
        connector = _bracket(site, stood.place, stood.own_end(end)) if stood.place else ""
        yield Fix(tag=tag, end=end, with_=connector or with_)
    for at in _loose_crossings(site, tag):
        yield Fix(tag=tag, at=at, with_=with_)


def _bracket(site: Site, place: str, end: int) -> str:
    """The bracket that an end hangs in: the heaviest fitted there, else a hanger; none where it hangs in none."""
    if not needs_bracket(site.layout.by_tag[place], end):
        return ""
    carrier, wanted = bracket_wanted(site, place, end)
    near = [
        fitted.part
        for fitted in site.fitted.get(carrier, ())
        if fitted.part in BRACKETS
        and fitted.at is not None
        and abs(fitted.at - wanted.at) <= site.job.station_tolerance
    ]
    return max(near, key=BRACKETS.index, default=BRACKETS[0])


def _tied(site: Site, tag: str) -> Iterator[Brace]:
    if "brace" not in site.job.stages:
        return
    near = [other for other in beside(site, tag) if held(site, other)]
    if is_tied(site.layout.by_tag[tag]) and near:
        every = next((piece.every for piece in reversed(site.bracing) if piece.kind == "batten"), None)
        yield Brace(kind="batten", tags=(tag, near[0]), every=every)


def straighten_along(site: Site, tag: str) -> tuple[Plumb, ...]:
    """Straighten every truss of a row that was not straightened yet, and that no roof brace locks."""
    row = standing_in_row(site, row_of(site, tag))
    stuck = locked(site)
    return tuple(Plumb(tag=each) for each in row if each not in site.plumbed and each not in stuck)


def strike_alike(site: Site, one: Unbrace) -> tuple[Unbrace, ...]:
    """Take a piece of temporary bracing off, and all others of its kind in the same row."""
    row = row_of(site, one.tags[0])
    others = (
        one.model_copy(update={"tags": piece.tags, "every": piece.every, "to": piece.to})
        for piece in site.bracing
        if piece.kind == one.kind and row_of(site, piece.tags[0]) == row
        and (piece.tags, piece.every, piece.to) != (one.tags, one.every, one.to)
    )  # fmt: skip
    return (one, *others)
