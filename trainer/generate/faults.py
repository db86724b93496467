"""What is planted on a new site: walls that are not true, trusses that came wrong, and dangers."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, islice

from trainer.generate.dangers import some_dangers
from trainer.generate.draw import Draw
from trainer.layout import Layout
from trainer.layout.model import Member
from trainer.level.as_found import SiteSettings, TrussAsFound, WallAsFound, Wind
from trainer.level.dangers import Lifting

WALLS_AT_MOST = 2
PLANNED_FROM, LOADED_FROM = 3, 5
"""Difficulties from which the lifts are planned, and from which it is asked where the first packs land."""
BY = (9, 12, 15, 18)
"""By how much a plate is out, mm: more than any level allows."""


def site_with(draw: Draw, layout: Layout, count: int, wind: Wind) -> SiteSettings:
    """Return a site with ``count`` faults, dangers among them; harder ones ask for a lift plan, and for a last word."""
    dangers = some_dangers(draw, layout, count // 2)
    of_walls = min((count - len(dangers)) // 2, WALLS_AT_MOST)
    return SiteSettings(
        walls=tuple(islice(_walls(draw, layout), of_walls)),
        delivery=tuple(islice(_delivery(draw, layout), count - len(dangers) - of_walls)),
        wind=wind,
        dangers=dangers,
        lifting=Lifting() if draw.difficulty >= PLANNED_FROM else None,
        # Along a higher wall a roof has no two slopes to share the packs out over.
        loading=draw.difficulty >= LOADED_FROM and not layout.counts.get("half"),
    )


def _walls(draw: Draw, layout: Layout) -> Iterator[WallAsFound]:
    bearing = {end.bears_on.removeprefix("plate ") for m in layout.members for end in m.ends if end.on_plate}
    one, other, *_rest = draw.shuffled(sorted(bearing), "walls")
    yield WallAsFound(wall=one, fault=draw.pick(("bowed wall", "plate out of level"), "out"), by=draw.pick(BY, "by"))
    yield WallAsFound(wall=other, fault="wall not braced")


def _delivery(draw: Draw, layout: Layout) -> Iterator[TrussAsFound]:
    """Faults of trusses, each of another truss."""
    waiting = draw.shuffled(layout.members, "delivery")

    def taken(fits: list[Member]) -> str:
        first = fits[0]
        waiting.remove(first)
        return first.tag

    yield TrussAsFound(truss=taken(waiting), fault=draw.pick(("broken web", "loose nailplate"), "damage"))
    yield TrussAsFound(truss=taken(waiting), fault="missing truss")
    if pair := _alike(waiting):
        waiting = [member for member in waiting if member not in pair]
        yield TrussAsFound(truss=pair[0].tag, fault="swapped tag", other=pair[1].tag)
    if tailless := [m for m in waiting if any(not end.tail for end in m.ends) and m.kind != "saddle"]:
        yield TrussAsFound(truss=taken(tailless), fault="unwanted tail")
    while waiting:
        yield TrussAsFound(truss=taken(waiting), fault="loose nailplate")


def _alike(members: list[Member]) -> tuple[Member, Member] | None:
    """Two trusses that could be taken for each other."""
    for a, b in combinations(members, 2):
        if a.kind == b.kind and a.kind in ("truncated", "standard", "jack", "creeper") and a.like != b.like:
            return a, b
    return None
