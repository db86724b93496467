"""A card model of a house: the plate plan to glue on a board, every truss to cut out, and the order to build it in."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import rpack

from trainer.layout import Layout, lay_out
from trainer.level import Level
from trainer.order import order_of
from trainer.picture import Group, Item, Line, Palette, Picture, Polygon, Text, View
from trainer.picture.cutout import STRIP, TRIMMER, Piece, below, pieces, stations, trimmer_tag
from trainer.picture.higher_walls import ledgers
from trainer.picture.house import plates, roof_lines
from trainer.picture.legend import BEAM, Key, line
from trainer.picture.lettering import text_width
from trainer.picture.model import MEDIUM, THIN
from trainer.picture.verandah import verandah
from trainer.plan import Point
from trainer.rehearse.sequence import right_sequence
from trainer.report.drawing_page import BORDER, PAPERS, PEN, Drawing, Titled, draw_sheets
from trainer.report.pdf_page import BODY, SMALL, TITLE, Page
from trainer.report.pdf_picture import FAMILY, LEAST_POINTS, POINTS, PX, draw
from trainer.report.schedule import in_runs
from trainer.terms import STAGES
from trainer.words import CAUTION, INVENTED, _, ngettext

SCALES = (20, 25, 50, 100)
"""Scales that a model is made at by itself, the largest first."""
APART = 3.0
"""Between pieces, mm of paper."""
STEP = 0.1
"""What the library packs in whole numbers of, mm."""
RULER = 100
"""Length of the line by which the printing is checked, mm."""
HEAD = 10.0
"""Room for the heading of a page of pieces, mm."""
ORDER_COLUMNS = 9
"""Of the building order on its page."""
FOLD_DASH = (5.0, 4.0)


ON_TRIMMERS = _(
    "TR is a trimmer, on which the end of a saddle stands. Its slot goes over the outer truss, its tab on the face of "
    "the inner one. Glue the saddle's end flat against its side."
)
HUNG = _("A tab at a hung end is glued to the face of the truss that carries it.")
SLOTTED = _("Slots go half into each other: what passes over has its slot below, what it crosses has its slot on top.")
PLIED = _("A girder of several plies is one piece of card: its plies are drawn on the plan.")
HANGING = _(
    "Tails hang down past the plates. So cut the board along the outside of the plates, and raise it on blocks more "
    "than {mm} mm high."
)


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
    """Return the largest of the usual scales at which every truss fits the paper; the smallest where none does."""
    return next((scale for scale in SCALES if not _too_large(pieces(layout, scale), scale, paper)), SCALES[-1])


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


def building_order(layout: Layout) -> list[str]:
    """Return the tags in a right order of standing, the same as the trainer's own: carriers before what they carry."""
    steps = right_sequence(layout, order_of(layout, frozenset(STAGES)), 0)
    return [step.tag for step in steps if step.verb == "stand"]


def piece_order(layout: Layout) -> list[str]:
    """Return the same with each trimmer before the saddle whose end stands on it."""
    under: dict[str, list[str]] = {}
    for part in layout.parts:
        if part.part == "trimmer":
            under.setdefault(part.on, []).append(trimmer_tag(part))
    return [piece for tag in building_order(layout) for piece in (*under.get(tag, ()), tag)]


def cutout_pdf(
    level: Level, scale: int | None, paper: str, palette: Palette, regular: Path, semibold: Path
) -> tuple[bytes, int]:
    """Return the model of a house as a PDF, and its scale: the one asked for, or the largest that fits the paper.

    :raises LayoutRefused: where the house can't be laid out.
    :raises NoRoomError: where a truss has no room on the paper at the scale asked for.
    """
    layout = lay_out(level.house())
    at = scale or best_scale(layout, paper)
    made = {piece.tag: piece for piece in pieces(layout, at)}
    if large := _too_large(list(made.values()), at, paper):
        text = _("{tags}: no room on {paper} at 1:{scale}; take larger paper, or {best} for --scale.")
        tags = in_runs([piece.tag for piece in large])
        raise NoRoomError(text.format(tags=tags, paper=paper, scale=at, best=best_scale(layout, paper)))
    order = piece_order(layout)
    title = _("{house}: card model, 1:{scale}").format(house=level.id.capitalize(), scale=at)
    page = Page(title, regular, semibold)
    _first_page(page, level, layout, made.values(), order, at)
    base = Drawing(
        _("Plate plan of the card model"),
        lambda _size: base_picture(layout, at), _base_legend(layout), layout.house.plan.outline,
        notes=_("Glue the plan on a board. Glue the foot of each truss on its mark. "
                "Of two sheets, cut one at the long dashes and lay it on the other."),
    )  # fmt: skip
    draw_sheets(page, base, paper, Titled(title, level.id, ""), palette, at)
    numbers = {tag: number for number, tag in enumerate(order, 1)}
    for puts in packed([made[tag] for tag in order], at, paper):
        _pieces_page(page, puts, numbers, at, paper, palette)
    return bytes(page.output()), at


def _first_page(
    page: Page, level: Level, layout: Layout, made: Collection[Piece], order: Sequence[str], scale: int
) -> None:
    page.add_page()
    page.say(_("{house}: a card model at 1:{scale}").format(house=level.id.capitalize(), scale=scale), TITLE, bold=True)
    page.say(INVENTED, SMALL, bold=True)
    page.ln(2)
    page.say(_("Check the printer first. This line is {mm} mm long:").format(mm=RULER))
    _ruler(page)
    page.say(_("If it is not, print again at 100 %, without fitting to the page."))
    page.head(_("What you need"))
    n = len(layout.members)
    card = ngettext(
        "{n} truss on card of about half a millimetre, a board for the plan, glue, a sharp knife and a steel ruler. "
        "Cut away from your fingers.",
        "{n} trusses on card of about half a millimetre, a board for the plan, glue, a sharp knife and a steel ruler. "
        "Cut away from your fingers.",
        n,
    )
    page.say(card.format(n=n))
    n_pieces = len(order)
    lines = (
        _("Cut along the full lines. Fold along the dashed lines."),
        _("Feet fold out to the left, seen from the truss's first end, and are glued on their marks on the plan."),
        *([HUNG] if any(layout.carries.values()) or layout.ledgers else ()),
        *([SLOTTED] if any(piece.slots for piece in made) else ()),
        *([PLIED] if any(member.plies > 1 for member in layout.members) else ()),
        _("Each piece says what it is and when it is put up: {tag} · {n} is piece {n}.").format(
            tag=order[-1], n=n_pieces
        ),
        *([HANGING.format(mm=math.ceil(below(layout, scale)))] if below(layout, scale) else ()),
        *([ON_TRIMMERS] if any(tag.startswith(TRIMMER) for tag in order) else ()),
    )
    page.listed(_("How to build it"), lines)
    page.head(_("Building order"))
    page.say(_("One right order of many. A truss that carries stands before what it carries."), SMALL)
    page.ln(1)
    page.set_font(FAMILY, "", SMALL)
    with page.text_columns(ncols=ORDER_COLUMNS, gutter=4, line_height=1.2, balance=True) as columns:
        columns.write("\n".join(f"{number}  {tag}" for number, tag in enumerate(order, 1)))
    page.ln(3)
    page.say(CAUTION, SMALL)


def _ruler(page: Page) -> None:
    left, y = page.l_margin, page.get_y() + 5
    page.set_line_width(MEDIUM * PEN)
    page.line(left, y, left + RULER, y)
    for mm in range(0, RULER + 1, 10):
        page.line(left + mm, y - (3 if mm % 50 == 0 else 1.8), left + mm, y)
    page.set_y(y + 2)


def base_picture(layout: Layout, scale: int) -> Picture:
    """Return the plate plan of a model: plates, roof lines, and where each foot is glued, with its tag."""
    height = LEAST_POINTS / POINTS * scale
    marks: list[Item] = []
    labels: list[Item] = []
    for member in layout.members:
        for corners in stations(layout, member, scale):
            marks.append(Polygon(corners, "paper", "timber_edge", THIN))
            (ax, ay), (cx, cy) = corners[0], corners[2]
            labels.append(Text(((ax + cx) / 2, (ay + cy) / 2), member.tag, "ink", height))
    lines: list[Item] = [Line((member.start, member.finish), "faint", THIN) for member in layout.members]
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


def _base_legend(layout: Layout) -> tuple[Key, ...]:
    beam = (BEAM,) if layout.house.plan.beams else ()
    return ((_("middle of a truss"), line("faint", (), THIN)), (_("foot to glue on"), _foot_sample), *beam)


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
    page.cell(0, 6, _("{trusses}, 1:{scale} on {paper}. Cut full lines, fold dashed ones.").format(
        trusses=in_runs([put.piece.tag for put in puts]), scale=scale, paper=paper))  # fmt: skip
    for put in puts:
        x0, y0, _x1, _y1 = put.piece.box
        # The room's lower left corner is the paper's, a border in.
        view = View(1 / scale, x0 - (put.x + BORDER) * scale, y0 + (tall - BORDER - put.y) * scale)
        draw(page, piece_items(put.piece, numbers[put.piece.tag], scale), palette, view, (0.0, 0.0), PEN)


def piece_items(piece: Piece, number: int, scale: int) -> Iterator[Item]:
    """Yield a piece as it is printed: its timbers, folds, outline, tag and place in the building order."""
    for timber in piece.timbers:
        yield Polygon(timber, "plate", "faint", THIN)
    for tab in piece.tabs:
        yield Polygon(tab.outline, "paper", "ink", THIN)
        yield Line(tab.fold, "ink", THIN, "px", FOLD_DASH)
    yield Polygon(piece.outline, None, "ink", MEDIUM)
    height = LEAST_POINTS / POINTS * scale
    text = f"{piece.tag} · {number}" if piece.span > text_width(f"{piece.tag} · 99", height) * 1.8 else piece.tag
    yield Text(piece.label, text, "ink", LEAST_POINTS / POINTS / PX, "px", ground="paper")
