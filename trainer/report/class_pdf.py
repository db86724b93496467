"""The report of a class as a PDF."""

from __future__ import annotations

from pathlib import Path

from trainer.picture import Palette
from trainer.report.class_book import BOOK_HEAD
from trainer.report.class_content import Chart, ClassContent
from trainer.report.pdf_page import MARGIN, SMALL, Page
from trainer.report.pdf_picture import paint
from trainer.report.skills import NOTE
from trainer.words import _

ACROSS = 5
"""Houses side by side in one table."""
MOST_HIGH = 110.0
"""Height of a chart, mm, at most."""

WIDTHS = (13, 16, 23, 20, 16, 12)
"""Of the gradebook's columns."""
SKILL_WIDTHS = (30, 10, 10, 10, 10, 10, 20)
"""Of the table of skills."""
FIRST = 70
"""Of a chart's table the first column, beside 30 for each other one."""
QUESTION, OTHER = 60, 12
"""Of how questions did the first column, beside each other one."""
HEADING = 20.0
"""Room for a chart's heading and what stands round it, mm."""


def class_pdf(content: ClassContent, palette: Palette, regular: Path, semibold: Path) -> bytes:
    """Return the report; ``regular`` and ``semibold`` are the type's font files."""
    page = Page(content.title, regular, semibold)
    page.begin(content.title, content.cautions, content.facts)
    page.head(_("For the next lesson"))
    for number, text in enumerate(content.suggestions, 1):
        page.item(text, f"{number}.")
    page.head(_("Who is where"))
    for first in range(0, len(content.houses), ACROSS):
        houses = content.houses[first : first + ACROSS]
        rows = [(code, *(cell or "–" for cell in cells[first : first + ACROSS])) for code, cells in content.where]
        page.rows(
            (_("Code name"), *houses),
            rows,
            (16, *(84 // len(houses) for _house in houses)),
        )
    head, lines = content.book
    if lines:
        page.head(_("The gradebook"))
        page.rows(head, lines, [WIDTHS[BOOK_HEAD.index(name)] for name in head])
    head, lines = content.skills
    if lines:
        page.head(_("Skills"))
        page.say(NOTE, SMALL)
        page.rows(head, lines, SKILL_WIDTHS[: len(head)])
    if content.remarks:
        page.head(_("Worth a look"))
    for text in content.remarks:
        page.item(text)
    for chart in content.charts:
        _chart(page, chart, palette)
    page.head(_("How questions did"))
    if not content.papers:
        page.say(_("No questions were answered."))
    for paper in content.papers:
        page.say(paper.name, bold=True)
        page.say(paper.notes, SMALL)
        page.rows(paper.head, paper.rows, (QUESTION, *(OTHER for _name in paper.head[1:])))
    return bytes(page.output())


def _chart(page: Page, chart: Chart, palette: Palette) -> None:
    left, bottom, right, top = chart.picture.box
    high = min(MOST_HIGH, page.epw * (top - bottom) / (right - left))
    if chart.rows and page.will_page_break(high + HEADING):
        page.add_page()
    page.head(chart.title)
    if not chart.rows:
        page.say(_("Nothing was found."))
        return
    paint(page, chart.picture, palette, (MARGIN, page.get_y() + 1), (page.epw, high))
    page.set_y(page.get_y() + high + 4)
    if chart.note:
        page.say(chart.note, SMALL)
    page.rows(chart.head, chart.rows, (FIRST, *(100 - FIRST for _name in chart.head[1:])))
