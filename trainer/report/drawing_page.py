"""A drawing to scale on sheets: border, legend and title block; split, with a key plan, where it is too large."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from fpdf.enums import RenderStyle

from trainer.picture import Group, Item, Palette, Picture, Text, View
from trainer.picture.legend import Key
from trainer.picture.lettering import meet, text_box, text_width, wrapped
from trainer.picture.model import HEAVY, MEDIUM, THIN, Box
from trainer.picture.placing import place_texts
from trainer.picture.sheet import scale_bar
from trainer.plan import Point
from trainer.report.pdf_page import A4, BODY, SMALL, Page
from trainer.report.pdf_picture import FAMILY, LEAST_POINTS, POINTS, PX, draw, plain
from trainer.report.split import cells, name_place, neighbours, number_place, windows
from trainer.words import CAUTION, INVENTED, _

PAPERS = {"A3": (297.0, 420.0), "A4": A4}
"""Width and height of each paper upright, mm."""
PEN = 0.13 / THIN
"""What a px of stroke is on paper, mm: 0.13, 0.26 and 0.52, as 1 : 2 : 4."""
BORDER = 8.0
"""From the edge of the paper to the border, mm."""
BLOCK = 32.0
"""Height of the title block, mm."""
BAR = 75.0
"""The most that a scale bar takes, mm."""
ROW = 5.2
"""Height of a row of the legend, mm."""
SAMPLE = 9.0
"""Length of a sample in the legend, mm."""
LIST_ROW, LIST_POINTS = 4.6, 8.0
"""Height of a row beside a drawing, mm, and of its letters, points."""
SCALES = (20, 25, 50, 75, 100)
"""Scales of drawings, 1 to so many, the largest first; what does not fit at the last is split."""
TAG_POINTS = {20: 11.0, 25: 11.0, 50: 10.0, 75: 9.0, 100: LEAST_POINTS / 0.9}
"""Size of tags at each scale, points; measures are a tenth smaller."""
OVERLAP = 16.0
"""How far sheets of one drawing overlap, mm of paper: more than any lettering is long."""
NAME = 4.0
"""Height of the name of the next sheet, mm."""
DIGIT = 3.0
"""Room of a sheet's number on the key plan, mm."""
Window = Box


@dataclass(frozen=True)
class Drawing:
    """What is drawn: ``make`` gives the picture with tags so many mm high on the plan."""

    name: str
    make: Callable[[float], Picture]
    legend: tuple[Key, ...]
    outline: Sequence[Point]
    """The house's own outline, for the key plan."""
    notes: str = ""
    """What stands on a line of its own over the title block."""
    beside: Beside | None = None


@dataclass(frozen=True)
class Beside:
    """A list that stands beside a drawing where there is room: ``heads``, ``rows`` and ``widths`` of columns, mm."""

    name: str
    heads: Sequence[str]
    rows: Sequence[Sequence[str]]
    widths: Sequence[float]
    foot: str

    @property
    def wide(self) -> float:
        """Its width, mm."""
        return sum(self.widths)

    def fits(self, wide: float, tall: float) -> bool:
        """Whether it has room in so many mm."""
        return self.wide + 6 <= wide and (len(self.rows) + 2) * LIST_ROW + 22 <= tall

    def write(self, page: Page, at: Point) -> None:
        """Write it, its upper left corner at a place of the page."""
        left, y = at
        page.set_font(FAMILY, "B", BODY)
        page.text(left, y, self.name)
        y += LIST_ROW
        for number, row in enumerate((self.heads, *self.rows)):
            page.set_font(FAMILY, "" if number else "B", LIST_POINTS)
            x = left
            for cell, width in zip(row, self.widths, strict=True):
                page.text(x, y, cell)
                x += width
            page.set_line_width((THIN if number else MEDIUM) * PEN)
            page.line(left, y + 1.3, left + self.wide, y + 1.3)
            y += LIST_ROW
        page.set_xy(left, y)
        page.set_font(FAMILY, "", LEAST_POINTS)
        page.multi_cell(self.wide, 3.2, self.foot, align="L")


@dataclass(frozen=True)
class Titled:
    """What the title block says of the house."""

    house: str
    level: str
    edition: str


@dataclass(frozen=True)
class Fitted:
    """A picture on its paper: scale, size of the paper as it lies, and the window of the plan on each sheet."""

    picture: Picture
    scale: int
    size: tuple[float, float]
    windows: tuple[Window, ...]


def letters(scale: int) -> float:
    """Return how high tags are on the plan at a scale, mm."""
    return TAG_POINTS[scale] / POINTS * scale


def fitted(drawing: Drawing, paper: str, scales: Sequence[int] = SCALES) -> Fitted:
    """Return a drawing at the largest of ``scales`` at which it fits one sheet of ``paper``, or else split."""
    upright = PAPERS[paper]
    xs, ys = zip(*drawing.outline, strict=True)
    across = max(max(xs) - min(xs), max(ys) - min(ys))
    for scale in scales:
        if across > upright[1] * scale and scale != scales[-1]:
            continue
        picture = drawing.make(letters(scale) if scale in TAG_POINTS else 0.0)
        options = []
        for size in (upright[::-1], upright):
            wide, tall = _room(size, drawing)
            sheets = tuple(windows(picture.box, wide * scale, tall * scale, OVERLAP * scale))
            options.append(Fitted(picture, scale, size, sheets))
        best = min(options, key=lambda option: len(option.windows))
        if len(best.windows) == 1 or scale == scales[-1]:
            return best
    raise AssertionError


def _room(size: tuple[float, float], drawing: Drawing) -> tuple[float, float]:
    """Return the room for the plan on a sheet, mm: within the border, over legend, notes and title block."""
    wide = size[0] - 2 * BORDER - 4
    rows = len(_legend_rows(drawing.legend, wide)) + len(_note_lines(drawing, wide))
    return wide, size[1] - 2 * BORDER - BLOCK - rows * ROW - 8


def _note_lines(drawing: Drawing, wide: float) -> list[str]:
    return wrapped(drawing.notes, LEAST_POINTS / POINTS, wide - 4)


def _legend_rows(legend: Sequence[Key], wide: float) -> list[list[Key]]:
    """Return the legend in rows no wider than the sheet."""
    rows: list[list[Key]] = [[]]
    used = 0.0
    for key in legend:
        need = _key_width(key)
        if rows[-1] and used + need > wide:
            rows.append([])
            used = 0.0
        rows[-1].append(key)
        used += need
    return rows


def _key_width(key: Key) -> float:
    return SAMPLE + 2 + text_width(key[0], LEAST_POINTS / POINTS) + 6


def draw_sheets(
    page: Page, drawing: Drawing, paper: str, titled: Titled, palette: Palette, scale: int | None = None
) -> bool:
    """Draw a drawing on as many sheets as it takes, at a ``scale`` or the largest that fits.

    Return whether the list beside it had room.
    """
    listed = False
    fit = fitted(drawing, paper, SCALES if scale is None else (scale,))
    view_scale = 1 / fit.scale
    items = place_texts(map(_in_place, fit.picture.items()), view_scale / PX)
    texts = [_round(item, fit.scale) for item in items if isinstance(item, Text)]
    drawn = [box for item in items if not isinstance(item, Text) for box in _boxes(item, fit)]
    own = cells(fit.windows, texts)
    shown = [i for i, cell in enumerate(own) if any(meet(box, cell) for item in items for box in _boxes(item, fit))]
    fit, own = replace(fit, windows=tuple(fit.windows[i] for i in shown)), tuple(own[i] for i in shown)
    for number, window in enumerate(fit.windows, 1):
        page.drawing_page(fit.size)
        wide, tall = _room(fit.size, drawing)
        at = (BORDER + 2, BORDER + 2)
        view = View(view_scale, window[0], window[3])
        if drawing.beside is not None and len(fit.windows) == 1:
            spare = wide - (fit.picture.box[2] - fit.picture.box[0]) / fit.scale
            if drawing.beside.fits(spare, tall):
                listed = True
                drawing.beside.write(page, (BORDER + 2 + wide - drawing.beside.wide, BORDER + 6))
                view = View(view_scale, window[0] + drawing.beside.wide / 2 * fit.scale, window[3])
        seen = [item for item in items if not isinstance(item, Text) or _whole(item, window, fit.scale)]
        with page.rect_clip(at[0], at[1], wide, tall):
            if len(fit.windows) > 1:
                _edge_lines(page, fit.windows, window, own[number - 1], view, at)
            draw(page, seen, palette, view, at, PEN)
        plain(page)
        if len(fit.windows) > 1:
            _edge_names(page, fit, window, own[number - 1], view, at, texts, drawn)
        _legend(page, drawing, fit, at[1] + tall, palette)
        _title_block(page, drawing, fit, own, number, paper, titled, palette)
    return listed


def _in_place(item: Item) -> Item:
    """Return a text as one that stays: at this scale each has a place of its own."""
    return replace(item, spare=False, places=(), rows=0) if isinstance(item, Text) else item


def parts_of(picture: Picture, scale: int, size: tuple[float, float]) -> tuple[Picture, ...]:
    """Return a picture cut into ones no larger than ``size``, mm of paper at 1 to ``scale``, each text whole on one."""
    wide, tall = size
    found = []
    for x0, y0, x1, y1 in windows(picture.box, wide * scale, tall * scale, OVERLAP * scale):
        left, low, right, high = picture.box
        part = (max(x0, left), max(y0, low), min(x1, right), min(y1, high))
        layers = tuple(_seen(group, part, scale) for group in picture.layers)
        found.append(replace(picture, box=part, layers=layers))
    return tuple(found)


def _seen(group: Group, window: Window, scale: int) -> Group:
    """Return a group without the texts that a window would cut."""
    items = (_seen(item, window, scale) if isinstance(item, Group) else item for item in group.items)
    return replace(
        group, items=tuple(item for item in items if not isinstance(item, Text) or _whole(item, window, scale))
    )


def _boxes(item: Item, fit: Fitted) -> Iterator[Box]:
    """Yield boxes round what an item draws: a text, or each side of a line."""
    if isinstance(item, Text):
        yield _round(item, fit.scale)
        return
    for (ax, ay), (bx, by) in zip(item.points, (*item.points[1:], item.points[0]), strict=True):
        yield min(ax, bx), min(ay, by), max(ax, bx), max(ay, by)


def _round(text: Text, scale: int) -> Box:
    """Return the box round a text at a scale, mm on the plan."""
    return text_box(text, 1 / scale / PX, 0.1)


def _whole(text: Text, window: Window, scale: int) -> bool:
    """Whether a text lies on a sheet with all of its letters."""
    x0, y0, x1, y1 = _round(text, scale)
    return window[0] <= x0 and window[1] <= y0 and x1 <= window[2] and y1 <= window[3]


def _edge_lines(page: Page, sheets: Sequence[Window], window: Window, cell: Box, view: View, at: Point) -> None:
    """Draw where the next sheets take over, under all that has to be read."""
    page.set_dash_pattern(dash=6, gap=2)
    page.set_line_width(MEDIUM * PEN)
    (x0, y0, x1, y1), (a, b, c, d) = window, cell
    ends = (((a, y1), (a, y0)), ((x0, b), (x1, b)), ((c, y1), (c, y0)), ((x0, d), (x1, d)))
    for side, _number in neighbours(sheets, window):
        (px, py), (qx, qy) = (view.to_px(end) for end in ends[side])
        page.line(at[0] + px, at[1] + py, at[0] + qx, at[1] + qy)
    page.set_dash_pattern()


def _edge_names(
    page: Page, fit: Fitted, window: Window, cell: Box, view: View, at: Point, texts: Sequence[Box],
    drawn: Sequence[Box],
) -> None:  # fmt: skip
    """Say beside each edge which sheet takes over there, clear of the drawing's ``texts`` and of what is ``drawn``."""
    page.set_font(FAMILY, "B", SMALL)
    taken = list(texts)
    for side, number in neighbours(fit.windows, window):
        text = _("on sheet {number}").format(number=number)
        wide = page.get_string_width(text) + 2
        place = name_place(side, cell, window, (wide * fit.scale, NAME * fit.scale), fit.scale, taken, drawn)
        taken.append(place)
        px, py = view.to_px((place[0], place[3]))
        page.rect(at[0] + px, at[1] + py, wide, NAME, style=RenderStyle.F)
        page.text(at[0] + px + 1, at[1] + py + 3.1, text)


def _legend(page: Page, drawing: Drawing, fit: Fitted, top: float, palette: Palette) -> None:
    here, wide = View(1.0, 0.0, 0.0), fit.size[0] - 2 * BORDER - 4
    rows = _legend_rows(drawing.legend, wide)
    page.set_font(FAMILY, "", LEAST_POINTS)
    for i, line in enumerate(_note_lines(drawing, wide)):
        page.text(BORDER + 4, top + 4.9 + (len(rows) + i) * ROW, line)
    for row, keys in enumerate(rows):
        x, y = BORDER + 4, top + 4 + row * ROW
        for words, sample in keys:
            items: list[Item] = sample((x, -y), SAMPLE)
            draw(page, items, palette, here, (0.0, 0.0), PEN)
            page.set_font(FAMILY, "", LEAST_POINTS)
            page.text(x + SAMPLE + 2, y + 0.9, words)
            x += _key_width((words, sample))


def _title_block(
    page: Page,
    drawing: Drawing,
    fit: Fitted,
    own: Sequence[Box],
    number: int,
    paper: str,
    titled: Titled,
    palette: Palette,
) -> None:
    """Draw the border and, along its foot, the block: house, drawing, scale and its bar, level and edition, sheet."""
    wide, tall = fit.size
    page.set_line_width(HEAVY * PEN)
    page.rect(BORDER, BORDER, wide - 2 * BORDER, tall - 2 * BORDER)
    top, left, right = tall - BORDER - BLOCK, BORDER, wide - BORDER
    page.line(left, top, right, top)
    page.set_line_width(MEDIUM * PEN)
    key = 44.0 if len(fit.windows) > 1 else 0.0
    edges = [left, left + (right - left - key) * 0.56, right - key]
    for x in edges[1:]:
        if x < right:
            page.line(x, top, x, tall - BORDER)
    x = edges[0] + 2
    page.set_xy(x, top + 1.5)
    page.set_font(FAMILY, "B", 13)
    page.cell(edges[1] - x - 1, 6, titled.house)
    page.set_xy(x, top + 7.5)
    page.set_font(FAMILY, "B", SMALL)
    page.cell(edges[1] - x - 1, 4, INVENTED)
    page.set_xy(x, top + 12)
    page.set_font(FAMILY, "", LEAST_POINTS)
    page.multi_cell(edges[1] - x - 2, 3.1, CAUTION, align="L")
    x = edges[1] + 2
    sheet = _("Sheet {number} of {count}").format(number=number, count=len(fit.windows))
    lines = (
        (drawing.name, "B", 11.0),
        (_("Scale 1:{scale} on {paper}. Measures in mm.").format(scale=fit.scale, paper=paper), "B", SMALL),
        (sheet, "", SMALL),
        (_("Level {level}").format(level=titled.level), "", LEAST_POINTS),
        (titled.edition, "", LEAST_POINTS),
    )
    y = top + 1.5
    for text, style, size in lines:
        page.set_xy(x, y)
        page.set_font(FAMILY, style, size)
        page.cell(edges[2] - x - 1, size / POINTS * 1.15, text)
        y += size / POINTS * 1.35 + 0.4
    wide, unit = edges[2] - x - 8, LEAST_POINTS / POINTS / 1.2
    bar = scale_bar((x + 1) * fit.scale, -(y + 1.2) * fit.scale, min(wide, BAR) * fit.scale, unit * fit.scale)
    draw(page, place_texts(bar, 1 / fit.scale / PX), palette, View(1 / fit.scale, 0.0, 0.0), (0.0, 0.0), PEN)
    plain(page)
    if key:
        _key_plan(page, drawing, own, number, (right - key + 1.5, top + 1.5, key - 3, BLOCK - 3))


def _key_plan(
    page: Page, drawing: Drawing, own: Sequence[Box], number: int, place: tuple[float, float, float, float]
) -> None:
    """Draw the outline of the house over what each sheet has of its ``own``, this one's shaded."""
    left, top, wide, tall = place
    lefts, lows, rights, highs = zip(*own, strict=True)
    x0, y0, x1, y1 = min(lefts), min(lows), max(rights), max(highs)
    scale = min(wide / (x1 - x0), tall / (y1 - y0))

    def at(x: float, y: float) -> Point:
        return left + (x - x0) * scale, top + (y1 - y) * scale

    page.set_line_width(THIN * PEN)
    for i, (a, b, c, d) in enumerate(own, 1):
        (px, py), (qx, qy) = at(a, d), at(c, b)
        page.set_fill_color(215 if i == number else 255)
        page.rect(px, py, qx - px, qy - py, style=RenderStyle.DF)
    page.set_fill_color(255)
    page.set_line_width(MEDIUM * PEN)
    page.polygon([at(*point) for point in drawing.outline], style=RenderStyle.D)
    page.set_font(FAMILY, "B", LEAST_POINTS)
    for i, cell in enumerate(own, 1):
        x, y = at(*number_place(cell, drawing.outline, DIGIT / scale))
        page.text(x - page.get_string_width(str(i)) / 2, y + 1, str(i))
