"""Pages of a PDF: A4, drawings on A3 where they need it, our own type, the title and the page's number at the foot."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import zip_longest
from pathlib import Path
from typing import Any, cast

from fpdf import FPDF
from fpdf.enums import MethodReturnValue, TableBordersLayout, VAlign, XPos, YPos
from fpdf.fonts import FontFace

from trainer.picture import Palette, Picture
from trainer.report.pdf_picture import FAMILY, legible, paint
from trainer.words import printable

MARGIN = 18.0
LINE = 5.4
"""Height of a line of text, mm."""
A4 = (210.0, 297.0)
"""Width and height of a page, mm."""
FOOT = 14.0
"""Room for the heading over a drawing and for the page's foot, mm."""
BODY, LISTED, SMALL, HEAD, TITLE = 11.0, 10.0, 9.0, 13.0, 18.0
"""Sizes of type, points."""
DASH, ITEM = 3.0, 7.0
"""How far in the dash of a line of a list stands, and its words, mm."""
SHORT = 4
"""A list of no more lines than this is not torn apart."""
OVER = 3.0
"""Room over a heading, mm."""
FILLED_IN = 10.0
"""Height of a line to write on, mm."""
CELL = 0.6
"""Round the text of a table's cell, mm."""
GUTTER, NUMBER, TIME = 8.0, 10.0, 18.0
"""Between two columns; and of a numbered row the columns of its number and of its time, mm."""


class Page(FPDF):
    """A4 pages with their number and the document's title at the foot."""

    def __init__(self, title: str, regular: Path, semibold: Path) -> None:
        super().__init__(format="A4", unit="mm")
        self.document_title = title
        self.add_font(FAMILY, "", regular)
        self.add_font(FAMILY, "B", semibold)
        self.set_margins(MARGIN, MARGIN)
        self.set_auto_page_break(True, MARGIN + 4)
        self.set_title(title)
        self.set_lang("en-AU")
        self._drawing = False

    def drawing_page(self, size: tuple[float, float]) -> None:
        """Begin a page of this width and height, mm, for a drawing with a title block of its own."""
        wide, tall = size
        self.add_page(orientation="L" if wide > tall else "P", format=(min(size), max(size)))
        self.set_auto_page_break(False)
        self._drawing = True

    def add_page(self, *given: Any, **options: Any) -> None:
        """Begin a page of text."""
        super().add_page(*given, **options)
        self._drawing = False
        self.set_auto_page_break(True, MARGIN + 4)

    def footer(self) -> None:
        """Write the title and the page's number; a drawing has them in its title block."""
        if self._drawing:
            return
        self.set_y(-MARGIN + 4)
        self.set_font(FAMILY, "", SMALL)
        self.cell(0, 5, f"{self.document_title} · {self.page_no()}", align="C")

    def begin(self, title: str, cautions: Sequence[str], facts: Sequence[tuple[str, str]]) -> None:
        """Begin a report: its title, what to mind in reading it, and the facts of it."""
        self.add_page()
        self.say(title, TITLE, bold=True)
        for caution in cautions:
            self.say(caution, SMALL, bold=True)
        self.ln(2)
        self.facts(facts)

    def facts(self, facts: Sequence[tuple[str, str]]) -> None:
        """Write facts in two columns, read down and then across."""
        half = -(-len(facts) // 2)
        self.set_font(FAMILY, "", LISTED)
        with self.table(
            text_align="LEFT", borders_layout=TableBordersLayout.NONE, first_row_as_headings=False,
            line_height=LINE * LISTED / BODY, padding=(0, 2, 0, 0), v_align=VAlign.T,
        ) as table:  # fmt: skip
            for pair in zip_longest(facts[:half], facts[half:]):
                table.row([printable(f"{fact[0]}: {fact[1]}") if fact else "" for fact in pair])

    def to_fill_in(self, names: Sequence[str]) -> None:
        """Write names, each with a line to write on, all as long, on one page."""
        self.keep(len(names) * FILLED_IN)
        self.set_font(FAMILY, "", BODY)
        left = MARGIN + max(self.get_string_width(name) for name in names) + 4
        for name in names:
            self.set_y(self.get_y() + FILLED_IN - LINE)
            self.cell(0, LINE, name)
            self.line(left, self.get_y() + LINE, self.w - MARGIN, self.get_y() + LINE)
            self.ln(LINE)

    def in_columns(self, rows: Sequence[tuple[str, str, str]]) -> None:
        """Write rows of a number, a time and a text in two columns a page, a row's further lines under its text.

        Where no row has a time, there is no column for it.
        """
        line, wide = LINE * SMALL / BODY * 0.94, (self.epw - GUTTER) / 2
        number, text = NUMBER, NUMBER + (TIME if any(time for _number, time, _text in rows) else 0.0)
        left, top = MARGIN, self.get_y() + 1
        y = top
        self.set_auto_page_break(False)
        for cells in rows:
            self.set_font(FAMILY, "", SMALL)
            words = self.multi_cell(
                wide - text, line, printable(cells[2]), align="L", dry_run=True, output=MethodReturnValue.LINES
            )
            assert isinstance(words, list)
            if y + len(words) * line > self.h - self.b_margin - MARGIN - 4:
                if left == MARGIN:
                    left, y = MARGIN + wide + GUTTER, top
                else:
                    self.add_page()
                    self.set_auto_page_break(False)
                    self.set_font(FAMILY, "", SMALL)
                    left, top = MARGIN, self.t_margin
                    y = top
            self.set_xy(left, y)
            self.cell(number - 2, line, cells[0], align="R")
            self.set_x(left + number)
            self.cell(TIME, line, cells[1])
            for each in words:
                self.set_xy(left + text, y)
                self.cell(wide - text, line, each)
                y += line
        self.set_y(y)
        self.set_auto_page_break(True, MARGIN + 4)

    def say(self, text: str, size: float = BODY, bold: bool = False, indent: float = 0.0) -> None:
        """Write a paragraph."""
        self.set_font(FAMILY, "B" if bold else "", size)
        self.set_x(MARGIN + indent)
        self.multi_cell(
            self.epw - indent, LINE * size / BODY, printable(text), align="L", new_x=XPos.LMARGIN, new_y=YPos.NEXT
        )

    def high(self, text: str, size: float = BODY, bold: bool = False, indent: float = 0.0) -> float:
        """Return how high :meth:`say` writes a paragraph, mm."""
        self.set_font(FAMILY, "B" if bold else "", size)
        wide, line = self.epw - indent, LINE * size / BODY
        high = self.multi_cell(wide, line, printable(text), dry_run=True, output=MethodReturnValue.HEIGHT)
        return cast(float, high)

    def keep(self, high: float) -> None:
        """Begin a page where so many mm don't fit on this one, but would on a whole one."""
        if self.will_page_break(high) and high < self.h - self.t_margin - self.b_margin:
            self.add_page()

    def head(self, text: str, high: float = 24.0) -> None:
        """Write a heading on one page with the ``high`` mm that follow it."""
        self.keep(OVER + self.high(text, HEAD, bold=True) + high)
        self.ln(OVER)
        self.say(text, HEAD, bold=True)

    def listed(self, heading: str, lines: Sequence[str], after: float = 0.0) -> None:
        """Write a heading and its list: a short one, or one with ``after`` mm more after it, on one page."""
        together = lines if after or len(lines) <= SHORT else lines[: SHORT - 1]
        self.head(heading, sum(self.high(line, LISTED, indent=ITEM) for line in together) + after)
        for line in lines:
            self.item(line)

    def item(self, text: str, sign: str = "–") -> None:
        """Write a line of a list after its ``sign``, further lines under its first word, whole on one page."""
        self.keep(self.high(text, LISTED, indent=ITEM))
        self.set_x(MARGIN + DASH)
        self.cell(ITEM - DASH, LINE * LISTED / BODY, sign)
        self.say(text, LISTED, indent=ITEM)

    def sheet(self, name: str, picture: Picture, palette: Palette, words: str = "") -> None:
        """Draw a picture on a page of its own, turned as the house asks; on A3 where A4 has no room for its letters."""
        left, low, right, high = picture.box
        way = "L" if right - left > high - low else "P"
        wide, tall = A4 if way == "P" else A4[::-1]
        size = "A4" if legible(picture, (wide - 2 * MARGIN, tall - 2 * MARGIN - FOOT)) else "A3"
        self.add_page(orientation=way, format=size)
        self.say(name, HEAD, bold=True)
        if words:
            self.say(words, SMALL)
        top = self.get_y() + 2
        paint(self, picture, palette, (MARGIN, top), (self.epw, self.h - top - MARGIN - 6))
        self.set_y(self.h - self.b_margin)  # what comes after it begins a page

    def rows(self, head: Sequence[str], rows: Sequence[Sequence[str]], widths: Sequence[int]) -> None:
        """Write a table; ``widths`` are parts of the page's width, or more where a word would be torn apart."""
        fitting = self._fitting((head, *rows), widths)
        self.set_font(FAMILY, "", SMALL)
        face = FontFace(emphasis="B", size_pt=SMALL, fill_color=235)
        line = LINE * SMALL / BODY
        with self.table(
            col_widths=fitting, text_align="LEFT", line_height=line, headings_style=face, padding=CELL
        ) as table:
            for cells in (head, *rows):
                table.row([printable(cell) for cell in cells])
        self.ln(2)

    def _fitting(self, lines: Sequence[Sequence[str]], widths: Sequence[int]) -> tuple[float, ...]:
        """Return widths of columns, mm, each as wide as its longest word where the page has room for all of them."""
        self.set_font(FAMILY, "B", SMALL)
        words = [{word for cell in column for word in cell.split()} for column in zip(*lines, strict=True)]
        least = [max(map(self.get_string_width, each), default=0.0) + 2 * (CELL + self.c_margin) for each in words]
        narrow: set[int] = set()
        while True:
            left = self.epw - sum(least[i] for i in narrow)
            share = left / max(1, sum(width for i, width in enumerate(widths) if i not in narrow))
            found = [least[i] if i in narrow else width * share for i, width in enumerate(widths)]
            more = {i for i, width in enumerate(found) if width < least[i] - 0.01}
            if sum(least) > self.epw or not more:
                return tuple(found)
            narrow |= more
