"""The moment that the pre-start is over: the first lift, and the first truss on a wall.

What was left undone by then is found at that moment, and not again at every truss that follows.
"""

from __future__ import annotations

from collections.abc import Iterator

from trainer.level.dangers import Lifting
from trainer.rules.rule import truss_of
from trainer.site import Event, Flaw, Lift, Site, bears_on_beam, walls_of_beams
from trainer.site.actions import Plan
from trainer.terms import TrussKind


def is_first_lift(before: Site) -> bool:
    """Whether nothing has been lifted yet, on a job whose pre-start is the learner's."""
    return "pre-start" in before.job.stages and not before.turns


def cause_of_flaw(flaw: Flaw) -> str:
    """Name a fault that the site was found with, and that was not put right."""
    return f"flaw {flaw.what} {flaw.where}"


def left_as_found(before: Site, *faults: str) -> Iterator[Flaw]:
    """Yield the faults of these kinds that matter and that nobody reported, where nothing has been lifted yet."""
    if is_first_lift(before):
        yield from (flaw for flaw in before.flaws if flaw.what in faults and before.job.limits.matters(flaw))


def first_of_kind(before: Site, event: Event, after: Site) -> tuple[str, TrussKind] | None:
    """Return (tag, kind) of the truss lifted, where each kind has to be planned and it is the first lifted by its plan.

    A plan that was changed is looked at again, at the next lift of that kind.

    A truss's kind is that of the place it goes to: who takes a wrong truss for it lifts by that kind's plan.
    """
    if before.job.conditions.lifting is None or "pre-start" not in before.job.stages:
        return None
    tag = truss_of(event)
    kind = before.layout.by_tag[after.stood[tag].place or tag].kind
    return None if kind in before.lifted_kinds else (tag, kind)


def plan_of_first(before: Site, event: Event, after: Site) -> tuple[str, Plan, Lift, Lifting] | None:
    """Return the truss lifted, its kind's plan, what there is to lift of that kind, and the level's limits.

    None where it is not the first lifted by that plan, or its lift was not planned.
    """
    first, limits = first_of_kind(before, event, after), before.job.conditions.lifting
    plan = before.plans.get(first[1]) if first else None
    return (first[0], plan, before.job.lifts[first[1]], limits) if first and plan and limits else None


def built_over(before: Site, event: Event, after: Site, *faults: str) -> Iterator[Flaw]:
    """Yield the faults of these kinds, big enough to matter, of each wall that takes its first truss in this event."""
    if "pre-start" not in before.job.stages:
        return
    tag = truss_of(event)
    place = after.stood[tag].place or tag
    for flaw in before.flaws:
        if flaw.what in faults and before.job.limits.matters(flaw):
            of_all = flaw.what == "out of square"
            if (of_all or bears_over(before, place, flaw)) and not any(
                of_all or bears_over(before, other, flaw) for other in _places_so_far(before)
            ):
                yield flaw


def _places_so_far(site: Site) -> Iterator[str]:
    """Yield the places that trusses were lifted to so far: another truss may stand there than the one meant for it."""
    for tag in site.turns:
        yield (site.stood[tag].place or tag) if tag in site.stood else tag


def bears_over(site: Site, place: str, flaw: Flaw) -> bool:
    """Whether the truss of a place bears on the wall that a fault is of; or on the beam, where it is of a beam."""
    walls = walls_of_beams(site.layout, flaw)
    return bears_on_beam(site.layout, place, walls) if walls else flaw.wall in _walls(site, place)


def missing_studs(before: Site, event: Event, after: Site) -> Iterator[Flaw]:
    """Yield the walls without studs that take their first girder here; a wall that takes none, its first truss."""
    if "pre-start" not in before.job.stages:
        return
    place = after.stood[truss_of(event)].place or truss_of(event)
    walls, girder = _walls(after, place), _is_girder(after, place)
    for flaw in before.flaws:
        if flaw.what != "studs missing" or flaw.wall not in walls:
            continue
        girders = any(_is_girder(before, m.tag) and flaw.wall in _walls(before, m.tag) for m in before.layout.members)
        if girder == girders and not any(
            _is_girder(before, other) == girders and flaw.wall in _walls(before, other)
            for other in _places_so_far(before)
        ):
            yield flaw


def _is_girder(site: Site, tag: str) -> bool:
    return site.layout.by_tag[tag].kind in ("girder", "truncated_girder")


def _walls(site: Site, place: str) -> set[str]:
    ends = site.layout.by_tag[place].ends
    at_wall = site.layout.at_wall.get(place)
    return {end.wall for end in ends if end.wall} | ({at_wall} if at_wall else set())
