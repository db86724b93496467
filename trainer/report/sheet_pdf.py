"""The job on paper: layout drawing to scale, schedule, set-out, bracing and tie-down, job sheet; A3 or A4."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from trainer.layout import lay_out
from trainer.layout.bracing import bracing_plan
from trainer.level import Level
from trainer.picture import Palette
from trainer.picture.bracing_plan import bracing_legend, bracing_picture
from trainer.picture.legend import legend
from trainer.picture.sheet import MEASURES, counts_in_words, plan_picture, settings_in_words
from trainer.records.edition import editions
from trainer.report import schedule as lists
from trainer.report.drawing_page import Beside, Drawing, Titled, draw_sheets
from trainer.report.pdf_page import BODY, SMALL, TITLE, Page
from trainer.session import job_of
from trainer.session.job_sheet import job_sheet
from trainer.words import CAUTION, INVENTED, _

BRACING_COLUMNS = (20.0, 34.0, 84.0)
"""Widths of the columns of the bracing beside its drawing, mm."""
COLUMNS = (40.0, 30.0, 16.0, 10.0, 12.0, 13.0, 19.0, 13.0)
"""Widths of the schedule's columns beside the drawing, mm."""
PIECES = _("Permanent bracing, piece by piece")
SIDE_BY_SIDE = 2
"""So many runs of a wall's set-out stand beside each other."""

HEADED, ROW = 20.0, 5.7
"""Heights of a wall's name with the head of its table, and of each row, mm: no wall is torn apart that has room."""
MOST_ROWS = 36
"""A longer table begins where it stands."""


def sheet_pdf(level: Level, paper: str, palette: Palette, regular: Path, semibold: Path) -> bytes:
    """Return a house's sheets as a PDF: drawings on ``paper`` ("A3" or "A4"), lists and the job sheet on A4.

    :raises LayoutRefused: where the house can't be laid out.
    """
    layout = lay_out(level.house())
    job = job_of(level, 0, layout=layout)
    title = f"{level.id.capitalize()}: {level.title}"
    edition = _("Level file edition {level}, layout rules {rules}").format(
        level=level.schema_, rules=editions()["layout"][:8]
    )
    titled = Titled(title, level.id, edition)
    page = Page(title, regular, semibold)
    outline = layout.house.plan.outline
    rows, notes = lists.schedule(layout, level), f"{settings_in_words(layout)}. {MEASURES}"
    beside = Beside(_("Schedule of trusses"), lists.SCHEDULE_HEAD, rows, COLUMNS, lists.mass_rule(level))
    plan = Drawing(
        _("Truss layout"), lambda letters: plan_picture(layout, letters), tuple(legend(layout)), outline, notes, beside
    )
    if not draw_sheets(page, plan, paper, titled, palette):
        _schedule(page, title, level, rows, [settings_in_words(layout), counts_in_words(layout)])
    _set_out(page, list(lists.set_out(job)))
    pieces = bracing_plan(layout, level.bracing.spec())
    names = {piece.name: lists.label(piece) for piece in pieces}
    bracing = Drawing(
        _("Bracing and tie-down"), lambda letters: bracing_picture(job, pieces, names, letters),
        tuple(bracing_legend(job, pieces)), outline,
        beside=Beside(PIECES, lists.BRACING_HEAD, lists.bracing_rows(pieces), BRACING_COLUMNS, ""),
    )  # fmt: skip
    if not draw_sheets(page, bracing, paper, titled, palette):
        _bracing(page, lists.bracing_rows(pieces))
    _job_sheet(page, level, job_sheet(level, job, counts_in_words(layout)))
    return bytes(page.output())


def _schedule(page: Page, title: str, level: Level, rows: Sequence[Sequence[str]], facts: Sequence[str]) -> None:
    page.add_page(orientation="P", format="A4")
    page.say(title, TITLE, bold=True)
    page.say(INVENTED, SMALL, bold=True)
    for fact in facts:
        page.say(fact, SMALL)
    page.head(_("Schedule of trusses"))
    page.rows(lists.SCHEDULE_HEAD, rows, (42, 34, 14, 12, 15, 15, 22, 16))
    page.say(lists.mass_rule(level), SMALL)


def _set_out(page: Page, walls: Sequence[lists.SetOut]) -> None:
    page.add_page(orientation="P", format="A4")
    page.head(_("Set-out, wall by wall"))
    page.say(
        _(
            "Walls run anticlockwise round the house, seen from above. Hook the tape at the wall's first corner, on "
            "the outside of the plates, and let the measures run on. kN is the uplift that the bearing holds down."
        ),
        SMALL,
    )
    for wall in walls:
        half = -(-len(wall.rows) // SIDE_BY_SIDE)
        if page.will_page_break(HEADED + min(half, MOST_ROWS) * ROW):
            page.add_page(orientation="P", format="A4")
        page.ln(2)
        page.say(wall.name, BODY, bold=True)
        if not wall.rows:
            page.say(_("Nothing to mark."), SMALL)
            continue
        blank = ("",) * len(wall.head)
        pairs = [(*row, *(wall.rows[i + half] if i + half < len(wall.rows) else blank)) for i, row in
                 enumerate(wall.rows[:half])]  # fmt: skip
        widths = (13, 13, 48, 10) if len(wall.head) == len(lists.SET_OUT_HEAD) else (13, 13, 58)
        page.rows(wall.head * SIDE_BY_SIDE, pairs, widths * SIDE_BY_SIDE)


def _bracing(page: Page, rows: Sequence[Sequence[str]]) -> None:
    if not rows:
        return
    page.add_page(orientation="P", format="A4")
    page.head(PIECES)
    page.rows(lists.BRACING_HEAD, rows, (22, 40, 110))


def _job_sheet(page: Page, level: Level, sections: Sequence[tuple[str, Sequence[str]]]) -> None:
    page.add_page(orientation="P", format="A4")
    page.say(_("Job sheet"), TITLE, bold=True)
    page.say(level.brief)
    for heading, lines in sections:
        page.head(heading)
        for line in lines:
            page.say("–  " + line.replace("**", ""), indent=3)
    page.ln(3)
    page.say(INVENTED, SMALL, bold=True)
    page.say(CAUTION, SMALL)
