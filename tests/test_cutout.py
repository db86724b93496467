"""The card model: it can be cut out and built: tabs meet their marks, crossings have slots, all to 0.2 mm of card.

Where a truss belongs is asked of the layout; what is printed is read off the pieces' outlines by a geometry library,
which finds by itself where two pieces cross.
"""

from __future__ import annotations

import io
import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import combinations

import pytest
from attempts import LEVELS, layout_of, level_of
from pdfminer.high_level import extract_pages
from pdfminer.layout import LTChar, LTCurve, LTLine, LTTextContainer
from print_read import high, leaves
from shapely.geometry import LineString, Point, Polygon, box
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union
from sizes import by_size
from typer.testing import CliRunner

from trainer.cli import app
from trainer.cli.on_paper import type_files
from trainer.layout.posts import free_posts
from trainer.order import Order, Step, order_of
from trainer.picture import Text
from trainer.picture.card import CARD, Hung, Piece
from trainer.picture.card_printed import how_picture, piece_items
from trainer.picture.card_trimmers import trimmer_tag
from trainer.picture.cutout import WALLS_HIGH, CardModel
from trainer.picture.lettering import LEAST_PX, meet, text_box
from trainer.picture.model import Polygon as Filled
from trainer.picture.verandah import DEEP
from trainer.report.cutout_pdf import APART, base_picture, best_scale, packed, room, size
from trainer.report.cutout_words import RULER, building_order, in_order, instructions, piece_order
from trainer.report.drawing_page import BORDER
from trainer.report.pdf_page import Page
from trainer.report.pdf_picture import LEAST_POINTS, POINTS
from trainer.terms import STAGES

NEAR = 0.2
"""How near printed parts meet, mm of card."""
LEAST_WIDE = 2.0
"""Card narrower than this tears, mm."""
MODELS = (("thornbill", 20), ("pardalote", 25), ("wren", 50), ("egret", 50), ("robin", 25), ("lorikeet", 50))
"""Gabled houses, one with an inside corner, one on a beam, one with a dutch gable, and one with saddles on trimmers."""
TRIMMED = by_size((("lorikeet", 50), ("quail", 25)), *[(("lorikeet", 50), ("brolga", 50), ("quail", 25))] * 2)
"""Houses with saddles on trimmers."""
EM = LEAST_POINTS / POINTS


def printed_at(house: str) -> tuple[str, int]:
    """A house and the scale at which it is printed on A4."""
    longest = max(member.top[-1][0] - member.top[0][0] for member in layout_of(house).members)
    return house, next((scale for scale in (20, 25, 50) if longest / scale < 275), 100)


ALL = tuple(map(printed_at, LEVELS)) if by_size(False, True, True) else ()
HOUSES = by_size(MODELS, ALL, ALL)


@cache
def model_of(house: str, scale: int) -> CardModel:
    """A house's model, worked out once for all tests."""
    return CardModel(layout_of(house), scale)


@dataclass(frozen=True)
class Stood:
    """A piece where it stands: its card without tabs, and its line in plan."""

    piece: Piece
    card: BaseGeometry
    line: LineString

    def run(self, x: float, y: float) -> float:
        """How far along its bearings a place is, mm."""
        (ax, ay), (bx, by), span = self.piece.start, self.piece.finish, self.piece.span
        return ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / span

    def heights(self, run: float) -> list[tuple[float, float]]:
        """From where to where it has card at a run, mm up."""
        cut = self.card.intersection(LineString([(run, -1e5), (run, 1e5)]))
        return [(part.bounds[1], part.bounds[3]) for part in getattr(cut, "geoms", [cut]) if not part.is_empty]


def stood(model: CardModel) -> Iterator[Stood]:
    """Every truss and trimmer of a model where it stands."""
    for piece in model.pieces:
        if piece.tag in model.layout.by_tag or piece.tag.startswith("TR"):
            tabs = unary_union([Polygon(tab.outline) for tab in piece.tabs])
            card = Polygon(piece.outline).difference(tabs.buffer(0.01))
            (ax, ay), (bx, by), span = piece.start, piece.finish, piece.span
            ends = [(ax + (bx - ax) * r / span, ay + (by - ay) * r / span) for r in (card.bounds[0], card.bounds[2])]
            yield Stood(piece, card, LineString(ends))


def card(piece: Piece, run: float, low: float = -1e5, top: float = 1e5) -> tuple[float, float]:
    """From where to where a piece has card at a run, mm up."""
    found = Polygon(piece.outline).intersection(LineString([(run, low), (run, top)]))
    return found.bounds[1], found.bounds[3]


@pytest.mark.parametrize(("house", "scale"), HOUSES)
def test_a_piece_is_one_whole_outline_that_nothing_drops_off(house: str, scale: int) -> None:
    """Taken in by half the least width all round, a piece is still one: tails and what stands over slots are held."""
    model = model_of(house, scale)
    layout = model.layout
    trimmers = [trimmer_tag(part) for part in layout.parts if part.part == "trimmer"]
    trusses = [member.tag for member in layout.members]
    assert [piece.tag for piece in model.pieces][: len(trusses) + len(trimmers)] == [*trusses, *trimmers]
    for piece in model.pieces:
        outline = Polygon(piece.outline)
        assert outline.is_valid, piece.tag
        assert outline.buffer(-LEAST_WIDE / 2 * scale * 0.99).geom_type == "Polygon", piece.tag
        for timber in piece.timbers:
            assert outline.buffer(1).covers(Polygon(timber)), piece.tag
    for member in layout.members:
        leaf = model.leaves[member.tag]
        x0, _z0, x1, _z1 = Polygon(leaf.silhouette()).bounds
        if member.kind != "saddle" and not leaf.shortened:
            assert x0 == pytest.approx(member.top[0][0], abs=scale), "the tail is on the piece"
            assert x1 == pytest.approx(member.top[-1][0], abs=scale), "the tail or extension is on the piece"


@pytest.mark.parametrize(("house", "scale"), HOUSES)
def test_feet_meet_their_marks_on_the_board(house: str, scale: int) -> None:
    """A foot, folded to its side where the layout has the truss, covers its mark; marks lie within the walls, apart."""
    model = model_of(house, scale)
    groups = {group.layer: group.items for group in base_picture(model).layers}
    marks: dict[str, list[Polygon]] = {}
    for mark, name in zip(groups["feet"], groups["tags"], strict=False):
        marks.setdefault(name.text, []).append(Polygon(mark.points))
    walls = Polygon(model.layout.house.plan.outline).buffer(NEAR * scale)
    for piece in model.pieces:
        member = model.layout.by_tag.get(piece.tag)
        if member is None:
            continue
        feet = [tab for tab in piece.tabs if tab.foot]
        assert len(feet) == sum(end.on_plate for end in member.ends) == len(marks.get(piece.tag, []))
        (x, y), (dx, dy) = piece.start, member.direction
        aside = abs((x - member.start[0]) * dy - (y - member.start[1]) * dx)
        assert aside <= 2 * CARD * scale + 1, "where the layout has it, or a little beside a hip"
        for tab, mark in zip(feet, marks.get(piece.tag, []), strict=True):
            way = 1 if tab.side == "left" else -1
            out = [(run, (tab.fold[0][1] - z) * way) for run, z in tab.outline]
            folded = Polygon([(x + dx * run - dy * o, y + dy * run + dx * o) for run, o in out])
            assert folded.symmetric_difference(mark).area <= 1
            assert walls.covers(mark), (piece.tag, "on the board")
            on_piece = Polygon(piece.outline).intersection(Polygon(tab.outline)).area
            assert on_piece == pytest.approx(Polygon(tab.outline).area), "nothing of a foot is cut off"
    every = [(tag, mark) for tag, found in marks.items() for mark in found]
    for (one, a), (other, b) in combinations(every, 2):
        assert a.intersection(b).area <= (NEAR * scale) ** 2, (one, other)


@pytest.mark.parametrize(("house", "scale"), HOUSES)
def test_what_hangs_below_the_feet_hangs_over_the_edge_of_a_board_raised_enough(house: str, scale: int) -> None:
    model = model_of(house, scale)
    outline = Polygon(model.layout.house.plan.outline).buffer(-NEAR * scale)
    board = -model.below_plate * scale
    for each in stood(model):
        if each.piece.tag not in model.layout.by_tag or model.layout.by_tag[each.piece.tag].kind == "saddle":
            continue
        low = each.card.intersection(box(-1e5, -1e5, 1e5, board - 1))
        assert low.is_empty or low.bounds[1] >= board - model.raised * scale, each.piece.tag
        for part in () if low.is_empty else getattr(low, "geoms", [low]):
            runs = [part.bounds[0], (part.bounds[0] + part.bounds[2]) / 2, part.bounds[2]]
            places = [each.line.interpolate(run - each.card.bounds[0]) for run in runs]
            assert not any(outline.contains(place) for place in places), (each.piece.tag, "over the board")
    said = " ".join(instructions(model))
    assert (f"{model.raised} mm high" in said) == bool(model.raised)


@pytest.mark.parametrize(("house", "scale"), HOUSES)
def test_wherever_two_pieces_cross_one_has_card_from_where_the_other_ends(house: str, scale: int) -> None:
    """Of any two pieces whose lines cross in plan, none stands in the other; half-lapped ones meet without a gap."""
    model = model_of(house, scale)
    known = {frozenset((crossing.over, crossing.under)) for crossing in model.layout.crossings}
    order = piece_order(model)
    for one, other in combinations(stood(model), 2):
        at = one.line.intersection(other.line)
        if at.is_empty:
            continue
        pair = (one.piece.tag, other.piece.tag)
        if at.geom_type != "Point":
            x0, x1 = sorted(one.run(*place) for place in at.coords)
            assert not _in_one_plane(one, other, x0, x1, scale), pair
            continue
        run, beneath = one.run(at.x, at.y), other.run(at.x, at.y)
        spans = [(a, b) for a in one.heights(run) for b in other.heights(beneath)]
        assert all(min(a[1], b[1]) - max(a[0], b[0]) <= NEAR * scale for a, b in spans), pair
        slots = [(p, q, slot) for p, q in ((one, other), (other, one)) for slot in p.piece.slots
                 if slot.other == q.piece.tag]  # fmt: skip
        ends = [slot.end for _p, _q, slot in slots]
        if frozenset(pair) in known and not any(_at_its_tip(p, r, scale) for p, r in ((one, run), (other, beneath))):
            assert len(slots) == 2, (pair, "an extension or a saddle that crosses is slotted")
        assert len(slots) in (0, 2) and max(ends, default=0) - min(ends, default=0) <= NEAR * scale, pair
        for p, q, slot in slots:
            assert slot.run == pytest.approx(run if p is one else beneath, abs=NEAR * scale), pair
            assert slot.wide >= 0.5 * scale, "the card goes in"
            opens_below = slot.mouth < slot.end
            low, top = sorted((slot.mouth, slot.end))
            gap = box(slot.run - slot.wide / 2 + 0.5, low + 1, slot.run + slot.wide / 2 - 0.5, top - 1)
            assert p.card.intersection(gap).area < 1, "the slot is open"
            if opens_below:
                assert order.index(p.piece.tag) > order.index(q.piece.tag), (pair, "what goes over comes after")


def _at_its_tip(each: Stood, run: float, scale: int) -> bool:
    return not each.card.bounds[0] + 1.1 * scale < run < each.card.bounds[2] - 1.1 * scale


def _in_one_plane(one: Stood, other: Stood, first: float, last: float, scale: int) -> bool:
    """Whether two pieces in one line share card between two runs of the first."""
    for i in range(1, 8):
        run = first + (last - first) * i / 8
        place = one.line.interpolate(run - one.card.bounds[0])
        mine, its = one.heights(run), other.heights(other.run(place.x, place.y))
        if any(min(a[1], b[1]) - max(a[0], b[0]) > NEAR * scale for a in mine for b in its):
            return True
    return False


def test_an_extension_passes_its_own_girder_in_a_pair_of_slots() -> None:
    """A hip's and a jack's extension run on over the truncated girder that they hang on."""
    model = model_of("egret", 50)
    made = {piece.tag: piece for piece in model.pieces}
    passing = {"H1", "H2", "J2", "J3", "J4"}
    assert {slot.other for slot in made["TG1"].slots} == passing
    assert all(any(slot.other == "TG1" for slot in made[tag].slots) for tag in passing)


def test_a_hip_and_a_jack_at_one_place_have_room_and_fold_apart() -> None:
    model = model_of("egret", 50)
    hung = {tag: next(tab for tab in model.tabs[tag] if not tab.foot) for tag in ("H1", "J1", "H2", "J5")}
    jack = model.leaves["J1"]
    assert math.dist(jack.place(jack.member.span), model.leaves["H1"].member.finish) >= 2 * CARD * 50
    # Along +x into the girder: the right is towards the corner for what is at the low side, away from it at the high.
    assert [hung[tag].side for tag in ("H1", "J1", "H2", "J5")] == ["right", "left", "left", "right"]


@pytest.mark.parametrize("house", ["egret", "curlew"])
def test_a_beam_and_its_posts_are_pieces_at_their_heights(house: str) -> None:
    model = model_of(house, 50)
    made = [piece for piece in model.pieces if piece.tag not in model.layout.by_tag]
    beams = [piece for piece in made if piece.tag.startswith("B")]
    assert sum(piece.span for piece in beams) == sum(b.high - b.low for b in model.layout.house.plan.beams)
    assert all(piece.low == -DEEP for piece in beams)
    posts = [piece for piece in made if piece.tag.startswith("P")]
    assert {piece.start for piece in posts} == {post.at for post in free_posts(model.layout)}
    assert all(piece.box[3] == pytest.approx(WALLS_HIGH, abs=50) for piece in posts)
    assert f"{model.raised} mm" in " ".join(instructions(model)) and model.raised == WALLS_HIGH / 50
    layers = {group.layer for group in base_picture(model).layers}
    assert {"beams", "posts"} <= layers


@pytest.mark.parametrize(("house", "scale"), HOUSES)
def test_each_piece_has_its_number_and_tag_on_its_card(house: str, scale: int) -> None:
    model = model_of(house, scale)
    for number, tag in enumerate(piece_order(model), 1):
        piece = next(piece for piece in model.pieces if piece.tag == tag)
        texts = [item for item in piece_items(piece, number, scale, EM) if isinstance(item, Text)]
        assert {tag, str(number)} <= {text.text for text in texts} <= {tag, str(number), *map(on_card, piece.hung)}
        for text in texts:
            letters = box(*text_box(text, LEAST_PX / (EM * scale)))
            assert Polygon(piece.outline).buffer(NEAR * scale).covers(letters), (tag, text.text)
        boxes = [text_box(text, LEAST_PX / (EM * scale)) for text in texts]
        assert not [pair for pair in combinations(boxes, 2) if meet(*pair)], tag


def on_card(mark: Hung) -> str:
    """What is written where a tab is glued: in brackets, if on the back."""
    return f"({mark.tag})" if mark.back else mark.tag


def test_every_truss_is_named_on_the_board_and_every_tab_has_its_mark_on_its_carrier() -> None:
    model = model_of("wren", 50)
    assert set(model.layout.by_tag) <= {item.text for item in base_picture(model).items() if isinstance(item, Text)}
    pieces = {piece.tag: piece for piece in model.pieces}
    for tag, tabs in model.tabs.items():
        for tab in tabs:
            if not tab.foot:
                carrier = pieces[model.layout.by_tag[tag].ends[tab.end - 1].bears_on]
                mark = next(mark for mark in carrier.hung if mark.tag == tag)
                texts = [item.text for item in piece_items(carrier, 1, 50, EM) if isinstance(item, Text)]
                assert on_card(mark) in texts, f"{tag} on {carrier.tag}"
    # J4 hangs in the middle of TG1, which runs from wall A: on the side of wall F, to the left of that way.
    assert ("J4", 3600.0, True) in [(mark.tag, round(mark.run), mark.back) for mark in pieces["TG1"].hung]


@pytest.mark.parametrize(("house", "scale"), TRIMMED)
def test_a_trimmer_meets_both_its_trusses_and_the_saddle_that_stands_on_it(house: str, scale: int) -> None:
    """It lies a card's thickness beside its saddle: its slot meets one truss's, its tab the other's face."""
    model = model_of(house, scale)
    layout, made = model.layout, {piece.tag: piece for piece in model.pieces}
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


@pytest.mark.parametrize(("house", "paper", "scale"), [("thornbill", "A4", 20), ("wren", "A4", 50), ("wren", "A3", 25)])
def test_the_scale_is_the_largest_at_which_the_longest_truss_fits(house: str, paper: str, scale: int) -> None:
    assert best_scale(layout_of(house), paper) == scale


def test_packed_pieces_lie_on_the_page_and_apart() -> None:
    made = model_of("wren", 50).pieces
    pages = packed(made, 50, "A4")
    assert sorted(put.piece.tag for page in pages for put in page) == sorted(p.tag for p in made)
    for page in pages:
        boxes = [box(p.x, p.y, p.x + size(p.piece, 50)[0], p.y + size(p.piece, 50)[1]) for p in page]
        whole = box(0, 0, *room("A4"))
        assert all(whole.covers(each) for each in boxes)
        for i, one in enumerate(boxes):
            assert all(one.distance(other) >= APART - 0.11 for other in boxes[:i])


@pytest.mark.parametrize(("house", "scale"), HOUSES)
def test_the_order_has_each_piece_once_and_is_one_of_the_trainers(house: str, scale: int) -> None:
    model = model_of(house, scale)
    order = building_order(model)
    assert sorted(order) == sorted(model.layout.by_tag)
    assert sorted(piece_order(model)) == sorted(piece.tag for piece in model.pieces)
    place = {tag: number for number, tag in enumerate(order)}
    for tag, later in _after(order_of(model.layout, frozenset(STAGES))).items():
        assert all(place[tag] < place[then] for then in later), tag
    pieces_of_all = piece_order(model)
    for part in model.layout.parts:
        if part.part == "trimmer":
            assert pieces_of_all.index(trimmer_tag(part)) < pieces_of_all.index(part.on)


def _after(order: Order) -> dict[str, set[str]]:
    """For each truss, all that the trainer's order has stood after it, through whatever steps lie between."""
    found: dict[Step, set[str]] = {}

    def after(step: Step) -> set[str]:
        stack = [step]
        while stack:
            top = stack[-1]
            waiting = [edge.then for edge in order.out_of[top] if edge.then not in found]
            if top in found or not waiting:
                stack.pop()
                if top not in found:
                    found[top] = {edge.then.tag for edge in order.out_of[top] if edge.then.verb == "stand"}.union(
                        *(found[edge.then] for edge in order.out_of[top])
                    )
            else:
                stack += waiting
        return found[step]

    return {step.tag: after(step) for step in order.steps if step.verb == "stand"}


def test_a_small_house_goes_up_in_a_walk_along_its_row() -> None:
    """The two outermost, for the string, then the ones between from end to end, then the gables."""
    order = building_order(model_of("pardalote", 25))
    assert order == ["ST1", "ST7", "ST2", "ST3", "ST4", "ST5", "ST6", "GT1", "GT2"]


@pytest.mark.parametrize("count", [7, 29, 63, 259])
def test_the_caution_stands_under_the_whole_building_order(count: int) -> None:
    """It once ran through the order of a house whose last column was short."""
    page = Page("", *type_files())
    page.add_page()
    page.set_y(150)
    in_order(page, [f"{number}  ST{number}" for number in range(1, count + 1)])
    page.say("CAUTION")
    found = list(extract_pages(io.BytesIO(page.output())))
    chars = [each for each in leaves(found[-1]) if isinstance(each, LTChar)]
    under = min(c.y0 for c in chars if c.get_text() == "S")
    assert all(c.y1 <= under for c in chars if c.get_text() == "C")
    words = "".join(c.get_text() for each in found for c in leaves(each) if isinstance(c, LTChar))
    assert all(f"ST{number}" in words for number in range(1, count + 1))


@pytest.mark.parametrize(("tails", "raised"), [(False, False), (True, True), (True, False)])
def test_the_picture_of_how_a_piece_is_made_has_tails_and_blocks_only_where_the_model_has(
    tails: bool, raised: bool
) -> None:
    filled = [item for item in how_picture(tails, raised) if isinstance(item, Filled)]
    assert sum(item.fill == "faint" for item in filled) == 2 * raised, "blocks"
    xs = [x for x, _y in filled[-1].points]
    assert max(xs) - min(xs) == (52 if tails else 40)


def test_all_that_is_cut_lies_within_the_margins(tmp_path) -> None:
    file = tmp_path / "model.pdf"
    result = CliRunner().invoke(app, ["cutout", "pardalote", "-o", str(file)])
    assert result.exit_code == 0, result.output
    of_pieces = [page for page in extract_pages(file) if any("Cut round full" in each.get_text() for each in page
                                                             if isinstance(each, LTTextContainer))]  # fmt: skip
    assert of_pieces
    for page in of_pieces:
        margin = (BORDER - NEAR) * POINTS
        inside = box(margin, margin, page.width - margin, page.height - margin)
        for each in leaves(page):
            if isinstance(each, LTCurve | LTLine):
                assert inside.covers(box(each.x0, each.y0, each.x1, each.y1))


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
