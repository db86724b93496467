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
from trainer.report.pdf_page import BODY, OVER, SMALL, TITLE, Page
from trainer.session import job_of
from trainer.session.job_sheet import job_sheet
from trainer.words import CAUTION, INVENTED, _

BRACING_COLUMNS = (20.0, 34.0, 84.0)
"""Widths of the columns of the bracing beside its drawing, mm."""
BRACING_RUNS, BRACING_PARTS = 2, (18, 26, 42)
"""So many runs of the bracing stand beside each other on a page of its own, and the parts of the page they take."""
COLUMNS = (40.0, 30.0, 16.0, 10.0, 12.0, 13.0, 19.0, 13.0)
"""Widths of the schedule's columns beside the drawing, mm."""
PIECES = _("Permanent bracing, piece by piece")
RUNS = 3
"""So many runs of a wall's set-out stand beside each other."""
WIDTHS = {
    lists.SET_OUT_HEAD: (RUNS, (12, 11, 27, 8)), lists.HUNG_HEAD: (RUNS, (12, 11, 35)),
    lists.SADDLE_HEAD: (1, (12, 24, 24, 60)),
}  # fmt: skip
"""By its head: in how many runs a table of the set-out stands, and one run's columns, parts of the page's width."""

HEADED, ROW = 20.0, 5.7
"""Heights of a wall's name with the head of its table, and of each row, mm: no wall is torn apart that has room."""
MOST_ROWS = 36
"""A longer table begins where it stands."""
BEGUN = 0.3
"""Of a page: where no more of it is written on, the job sheet goes on there."""
FIRST_WALL = 60.0
"""Room under the heading of the set-out, mm: for what it says and the first wall."""


def sheet_pdf(level: Level, paper: str, palette: Palette, regular: Path, semibold: Path) -> bytes:
    """Return a house's sheets as a PDF: drawings on ``paper`` ("A3" or "A4"), then lists and the job sheet on A4.

    A list that has room beside its drawing stands there.

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
    pieces = bracing_plan(layout, level.bracing.spec())
    names = {piece.name: lists.label(piece) for piece in pieces}
    bracing = Drawing(
        _("Bracing and tie-down"), lambda letters: bracing_picture(job, pieces, names, letters),
        tuple(bracing_legend(job, pieces)), outline,
        beside=Beside(PIECES, lists.BRACING_HEAD, lists.bracing_rows(pieces), BRACING_COLUMNS, ""),
    )  # fmt: skip
    scheduled, braced = (draw_sheets(page, drawing, paper, titled, palette) for drawing in (plan, bracing))
    page.add_page(orientation="P", format="A4")
    page.say(title, TITLE, bold=True)
    page.say(INVENTED, SMALL, bold=True)
    if not scheduled:
        _schedule(page, level, rows, [settings_in_words(layout), counts_in_words(layout)])
    _set_out(page, list(lists.set_out(job)))
    if not braced:
        _bracing(page, lists.bracing_rows(pieces))
    _job_sheet(page, level, job_sheet(level, job, counts_in_words(layout)))
    return bytes(page.output())


def _schedule(page: Page, level: Level, rows: Sequence[Sequence[str]], facts: Sequence[str]) -> None:
    for fact in facts:
        page.say(fact, SMALL)
    page.head(_("Schedule of trusses"))
    page.rows(lists.SCHEDULE_HEAD, rows, (41, 32, 18, 12, 15, 15, 22, 16))
    page.say(lists.mass_rule(level), SMALL)


def _set_out(page: Page, walls: Sequence[lists.SetOut]) -> None:
    page.head(_("Set-out, wall by wall"), FIRST_WALL)
    page.say(
        _(
            "A corner is called by the two walls that meet there. Hook the tape at the corner that is named, on the "
            "outside of the plates, and let the measures run on. kN is the uplift that the bearing holds down."
        ),
        SMALL,
    )
    if any(row[0].startswith("-") for wall in walls for row in wall.rows):
        page.say(_("A measure under 0 lies before that corner: measure it the other way."), SMALL)
    for wall in walls:
        runs, widths = WIDTHS[wall.head]
        page.keep(HEADED + min(-(-len(wall.rows) // runs), MOST_ROWS) * ROW)
        page.ln(2)
        page.say(wall.name, BODY, bold=True)
        if wall.rows:
            _in_runs(page, wall.head, wall.rows, widths, runs)
        else:
            page.say(_("Nothing to mark."), SMALL)


def _in_runs(page: Page, head: Sequence[str], rows: Sequence[Sequence[str]], widths: Sequence[int], most: int) -> None:
    """Write a table as runs beside each other, ``most`` of them, read down and then across."""
    high = -(-len(rows) // most)
    runs = -(-len(rows) // high)
    blank = ("",) * len(head)
    beside = [
        [cell for run in range(runs) for cell in (rows[i + run * high] if i + run * high < len(rows) else blank)]
        for i in range(high)
    ]
    page.rows((*head,) * runs, beside, (*widths,) * runs)


def _bracing(page: Page, rows: Sequence[Sequence[str]]) -> None:
    if not rows:
        return
    page.head(PIECES, HEADED + min(-(-len(rows) // BRACING_RUNS), MOST_ROWS) * ROW)
    _in_runs(page, lists.BRACING_HEAD, rows, BRACING_PARTS, BRACING_RUNS)


def _job_sheet(page: Page, level: Level, sections: Sequence[tuple[str, Sequence[str]]]) -> None:
    if page.get_y() > page.h * BEGUN:
        page.add_page(orientation="P", format="A4")
    page.ln(OVER)
    page.say(_("Job sheet"), TITLE, bold=True)
    page.say(level.brief)
    cautions = OVER + page.high(INVENTED, SMALL, bold=True) + page.high(CAUTION, SMALL)
    for number, (heading, lines) in enumerate(sections, 1):
        page.listed(heading, [line.replace("**", "") for line in lines], cautions if number == len(sections) else 0.0)
    page.ln(OVER)
    page.say(INVENTED, SMALL, bold=True)
    page.say(CAUTION, SMALL)
