"""What can be asked of the site: whether a truss is held, whether a step is done, what should come first."""

from __future__ import annotations

from trainer.layout.model import Member
from trainer.order import STAGE_OF, Edge, Step, finishing
from trainer.plan import Point
from trainer.site.model import Site, Stood
from trainer.site.place import apart


def held(site: Site, tag: str) -> bool:
    """Whether the truss ``tag`` stands and is held up by something that can't move."""
    return tag in site.holds


def occupant(site: Site, place: str) -> Stood | None:
    """Return the truss that stands in the place of the layout member ``place``."""
    tag = site.at_place.get(place)
    return site.stood[tag] if tag is not None else None


def standing_in_row(site: Site, row: str) -> tuple[str, ...]:
    """Return the tags of the trusses that stand in the places of ``row``, in order along it."""
    return tuple(site.at_place[place] for place in site.layout.rows.get(row, ()) if place in site.at_place)


def brackets_wanted(site: Site, place: str, end: int) -> tuple[str, str, float]:
    """Return (part, carrier, run along the carrier in mm from its ``from``) of the bracket for a hung end."""
    member = site.layout.by_tag[place]
    here = member.ends[end - 1]
    return here.fixing, here.bears_on, run_along(site.layout.by_tag[here.bears_on], here.at)


def run_along(carrier: Member, at: Point) -> float:
    """Distance of a plan point along ``carrier`` from its ``from``, to 0.5 mm."""
    (x, y), (ux, uy) = carrier.start, carrier.direction
    return round(((at[0] - x) * ux + (at[1] - y) * uy) * 2) / 2


def done(site: Site, step: Step) -> bool:
    """Whether ``step`` has been done; steps of stages that the job leaves out are."""
    if step.verb == "hand_over":
        return site.handed_over
    if STAGE_OF[step.verb] not in site.job.stages:
        return True
    if step.verb == "mark":
        return _marked(site, step)
    if step.verb == "fit":
        return bracketed(site, step.tag, step.end)
    truss = occupant(site, step.tag)
    if truss is None:
        return False
    if step.verb == "stand":
        return True
    if step.verb == "tie":
        return held(site, truss.tag)
    return bool(site.fixed.get((truss.tag, truss.own_end(step.end))))


def bracketed(site: Site, place: str, end: int) -> bool:
    """Whether there is a bracket for this hung end: one that no truss standing in another place at the same spot uses."""
    raise NotImplementedError


def missing_before(site: Site, step: Step) -> tuple[Edge, ...]:
    """Return the must and should edges into ``step`` whose first step has not been done."""
    edges = site.job.order.into.get(step, ())
    return tuple(edge for edge in edges if edge.strength != "can" and not done(site, edge.first))


def unready(site: Site, place: str) -> tuple[Step, ...]:
    """Return what is still to do before the truss in ``place`` can carry another: standing, held, both ends fixed."""
    return tuple(step for step in finishing(site.layout.by_tag[place]) if not done(site, step))


def neighbours(site: Site, place: str) -> tuple[Stood | None, Stood | None]:
    """Return the nearest trusses that stand in the row of ``place``, on either side of it."""
    row = site.layout.rows[site.layout.by_tag[place].row]
    here = row.index(place)
    before = next((site.at_place[p] for p in reversed(row[:here]) if p in site.at_place), None)
    after = next((site.at_place[p] for p in row[here + 1 :] if p in site.at_place), None)
    return (site.stood[before] if before else None), (site.stood[after] if after else None)


def _marked(site: Site, step: Step) -> bool:
    where, at = mark_wanted(site, step.tag, step.end)
    return any(abs(mark - at) <= site.job.station_tolerance for mark in site.marks.get(where, ()))


def mark_wanted(site: Site, place: str, end: int) -> tuple[str, float]:
    """Return (wall's name or carrier's tag, mm along it) of the mark for an end of a place."""
    here = site.layout.by_tag[place].ends[end - 1]
    if not here.on_plate:
        return here.bears_on, run_along(site.layout.by_tag[here.bears_on], here.at)
    wall = site.layout.house.plan.by_name[here.bears_on.removeprefix("plate ")]
    return wall.name, round(apart(wall.a, here.at) * 2) / 2
