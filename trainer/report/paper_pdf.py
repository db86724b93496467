"""A paper as a PDF to print: A4, questions kept whole, plans on pages of their own at the end."""

from __future__ import annotations

from pathlib import Path

from trainer.picture import Palette
from trainer.report.drawing_page import Titled, draw_sheets, fitted
from trainer.report.house_plan import SCALE
from trainer.report.paper_text import Printed, PrintedPaper, in_marks
from trainer.report.pdf_page import BODY, HEAD, LINE, MARGIN, SMALL, TITLE, Page
from trainer.report.pdf_picture import paint
from trainer.words import _

PAPERS_FOR_PLANS = ("A4", "A3")
"""A plan goes on the first of these that has it on one sheet, else on sheets of the last."""
BESIDE = 95.0
"""Height of a drawing beside a question, mm."""


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
        page.ln(3)
        if page.will_page_break(40):
            page.add_page()
        page.say(topic, HEAD, bold=True)
        for question in questions:
            _question(page, question, paper.guide, palette)
    for plan in paper.plans:
        titled = Titled(paper.title, plan.level, "")
        on = next((size for size in PAPERS_FOR_PLANS if len(fitted(plan.drawing, size, (SCALE,)).windows) == 1), "A3")
        draw_sheets(page, plan.drawing, on, titled, palette, SCALE)
    return bytes(page.output())


def _question(page: Page, question: Printed, guide: bool, palette: Palette) -> None:
    high = (4 + len(question.text) // 85 + len(question.left) + len(question.offered)) * LINE
    if guide:
        high += LINE + sum(1 + (len(name) + len(text)) // 105 for name, text in question.notes) * LINE * SMALL / BODY
    if page.will_page_break(high + (BESIDE if question.picture else 0)):
        page.add_page()
    page.ln(2)
    house = f" · {question.house}" if question.house else ""
    page.say(
        _("Question {number}{house} · {marks}").format(
            number=question.number, house=house, marks=in_marks(question.marks)
        ),
        BODY,
        bold=True,
    )
    page.say(f"{question.text} {question.how}")
    if question.picture:
        paint(page, question.picture, palette, (MARGIN, page.get_y() + 4), (page.epw, BESIDE - 6))
        page.set_y(page.get_y() + BESIDE + 2)
    for number, side in enumerate(question.left, 1):
        page.say(f"{number}   {side}", indent=5)
    for letter, text in question.offered:
        page.say(f"{letter}   {text}", indent=5)
    if guide:
        page.say(_("Answer: {answer}").format(answer=question.answer), bold=True)
        for name, text in question.notes:
            page.say(f"{name}: {text}", SMALL, indent=5)
    elif question.space:
        page.ln(2)
        page.say(question.space)
