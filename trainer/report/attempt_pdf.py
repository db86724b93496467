"""The report of one attempt as a PDF."""

from __future__ import annotations

from pathlib import Path

from trainer.picture import Palette
from trainer.report.attempt_content import AttemptContent, HouseContent
from trainer.report.page import ASSESSOR, COVERS, EACH_TIME, IN_BRACKETS, SIGNS
from trainer.report.pdf_page import SMALL, TITLE, Page
from trainer.rules.whole import NOT_DONE
from trainer.words import _

LOG, FINDING = 80.0, 34.0
"""Room for the beginning of what was done, and for a finding, mm."""


def attempt_pdf(content: AttemptContent, palette: Palette, regular: Path, semibold: Path) -> bytes:
    """Return the report: first what counts of each house and why, its drawings, then the whole record as an appendix.

    ``regular`` and ``semibold`` are the type's font files.
    """
    page = Page(content.title, regular, semibold)
    page.begin(content.title, content.cautions, content.facts)
    for house in content.houses:
        _house(page, house)
    if content.asked:
        page.say(content.right, bold=True)
    _skills(page, content)
    _unit(page, content)
    _assessor(page)
    for house in content.houses:
        if house.findings:
            _findings(page, house)
    for house in content.houses:
        if house.built:
            name = _("{house}, as built").format(house=house.title)
            page.sheet(name, house.built, palette, house.built.words)
        if house.reference and house.findings:
            page.sheet(_("{house}, where each truss belongs").format(house=house.title), house.reference, palette)
        if house.in_space:
            page.sheet(house.in_space.title, house.in_space, palette, house.in_space.words)
        for fall in house.falls:
            page.sheet(fall.title, fall, palette, fall.words)
    _appendix(page, content)
    return bytes(page.output())


def _house(page: Page, house: HouseContent) -> None:
    """The mark of a house, what is missing, and what was found."""
    page.head(house.title)
    page.say(". ".join(filter(None, (house.mark, house.outcome))), bold=True)
    for text in (NOT_DONE, *house.missing) if house.missing else ():
        page.say(text)
    page.say(" · ".join(f"{name}: {value}" for name, value in house.facts), SMALL)
    page.ln(1)
    if house.findings:
        head = (_("Action"), _("What was found"), _("Kind"), _("Off the mark"))
        rows = [(str(each.step), each.what, each.first.severity, each.points) for each in house.findings]
        page.rows(head, rows, (8, 53, 13, 26))
    else:
        page.say(house.none_found)
    for text in filter(None, (house.sum, house.trouble)):
        page.say(text)


def _skills(page: Page, content: AttemptContent) -> None:
    """How far this attempt goes in the skills that it has to do with."""
    if content.skills:
        page.head(_("Skills that this attempt shows"))
        page.rows((_("Skill"), _("How far")), content.skills, (60, 40))


def _unit(page: Page, content: AttemptContent) -> None:
    """Which items of the unit this touches, and which not."""
    touched, left = content.covered_in_words
    page.head(_("Items of the unit that this touches"))
    page.say(COVERS, SMALL)
    page.say(_("Touched: {items}.").format(items=touched), SMALL)
    page.say(_("Not touched: {items}.").format(items=left), SMALL)


def _assessor(page: Page) -> None:
    """Lines for whoever assesses to write on."""
    page.to_fill_in(ASSESSOR)


def _appendix(page: Page, content: AttemptContent) -> None:
    """What the first pages come from: the record's state, and every action."""
    page.add_page()
    page.say(_("Appendix: the record"), TITLE, bold=True)
    page.head(_("What holds of this record"))
    for each in content.said:
        page.say(f"{SIGNS[each.state]}: {each.text}")
    page.head(_("What this can't show"))
    for limit in content.limits:
        page.say(limit)
    if content.answers:
        _answers(page, content)
    for house in content.houses:
        _log(page, house)


def _log(page: Page, house: HouseContent) -> None:
    """Every action of a house, in two columns."""
    page.head(_("{house}: what was done").format(house=house.title), LOG)
    page.say(IN_BRACKETS, SMALL)
    rows = []
    for step in house.steps:
        rows.append((str(step.number), step.after if house.timed else "", step.text))
        if step.refused:
            rows.append(("", "", _("Nobody could do that: {why}").format(why=step.refused)))
    page.in_columns(rows)


def _findings(page: Page, house: HouseContent) -> None:
    """What was found at a house, with the reasons."""
    page.head(_("{house}: what was found, and why it matters").format(house=house.title), FINDING)
    for finding in house.findings:
        first = finding.first
        where = ", ".join(filter(None, (first.severity, first.member)))
        heading = _("{where}, at action {n}: {what}").format(where=where, n=finding.step, what=finding.what)
        texts = (*([(EACH_TIME, finding.where)] if finding.where else []), *first.texts)
        lines = [f"{name}: {text}" for name, text in texts]
        page.keep(2 + page.high(heading, bold=True) + sum(page.high(line, SMALL, indent=5) for line in lines))
        page.ln(2)
        page.say(heading, bold=True)
        for line in lines:
            page.say(line, SMALL, indent=5)


def _answers(page: Page, content: AttemptContent) -> None:
    page.head(_("Questions"))
    head = (_("No."), _("Question"), _("Given"), _("Wanted"), _("Right"))
    rows = [
        (str(a.number), a.text, a.given, a.want, _("yes") if a.right else _("no")) for a in content.answers
    ]  # fmt: skip
    page.rows(head, rows, (6, 40, 23, 23, 8))
