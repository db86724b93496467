"""The site in space: the sun on it, what stands round the house, and one truss that stands out from the rest."""

import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

import pygame
import pytest
from attempts import level_of, right
from board_person import Person
from shapely.geometry import LineString
from shapely.geometry import Point as Spot
from shapely.geometry import Polygon as Shape
from sizes import some

from trainer.board.angled_view import AngledView
from trainer.board.paint import Brush, colours_of
from trainer.picture import around
from trainer.picture.angled import Scene3, angled, box_round, scene_of, sketch
from trainer.picture.found import on_angled
from trainer.picture.ground import person
from trainer.picture.model import Item, Line, Polygon, fit
from trainer.picture.palette import contrast
from trainer.picture.solids import Stander
from trainer.picture.space import Turn
from trainer.picture.sun import TO_SUN, shade
from trainer.picture.wall_frames import openings
from trainer.session import Session
from trainer.shipped.colours import palettes
from trainer.site.model import Site

SIDES = ((1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0))
EIGHT = tuple(range(0, 360, 45))


def built(level: str = "wren", part: float = 1.0) -> Site:
    session, actions = Session(level_of(level), 4), right(level, 4)
    for action in actions[: int(len(actions) * part)]:
        if action.do != "hand_over":
            session.do(action)
    return session.site


SITE = built()
SCENE = scene_of(SITE, Stander(SITE.layout).solids(SITE))
LEVEL_X, LEVEL_Y = (SITE.layout.house.plan.bounds[k] + SITE.layout.house.plan.bounds[k + 2] for k in (0, 1))
MIDDLE = (LEVEL_X / 2, LEVEL_Y / 2)


def polygons(items: list[Item], fill: str) -> list[Polygon]:
    return [item for item in items if isinstance(item, Polygon) and (item.fill or "").split(" ")[0] == fill]


@pytest.mark.parametrize("theme", some(["light", "dark", "contrast"], 1))
def test_the_outline_of_a_chosen_truss_stands_out_at_eight_turns(theme: str) -> None:
    """3:1 beside what lies on either side of it (W3C, WCAG 2.2, criterion 1.4.11), in the picture as painted."""
    palette, tag, size = palettes()[theme], "ST4", (900, 600)
    for yaw in EIGHT:
        turn = Turn(float(yaw), 32.0, MIDDLE)
        view = fit(box_round(SITE.layout, turn), *size, 10)
        surface = pygame.Surface(size)
        surface.fill(colours_of(palette)["paper"])
        items = [*angled(SCENE, turn, view.scale, chosen=tag), *on_angled((), SCENE.solids, turn, view.scale, tag)]
        Brush(surface, colours_of(palette), view).paint(items)
        rim = [view.to_px(turn.flat(place)) for place in SCENE.solids[tag].rim]
        beside = [pair for pair in _beside(rim) if all(surface.get_rect().collidepoint(at) for at in pair)]
        poor = [pair for pair in beside if contrast(*(_hex(surface, *at) for at in pair)) < 3.0]
        assert len(beside) > 40
        assert len(poor) <= 0.04 * len(beside), yaw  # a line of whole pixels is off by one at some slopes


def _beside(rim: list[tuple[float, float]]) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    """Places on an outline on the paper, each with one beside it that is not on the outline itself."""
    edges = [(a, b) for a, b in pairwise(rim) if a != b]
    outline = LineString(rim)
    for a, b in edges:
        length = math.dist(a, b)
        nx, ny = (b[1] - a[1]) / length, (a[0] - b[0]) / length
        for step in range(4, int(length) - 4, 5):
            x, y = (a[k] + (b[k] - a[k]) * step / length for k in (0, 1))
            for off in (-3.0, 3.0):
                side = (x + nx * off, y + ny * off)
                if outline.distance(Spot(side)) > 2.9:
                    yield (x, y), side


def _hex(surface: pygame.Surface, x: float, y: float) -> str:
    red, green, blue, _alpha = surface.get_at((round(x), round(y)))
    return f"#{red:02x}{green:02x}{blue:02x}"


def test_the_rest_is_faded_and_only_where_a_truss_that_stands_is_chosen() -> None:
    turn = Turn(30.0, 32.0, MIDDLE)

    def pale(chosen: str) -> tuple[int, int]:
        timbers = [
            item.fill or "" for role in ("timber", "hip_timber", "girder")
            for item in polygons(angled(SCENE, turn, 0.05, chosen=chosen), role)
        ]  # fmt: skip
        faded = sum(fill.endswith(" pale") for fill in timbers)
        return faded, len(timbers) - faded

    assert pale("")[0] == pale("none such")[0] == 0
    faded, strong = pale("ST4")
    assert faded > 20 * strong > 0


def test_every_side_has_a_shade_of_its_own_wherever_one_looks_from() -> None:
    assert {shade(side) for side in SIDES} == {1, 2, 3, 4}
    assert [shade(side) for side in SIDES] == [shade((x, y, 0.4)) for x, y in SIDES]
    assert shade((0.0, 0.0, 1.0)) == 1 == shade(TO_SUN)


@pytest.mark.parametrize("theme", ["light", "dark", "contrast"])
def test_planes_of_the_roof_tell_apart_and_from_the_ground(theme: str) -> None:
    palette = palettes()[theme]
    shades = [palette[f"cover {n}"] for n in (1, 2, 3, 4)]
    assert all(contrast(one, other) > 1.1 for one, other in pairwise(shades))
    assert all(contrast(one, palette["ground"]) > 1.15 for one in shades)
    seen = {
        item.fill for yaw in EIGHT
        for item in polygons(angled(SCENE, Turn(float(yaw), 32.0, MIDDLE), 0.05, planes=True), "cover")
    }  # fmt: skip
    assert seen == {"cover 1", "cover 2", "cover 3", "cover 4"}


def test_walls_go_down_to_the_slab_by_the_height_of_the_level() -> None:
    turn = Turn(0.0, 20.0, MIDDLE)

    def low(scene: Scene3) -> float:
        return min(y for item in polygons(angled(scene, turn, 0.05), "wall") for _x, y in item.points)

    plan = replace(SITE.layout.house.plan, height=3000.0)
    higher = replace(SITE.layout, house=replace(SITE.layout.house, plan=plan))
    assert SITE.layout.house.plan.height == 2400.0
    taller = Scene3(higher, SCENE.solids, ())
    assert low(SCENE) - low(taller) == pytest.approx(600 * math.cos(math.radians(20)))


def test_openings_are_hinted_within_every_long_wall_and_none_in_a_short_one() -> None:
    assert openings(1500.0) == () and len(openings(3600.0)) == 1 and len(openings(10_800.0)) == 3
    for length in (2000.0, 5000.0, 13_200.0):
        assert all(0 < hole.first < hole.last < length for hole in openings(length))


def test_the_person_is_as_tall_as_a_person() -> None:
    turn = Turn(50.0, 30.0)
    heights = [y for item in person((0.0, 0.0, 0.0), turn) if isinstance(item, Polygon) for _x, y in item.points]
    assert (max(heights) - min(heights)) / math.cos(math.radians(30)) == pytest.approx(1750)


def test_the_shadow_falls_away_from_the_sun() -> None:
    x0, y0, x1, y1 = SITE.layout.house.plan.bounds
    outlines = [Shape(outline) for role, outline in SCENE.shadow if role == "cast"]
    least_x, least_y, most_x, most_y = max(outlines, key=lambda shape: shape.area).bounds
    assert (most_x - x1 > x0 - least_x) == (TO_SUN[0] < 0) and (most_y - y1 > y0 - least_y) == (TO_SUN[1] < 0)


def test_packs_lie_in_the_yard_until_their_trusses_stand() -> None:
    turn = Turn(30.0, 32.0, MIDDLE)

    def lying(site: Site) -> int:
        return len(list(around.yard(site, scene_of(site, Stander(site.layout).solids(site)).packs, turn)))

    assert lying(built(part=0.0)) > lying(built(part=0.5)) >= lying(SITE) == 0


def test_rails_stand_where_the_look_round_speaks_of_them_and_are_gone_from_a_covered_roof() -> None:
    def rails(site: Site, **how: bool) -> int:
        scene = scene_of(site, Stander(site.layout).solids(site))
        return sum(isinstance(i, Line) and i.role == "steel" for i in angled(scene, Turn(), 0.05, **how))

    assert rails(SITE) > 8 and rails(SITE, planes=True) == 0
    conditions = replace(SITE.job.conditions, checks=("weather",))
    assert rails(replace(SITE, job=replace(SITE.job, conditions=conditions))) == 0


def test_all_that_lies_on_the_ground_lies_before_the_horizon() -> None:
    site = built(part=0.2)
    scene = scene_of(site, Stander(site.layout).solids(site))
    for yaw in EIGHT:
        items = sketch(scene, Turn(float(yaw), 25.0, MIDDLE))
        (ground,) = polygons(items, "ground")
        edge = max(y for _x, y in ground.points)
        assert all(y < edge for item in polygons(items, "slab") for _x, y in item.points)


# the roof that is handed over


def in_space() -> AngledView:
    view = AngledView(
        "Angled", (0.0, 0.0, 1.0, 1.0), lambda: SCENE, tuple, lambda _tag: None, str, lambda _turn, _scale: []
    )
    view.place(PERSON.app.ui, pygame.Rect(0, 0, 600, 400))
    return view


PERSON = Person((800, 600))


def drawn_at(view: AngledView, ms: int) -> tuple[bytes, float]:
    surface = pygame.Surface((600, 400))
    view.now_ms = ms
    view.draw(PERSON.app.ui, surface)
    return pygame.image.tobytes(surface, "RGB"), view.turn.yaw


def test_a_roof_handed_over_turns_once_in_three_seconds_while_its_sheets_run_on() -> None:
    view = in_space()
    first = view.turn.yaw
    view.cover(still=False)
    yaws = [drawn_at(view, ms)[1] for ms in (1000, 2000, 2500, 3000, 3999)]
    assert yaws[0] == first and len(set(yaws)) == 5 and not view.resting
    end, yaw = drawn_at(view, 4000)
    assert yaw == pytest.approx(first) and view.resting and view.planes
    assert drawn_at(view, 9000) == (end, yaw), "then it stands still"
    shares = [
        sum(abs(_area(item)) for item in polygons(sketch(SCENE, view.turn, planes=True, share=share), "cover"))
        for share in (0.0, 0.25, 0.5, 1.0)
    ]
    assert shares == sorted(shares) and shares[0] == 0.0 and len(set(shares)) == 4


def test_where_nothing_is_to_move_the_roof_is_covered_at_once_and_whoever_turns_it_takes_over() -> None:
    view = in_space()
    view.cover(still=True)
    assert view.planes and drawn_at(view, 1000) == drawn_at(view, 2000)
    view.cover(still=False)
    drawn_at(view, 2000)
    view.turn_by(10.0, 0.0)
    yaw = view.turn.yaw
    assert drawn_at(view, 2700)[1] == yaw == drawn_at(view, 3500)[1]


def _area(item: Polygon) -> float:
    return Shape(item.points).area
