"""Lettering in drawings grows with the text, and is neither cut nor written over other lettering.

How wide lettering is comes of the font file, which the tests of pictures hold the table of widths to.
"""

from dataclasses import replace
from functools import cache
from itertools import combinations, pairwise, product

import pytest
from attempts import layout_of, level_of, right
from board_screens import SCALES, SIZES, at
from sizes import by_size, some

from trainer.board.plan_view import PlanView
from trainer.picture.lettering import LEAST_PX, meet, text_box
from trainer.picture.model import Box, Item, Line, Picture, Polygon, Text, fit
from trainer.picture.on_screen import on_screen, ring_round
from trainer.picture.placing import Lettering, letter, over_strokes, place_texts
from trainer.picture.sheet import plan_picture
from trainer.picture.side_by_side import side_by_side
from trainer.picture.taken import crosses
from trainer.session import Session

SCREENS = (
    "job_sheet", "stand", "section", "section_line", "section_across", "one_truss", "two_trusses", "faulty_truss",
    "beside_the_reference", "quiz_point", "quiz_spot",
)  # fmt: skip
CORNERS = ((SIZES[0], SCALES[-1]), (SIZES[-1], SCALES[0]))
"""Where lettering has least room, and most."""
LOOKS = by_size(
    CORNERS,
    (*CORNERS, (SIZES[0], SCALES[1])),
    tuple(product(SIZES, SCALES)),
)


@cache
def drawing(screen: str, size: tuple[int, int], scale: float) -> PlanView:
    """The view of a screen as it is placed and fitted there."""
    roots = at(screen, size, scale, "light").app.scene.roots.values()
    (found,) = [w for root in roots for w in root.walk() if isinstance(w, PlanView)]
    return found


def texts(view: PlanView, letters: float) -> list[Text]:
    scale = view.camera.view.scale
    lettered = letter(view.still(scale), scale, letters, within=view.reach())
    return [item for item in lettered.items if isinstance(item, Text)]


@pytest.mark.parametrize(("size", "scale"), LOOKS)
@pytest.mark.parametrize("screen", some(SCREENS, 6))
def test_lettering_can_be_read_whole(screen: str, size: tuple[int, int], scale: float) -> None:
    view = drawing(screen, size, scale)
    written = texts(view, scale)
    assert written
    boxes: list[tuple[str, Box]] = [(text.text, text_box(text, view.camera.view.scale)) for text in written]
    assert not [(a[0], b[0]) for a, b in combinations(boxes, 2) if meet(a[1], b[1])]
    wide, high = view.rect.size
    for name, (left, low, end, top) in boxes:
        (x0, y0), (x1, y1) = view.camera.view.to_px((left, top)), view.camera.view.to_px((end, low))
        assert x0 >= -1 and y0 >= -1 and x1 <= wide + 1 and y1 <= high + 1, f"{name} is cut"


@pytest.mark.parametrize("screen", some(SCREENS, 6))
def test_lettering_grows_as_the_text_does(screen: str) -> None:
    small, large = (drawing(screen, size, scale) for size, scale in reversed(CORNERS))
    assert min(text.size for text in texts(small, SCALES[0])) >= LEAST_PX
    assert min(text.size for text in texts(large, SCALES[-1])) >= LEAST_PX * SCALES[-1] / SCALES[0]


def written(items: list[Item], scale: float) -> dict[str, Text]:
    return {item.text: item for item in place_texts(items, scale) if isinstance(item, Text)}


def test_what_is_spare_waits_until_one_looks_closer() -> None:
    tags: list[Item] = [Text((x, 0.0), f"ST{x}", "ink", 13.0, "px", spare=True) for x in range(0, 3000, 300)]
    assert 0 < len(written(tags, 0.02)) < len(tags) == len(written(tags, 0.3))


def test_a_text_goes_to_the_first_of_its_places_that_is_free() -> None:
    fixed = Text((0.0, 0.0), "G1", "ink", 13.0, "px")
    moving = Text((0.0, 0.0), "G2", "ink", 13.0, "px", places=((1.0, 0.0), (500.0, 0.0), (900.0, 0.0)))
    assert written([moving, fixed], 0.1)["G2"].at == (500.0, 0.0)
    assert written([moving, fixed], 0.1)["G1"].at == (0.0, 0.0)


def test_a_text_that_moved_away_is_joined_to_where_it_belongs() -> None:
    fixed = Text((0.0, 0.0), "J1", "ink", 13.0, "px")
    moving = Text((10.0, 0.0), "J2", "ink", 13.0, "px", rows=-2)
    under, *_rest = items = place_texts([fixed, moving], 0.1)
    assert isinstance(under, Line) and under.points[0] == (10.0, 0.0)
    assert under.points[1] == written(items, 0.1)["J2"].at and under.points[1][1] < 0


def test_lettering_to_scale_is_enlarged_together_and_never_outgrows_the_drawing() -> None:
    items: list[Item] = [
        Text((0.0, 0.0), "A", "ink", 200.0), Text((9000.0, 0.0), "B", "ink", 300.0), Polygon(((0.0, 0.0),) * 3, "ink"),
    ]  # fmt: skip
    for scale in (0.01, 0.05, 0.08, 1.0):
        one, other = written(items, scale).values()
        assert other.size == pytest.approx(1.5 * one.size)
        assert LEAST_PX - 1e-9 <= one.size <= 20.0 + 1e-9


@cache
def sheet(level: str) -> Picture:
    """The layout drawing of a level."""
    return plan_picture(layout_of(level))


@cache
def on_plan(level: str, size: tuple[int, int], letters: float = 1.0) -> tuple[float, Lettering]:
    """The layout drawing of a level, lettered for so much room."""
    scale = fit(sheet(level).box, *size).scale
    return scale, letter(on_screen(layout_of(level), sheet(level))(scale), scale, letters, within=sheet(level).box)


def meant(lettered: Lettering) -> list[str]:
    """Every tag that is written, those within a range as well."""
    found = []
    for item in lettered.items:
        if isinstance(item, Text) and item.names is not None:
            first, _to, last = item.text.partition("–")
            letters, number = item.names.row.split()[0], item.names.number
            end = int(last.removeprefix(letters)) if last else number
            found += [f"{letters}{n}" for n in range(number, end + 1)] if last else [first]
    return found


@pytest.mark.parametrize("letters", [1.0, 2.0])
@pytest.mark.parametrize(("level", "size"), [("wren", (760, 600)), ("kookaburra", (760, 600)), ("brolga", (760, 600))])
def test_every_tag_is_written_once_shares_a_range_or_is_said_to_wait(
    level: str, size: tuple[int, int], letters: float
) -> None:
    scale, lettered = on_plan(level, size, letters)
    tags = {member.tag for member in layout_of(level).members}
    waiting = tags.intersection(lettered.left_out)
    assert sorted([*meant(lettered), *waiting]) == sorted(tags)
    assert not waiting or level != "wren" or letters > 1
    boxes = [text_box(item, scale) for item in lettered.items if isinstance(item, Text) and item.names]
    assert not any(meet(a, b) for a, b in combinations(boxes, 2))


def test_two_roofs_in_one_drawing_have_the_tags_of_both() -> None:
    site = Session(level_of("wren"), 4, layout=layout_of("wren"))
    site.replay(right("wren", 4)[:200])
    picture = side_by_side([site.site, site.site], "", "")
    scale = fit(picture.box, 700, 1200).scale
    lettered = letter(picture.items(), scale, within=picture.box)
    found = [*meant(lettered), *lettered.left_out]
    assert sorted(found) == sorted([*site.site.stood, *site.site.stood])


def test_a_range_means_neighbours_alone() -> None:
    _scale, lettered = on_plan("brolga", (760, 600))
    layout = layout_of("brolga")
    ranges = [item for item in lettered.items if isinstance(item, Text) and "–" in item.text]
    assert ranges
    for item in ranges:
        first, last = (layout.by_tag[tag] for tag in item.text.split("–"))
        letters = item.text.split("–")[0].rstrip("0123456789")
        numbers = [int(member.tag.removeprefix(letters)) for member in (first, last)]
        row = [layout.by_tag[f"{letters}{n}"] for n in range(numbers[0], numbers[1] + 1)]
        assert {(member.kind, member.wing) for member in row} == {(first.kind, first.wing)}
        gaps = [abs((a.middle[0] - b.middle[0]) * a.direction[1] - (a.middle[1] - b.middle[1]) * a.direction[0])
                for a, b in pairwise(row)]  # fmt: skip
        assert max(gaps) <= 1.5 * layout.house.trusses.spacing


@pytest.mark.parametrize("tag", ["ST4", "H1", "J4", "C5"])
def test_a_ring_goes_round_its_tag_which_stands_once(tag: str) -> None:
    scale, under = on_plan("wren", (760, 600))
    layout = layout_of("wren")
    over = letter([ring_round(layout, layout.by_tag[tag])], scale, among=under)
    (own,) = [item for item in over.items if isinstance(item, Text) and item.text == tag]
    ring = next(item for item in over.items if isinstance(item, Line))
    box = text_box(own, scale)
    assert not any(crosses(side, box) for side in pairwise(ring.points))
    assert own.names is not None and own.at == under.alone[own.names].at  # it covers the one that is there


def test_tags_of_rings_lie_over_no_other_tag_of_a_ring_where_the_text_is_large() -> None:
    scale, under = on_plan("wren", (420, 330), 2.0)
    layout = layout_of("wren")
    over = letter([ring_round(layout, member) for member in layout.members], scale, 2.0, among=under)
    alone = {text.names for text in under.alone.values()}
    boxes = [text_box(item, scale) for item in over.items if isinstance(item, Text) and item.ground == "select"]
    assert len(boxes) > len(alone), "others find a place too"
    assert not any(meet(a, b) for a, b in combinations(boxes, 2))


def test_a_stroke_goes_through_no_tag_under_it() -> None:
    scale, under = on_plan("wren", (760, 600))
    own = next(iter(under.alone.values()))
    (x, y), past = own.at, 9000.0
    through = Polygon(((x - past, y), (x + past, y), (x + past, y + past), (x - past, y + past)), None, "mark", 3.0)
    beside = replace(through, points=tuple((px, py + 50_000.0) for px, py in through.points))
    stroke = Line(through.points[:2], "mark", 6.0)
    assert own in over_strokes([through], under, scale)[1:] and own in over_strokes([stroke], under, scale)[1:]
    assert over_strokes([beside], under, scale) == [beside]


def test_a_figure_has_a_ground_of_its_own_over_all_marks_and_tapes() -> None:
    items = on_screen(layout_of("wren"), sheet("wren"))(0.03)
    figures = {i: item for i, item in enumerate(items) if isinstance(item, Text) and item.role == "mark"}
    struck = [i for i, item in enumerate(items) if isinstance(item, Line) and item.role == "mark"]
    assert min(figures) > max(struck) and all(item.ground for item in figures.values())
