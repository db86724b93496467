"""What is printed on the pieces of a card model, and the picture that shows how one is cut, folded and stood."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product

from shapely.geometry import LineString, box
from shapely.geometry import Polygon as Shape
from shapely.ops import unary_union
from shapely.prepared import prep

from trainer.picture.card import Piece, RunZ, Tab
from trainer.picture.lettering import CAP_HEIGHT, LEAST_PX, meet, text_box, text_width
from trainer.picture.model import MEDIUM, THIN, Item, Line, Polygon, Text
from trainer.plan import Point
from trainer.words import _

BACK, FORWARD = (5.0, 4.0), (10.0, 4.0, 1.5, 4.0)
"""Dashes of a fold away from you and of one towards you, the print before you."""
INSIDE = 0.35
"""What is kept free between lettering and the edge of the card, mm of paper."""
HUNG_HIGH, HUNG_ROWS, HUNG_PAD = 9.0, 4, 0.2
"""Of a mark for another's tab: its height, mm of paper; rows that its tag may stand in; what is free round it, ems."""
GAP = 0.5
"""Between the number and the tag of a piece, ems."""


def piece_items(piece: Piece, number: int, scale: int, em: float) -> Iterator[Item]:
    """Yield a piece as it is printed: timbers, folds, outline, tag and number; letters are ``em`` mm of paper high."""
    for timber in piece.timbers:
        yield Polygon(timber, "plate", "faint", THIN)
    for tab in piece.tabs:
        yield Polygon(tab.outline, "paper")
    yield Polygon(piece.outline, None, "ink", MEDIUM)
    for tab in piece.tabs:
        yield _fold(tab)
    lettering = list(_lettering(piece, number, scale, em))
    yield from _hung(piece, scale, em, lettering)
    yield from lettering


def _fold(tab: Tab) -> Line:
    return Line(tab.fold, "ink", THIN, "px", BACK if tab.side == "left" else FORWARD)


def _lettering(piece: Piece, number: int, scale: int, em: float) -> Iterator[Text]:
    """Yield a piece's number, white on black, and its tag beside or under it, where there is card for them."""
    size = em * scale
    folded = unary_union([Shape(tab.outline) for tab in piece.tabs if tab.end])
    card = Shape(piece.outline).difference(folded)
    tall = size * (CAP_HEIGHT + 0.3)
    named, counted = text_width(piece.tag, size), text_width(str(number), size)
    x0, z0, x1, z1 = card.bounds
    middle, foot = piece.span * (0.5 if all(tab.foot for tab in piece.tabs) else 0.6), piece.low + 0.75 * size
    runs = sorted((x0 + (x1 - x0) * i / 48 for i in range(1, 48)), key=lambda run: abs(run - middle))
    ups = sorted((z0 + (z1 - z0) * i / 24 for i in range(1, 24)), key=lambda z: (z < foot, abs(z - foot)))

    def spots(wide: float, inside: float) -> Iterator[RunZ]:
        free = prep(card.buffer(-inside * scale))
        for z, run in product((foot, *ups), runs):
            if free.contains(box(run - wide / 2, z - tall / 2, run + wide / 2, z + tall / 2)):
                yield run, z

    whole = counted + GAP * size + named
    if at := next(spots(whole, INSIDE), None):
        yield _number((at[0] - whole / 2 + counted / 2, at[1]), number)
        yield _tag((at[0] + whole / 2 - named / 2, at[1]), piece.tag)
        return
    for inside in (INSIDE, 0.0):
        aside, over = (counted + named) / 2 + inside * scale, tall + inside * scale
        numbers = list(spots(counted, inside))
        pairs = ((tag, on) for tag in spots(named, inside) for on in numbers
                 if abs(tag[0] - on[0]) >= aside or abs(tag[1] - on[1]) >= over)  # fmt: skip
        if pair := next(pairs, None):
            yield _tag(pair[0], piece.tag)
            yield _number(pair[1], number)
            return
    yield _tag((card.representative_point().x, card.representative_point().y), piece.tag)
    yield _number((card.centroid.x, card.centroid.y), number)


def _hung(piece: Piece, scale: int, em: float, written: Sequence[Text]) -> Iterator[Item]:
    """Yield a line at each place for another's tab, with its tag where that fits, in brackets for the back."""
    size = em * scale
    card = Shape(piece.outline).difference(unary_union([Shape(tab.outline) for tab in piece.tabs]))
    free = prep(card.buffer(-INSIDE * scale))
    px = LEAST_PX / size
    taken = [text_box(text, px, HUNG_PAD) for text in written]
    for mark in piece.hung:
        line = LineString(((mark.run, piece.low), (mark.run, piece.low + HUNG_HIGH * scale))).intersection(card)
        if line.is_empty:
            continue
        _x0, low, _x1, high = line.bounds
        yield Line(((mark.run, low), (mark.run, high)), "ink", THIN)
        words = f"({mark.tag})" if mark.back else mark.tag
        aside = text_width(words, size) / 2 + HUNG_PAD * size
        for up, way in product(range(HUNG_ROWS), (1, -1)):
            at = (mark.run + way * aside, piece.low + (0.75 + up * 1.1) * size)
            text = Text(at, words, "ink", LEAST_PX, "px", ground="paper")
            room = text_box(text, px, 0.05)
            if free.contains(box(*room)) and not any(meet(room, other) for other in taken):
                taken.append(text_box(text, px, HUNG_PAD))
                yield text
                break


def _number(at: RunZ, number: int) -> Text:
    return Text(at, str(number), "paper", LEAST_PX, "px", ground="ink")


def _tag(at: RunZ, tag: str) -> Text:
    return Text(at, tag, "ink", LEAST_PX, "px", ground="paper")


HOW_HIGH = 36.0
"""Height of the picture of how a piece is made, mm of paper."""
_TAILED: tuple[Point, ...] = (
    (0, 0), (0, 2.2), (-6, -1), (-6, 2), (20, 16), (46, 2), (46, -1), (40, 2.2), (40, 0),
)  # fmt: skip
_PLAIN: tuple[Point, ...] = ((0, 0), (0, 5.2), (20, 16), (40, 5.2), (40, 0))
"""The outline over its bottom edge, with tails and without."""
_WEBS: tuple[tuple[Point, Point], ...] = (
    ((3, 3), (37, 3)), ((20, 13), (20, 3)), ((20, 3), (10, 8.2)), ((20, 3), (30, 8.2)), ((0, 2.7), (20, 13.4)),
    ((20, 13.4), (40, 2.7)),
)  # fmt: skip
_FEET: tuple[tuple[Point, ...], ...] = (((0, 0), (1, -5), (6, -5), (7, 0)), ((33, 0), (34, -5), (39, -5), (40, 0)))


def how_picture(tails: bool, raised: bool) -> Iterator[Item]:
    """Yield three small pictures side by side, mm of paper: a piece cut, folded and stood on its mark.

    It has ``tails`` where the model's trusses have, and the board lies on blocks where that is ``raised``.
    """
    roof = _TAILED if tails else _PLAIN
    for left, words in (
        (0.0, _("1  Cut round the outside. Webs stay in.")),
        (60.0, _("2  Dashes fold back, dash and dot forward.")),
        (121.0, _("3  Glue each foot on its mark.")),
    ):
        yield Text((left, 2.0), words, "ink", LEAST_PX, "px", "start")
    yield from _cut(roof, (7.0, 14.0))
    yield from _folded((62.0, 10.0))
    yield from _stood(roof, raised, (124.0, 19.0))


def _at(points: tuple[Point, ...], by: Point) -> tuple[Point, ...]:
    return tuple((x + by[0], y + by[1]) for x, y in points)


def _cut(roof: tuple[Point, ...], by: Point) -> Iterator[Item]:
    for ends in _WEBS:
        yield Line(_at(ends, by), "faint", MEDIUM)
    for foot in _FEET:
        yield Line(_at(foot, by), "ink", MEDIUM)
        yield Line(_at((foot[0], foot[-1]), by), "ink", THIN, "px", BACK)
    yield Line(_at(roof, by), "ink", MEDIUM)
    yield Line(_at((_FEET[0][-1], _FEET[1][0]), by), "ink", MEDIUM)


def _folded(by: Point) -> Iterator[Item]:
    """Two ends of pieces: the tab of one folded back, of the other forward."""
    for x, lean, dash, word in ((0.0, 2.5, BACK, _("back")), (27.0, -2.5, FORWARD, _("forward"))):
        body = ((x, 2.0), (x + 16, 2.0), (x + 16, 14.0), (x, 14.0))
        tab = ((x + 16, 2.0), (x + 20, 3.0 + lean), (x + 20, 13.0 + lean), (x + 16, 14.0))
        yield Polygon(_at(body, by), "plate", "ink", MEDIUM)
        yield Polygon(_at(tab, by), "paper", "ink", MEDIUM)
        yield Line(_at(((x + 16, 2.0), (x + 16, 14.0)), by), "paper", MEDIUM)
        yield Line(_at(((x + 16, 2.0), (x + 16, 14.0)), by), "ink", MEDIUM, "px", dash)
        yield Text((by[0] + x + 8, by[1] + 8), word, "ink", LEAST_PX, "px", ground="plate")


def _stood(roof: tuple[Point, ...], raised: bool, by: Point) -> Iterator[Item]:
    """A piece on the board, its feet folded forward on their marks, tails over the edge; and free marks."""

    def on_board(x: float, y: float) -> Point:
        return by[0] + x + 0.8 * y, by[1] + y

    def foot(a: float, b: float, y: float) -> tuple[Point, ...]:
        return on_board(a, y), on_board(b, y), on_board(b - 1, y - 3), on_board(a + 1, y - 3)

    front, back = (on_board(0, -9), on_board(40, -9)), (on_board(40, 6), on_board(0, 6))
    under = tuple((x, y - 1.5) for x, y in (*front, back[0]))
    yield Polygon((under[0], under[1], front[1], front[0]), "paper", "ink", THIN)
    yield Polygon((under[1], under[2], back[0], front[1]), "paper", "ink", THIN)
    yield Polygon((*front, *back), "plate", "ink", THIN)
    for x in (front[0][0] + 2, front[1][0] - 8) if raised else ():
        y = front[0][1] - 1.5
        yield Polygon(((x, y), (x + 6, y), (x + 6, y - 3), (x, y - 3)), "faint", "ink", THIN)
    for a, b in ((0, 7), (33, 40)):
        yield Polygon(foot(a, b, -5), "paper", "timber_edge", THIN)
        yield Polygon(foot(a, b, 0), "paper", "ink", MEDIUM)
    yield Polygon(_at(roof, by), "paper", "ink", MEDIUM)
    for ends in _WEBS:
        yield Line(_at(ends, by), "faint", MEDIUM)
