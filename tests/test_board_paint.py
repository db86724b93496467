"""The painter: what it fills, cuts off and dashes, held against a geometry library and against plain counting."""

import os

os.environ.setdefault("SDL_VIDEODRIVER", "dummy")

import random
from pathlib import Path

import pygame
import pytest
from attempts import layout_of
from shapely.geometry import LineString, box
from shapely.geometry import Polygon as Shape

from trainer.board.paint import Brush, clipped, colours_of, dashes, save_png
from trainer.board.window import palettes
from trainer.picture import Line, Polygon, Text, View
from trainer.picture.sheet import layout_sheet

PALETTE = palettes()["light"]


@pytest.mark.parametrize("seed", range(40))
def test_cutting_off_agrees_with_a_geometry_library(seed: int) -> None:
    dice = random.Random(seed)
    frame = pygame.Rect(0, 0, 300, 200)
    middle = (dice.uniform(-100, 400), dice.uniform(-100, 300))
    points = [(middle[0] + dice.uniform(-300, 300), middle[1] + dice.uniform(-300, 300)) for _ in range(9)]
    hull = list(Shape(points).convex_hull.exterior.coords)[:-1]
    wanted = Shape(hull).intersection(box(frame.left, frame.top, frame.right, frame.bottom)).area
    cut = clipped(hull, frame)
    assert (Shape(cut).area if len(cut) > 2 else 0.0) == pytest.approx(wanted, abs=0.01)


@pytest.mark.parametrize("lengths", [(10.0, 5.0), (14.0, 4.0, 3.0, 4.0)])
def test_dashes_cover_the_part_of_a_line_that_they_should(lengths: tuple[float, ...]) -> None:
    whole = sum(lengths) * 12
    pieces = dashes([(20.0, 50.0), (20.0 + whole, 50.0)], lengths, pygame.Rect(0, 0, 1000, 100))
    drawn = sum(LineString(piece).length for piece in pieces)
    assert drawn == pytest.approx(12 * sum(lengths[::2]))


def test_dashes_of_a_line_a_kilometre_long_stay_few() -> None:
    pieces = dashes([(-1e6, 50.0), (1e6, 50.0)], (10.0, 5.0), pygame.Rect(0, 0, 300, 100))
    assert 15 < len(pieces) < 40


def painted(items: list[Line | Polygon | Text], view: View) -> pygame.Surface:
    surface = pygame.Surface((200, 100))
    surface.fill("white")
    Brush(surface, colours_of(PALETTE), view).paint(items)
    return surface


def count(surface: pygame.Surface, role: str) -> int:
    """How many px have just the colour of a role."""
    wanted = surface.map_rgb(pygame.Color(PALETTE[role]))
    pixels = pygame.PixelArray(surface)
    total = sum(pixels[x, y] == wanted for x in range(surface.get_width()) for y in range(surface.get_height()))
    pixels.close()
    return total


def test_a_polygon_is_filled_to_scale_with_y_upwards() -> None:
    view = View(0.1, 0.0, 1000.0)
    surface = painted([Polygon(((0, 500), (1000, 500), (1000, 900), (0, 900)), "timber")], view)
    assert count(surface, "timber") == pytest.approx(100 * 40, rel=0.05)
    assert surface.get_at((50, 20)) == pygame.Color(PALETTE["timber"])
    assert surface.get_at((50, 80)) == pygame.Color("white")


def test_what_lies_far_outside_is_cut_off_and_not_wrapped_round() -> None:
    far = 4_000_000.0
    surface = painted(
        [Polygon(((-far, -far), (far, -far), (far, 500), (-far, 500)), "girder", "ink")], View(0.1, 0.0, 1000.0)
    )
    assert surface.get_at((100, 80)) == pygame.Color(PALETTE["girder"])
    assert surface.get_at((100, 20)) == pygame.Color("white")


def test_lettering_stands_where_it_is_put() -> None:
    surface = painted([Text((1000.0, 500.0), "HHHH", "ink", 300.0, bold=True)], View(0.1, 0.0, 1000.0))
    ink = [(x, y) for x in range(200) for y in range(100) if sum(surface.get_at((x, y))[:3]) < 300]
    xs, ys = [x for x, _ in ink], [y for _, y in ink]
    assert (min(xs) + max(xs)) / 2 == pytest.approx(100, abs=1.5)
    assert (min(ys) + max(ys)) / 2 == pytest.approx(50, abs=1.5)


@pytest.mark.parametrize("house", ["pardalote", "kookaburra"])
def test_a_sheet_is_saved_as_png(house: str, tmp_path: Path) -> None:
    path = tmp_path / "sheet.png"
    sheet = layout_sheet(layout_of(house), "A house")
    save_png(sheet, path, palette=PALETTE)
    picture = pygame.image.load(str(path))
    assert path.read_bytes().startswith(b"\x89PNG")
    left, bottom, right, top = sheet.box
    assert picture.get_width() / picture.get_height() == pytest.approx((right - left) / (top - bottom), rel=0.01)
    colours = {
        tuple(picture.get_at((x, y))[:3])
        for x in range(0, picture.get_width(), 3)
        for y in range(0, picture.get_height(), 3)
    }
    for role in ("paper", "ink", "plate", "timber", "mark"):
        assert tuple(pygame.Color(PALETTE[role])[:3]) in colours, role


def test_tags_that_have_no_room_are_never_left_out_in_silence() -> None:
    from board_person import Person

    from trainer.board.plan_view import PlanView
    from trainer.picture.model import Text

    ui = Person((800, 600)).app.ui
    tags = [Text((100.0 * k, 500.0), f"ST{k}", "ink", 14.0, "px", spare=True) for k in range(40)]
    view = PlanView("Plan", (0.0, 0.0, 4000.0, 1000.0), lambda _scale: list(tags))
    view.place(ui, pygame.Rect(0, 0, 300, 200))
    surface = pygame.Surface((300, 200))
    view.draw(ui, surface)
    (said,) = view._note_lines(ui)
    shown = len({words for words, _box in view._texts})
    assert 0 < shown < 40 and said == f"{40 - shown} labels have no room here. Nearer: +"
    near = PlanView("Plan", (0.0, 0.0, 400.0, 100.0), lambda _scale: tags[:2])
    near.place(ui, pygame.Rect(0, 0, 300, 200))
    near.draw(ui, surface)
    assert near._note_lines(ui) == []
