"""What there is to do on a house, asked of its level and its layout."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import pairwise

from trainer.layout import Layout
from trainer.level import Level
from trainer.order import needs_bracket
from trainer.plan import round_corners
from trainer.roof.rects import Rect
from trainer.terms import TrussKind

Asks = Callable[[Level, Layout], bool]
"""Whether a level has something of a kind in it."""


def always(_level: Level, _layout: Layout) -> bool:
    """Every house has it."""
    return True


def kinds(*wanted: TrussKind) -> Asks:
    """Trusses of all these kinds."""
    return lambda _level, layout: set(wanted) <= set(layout.counts)


def openings(_level: Level, layout: Layout) -> bool:
    """Girders over openings."""
    return any(member.kind == "girder" and not member.is_dutch for member in layout.members)


def over_lower_roofs(_level: Level, layout: Layout) -> bool:
    """Gables that go on over a lower roof."""
    return bool(layout.roof.steps)


def round_higher_walls(_level: Level, layout: Layout) -> bool:
    """Half girders, where a roof goes round the corner of a higher wall."""
    return bool(round_corners(layout.house.roof_plan))


def parts(*wanted: str) -> Asks:
    """One of these parts."""
    return lambda _level, layout: any(part.part in wanted for part in layout.parts)


def crossings(what: str) -> Asks:
    """Places where an extension, or a saddle, crosses another truss."""
    return lambda _level, layout: any(crossing.what == what for crossing in layout.crossings)


def hung(_level: Level, layout: Layout) -> bool:
    """Trusses that hang on others."""
    return any(needs_bracket(member, end) for member in layout.members for end in (1, 2))


def on_beams(_level: Level, layout: Layout) -> bool:
    """Verandah beams on posts."""
    return bool(layout.house.plan.beams)


def walls_found(*faults: str) -> Asks:
    """Walls that are found with one of these faults."""
    return lambda level, _layout: any(wall.fault in faults for wall in level.site.walls)


def delivery_found(level: Level, _layout: Layout) -> bool:
    """Trusses that came wrong."""
    return bool(level.site.delivery)


def windy(level: Level, _layout: Layout) -> bool:
    """Wind on a half-built roof."""
    return level.site.wind != "calm"


def near_face(level: Level, _layout: Layout) -> bool:
    """Marks that run to the near face."""
    return level.trusses.stations_to == "near face"


def at_higher_wall(_level: Level, layout: Layout) -> bool:
    """Trusses that stand at a higher wall."""
    return bool(layout.at_wall)


def several_plies(level: Level, layout: Layout) -> bool:
    """Girders of several plies."""
    return level.trusses.girder_plies > 1 and any(member.plies > 1 for member in layout.members)


def two_spans(_level: Level, layout: Layout) -> bool:
    """A major and a minor span."""
    return len({wing.span for wing in layout.wings}) > 1


def walls_across(level: Level, layout: Layout) -> bool:
    """Internal walls that run across under the trusses."""
    return any(wall_axis == ridge for wall_axis, ridge in _walls_and_ridges(level, layout))


def walls_along(level: Level, layout: Layout) -> bool:
    """Internal walls that run along between two trusses."""
    return any(wall_axis != ridge for wall_axis, ridge in _walls_and_ridges(level, layout))


def _walls_and_ridges(level: Level, layout: Layout) -> Iterator[tuple[str, str]]:
    """For each piece of an internal wall, the axis it runs along and that of the ridge over it."""
    for corners in level.internal_walls:
        for (ax, ay), (bx, by) in pairwise(corners):
            middle = ((ax + bx) / 2, (ay + by) / 2)
            for wing in layout.wings:
                if any(_inside(body, middle) for body in wing.bodies):
                    yield ("x" if ay == by else "y"), wing.axis


def _inside(rect: Rect, at: tuple[float, float]) -> bool:
    return rect[0] < at[0] < rect[2] and rect[1] < at[1] < rect[3]
