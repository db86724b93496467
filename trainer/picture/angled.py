"""The roof so far in space, from above at an angle, as a display list: far things first."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

from trainer.layout import Layout
from trainer.picture import fall_zone, higher_walls
from trainer.picture.around import RAIL_OUT, RAILS, protection, yard
from trainer.picture.dangers import in_space as dangers_in_space
from trainer.picture.falling import in_words
from trainer.picture.finished import box_of, cast_of, covered
from trainer.picture.framing import FittedTimber, framing
from trainer.picture.ground import ground, visitor
from trainer.picture.house import HIP_DASH, RIDGE_DASH, VALLEY_DASH, grown
from trainer.picture.model import Box, Item, Line, Polygon, Text
from trainer.picture.ordering import PaintNode, divided, from_far_to_near
from trainer.picture.solids import Solid
from trainer.picture.space import Turn
from trainer.picture.struts import Strut, struts
from trainer.picture.sun import shadow
from trainer.picture.timbers import EDGE, RUNS, Timbers
from trainer.picture.verandah import in_space
from trainer.picture.wall_frames import PLATE, SLAB, bays, slab, wall_faces
from trainer.plan import Point
from trainer.roof.model import Crease, Point3
from trainer.site import is_there
from trainer.site.delivery import Pack, packs
from trainer.site.model import Site

PAST = 150.0
"""How much past the rails round the house is shown, mm."""
YARD_SHARE = 0.25
"""How much higher a view gets at most so that the yard is in it, as a part of its height."""
SAME = 1.0
"""Heights that differ by no more are the same, mm."""
FINE = 0.028
"""Px per mm from which timbers are drawn with their faces; below, each is a stroke."""


@dataclass(frozen=True)
class Scene3:
    """What is to be seen: the house, the trusses as they stand, what is between them, and girders whose plies are
    ``joined``. The dangers are those of the ``site``, where it is given, and the packs those of its ``yard``.
    """

    layout: Layout
    solids: Mapping[str, Solid]
    struts: tuple[Strut, ...]
    framing: tuple[FittedTimber, ...] = ()
    joined: frozenset[str] = frozenset()
    site: Site | None = None
    yard: bool = True

    @cached_property
    def tree(self) -> PaintNode:
        """All of it divided, so that for any look it is known what lies before what."""
        return divided(self.solids.values(), (*self.struts, *self.framing))

    @cached_property
    def shadow(self) -> tuple[tuple[str, tuple[Point, ...]], ...]:
        """The shadow of the walls and of what stands on them, as (colour, outline on the ground)."""
        return shadow((*wall_faces(self.layout.house.plan), *(solid.rim for solid in self.solids.values())), self.floor)

    @cached_property
    def packs(self) -> tuple[Pack, ...]:
        """The packs in the yard that still have something in them."""
        seen = packs(self.site) if self.site is not None and self.yard else ()
        return tuple(pack for pack in seen if pack.tags)

    @property
    def floor(self) -> float:
        """Height of the slab under the plates: less than nothing, mm."""
        return -self.layout.house.plan.height


def scene_of(site: Site, solids: Mapping[str, Solid]) -> Scene3:
    """Return all that stands on a site."""
    joined = {tag for tag, parts in site.fitted.items() if any(part.part == "plies joined" for part in parts)}
    return Scene3(
        site.layout, solids, tuple(struts(site, solids)), tuple(framing(site, solids)), frozenset(joined), site
    )


def angled(
    scene: Scene3, turn: Turn, scale: float, named: Collection[str] = (), *, planes: bool = False, chosen: str = ""
) -> list[Item]:
    """Return the whole view at ``scale`` px per mm, from far to near.

    ``named`` trusses have their tags, ``planes`` covers the roof; where one is ``chosen`` the rest are faded.
    """
    fine = scale >= FINE
    items = [*_site(scene, turn, fine=fine, planes=planes), *_house(scene, turn)]
    if planes:
        items += covered(scene.layout.house, scene.layout.roof, turn)
        items += visitor(scene.layout.house, turn, near=True)
    else:
        draw = Timbers(turn, fine=fine, joined=scene.joined, chosen=chosen if chosen in scene.solids else "")
        for node in from_far_to_near(scene.tree, turn.away):
            items += draw.node(node)
        items += _creases(scene.layout, turn)
    items += higher_walls.in_space(scene.layout, turn, scene.floor, near=True)
    if scene.site is not None:
        items += protection(scene.site, turn, near=True, fine=fine) if not planes else []
        items += dangers_in_space(scene.site, turn)
        items += fall_zone.people_in_space(scene.site, turn, scene.floor)
    items += [_tag(tag, scene.solids[tag], turn, scene.site) for tag in named if tag in scene.solids]
    items += _fallen(scene, turn, named)
    return items


def sketch(scene: Scene3, turn: Turn, *, planes: bool = False, share: float = 1.0) -> list[Item]:
    """Return the same with every truss as one stroke, for the time that it is being turned.

    ``planes`` covers the roof, as far as the sheets have run on: a ``share`` of it, from 0 to 1.
    """
    items = [*_site(scene, turn, fine=False, planes=planes), *_house(scene, turn)]
    if not planes or share < 1.0:
        items += [Line(turn.all_flat(solid.rim), EDGE, 1.0) for solid in scene.solids.values()]
        items += [Line(turn.all_flat((timber.a, timber.b)), EDGE, 1.0) for timber in scene.framing]
        for strut in scene.struts:
            role, wide, dash = RUNS[strut.run]
            items.append(Line(turn.all_flat((strut.a, strut.b)), role, wide, "px", dash))
    items += covered(scene.layout.house, scene.layout.roof, turn, share) if planes else _creases(scene.layout, turn)
    if planes:
        items += visitor(scene.layout.house, turn, near=True)
    elif scene.site is not None:
        items += protection(scene.site, turn, near=True, fine=False)
        items += fall_zone.people_in_space(scene.site, turn, scene.floor)
    return items


def box_round(layout: Layout, turn: Turn) -> Box:
    """Return the box on the paper round a site: the house, its ground, and the rails round it."""
    return box_of(layout.house, layout.roof, turn, RAIL_OUT + PAST, layout.house.plan.height + RAILS[-1])


def box_with_yard(scene: Scene3, turn: Turn) -> Box:
    """Return the same with what lies before the house, as far as that leaves the house large."""
    left, low, right, high = box_round(scene.layout, turn)
    lying = yard(scene.site, scene.packs, turn) if scene.site is not None else ()
    polygons = [item for _depth, pack in lying for item in pack if isinstance(item, Polygon)]
    lowest = min((y for polygon in polygons for _x, y in polygon.points), default=low)
    return left, min(low, max(lowest - PAST, low - YARD_SHARE * (high - low))), right, high


def _site(scene: Scene3, turn: Turn, *, fine: bool, planes: bool) -> list[Item]:
    """Return what lies under the roof: the ground, the shadow on it, the yard, the slab, and the walls on that."""
    plan, site = scene.layout.house.plan, scene.site
    lying = sorted(yard(site, scene.packs, turn), key=_far_first) if site is not None else []
    on_bearers = [item for _depth, pack in lying for item in pack]
    farthest = max((y for item in on_bearers if isinstance(item, Polygon) for _x, y in item.points), default=-math.inf)
    items = ground(plan, turn, farthest)
    if planes:
        items += cast_of(scene.layout.house, scene.layout.roof, turn)
    else:
        items += [
            Polygon(turn.all_flat([(x, y, scene.floor - SLAB) for x, y in outline]), role)
            for role, outline in scene.shadow
        ]
    items += on_bearers
    items += slab(plan, turn)
    items += fall_zone.in_space(site, turn, scene.floor) if site is not None else []
    items += higher_walls.in_space(scene.layout, turn, scene.floor, near=False)
    if planes:
        items += visitor(scene.layout.house, turn, near=False)
    elif site is not None:
        items += protection(site, turn, near=False, fine=fine)
    return [*items, *bays(plan, turn, fine=fine)]


def _far_first(thing: tuple[float, list[Item]]) -> float:
    return -thing[0]


def _house(scene: Scene3, turn: Turn) -> list[Item]:
    """Return plates, posts, beams and the eave line; all of them lie under every truss."""
    layout, plan = scene.layout, scene.layout.house.plan
    inner = grown(plan, -plan.plate_width)
    count = len(plan.outline)
    items: list[Item] = []
    for inside_wall in plan.internal_walls:
        items.append(Line(turn.all_flat([(x, y, 0.0) for x, y in inside_wall]), "plate_edge", 2.0))
    for i, wall in enumerate(plan.walls):
        if wall.against:
            continue
        top = ((*wall.a, 0.0), (*wall.b, 0.0), (*inner[(i + 1) % count], 0.0), (*inner[i], 0.0))
        side = ((*wall.b, 0.0), (*wall.a, 0.0), (*wall.a, -PLATE), (*wall.b, -PLATE))
        inside = (top[3], top[2], (*top[2][:2], -PLATE), (*top[3][:2], -PLATE))
        for face in (side, inside):
            if not turn.sees(*face[:3]):
                items.append(Polygon(turn.all_flat(face), "plate", "plate_edge", 0.8))
        items.append(Polygon(turn.all_flat(top), "plate", "plate_edge", 0.8))
    items += in_space(layout, turn, scene.floor, _bare_posts(scene.site) if scene.site else ())
    items += [Line(turn.all_flat(edge), "faint", 0.8) for edge in _eaves(layout)]
    return items


def _eaves(layout: Layout) -> Iterator[tuple[Point3, Point3]]:
    """Yield the level lower edges of the roof's planes; a face shows none at a gable or a higher wall."""
    for face in layout.roof.faces:
        low = min(z for _x, _y, z in face.polygon)
        for a, b in pairwise((*face.polygon, face.polygon[0])):
            if max(a[2], b[2]) - low < SAME:
                yield a, b


def _bare_posts(site: Site) -> tuple[Point, ...]:
    """Where a post stands without its braces."""
    faults = ("post not braced", "post brace taken off")
    return tuple(flaw.at for flaw in site.flaws if flaw.what in faults and flaw.at and is_there(site, flaw))


def _creases(layout: Layout, turn: Turn) -> list[Item]:
    """Return ridges, hips, valleys and the faces between its parts where the finished roof will have them."""
    roof = layout.roof
    kinds: tuple[tuple[tuple[Crease, ...], tuple[float, ...], float], ...] = (
        (roof.ridges, RIDGE_DASH, 1.6),
        (roof.hips, HIP_DASH, 1.1),
        (roof.valleys, VALLEY_DASH, 1.6),
        (roof.verges, (), 1.1),
    )
    items: list[Item] = [
        Line(turn.all_flat(crease), "roof", wide, "px", dash) for creases, dash, wide in kinds for crease in creases
    ]
    return items + [Line(turn.all_flat((*ring, ring[0])), "roof", 1.1) for ring in roof.steps]


def _fallen(scene: Scene3, turn: Turn, named: Collection[str]) -> Iterator[Item]:
    """Yield a word on each truss that fell or was struck, and jagged lines over those struck."""
    fall = scene.site.fall if scene.site else None
    for number, lying in enumerate(fall.lying.values() if fall else ()):
        solid = scene.solids[lying.tag]
        if lying.struck:
            yield Line(turn.all_flat(solid.jags), "stop", 2.4)
        if lying.tag not in named:
            yield replace(_tag(lying.tag, solid, turn, scene.site), spare=number > 0)


def _tag(tag: str, solid: Solid, turn: Turn, site: Site | None) -> Text:
    member = solid.member
    run = member.span * (0.5 if member.kind in {"girder", "creeper", "saddle"} else 0.3)
    words = in_words(site, tag) if site else tag
    return Text(turn.flat(solid.top(run)), words, "ink", 14.0, "px", bold=True, ground="paper")
