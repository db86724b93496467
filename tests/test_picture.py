"""Drawings: true to scale, every truss named, nothing written over anything else."""

from __future__ import annotations

import math
from functools import cache
from itertools import combinations, pairwise
from xml.etree import ElementTree as ET

import pytest
from attempts import LEVELS, layout_of, level_of
from houses import grown_house
from hypothesis import given
from hypothesis import strategies as st
from sizes import by_size, some

from trainer.layout import House, LayoutRefused, TrussSpec, lay_out
from trainer.level import parse_level
from trainer.picture import (
    PALETTE_FILE,
    Group,
    Line,
    Picture,
    Polygon,
    Text,
    View,
    fit,
    flat,
    parse_palettes,
    to_svg,
)
from trainer.picture.house import grown
from trainer.picture.lettering import meet, text_box, text_width, wrapped
from trainer.picture.measures import figure, post_runs, spread, stations
from trainer.picture.sheet import layout_sheet, plan_picture
from trainer.roof.model import RoofSpec
from trainer.shipped import art_path, find_level
from trainer.words import CAUTION, INVENTED

PALETTE = parse_palettes(art_path(PALETTE_FILE).read_text(encoding="utf-8"))["light"]


@cache
def sheet_of(level: str) -> Picture:
    return layout_sheet(layout_of(level), level)


@cache
def plan_of(level: str) -> Picture:
    return plan_picture(layout_of(level))


def layer(picture: Picture, name: str) -> Group:
    return next(group for group in picture.layers if group.layer == name)


def texts(picture: Picture) -> list[Text]:
    return [item for item in picture.items() if isinstance(item, Text)]


@pytest.mark.parametrize("level", some(LEVELS, 5, 20))
def test_no_two_writings_touch(level: str) -> None:
    written = [(text.text, text_box(text)) for text in texts(sheet_of(level))]
    touching = [(a[0], b[0]) for a, b in combinations(written, 2) if meet(a[1], b[1])]
    assert not touching


@pytest.mark.parametrize("level", some(LEVELS, 5, 20))
def test_everything_is_inside_the_sheet(level: str) -> None:
    sheet = sheet_of(level)
    left, bottom, right, top = sheet.box
    for item in sheet.items():
        points = item.points if isinstance(item, Line | Polygon) else _corners(text_box(item))
        assert all(left < x < right and bottom < y < top for x, y in points), item


def _corners(box: tuple[float, float, float, float]) -> list[tuple[float, float]]:
    return [(box[0], box[1]), (box[2], box[3])]


@pytest.mark.parametrize("level", some(LEVELS, 5, 20))
def test_every_truss_is_drawn_and_has_its_tag_on_it(level: str) -> None:
    layout = layout_of(level)
    plan = plan_of(level)
    drawn = {group.of: group for group in layer(plan, "trusses").items if isinstance(group, Group)}
    tagged = {group.of: next(flat(group)) for group in layer(plan, "tags").items if isinstance(group, Group)}
    assert set(drawn) == set(tagged) == set(layout.by_tag)
    for tag, text in tagged.items():
        assert isinstance(text, Text)
        assert text.text == tag
        member = layout.by_tag[tag]
        (x, y), (dx, dy) = member.start, member.direction
        assert abs((text.at[0] - x) * dy - (text.at[1] - y) * dx) < 0.01, f"{tag} is not written on its own truss"


@pytest.mark.parametrize("level", some(LEVELS, 5, 20))
def test_trusses_are_true_to_their_thickness_and_their_ends(level: str) -> None:
    """A plate end reaches out to its tail; a hung end stops at the near face of its carrier, half its plies away."""
    layout = layout_of(level)
    for group in layer(plan_of(level), "trusses").items:
        assert isinstance(group, Group)
        member = layout.by_tag[group.of]
        bodies = [item for item in flat(group) if isinstance(item, Polygon) and item.fill not in {None, "paper"}]
        (a, b, _c, d) = bodies[0].points
        assert math.dist(a, d) == pytest.approx(member.plies * layout.house.trusses.thickness)
        if member.kind in {"standard", "jack", "creeper"}:
            expected = member.span
            for end in member.ends:
                carrier = layout.by_tag.get(end.bears_on)
                slant = 1 if carrier is None or carrier.kind != "hip" else math.sin(math.radians(45))
                expected += end.tail if carrier is None else -carrier.plies * carrier.thickness / 2 / slant
            assert math.dist(a, b) == pytest.approx(expected, abs=0.5)


@pytest.mark.parametrize(
    "level", [name for name in some(LEVELS, 5, 20) if level_of(name).house().trusses.stations_to == "centre line"]
)
def test_measures_run_from_the_end_of_the_house_where_the_first_wall_begins(level: str) -> None:
    layout = layout_of(level)
    groups = {group.of: group for group in layer(plan_of(level), "measures").items if isinstance(group, Group)}
    to_face = layout.house.trusses.stations_to == "near face"
    for wall in layout.house.plan.walls:
        written = [item.text for item in flat(groups[wall.name]) if isinstance(item, Text)]
        runs = set()
        for member in layout.members:
            for end in member.ends:
                from_first, from_last = math.dist(wall.a, end.at), math.dist(wall.b, end.at)
                # A girder beside a re-entrant corner bears past the end of its wall, by less than it is thick.
                past = from_first + from_last - wall.length
                if (
                    end.bears_on in (f"plate {wall.name}", f"ledger {wall.name}")
                    and past < 2 * member.width
                    and from_first * from_last
                ):
                    if past and from_first < from_last:
                        from_first = -from_first
                    aside = member.width / 2 if to_face else 0.0
                    runs.add(from_first - aside if from_first <= from_last else from_first + aside)
        beams = [beam for beam in layout.house.plan.beams if beam.wall == wall.name]
        begin = layout.house.plan.outline[0]
        back = math.dist(begin, wall.b) < math.dist(begin, wall.a)
        read = [[wall.length - run if back else run for run in found] for found in
                (sorted(runs), *(post_runs(layout, beam) for beam in beams))]  # fmt: skip
        posts = [text for found in read[1:] if found for text in (*map(figure, found), "posts, to their middles")]
        assert written == [*map(figure, read[0]), *posts, f"{wall.name}  {wall.length:g}"]


def test_measures_run_to_the_near_face_where_the_level_says_so() -> None:
    """The trade brief: with `stations_to: near face` what the tape shows runs to the face nearest the end wall."""
    text = find_level("fantail").read_text(encoding="utf-8")
    assert "stations_to" not in text
    to_face = lay_out(
        parse_level(text.replace("trusses: {", "trusses: {stations_to: near face, "), "near.yaml").house()
    )
    wall = to_face.house.plan.walls[0]
    setback = to_face.house.trusses.setback
    assert {setback, wall.length - setback} <= set(stations(to_face, wall))


@pytest.mark.parametrize("level", some(LEVELS, 5, 20))
def test_the_svg_is_well_formed_and_says_what_it_is(level: str) -> None:
    sheet = sheet_of(level)
    svg = to_svg(sheet, PALETTE)
    root = ET.fromstring(svg)
    space = "{http://www.w3.org/2000/svg}"
    assert root.tag == f"{space}svg"
    assert root.findtext(f"{space}title") == level
    said = " ".join("".join(element.itertext()) for element in root.iter(f"{space}text"))
    for words in (INVENTED, CAUTION):
        assert words in said
        assert words in (root.findtext(f"{space}desc") or "")
    named = {element.get("data-of") for element in root.iter(f"{space}g") if element.get("class") == "tags"}
    assert named - {None} == set(layout_of(level).by_tag)
    shapes = sum(isinstance(item, Polygon) for item in sheet.items())
    assert len(list(root.iter(f"{space}polygon"))) == shapes
    assert to_svg(sheet, PALETTE) == svg


def test_plates_lie_inside_the_outline() -> None:
    layout = layout_of("wren")
    plan = layout.house.plan
    shapes = [item for item in flat(layer(plan_of("wren"), "plates")) if isinstance(item, Polygon)]
    inner = grown(plan, -plan.plate_width)
    area = _area(plan.outline) - _area(inner)
    assert sum(_area(shape.points) for shape in shapes) == pytest.approx(area)
    assert _area(grown(plan, 100)) == pytest.approx(
        # Steiner's formula for right angles: perimeter times width, and four squares at the corners in all.
        _area(plan.outline) + 100 * sum(wall.length for wall in plan.walls) + 4 * 100**2
    )


def _area(points: tuple[tuple[float, float], ...]) -> float:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1], strict=True)) / 2


def test_lettering_is_never_narrower_than_the_font_draws_it() -> None:
    """The widths kept for the core against the font itself, by pygame's own measure."""
    import font_source_sans_pro
    import pygame

    pygame.font.init()
    font = pygame.font.Font(str(font_source_sans_pro.font_files_ttf["SourceSansProSemibold"]), 100)
    printable = "".join(chr(code) for code in range(32, 127)) + "°–²·’…"
    for text in (*printable, "ST12", "TG1", "13200", "4387.5", INVENTED, CAUTION):
        drawn = font.size(text)[0]
        # Four hundredths of an em: how far a last letter may lean out of its own width.
        assert drawn - 4 <= text_width(text, 100) <= drawn * 1.12 + 4, text


def test_wrapping_keeps_every_word_and_the_width() -> None:
    lines = wrapped(CAUTION, 10, 300)
    assert " ".join(lines) == CAUTION
    assert all(text_width(line, 10) <= 300 for line in lines)
    assert all(text_width(f"{a} {b.split()[0]}", 10) > 300 for a, b in pairwise(lines))


@given(st.lists(st.floats(0, 10_000), max_size=30).map(sorted), st.floats(1, 500))
def test_figures_are_spread_no_more_than_they_need(places: list[float], least: float) -> None:
    moved = spread(places, least)
    gaps = [b - a for a, b in pairwise(moved)]
    assert all(gap >= least - 1e-6 for gap in gaps)
    assert sum(moved) == pytest.approx(sum(places), abs=1e-3)
    if all(b - a >= least for a, b in pairwise(places)):
        assert moved == pytest.approx(places)


@given(st.floats(-1e5, 1e5), st.floats(-1e5, 1e5), st.floats(0.001, 5))
def test_a_view_goes_there_and_back(x: float, y: float, scale: float) -> None:
    view = View(scale, -300.0, 12_000.0)
    assert view.to_mm(view.to_px((x, y))) == pytest.approx((x, y), abs=1e-6)


def test_a_fitted_view_shows_the_whole_box_centred() -> None:
    view = fit((0, 0, 10_000, 5_000), 800, 600, 20)
    assert view.to_px((0, 2500)) == pytest.approx((20, 300))
    assert view.to_px((10_000, 2500)) == pytest.approx((780, 300))


@pytest.mark.parametrize("seed", range(by_size(8, 24, 24)))
def test_nothing_touches_on_houses_nobody_has_looked_at(seed: int) -> None:
    """House-like plans by seed, with close and wide spacings and with and without eaves."""
    habits = TrussSpec(spacing=(300, 450, 600, 900, 1200)[seed % 5], setback=(900, 1800, 2400)[seed % 3])
    house = House(grown_house(seed), RoofSpec(22.5, (0, 300, 600)[seed % 3], 90), habits)
    try:
        sheet = layout_sheet(lay_out(house), "any")
    except LayoutRefused as refused:
        assert refused.reasons
        return
    written = [(text.text, text_box(text)) for text in texts(sheet)]
    assert not [(a[0], b[0]) for a, b in combinations(written, 2) if meet(a[1], b[1])]
