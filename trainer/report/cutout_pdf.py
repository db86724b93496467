"""A card model of a house: the plate plan to glue on a board, every truss to cut out, and the order to build it in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import rpack

from trainer.layout import Layout, lay_out
from trainer.level import Level
from trainer.picture import Group, Item, Line, Palette, Picture, Polygon, Text, View
from trainer.picture.card import STRIP, Leaf, Piece
from trainer.picture.card_printed import piece_items
from trainer.picture.card_verandah import POST, posts_of
from trainer.picture.cutout import CardModel
from trainer.picture.higher_walls import ledgers
from trainer.picture.house import plates, roof_lines
from trainer.picture.legend import BEAM, Key, line
from trainer.picture.lettering import meet, text_box
from trainer.picture.model import THIN, Box
from trainer.picture.verandah import verandah
from trainer.plan import Point
from trainer.report.cutout_words import board_words, first_page, piece_order
from trainer.report.drawing_page import BORDER, PAPERS, PEN, Drawing, Titled, draw_sheets, fitted
from trainer.report.pdf_page import BODY, Page
from trainer.report.pdf_picture import LEAST_POINTS, POINTS, draw
from trainer.report.schedule import in_runs
from trainer.words import _, ngettext

SCALES = (20, 25, 50, 100)
"""Scales that a model is made at by itself, the largest first."""
APART = 3.0
"""Between pieces, mm of paper."""
STEP = 0.1
"""What the library packs in whole numbers of, mm."""
HEAD = 10.0
"""Room for the heading of a page of pieces, mm."""
BESIDE_POST = 4.0
"""How far out from a post its name stands on the plan, mm of paper."""


class NoRoomError(ValueError):
    """Raised where a truss has no room on the paper at the scale asked for; its text says what to do."""


@dataclass(frozen=True, slots=True)
class Put:
    """A piece on a page: its lower left corner, mm of paper from the lower left of the room for pieces."""

    piece: Piece
    x: float
    y: float


def room(paper: str) -> tuple[float, float]:
    """Return width and height of the room for pieces on a page that lies on its side, mm."""
    tall, wide = PAPERS[paper]
    return wide - 2 * BORDER, tall - 2 * BORDER - HEAD


def size(piece: Piece, scale: int) -> tuple[float, float]:
    """Return width and height of a piece on paper, mm."""
    x0, y0, x1, y1 = piece.box
    return (x1 - x0) / scale, (y1 - y0) / scale


def best_scale(layout: Layout, paper: str) -> int:
    """Return the largest of the usual scales at which every piece fits the paper; the smallest where none does."""
    wide, _tall = room(paper)
    longest = max(member.top[-1][0] - member.top[0][0] for member in layout.members)
    likely = (scale for scale in SCALES if longest <= (wide - APART) * scale)
    return next((s for s in likely if not _too_large(CardModel(layout, s).pieces, s, paper)), SCALES[-1])


def _too_large(made: Sequence[Piece], scale: int, paper: str) -> list[Piece]:
    wide, tall = room(paper)
    return [piece for piece in made if size(piece, scale)[0] > wide - APART or size(piece, scale)[1] > tall - APART]


def packed(made: Sequence[Piece], scale: int, paper: str) -> list[list[Put]]:
    """Return pieces on pages, in the order given, as many on each as the library finds room for."""
    wide, tall = (round(side / STEP) for side in room(paper))
    pages: list[list[Put]] = []
    waiting = list(made)
    while waiting:
        count, found = 1, _places(waiting[:1], scale, wide, tall)
        if found is None:
            raise NoRoomError(waiting[0].tag)
        while count < len(waiting) and (more := _places(waiting[: count + 1], scale, wide, tall)) is not None:
            count, found = count + 1, more
        pages.append([Put(p, x * STEP, y * STEP) for p, (x, y) in zip(waiting, found, strict=False)])
        waiting = waiting[count:]
    return pages


def _places(made: Sequence[Piece], scale: int, wide: int, tall: int) -> list[tuple[int, int]] | None:
    """Return a lower left corner for each piece on one page, in steps; None where they have no room together."""
    sizes = [tuple(round((side + APART) / STEP) for side in size(piece, scale)) for piece in made]
    if sum(a * b for a, b in sizes) > wide * tall:
        return None
    try:
        return [(int(x), int(y)) for x, y in rpack.pack(sizes, max_width=wide, max_height=tall)]
    except rpack.PackingImpossibleError:
        return None


def cutout_pdf(
    level: Level, scale: int | None, paper: str, palette: Palette, regular: Path, semibold: Path
) -> tuple[bytes, int]:
    """Return the model of a house as a PDF, and its scale: the one asked for, or the largest that fits the paper.

    :raises LayoutRefused: where the house can't be laid out.
    :raises NoRoomError: where a truss has no room on the paper at the scale asked for.
    """
    layout = lay_out(level.house())
    model = CardModel(layout, scale or best_scale(layout, paper))
    at, made = model.scale, {piece.tag: piece for piece in model.pieces}
    if large := _too_large(model.pieces, at, paper):
        text = _("{tags}: no room on {paper} at 1:{scale}; take larger paper, or {best} for --scale.")
        tags = in_runs([piece.tag for piece in large])
        raise NoRoomError(text.format(tags=tags, paper=paper, scale=at, best=best_scale(layout, paper)))
    order = piece_order(model)
    title = _("{house}: card model, 1:{scale}").format(house=level.id.capitalize(), scale=at)
    page = Page(title, regular, semibold)
    first_page(page, level, model, order, palette)
    notes = (*board_words(model), _("Of two sheets, cut one at the long dashes and lay it on the other."))
    base = Drawing(
        _("Plate plan of the card model"),
        lambda _size: base_picture(model), _base_legend(layout), layout.house.plan.outline,
        notes=" ".join(notes),
    )  # fmt: skip
    if len(fitted(base, paper, (at,)).windows) == 1:
        base = replace(base, notes=" ".join(notes[:-1]))
    draw_sheets(page, base, paper, Titled(title, level.id, ""), palette, at)
    numbers = {tag: number for number, tag in enumerate(order, 1)}
    for puts in packed([made[tag] for tag in order], at, paper):
        _pieces_page(page, puts, numbers, at, paper, palette)
    return bytes(page.output()), at


def base_picture(model: CardModel) -> Picture:
    """Return the plate plan of a model: plates, beams, posts, roof lines, and the mark of each foot with its tag."""
    layout, scale = model.layout, model.scale
    height = LEAST_POINTS / POINTS * scale
    marks: list[Item] = []
    labels: list[Item] = []
    for member in layout.members:
        for corners in model.marks(member.tag):
            marks.append(Polygon(corners, "paper", "timber_edge", THIN))
            xs, ys = zip(*corners, strict=True)
            labels.append(Text((sum(xs) / 4, sum(ys) / 4), member.tag, "ink", height))
    taken = [_round(mark.points) for mark in marks if isinstance(mark, Polygon)]
    for leaf in model.leaves.values():
        if not any(tab.foot for tab in model.tabs[leaf.tag]):
            labels.append(_on_line(leaf, height, taken))
    for number, post in enumerate(posts_of(layout), 1):
        wall = layout.house.plan.by_name[post.wall].inward
        out = -BESIDE_POST * scale
        at = (post.at[0] + wall[0] * out, post.at[1] + wall[1] * out)
        labels.append(Text(at, f"{POST}{number}", "ink", height, ground="paper"))
    lines: list[Item] = [
        Line((leaf.place(0.0), leaf.place(leaf.member.span)), "faint", THIN) for leaf in model.leaves.values()
    ]
    x0, y0, x1, y1 = layout.house.plan.bounds
    edge = STRIP * scale
    return Picture(
        (x0 - edge, y0 - edge, x1 + edge, y1 + edge),
        (
            plates(layout.house.plan, ledgers(layout)),
            *verandah(layout),
            roof_lines(layout.roof),
            Group("trusses", tuple(lines)),
            Group("feet", tuple(marks)),
            Group("tags", tuple(labels)),
        ),
    )


def _on_line(leaf: Leaf, height: float, taken: list[Box]) -> Text:
    """Return the tag of a truss without feet, on its line where nothing else is written."""
    spots = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
    texts = [Text(leaf.place(leaf.member.span * spot), leaf.tag, "ink", height, ground="paper") for spot in spots]
    text = next((text for text in texts if not any(meet(text_box(text, pad=0.2), box) for box in taken)), texts[0])
    taken.append(text_box(text, pad=0.2))
    return text


def _round(points: Sequence[Point]) -> Box:
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _base_legend(layout: Layout) -> tuple[Key, ...]:
    keys: list[Key] = [(_("middle of a truss"), line("faint", (), THIN)), (_("foot to glue on"), _foot_sample)]
    if layout.house.plan.beams:
        keys.append(BEAM)
    return tuple(keys)


def _foot_sample(at: Point, long: float) -> list[Item]:
    x, y = at
    return [Polygon(((x, y - 1), (x + long, y - 1), (x + long, y + 1), (x, y + 1)), "paper", "timber_edge", THIN)]


def _pieces_page(
    page: Page, puts: Sequence[Put], numbers: dict[str, int], scale: int, paper: str, palette: Palette
) -> None:
    tall, wide = PAPERS[paper]
    page.drawing_page((wide, tall))
    page.set_xy(BORDER, BORDER)
    page.set_font("type", "B", BODY)
    on_it = sorted(numbers[put.piece.tag] for put in puts)
    which = ngettext("Piece {first}", "Pieces {first} to {last}", len(on_it)).format(first=on_it[0], last=on_it[-1])
    text = _("{pieces}, 1:{scale} on {paper}. Cut round full lines. Dashes: fold back. Dash and dot: fold forward.")
    page.cell(0, 6, text.format(pieces=which, scale=scale, paper=paper))
    for put in puts:
        x0, y0, _x1, _y1 = put.piece.box
        # The room's lower left corner is the paper's, a border in.
        view = View(1 / scale, x0 - (put.x + BORDER) * scale, y0 + (tall - BORDER - put.y) * scale)
        items = piece_items(put.piece, numbers[put.piece.tag], scale, LEAST_POINTS / POINTS)
        draw(page, items, palette, view, (0.0, 0.0), PEN)
