"""The roof so far in space, from above at an angle, as a display list: far things first."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

from trainer.layout import Layout
from trainer.picture import higher_walls
from trainer.picture.dangers import in_space as dangers_in_space
from trainer.picture.falling import in_words
from trainer.picture.framing import FittedTimber, framing
from trainer.picture.house import HIP_DASH, INSIDE_DASH, RIDGE_DASH, VALLEY_DASH, grown
from trainer.picture.model import Item, Line, Polygon, Text
from trainer.picture.ordering import PaintNode, divided, from_far_to_near
from trainer.picture.solids import Solid
from trainer.picture.space import Turn
from trainer.picture.struts import Strut, struts
from trainer.picture.timbers import RUNS, Timbers, facing
from trainer.picture.verandah import in_space
from trainer.plan import PlatePlan, Point, Wall
from trainer.roof.model import Crease, Point3
from trainer.site import is_there
from trainer.site.model import Site

WALL = 700.0
"""How far the walls are drawn down from their plates, mm: they go on, but the roof is the matter."""
PLATE = 45.0
"""Thickness of the plates as drawn, mm."""
PLANE_FILLS = {(0, 1): "plate", (0, -1): "saddle", (1, 0): "panel", (-1, 0): "shadow"}
"""Planes of the roof by the way they face away from, so that they tell apart."""
SAME = 1.0
"""Heights that differ by no more are the same, mm."""
FINE = 0.035
"""Px per mm from which timbers are drawn with their faces; below, each is a stroke."""


@dataclass(frozen=True)
class Scene3:
    """What is to be seen: the house, the trusses as they stand, what is between them, and girders whose plies are
    ``joined``. The dangers are those of the ``site``, where it is given.
    """

    layout: Layout
    solids: Mapping[str, Solid]
    struts: tuple[Strut, ...]
    framing: tuple[FittedTimber, ...] = ()
    joined: frozenset[str] = frozenset()
    site: Site | None = None

    @cached_property
    def tree(self) -> PaintNode:
        """All of it divided, so that for any look it is known what lies before what."""
        return divided(self.solids.values(), (*self.struts, *self.framing))


def scene_of(site: Site, solids: Mapping[str, Solid]) -> Scene3:
    """Return all that stands on a site."""
    joined = {tag for tag, parts in site.fitted.items() if any(part.part == "plies joined" for part in parts)}
    return Scene3(
        site.layout, solids, tuple(struts(site, solids)), tuple(framing(site, solids)), frozenset(joined), site
    )


def angled(scene: Scene3, turn: Turn, scale: float, named: Collection[str] = (), *, planes: bool = False) -> list[Item]:
    """Return the whole view at ``scale`` px per mm; ``named`` trusses have their tags, ``planes`` covers the roof."""
    items = [*_house(scene, turn)]
    draw = Timbers(turn, fine=scale >= FINE, joined=scene.joined)
    for node in from_far_to_near(scene.tree, turn.away):
        items += draw.node(node)
    if planes:
        items += _planes(scene.layout, turn)
    items += _creases(scene.layout, turn)
    items += higher_walls.in_space(scene.layout, turn, -WALL, near=True)
    items += dangers_in_space(scene.site, turn) if scene.site else []
    items += [_tag(tag, scene.solids[tag], turn, scene.site) for tag in named if tag in scene.solids]
    items += _fallen(scene, turn, named)
    return items


def sketch(scene: Scene3, turn: Turn) -> list[Item]:
    """Return the same as strokes alone, for the time that it is being turned."""
    items = _house(scene, turn)
    for solid in scene.solids.values():
        items.append(Line(turn.all_flat(solid.rim), "timber_edge", 1.0))
    items += [Line(turn.all_flat((timber.a, timber.b)), "timber_edge", 1.0) for timber in scene.framing]
    for strut in scene.struts:
        role, wide, dash = RUNS[strut.run]
        items.append(Line(turn.all_flat((strut.a, strut.b)), role, wide, "px", dash))
    items += _creases(scene.layout, turn)
    return items


def _house(scene: Scene3, turn: Turn) -> list[Item]:
    """Return walls, plates, internal walls and the eave line; all of them lie under every truss."""
    layout, plan = scene.layout, scene.layout.house.plan
    inner = grown(plan, -plan.plate_width)
    count = len(plan.outline)
    items: list[Item] = [*higher_walls.in_space(layout, turn, -WALL, near=False)]
    for wall in (wall for wall in plan.walls if not wall.against):
        for p, q in walled(plan, wall):
            low = ((*p, -WALL), (*q, -WALL))
            items.append(Line(turn.all_flat(((*p, -PLATE), low[0], low[1], (*q, -PLATE))), "grid", 1.4))
    for inside_wall in plan.internal_walls:
        items.append(
            Line(turn.all_flat([(x, y, -PLATE) for x, y in inside_wall]), "plate_edge", 3.0, "px", INSIDE_DASH)
        )
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
    items += in_space(layout, turn, _bare_posts(scene.site) if scene.site else ())
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


def walled(plan: PlatePlan, wall: Wall) -> Iterator[tuple[Point, Point]]:
    """Yield from where to where there is a wall under a plate, and not a beam on posts."""
    at = 0.0
    for beam in sorted((beam for beam in plan.beams if beam.wall == wall.name), key=lambda beam: beam.low):
        if beam.low > at:
            yield wall.at(at), wall.at(beam.low)
        at = beam.high
    if at < wall.length:
        yield wall.at(at), wall.b


def _planes(layout: Layout, turn: Turn) -> list[Item]:
    """Return the planes of the finished roof that can be seen from here, the far ones first."""
    plan, faces = layout.house.plan, layout.roof.faces
    depths = [sum(turn.depth(place) for place in face.polygon) / len(face.polygon) for face in faces]
    for end in (gable.wall for gable in layout.house.roof_plan.dutch_gables):
        # The side planes run on over it: it comes before the further of them.
        corners = {place[:2] for face in faces if end in face.walls for place in face.polygon}
        beside = [depth for face, depth in zip(faces, depths, strict=True) if corners & {p[:2] for p in face.polygon}]
        depths = [max(beside) + 1.0 if end in face.walls else d for face, d in zip(faces, depths, strict=True)]
    seen = [(depth, face) for face, depth in zip(faces, depths, strict=True) if facing(face.polygon, turn)]
    return [
        Polygon(turn.all_flat(face.polygon), PLANE_FILLS[plan.by_name[face.wall].inward], "roof", 1.2)
        for _depth, face in sorted(seen, key=lambda one: -one[0])
    ]


def _creases(layout: Layout, turn: Turn) -> list[Item]:
    """Return ridges, hips and valleys where the finished roof will have them."""
    roof = layout.roof
    kinds: tuple[tuple[tuple[Crease, ...], tuple[float, ...], float], ...] = (
        (roof.ridges, RIDGE_DASH, 1.6),
        (roof.hips, HIP_DASH, 1.1),
        (roof.valleys, VALLEY_DASH, 1.6),
        (roof.verges, (), 1.1),
    )
    return [
        Line(turn.all_flat(crease), "roof", wide, "px", dash) for creases, dash, wide in kinds for crease in creases
    ]


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
