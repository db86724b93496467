"""What can be asked of the site: whether a truss is held, whether a step is done, what should come first."""

from __future__ import annotations

from trainer.layout.marks import along_bearing, mark_run
from trainer.order import TIED, Step
from trainer.order.straightening import lines
from trainer.site.holding import apex_tied, one_bay, wall_tied
from trainer.site.job import Hung
from trainer.site.load_path import ends_fixed
from trainer.site.model import Site, Stood

SAME = 0.25
"""Two measures no further apart than this are the same, mm."""


def held(site: Site, tag: str) -> bool:
    """Whether a truss stands and can be let go: what can't move holds its top, and both its ends are fixed."""
    return tag in site.holds and ends_fixed(site, tag)


def permanently_held(site: Site, tag: str) -> bool:
    """Whether permanent bracing holds the truss ``tag``, so that its temporary bracing may come off."""
    return tag in site.restrained


def occupant(site: Site, place: str) -> Stood | None:
    """Return the truss that stands in the place of the layout member ``place``."""
    tag = site.at_place.get(place)
    return site.stood[tag] if tag is not None else None


def row_of(site: Site, tag: str) -> str:
    """Return the row that the standing truss ``tag`` is in: that of its place, else its own."""
    return site.layout.by_tag[site.stood[tag].place or tag].row


def standing_in_row(site: Site, row: str) -> tuple[str, ...]:
    """Return the tags of the trusses that stand in the places of ``row``, in order along it."""
    return tuple(site.at_place[place] for place in site.layout.rows.get(row, ()) if place in site.at_place)


def bracket_wanted(site: Site, place: str, end: int) -> tuple[str, Hung]:
    """Return the carrier of a hung end (1 or 2) of ``place``, and its bracket: which, and where on the carrier."""
    carrier = site.layout.by_tag[place].ends[end - 1].bears_on
    return carrier, next(hung for hung in site.job.hung[carrier] if (hung.tag, hung.end) == (place, end))


def end_fixed(site: Site, place: str, end: int) -> bool:
    """Whether a truss stands in ``place`` and is fastened at the place's end 1 or 2."""
    truss = occupant(site, place)
    return truss is not None and bool(site.fixed.get((truss.tag, truss.own_end(end))))


def half_nailed(site: Site, tag: str) -> tuple[tuple[int, str], ...]:
    """Return (own end, connector) for each end of a standing truss that only connectors with empty holes hold."""
    ends = ((end, site.fixed.get((tag, end), ())) for end in (1, 2))
    return tuple((end, fixed[0].with_) for end, fixed in ends if fixed and all(one.half for one in fixed))


def half_nailed_between(site: Site, tag: str) -> tuple[str, ...]:
    """Return the connectors with empty holes that alone hold a standing truss where it crosses another, or a wall."""
    between = (fixed for (on, at), fixed in site.fixed.items() if on == tag and not isinstance(at, int))
    return tuple(fixed[0].with_ for fixed in between if fixed and all(one.half for one in fixed))


def bracketed(site: Site, place: str, end: int) -> bool:
    """Whether a hung end has its bracket: one that no truss standing in another place at the same spot takes."""
    carrier, wanted = bracket_wanted(site, place, end)
    near = site.job.station_tolerance
    fitted = sum(
        part.part == wanted.part and part.at is not None and abs(part.at - wanted.at) <= near
        for part in site.fitted.get(carrier, ())
    )
    taken = sum(
        hung.part == wanted.part
        and abs(hung.at - wanted.at) <= near
        and hung.tag != place
        and hung.tag in site.at_place
        for hung in site.job.hung[carrier]
    )
    return fitted > taken


def string_ends(site: Site, first: str) -> tuple[str, str]:
    """Return the places of the two trusses that a string lines up the row of ``first`` from."""
    line = next(line for line in lines(site.layout) if line.first == first)
    return line.first, line.last


def string_up(site: Site, step: Step) -> bool:
    """Whether a string runs all along the full-height trusses of a row."""
    wanted = {site.at_place.get(place) for place in string_ends(site, step.tag)}
    return any(wanted == set(ends) for ends in site.strings)


def tied(site: Site, step: Step) -> bool:
    """Whether the top of the truss in a place is tied to what can't move."""
    tag = site.at_place.get(step.tag)
    if tag is not None and not wall_tied(site, tag):
        return False
    if tag is None or site.layout.by_tag[tag].kind in TIED:
        return tag in site.holds
    return apex_tied(site, tag, site.holds)


def neighbours(site: Site, place: str) -> tuple[Stood | None, Stood | None]:
    """Return the nearest trusses that stand in the row of ``place``, on either side of it."""
    row = site.layout.rows[site.layout.by_tag[place].row]
    here = row.index(place)
    before = next((site.at_place[p] for p in reversed(row[:here]) if p in site.at_place), None)
    after = next((site.at_place[p] for p in row[here + 1 :] if p in site.at_place), None)
    return (site.stood[before] if before else None), (site.stood[after] if after else None)


def beside(site: Site, tag: str) -> tuple[str, ...]:
    """Return the standing trusses a bay away that ``tag`` could be tied to: in its row; of a saddle, its girder too.

    A girder stands beside the row that ends at it.
    """
    stood = site.stood[tag]
    kind = site.layout.by_tag[tag].kind
    near = [other.tag for other in neighbours(site, stood.place) if other] if stood.place else []
    if kind == "saddle":
        near += [other for other in site.stood if site.layout.by_tag[other].kind == "girder"]
    elif kind == "girder":
        near += [other for other in site.stood if other != tag and site.layout.by_tag[other].kind in TIED]
    return tuple(other for other in dict.fromkeys(near) if one_bay(site, tag, other))


def marked(site: Site, step: Step) -> bool:
    """Whether there is a mark for an end of a place, within the level's tolerance and no nearer to another station."""
    where, at = mark_wanted(site, step.tag, step.end)
    offs = ((mark.is_at, abs(mark.is_at - at)) for mark in site.set_out.get(where, ()))
    return any(
        off <= site.job.station_tolerance
        and all(off <= abs(is_at - station.run) + SAME for station in site.job.stations.get(where, ()))
        for is_at, off in offs
    )


def mark_wanted(site: Site, place: str, end: int) -> tuple[str, float]:
    """Return (wall's name or carrier's tag, mm along it) of the mark for an end of a place."""
    if known := site.job.marks.get((place, end)):
        return known
    member = site.layout.by_tag[place]
    return along_bearing(site.layout, member, end)[0], mark_run(site.layout, member, end)
