"""The job on paper: measures clear of eaves and of each other, a drawing to scale, and every list of it whole.

What a PDF holds is read back by a general library. A scale is arithmetic: 12,000 mm at 1:100 are 120 mm of paper.
Line groups with weights as 1 : 2 : 4 are those of ISO 128.
"""

from __future__ import annotations

import io
from collections import Counter
from itertools import combinations

import pytest
from attempts import LEVELS, layout_of, level_of
from pdfminer.high_level import extract_pages
from pdfminer.layout import LTChar, LTCurve, LTPage, LTTextLine
from print_read import faint, high, leaves
from shapely.geometry import LineString, Point
from sizes import by_size
from typer.testing import CliRunner

from trainer.board.tools.hand import Hand
from trainer.cli import app
from trainer.cli.on_paper import light, type_files
from trainer.layout.posts import free_posts
from trainer.level import parse_level
from trainer.picture.bracing_plan import bracing_legend, bracing_picture
from trainer.picture.cutout import CardModel
from trainer.picture.lettering import meet, text_box
from trainer.picture.measures import figure, measures, post_runs, spread, stations
from trainer.picture.model import Group, Line, Polygon, Text, flat
from trainer.picture.sheet import plan_picture
from trainer.picture.tags import tag_size
from trainer.picture.verandah import FILL
from trainer.plan import read_back, taped
from trainer.report import schedule
from trainer.report.cutout_pdf import base_picture
from trainer.report.drawing_page import Drawing, fitted
from trainer.report.pdf_picture import LEAST_POINTS, POINTS
from trainer.report.sheet_pdf import sheet_pdf
from trainer.report.split import ABOVE, BELOW, LEFT, RIGHT, cells, name_place, neighbours, number_place, windows
from trainer.session import Session, job_of
from trainer.site.lifting import mass

LOOKED_AT = by_size(("thornbill", "wren", "treecreeper", "plover", "martin"), LEVELS[::2], LEVELS)


def sheets(level: str, paper: str = "A3") -> list[LTPage]:
    return list(extract_pages(io.BytesIO(sheet_pdf(level_of(level), paper, light(), *type_files()))))


def words(page: LTPage) -> list[str]:
    return [each.get_text().strip() for each in lines(page)]


def lines(page: LTPage) -> list[LTTextLine]:
    found, queue = [], list(page)
    while queue:
        each = queue.pop()
        if isinstance(each, LTTextLine):
            found.append(each)
        elif hasattr(each, "__iter__"):
            queue.extend(each)
    return found


@pytest.fixture(scope="module")
def wren() -> list[LTPage]:
    return sheets("wren")


@pytest.mark.parametrize("size", [None, 250.0])
@pytest.mark.parametrize("level", LOOKED_AT)
def test_no_measure_lies_over_an_eave_a_tape_or_another(level: str, size: float | None) -> None:
    layout = layout_of(level)
    by = layout.house.roof.overhang
    roofs = [(x0 - by, y0 - by, x1 + by, y1 + by) for x0, y0, x1, y1 in (wing.rect for wing in layout.wings)]
    group = measures(layout, size or tag_size(layout) * 0.9)
    boxes = [(item.text, text_box(item)) for item in flat(group) if isinstance(item, Text)]
    assert not [text for text, box in boxes if any(meet(box, roof) for roof in roofs)]
    assert not [(a[0], b[0]) for a, b in combinations(boxes, 2) if meet(a[1], b[1])]


@pytest.mark.parametrize("level", LOOKED_AT)
def test_no_line_from_a_measure_crosses_another_of_its_wall(level: str) -> None:
    """At an inside corner the line of 1500 once crossed that of 900 and ran on into the tape's own."""
    layout = layout_of(level)
    for wall in measures(layout, tag_size(layout) * 0.9).items:
        assert isinstance(wall, Group)
        ends = {item.at for item in wall.items if isinstance(item, Text)}
        led = [LineString(item.points) for item in wall.items if isinstance(item, Line) and item.points[-1] in ends]
        assert not [(a, b) for a, b in combinations(led, 2) if a.intersects(b)]


def test_what_is_led_aside_at_an_inside_corner_crosses_nothing_of_the_other_wall() -> None:
    """Once each tape was led on to the corner too, through the lines of the other one's measures."""
    found = []
    for wall in measures(layout_of("wren"), 285.0).items:
        assert isinstance(wall, Group)
        found += [LineString(item.points) for item in wall.items if isinstance(item, Line) and wall.of in {"D", "E"}]
    led = [line for line in found if len(line.coords) == 3]
    assert len(led) >= 4
    aslant = [line for line in found if len({*line.coords.xy[0]}) > 1 < len({*line.coords.xy[1]}) or line in led]
    assert not [(a.wkt, b.wkt) for a, b in combinations(aslant, 2) if a.crosses(b)]


def test_a_number_on_the_key_plan_stands_clear_of_the_outline() -> None:
    outline = [(0.0, 0.0), (100.0, 0.0), (100.0, 50.0), (50.0, 50.0), (50.0, 100.0), (0.0, 100.0)]
    assert number_place((0.0, 0.0, 60.0, 60.0), outline, 10.0) == (30.0, 30.0)
    x, y = number_place((0.0, 0.0, 100.0, 100.0), outline, 10.0)
    assert LineString([*outline, outline[0]]).disjoint(Point(x, y).buffer(5.0, cap_style="square"))


def test_figures_stay_within_what_a_tape_has() -> None:
    assert spread([0, 100], 200, (150, 900)) == [150, 350]
    assert spread([800, 900], 200, (0, 850)) == [650, 850]
    assert spread([100, 500], 200, (0, 900)) == [100, 500]


def test_the_layout_is_to_the_scale_that_its_title_block_says(wren: list[LTPage]) -> None:
    page = wren[0]
    assert (round(page.width), round(page.height)) == (1191, 842)
    assert any("Scale 1:75 on A3" in text for text in words(page))
    turned = [c for c in leaves(page) if isinstance(c, LTChar) and c.matrix[1]]
    foot = min(c.y0 for c in turned)
    along = [c.x0 for c in turned if c.y0 < foot + 40]
    across = max(along) - min(along)
    assert across == pytest.approx((12600 - 600) / 75 * POINTS, abs=0.1), "from 600 to 12600 on wall A"


def test_strokes_are_as_one_to_two_to_four(wren: list[LTPage]) -> None:
    widths = {round(each.linewidth, 2) for each in leaves(wren[0]) if isinstance(each, LTCurve) and each.stroke}
    thin = min(widths)
    assert {round(width / thin, 1) for width in widths} == {1.0, 2.0, 4.0}


def test_every_tag_and_measure_can_be_read(wren: list[LTPage]) -> None:
    layout = layout_of("wren")
    said = {word for text in words(wren[0]) for word in text.split()}
    assert set(layout.by_tag) <= said
    turned = "".join(c.get_text() for c in leaves(wren[0]) if isinstance(c, LTChar) and c.matrix[1])
    plan = layout.house.plan
    read = [(wall, figure(taped(plan, wall, run))) for wall in plan.walls for run in stations(layout, wall)]
    figures = [text for wall, text in read if wall.along[0]]
    assert Counter("".join(figures)) <= Counter(turned), "all digits of the figures that stand upright"
    assert {text for wall, text in read if wall.along[1]} <= said
    assert not faint(wren[0])
    for page in wren:
        chars = [each for each in leaves(page) if isinstance(each, LTChar)]
        assert min(map(high, chars)) >= LEAST_POINTS - 0.02
        assert all(c.x0 > 0 and c.x1 < page.width and c.y0 > 0 and c.y1 < page.height for c in chars)


@pytest.mark.parametrize(
    ("level", "paper", "scale", "count"), [("wren", "A3", 75, 1), ("wren", "A4", 100, 1), ("brolga", "A3", 100, 2)]
)
def test_what_is_too_large_for_a_sheet_is_split_and_each_text_stands_whole_on_one(
    level: str, paper: str, scale: int, count: int
) -> None:
    layout = layout_of(level)
    fit = fitted(Drawing("", lambda size: plan_picture(layout, size), (), layout.house.plan.outline), paper)
    assert (fit.scale, len(fit.windows)) == (scale, count)
    texts = [item for item in fit.picture.items() if isinstance(item, Text)]
    for text in texts:
        x0, y0, x1, y1 = text_box(text)
        assert any(a <= x0 and b <= y0 and x1 <= c and y1 <= d for a, b, c, d in fit.windows), text.text


def test_a_page_that_little_is_written_on_goes_on_with_the_job_sheet(wren: list[LTPage]) -> None:
    """The saddles once stood alone on a page."""
    saddled = next(page for page in wren if any(text.startswith("Saddles, in mm") for text in words(page)))
    assert "Job sheet" in words(saddled)
    assert {"A", "B", "C", "D", "E", "F"} <= set(words(wren[1])), "the plan of bracing has the walls' letters too"


def test_the_legend_has_only_what_the_drawing_has(wren: list[LTPage]) -> None:
    assert "valley line" in " ".join(words(wren[0]))
    gabled = " ".join(words(sheets("thornbill", "A4")[0]))
    assert "ridge" in gabled
    for absent in ("hip line", "valley line", "saddle truss", "verandah beam", "truncated girder"):
        assert absent not in gabled


def test_the_schedule_counts_each_truss_once_and_weighs_it_by_its_rule() -> None:
    layout, level = layout_of("wren"), level_of("wren")
    rows = schedule.schedule(layout, level)
    assert sum(int(row[2]) for row in rows) == len(layout.members)
    assert rows[0][:2] == ("ST1–ST7", "standard truss")
    assert rows[0][7] == f"{mass(layout.by_tag['ST1'], layout.house, 550):.0f}"
    assert schedule.in_runs(["ST2", "ST1", "G1", "ST10", "ST3"]) == "G1, ST1–ST3, ST10"


def test_the_set_out_has_every_bearing_once_in_running_order() -> None:
    layout = layout_of("wren")
    found = list(schedule.set_out(job_of(level_of("wren"), 0, layout=layout)))
    saddles = found.pop()
    marked = [row[1] for each in found for row in each.rows]
    ends = [m.tag for m in layout.members for end in m.ends if end.wall or (m.kind != "saddle" and m.carried_by)]
    assert len(marked) >= len(ends) / 2
    assert {tag for tag in layout.by_tag if layout.by_tag[tag].kind != "saddle"} == set(marked)
    for each in found:
        runs = [float(row[0]) for row in each.rows if row[0] != "corner"]
        assert runs == sorted(runs), each.name
    wall_a = next(each for each in found if each.name.startswith("Wall A"))
    assert ("1800", "TG1") in [row[:2] for row in wall_a.rows]
    wall_d = next(each for each in found if each.name.startswith("Wall D"))
    assert wall_d.name.endswith("3900 long, measured from corner DE"), "the end that wall A is measured from"
    assert wall_d.rows[0][:2] == ("-35", "G1")
    assert wall_d.rows[0][2].endswith("(35 before the corner)")
    drawn = next(group for group in measures(layout, 120.0).items if isinstance(group, Group) and group.of == "D")
    texts = [item.text for item in drawn.items if isinstance(item, Text)]
    assert {"-35", "3792.5"} <= set(texts), "and the drawing shows it too"
    # The opening's plate line is 7200 from wall A, and a saddle lies at each spacing of 600 from it.
    assert [row[0] for row in saddles.rows] == ["S1", "S2", "S3", "S4"]
    assert [row[1] for row in saddles.rows] == ["ST9 at 6600", "ST10 at 6000", "ST11 at 5400", "T3 at 4800"]


@pytest.mark.parametrize("level", ["wren"])
def test_drawings_lists_and_the_board_measure_each_wall_from_one_corner(level: str) -> None:
    """The two marks of a truss show one measure: a tape is hooked at the same end of the house on both walls."""
    layout = layout_of(level)
    plan, job = layout.house.plan, job_of(level_of(level), 0, layout=layout)
    hand = Hand(Session(level_of(level)))
    assert hand.read_back == read_back(plan), "and a new tape of the board is hooked there"
    found = [each for each in schedule.set_out(job) if each.name.startswith("Wall")]
    at = {(row[1], wall.name): row[0] for wall, each in zip(plan.walls, found, strict=True) for row in each.rows}
    hooked = {wall.name: wall.b if wall.name in read_back(plan) else wall.a for wall in plan.walls}
    across = 0
    for member in layout.members:
        one, other = (plan.by_name.get(end.wall) for end in member.ends)
        if one and other and one.along[0] == -other.along[0] and member.kind != "hip":
            axis = 0 if one.along[0] else 1
            if hooked[one.name][axis] == hooked[other.name][axis]:
                across += 1
                assert at[member.tag, one.name] == at[member.tag, other.name], member.tag
    assert across, "walls that run opposite ways are measured from one end"
    for wall in plan.walls:
        drawn = next(each for each in measures(layout, 120.0).items if isinstance(each, Group) and each.of == wall.name)
        shown = {item.text for item in drawn.items if isinstance(item, Text)}
        assert {figure(taped(plan, wall, run)) for run in stations(layout, wall)} <= shown


def test_a_connector_has_one_sign_in_every_house_and_none_covers_a_post() -> None:
    seen: dict[str, set[tuple[int, tuple[str | None, ...]]]] = {}
    for name in ("wren", "egret"):
        job = job_of(level_of(name), 0, layout=layout_of(name))
        for words, sample in bracing_legend(job, ()):
            if "anchor" in words or "strap" in words:
                shapes = [item for item in sample((0.0, 0.0), 9.0) if isinstance(item, Polygon)]
                assert shapes[0].fill == "paper", "a white edge"
                sign = (len(shapes[0].points), tuple(each.fill for each in shapes[1:]))
                seen.setdefault(words, set()).add(sign)
    assert set(seen) == {"framing anchor", "2 × framing anchor", "tie-down strap"}
    assert all(len(signs) == 1 for signs in seen.values())
    assert len(set().union(*seen.values())) == 3
    layout = job.layout
    picture = bracing_picture(job, (), {}, 200.0)
    signs_at = next(layer for layer in picture.layers if layer.layer == "tie-down")
    half = layout.house.plan.plate_width / 2
    posts = [(x - half, y - half, x + half, y + half) for x, y in (post.at for post in free_posts(layout))]
    for item in flat(signs_at):
        assert isinstance(item, Polygon)
        xs, ys = zip(*item.points, strict=True)
        assert not any(meet((min(xs), min(ys), max(xs), max(ys)), post) for post in posts)


def test_posts_are_measured_along_their_beam_and_a_bar_shows_the_scale() -> None:
    layout = layout_of("egret")
    beam = layout.house.plan.beams[0]
    # Middles: half a 90 mm plate in from each end, under both girders, and equal bays of 9840 / 3 between.
    assert post_runs(layout, beam) == [45, 1800, 5080, 8360, 11640, 13395]
    texts = [item.text for item in flat(measures(layout, 120.0)) if isinstance(item, Text)]
    assert {"45", "5080", "8360", "13395"} <= set(texts)
    page = sheets("egret")[0]
    assert {"0", "3 m"} <= set(words(page))


PART_BEAM = """
schema: 1
id: part-beam
title: A beam on part of a wall
brief: Every size is invented.
plates: {outline: [[0, 0], [12600, 0], [12600, 7800], [0, 7800]], width: 90}
beams: {A: [3000, 9000]}
roof: {pitch: 22.5, overhang: 600, heel: 90}
trusses: {spacing: 600, setback: 1800}
"""


def test_a_beam_on_part_of_a_wall_is_on_every_plan_from_where_to_where_it_runs() -> None:
    job = job_of(parse_level(PART_BEAM, "part-beam"), 0)
    layout = job.layout
    for picture in (plan_picture(layout), base_picture(CardModel(layout, 50)), bracing_picture(job, (), {}, 200.0)):
        beams = [item for item in picture.items() if isinstance(item, Polygon) and item.fill == FILL]
        runs = [(min(x for x, _y in each.points), max(x for x, _y in each.points)) for each in beams]
        assert (3000.0, 9000.0) in runs
    wall_a = next(each for each in schedule.set_out(job) if each.name.startswith("Wall A"))
    assert "beam from 3000 to 9000" in wall_a.name


def test_the_command_says_what_is_wrong_with_its_file(tmp_path) -> None:
    result = CliRunner().invoke(app, ["sheet", "thornbill", "-o", str(tmp_path / "sheet.txt")])
    assert result.exit_code == 2
    result = CliRunner().invoke(app, ["sheet", "thornbill", "--paper", "A4", "-o", str(tmp_path / "sheet.pdf")])
    assert result.exit_code == 0, result.output
    assert (tmp_path / "sheet.pdf").read_bytes().startswith(b"%PDF")


def test_edges_of_split_sheets_name_the_next_ones_and_cross_few_letters() -> None:
    """Three rows of two sheets, as an A4 of the largest house has them, and a column of figures in the middle."""
    grid = list(windows((0.0, 0.0, 340.0, 240.0), 190.0, 100.0, 16.0))
    assert [dict(neighbours(grid, sheet)) for sheet in grid] == [
        {RIGHT: 2, BELOW: 3}, {LEFT: 1, BELOW: 4}, {RIGHT: 4, ABOVE: 1, BELOW: 5},
        {LEFT: 3, ABOVE: 2, BELOW: 6}, {RIGHT: 6, ABOVE: 3}, {LEFT: 5, ABOVE: 4},
    ]  # fmt: skip
    figures = [(167.0, float(y), 172.0, y + 4.0) for y in range(0, 230, 10)]
    own = cells(grid, figures)
    assert own[0][2] == own[1][0] == own[3][0] and not 167.0 < own[0][2] < 172.0
    assert sum((c - a) * (d - b) for a, b, c, d in own) == pytest.approx(340.0 * 240.0), "all of the plan, once"
    assert all(x0 <= a and y0 <= b and c <= x1 and d <= y1
               for (x0, y0, x1, y1), (a, b, c, d) in zip(grid, own, strict=True))  # fmt: skip
    for side, _number in neighbours(grid, grid[2]):
        assert not any(meet(name_place(side, own[2], grid[2], (16.0, 4.0), 1.0, figures), box) for box in figures)
