"""A paper as a PDF to print: A4, questions kept whole, plans on pages of their own at the end."""

from __future__ import annotations

from pathlib import Path

from trainer.picture import Palette, Picture
from trainer.report.drawing_page import Titled, draw_sheets, fitted
from trainer.report.house_plan import SCALE
from trainer.report.paper_text import Printed, PrintedPaper, in_marks
from trainer.report.pdf_page import BODY, LINE, MARGIN, SMALL, TITLE, Page
from trainer.report.pdf_picture import paint
from trainer.words import _

PAPERS_FOR_PLANS = ("A4", "A3")
"""A plan goes on the first of these that has it on one sheet, else on sheets of the last."""
BESIDE, STACKED = 95.0, 114.0
"""Height of a drawing beside a question, mm; and of one that is higher than wide."""
APART = 2.0
"""Room over a question, and over the line for its answer, mm."""
WORKING = 26.0
"""Height of the box for the working of a number, mm."""
ASKED = 2
"""So many of a question's lines stand over its drawing: its number, and what it asks."""


def paper_pdf(paper: PrintedPaper, palette: Palette, regular: Path, semibold: Path) -> bytes:
    """Return a paper or its marking guide as a PDF; ``regular`` and ``semibold`` are the type's font files."""
    page = Page(paper.title, regular, semibold)
    page.add_page()
    page.say(paper.title, TITLE, bold=True)
    if not paper.guide:
        page.ln(3)
        page.say(_("Code name ______________________     Date ______________"))
    page.say(paper.total, SMALL if paper.guide else BODY)
    page.ln(2)
    for note in paper.notes:
        page.say(note, SMALL)
    for topic, questions in paper.topics:
        page.head(topic, _high(page, questions[0], paper.guide))
        for question in questions:
            _question(page, question, paper.guide, palette)
    for plan in paper.plans:
        titled = Titled(paper.title, plan.level, "")
        on = next((size for size in PAPERS_FOR_PLANS if len(fitted(plan.drawing, size, (SCALE,)).windows) == 1), "A3")
        draw_sheets(page, plan.drawing, on, titled, palette, SCALE)
    return bytes(page.output())


def _question(page: Page, question: Printed, guide: bool, palette: Palette) -> None:
    page.keep(_high(page, question, guide))
    page.ln(APART)
    lines = _lines(question, guide)
    for text, size, bold, indent in lines[:ASKED]:
        page.say(text, size, bold, indent)
    if question.picture:
        paint(page, question.picture, palette, (MARGIN, page.get_y() + 4), (page.epw, _beside(question.picture) - 6))
        page.set_y(page.get_y() + _beside(question.picture) + 2)
    for text, size, bold, indent in lines[ASKED:]:
        page.say(text, size, bold, indent)
    if question.works and not guide:
        page.ln(APART)
        _working(page)
    if question.space and not guide:
        page.ln(APART)
        page.say(question.space)


def _working(page: Page) -> None:
    """Rule a box for the working, named in its corner."""
    left, top = page.l_margin, page.get_y()
    page.set_line_width(0.2)
    page.rect(left, top, page.epw, WORKING)
    page.set_y(top + 1)
    page.say(_("Working"), SMALL, indent=1.5)
    page.set_y(top + WORKING)


def _beside(picture: Picture) -> float:
    """How high a drawing is painted, mm: one roof over another needs more."""
    left, low, right, high = picture.box
    return STACKED if high - low > (right - left) * 1.2 else BESIDE


def _high(page: Page, question: Printed, guide: bool) -> float:
    """How high a question is, mm."""
    space = APART + LINE if question.space and not guide else 0.0
    space += APART + WORKING if question.works and not guide else 0.0
    drawn = _beside(question.picture) + 2 if question.picture else 0.0
    return APART + space + drawn + sum(page.high(*line) for line in _lines(question, guide))


def _lines(question: Printed, guide: bool) -> list[tuple[str, float, bool, float]]:
    """What is written of a question, each text with its size, whether it is bold, and how far in it stands."""
    house = f" · {question.house}" if question.house else ""
    number = _("Question {number}{house} · {marks}").format(
        number=question.number, house=house, marks=in_marks(question.marks)
    )
    lines = [(number, BODY, True, 0.0), (question.asked, BODY, False, 0.0)]
    lines += [(f"{number}   {side}", BODY, False, 5.0) for number, side in enumerate(question.left, 1)]
    lines += [(f"{letter}   {text}", BODY, False, 5.0) for letter, text in question.offered]
    if guide:
        lines.append((_("Answer: {answer}").format(answer=question.answer), BODY, True, 0.0))
        lines += [(f"{name}: {text}", SMALL, False, 5.0) for name, text in question.notes]
    return lines
