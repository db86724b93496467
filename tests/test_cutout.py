"""The card model: tabs meet stations and slots meet slots, to 0.2 mm of card; nothing is left out or too large.

Where a truss belongs is asked of the layout; what is printed is read off the pieces' outlines by a geometry library.
"""

from __future__ import annotations

import math

import pytest
from attempts import LEVELS, layout_of, level_of
from pdfminer.high_level import extract_pages
from pdfminer.layout import LTChar
from print_read import high, leaves
from shapely.geometry import LineString, Point, Polygon, box
from sizes import by_size
from typer.testing import CliRunner

from trainer.cli import app
from trainer.picture.cutout import CARD, Piece, pieces, trimmer_tag
from trainer.report.cutout_pdf import (
    APART,
    RULER,
    base_picture,
    best_scale,
    building_order,
    packed,
    piece_order,
    room,
    size,
)
from trainer.report.pdf_picture import LEAST_POINTS, POINTS

NEAR = 0.2
"""How near printed parts meet, mm of card."""
MODELS = (("thornbill", 20), ("wren", 50), ("robin", 25), ("lorikeet", 50), ("brolga", 50))
"""A gabled house, one with an inside corner, one with a dutch gable, and two with saddles on trimmers."""
HOUSES = by_size(MODELS, MODELS, tuple((name, 50) for name in LEVELS))


def card(piece: Piece, run: float, low: float = -1e5, top: float = 1e5) -> tuple[float, float]:
    """From where to where a piece has card at a run, mm up."""
    found = Polygon(piece.outline).intersection(LineString([(run, low), (run, top)]))
    return found.bounds[1], found.bounds[3]


@pytest.mark.parametrize(("house", "scale"), HOUSES)
def test_a_piece_is_one_whole_outline_for_each_truss(house: str, scale: int) -> None:
    made = pieces(layout_of(house), scale)
    trimmers = [part for part in layout_of(house).parts if part.part == "trimmer"]
    assert [piece.tag for piece in made] == [
        *(member.tag for member in layout_of(house).members),
        *(trimmer_tag(part) for part in trimmers),
    ]
    for piece in made:
        assert Polygon(piece.outline).is_valid, piece.tag
        assert min(size(piece, scale)) > 1


@pytest.mark.parametrize(("house", "scale"), HOUSES)
def test_feet_meet_their_stations_on_the_plan(house: str, scale: int) -> None:
    """Each foot's fold on the piece, put where the layout has the truss, is the inner edge of a mark with its tag."""
    layout = layout_of(house)
    base = base_picture(layout, scale)
    groups = {group.layer: group.items for group in base.layers}
    marks: dict[str, list[tuple[tuple[float, float], ...]]] = {}
    for mark, name in zip(groups["feet"], groups["tags"], strict=True):
        marks.setdefault(name.text, []).append(mark.points)
    for piece in pieces(layout, scale)[: len(layout.members)]:
        member, feet = layout.by_tag[piece.tag], [tab for tab in piece.tabs if tab.foot]
        assert len(feet) == sum(end.on_plate for end in member.ends) == len(marks.get(member.tag, []))
        (x, y), (dx, dy) = member.start, member.direction
        for tab, mark in zip(feet, marks.get(member.tag, []), strict=True):
            for (run, _z), place in zip(tab.fold, mark, strict=False):
                assert math.dist((x + dx * run, y + dy * run), place) <= NEAR * scale
            on_piece = Polygon(piece.outline).intersection(Polygon(tab.outline)).area
            assert on_piece == pytest.approx(Polygon(tab.outline).area), "nothing of a foot is cut off"
            ends = [end for end in member.ends if end.on_plate]
            runs = [member.run(end.at) for end in ends]
            assert any(min(abs(run - fold[0]) for fold in tab.fold) <= NEAR * scale for run in runs), "at the plate"


@pytest.mark.parametrize(("house", "scale"), HOUSES)
def test_slots_meet_slots(house: str, scale: int) -> None:
    """Where two pieces cross, one has card from where the other ends: none stands in another, nor is there a gap."""
    layout = layout_of(house)
    made = {piece.tag: piece for piece in pieces(layout, scale)}
    checked = 0
    for crossing in layout.crossings:
        over, under = made[crossing.over], made[crossing.under]
        slot = next((s for s in over.slots if s.other == crossing.under), None)
        if slot is None:
            continue
        beneath = next(s for s in under.slots if s.other == crossing.over)
        assert slot.run == pytest.approx(layout.by_tag[over.tag].run(crossing.at), abs=NEAR * scale)
        assert beneath.run == pytest.approx(layout.by_tag[under.tag].run(crossing.at), abs=NEAR * scale)
        upper, lower = card(over, slot.run, beneath.end - 3 * scale), card(under, beneath.run, top=slot.end + 3 * scale)
        assert abs(upper[0] - lower[1]) <= NEAR * scale, (crossing.over, crossing.under)
        for piece, cut in ((over, slot), (under, beneath)):
            gap = box(cut.run - cut.wide / 2 + 0.5, min(cut.mouth, cut.end) + 1, cut.run + cut.wide / 2 - 0.5,
                      max(cut.mouth, cut.end) - 1)  # fmt: skip
            assert Polygon(piece.outline).intersection(gap).area < 1, "the slot is open"
            assert cut.wide >= 0.5 * scale, "the card goes in"
        checked += 1
    assert checked > 20 or house != "wren"


@pytest.mark.parametrize(("house", "scale"), [("lorikeet", 50), ("brolga", 50), ("quail", 25)])
def test_a_trimmer_meets_both_its_trusses_and_the_saddle_that_stands_on_it(house: str, scale: int) -> None:
    """It lies a card's thickness beside its saddle: its slot meets one truss's, its tab the other's face."""
    layout = layout_of(house)
    made = {piece.tag: piece for piece in pieces(layout, scale)}
    trimmers = [part for part in layout.parts if part.part == "trimmer"]
    assert trimmers
    for part in trimmers:
        piece, saddle = made[trimmer_tag(part)], layout.by_tag[part.on]
        base = card(made[part.on], saddle.span / 2)[0] if not made[part.on].slots else saddle.top[0][1]
        assert abs(card(piece, piece.span / 2)[1] - base) <= NEAR * scale, "its top is where the saddle's foot is"
        line = LineString([part.start, part.finish])
        for end in (piece.start, piece.finish):
            assert line.distance(Point(end)) == pytest.approx(CARD * scale, abs=NEAR * scale), "beside the saddle"
        tab = next(tab for tab in piece.tabs if tab.end == 2)
        assert abs(piece.span - tab.fold[0][0] - CARD * scale / 2) <= NEAR * scale, "on the face of the inner truss"
        inner = min((part.start, part.finish), key=lambda end: math.dist(end, piece.finish))
        assert any(math.dist(crossing.at, inner) < 1 for crossing in layout.crossings if crossing.over == part.on)
        tongue = [end for end in saddle.ends if end.bears_on == part.name]
        for end in tongue:
            run = min(max(saddle.run(end.at), 0.5), saddle.span - 0.5)
            low, _top = card(made[part.on], run + (1 if run < 1 else -1))
            assert low <= base - 3 * scale, "the saddle reaches down its side"
        for slot in piece.slots:
            under = made[slot.other]
            beneath = next(s for s in under.slots if s.other == piece.tag)
            truss = layout.by_tag[slot.other]
            assert abs(truss.run(piece.start) - beneath.run) <= NEAR * scale
            upper, lower = card(piece, slot.run), card(under, beneath.run, top=slot.end + 3 * scale)
            assert abs(upper[0] - lower[1]) <= NEAR * scale, (piece.tag, slot.other)
    assert sum(len(made[trimmer_tag(part)].slots) for part in trimmers) >= len(trimmers) / 2


def test_every_extension_and_saddle_that_crosses_a_truss_has_a_slot_there() -> None:
    layout = layout_of("wren")
    slots = {(piece.tag, slot.other) for piece in pieces(layout, 50) for slot in piece.slots}
    for crossing in layout.crossings:
        over = layout.by_tag[crossing.over]
        run = over.run(crossing.at)
        at_tip = run > over.top[-1][0] - 60 or run < 60
        assert at_tip or not crossing.bears or {(crossing.over, crossing.under)} <= slots, crossing


@pytest.mark.parametrize(("house", "paper", "scale"), [("thornbill", "A4", 20), ("wren", "A4", 50), ("wren", "A3", 25)])
def test_the_scale_is_the_largest_at_which_the_longest_truss_fits(house: str, paper: str, scale: int) -> None:
    assert best_scale(layout_of(house), paper) == scale


def test_packed_pieces_lie_on_the_page_and_apart() -> None:
    made = pieces(layout_of("wren"), 50)
    pages = packed(made, 50, "A4")
    assert sorted(put.piece.tag for page in pages for put in page) == sorted(p.tag for p in made)
    for page in pages:
        boxes = [box(p.x, p.y, p.x + size(p.piece, 50)[0], p.y + size(p.piece, 50)[1]) for p in page]
        whole = box(0, 0, *room("A4"))
        assert all(whole.covers(each) for each in boxes)
        for i, one in enumerate(boxes):
            assert all(one.distance(other) >= APART - 0.11 for other in boxes[:i])


def test_the_order_has_each_truss_once_and_carriers_first() -> None:
    layout = layout_of("wren")
    order = building_order(layout)
    assert sorted(order) == sorted(layout.by_tag)
    assert piece_order(layout) == order, "no saddle of it stands on a trimmer"
    pieces_of_another = piece_order(layout_of("lorikeet"))
    for part in layout_of("lorikeet").parts:
        if part.part == "trimmer":
            assert pieces_of_another.index(trimmer_tag(part)) < pieces_of_another.index(part.on)
    for member in layout.members:
        assert all(order.index(carrier) < order.index(member.tag) for carrier in member.carried_by)


def test_the_command_prints_a_ruler_of_its_own_length_and_says_the_scale(tmp_path) -> None:
    file = tmp_path / "model.pdf"
    result = CliRunner().invoke(app, ["cutout", "thornbill", "-o", str(file)])
    assert (result.exit_code, "1:20" in result.output) == (0, True), result.output
    found = list(extract_pages(file))
    lines = [each for each in leaves(found[0]) if type(each).__name__ == "LTLine" and each.height == 0]
    assert any(abs(each.width - RULER * POINTS) < 0.05 for each in lines)
    chars = [each for page in found for each in leaves(page) if isinstance(each, LTChar)]
    assert min(map(high, chars)) >= LEAST_POINTS - 0.02
    result = CliRunner().invoke(app, ["cutout", "wren", "--scale", "20", "-o", str(file)])
    assert result.exit_code == 1
    assert "1:20" in result.output and "50" in result.output
    assert level_of("wren").id == "wren"
