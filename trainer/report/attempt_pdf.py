"""The report of one attempt as a PDF."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from trainer.picture import Palette
from trainer.report.attempt_content import AttemptContent, FindingContent, HouseContent
from trainer.report.page import COVERS, SIGNS
from trainer.report.pdf_page import SMALL, TITLE, Page
from trainer.rules.whole import NOT_DONE
from trainer.words import _


def attempt_pdf(content: AttemptContent, palette: Palette, regular: Path, semibold: Path) -> bytes:
    """Return the report; ``regular`` and ``semibold`` are the type's font files."""
    page = Page(content.title, regular, semibold)
    page.begin(content.title, content.cautions, content.facts)
    page.head(_("What holds of this record"))
    for each in content.said:
        page.say(f"{SIGNS[each.state]}: {each.text}")
    for house in content.houses:
        _house(page, house, palette)
    if content.answers:
        _answers(page, content)
    page.head(_("Items of the unit that this touches"))
    page.say(COVERS, SMALL)
    page.rows((_("Item"), _("Here")), [(item, here or _("not touched")) for item, here in content.covered], (70, 30))
    page.head(_("What this can't show"))
    for limit in content.limits:
        page.say(limit)
    return bytes(page.output())


def _house(page: Page, house: HouseContent, palette: Palette) -> None:
    page.add_page()
    page.say(house.title, TITLE, bold=True)
    page.say(". ".join(filter(None, (house.mark, house.outcome))), bold=True)
    for text in (NOT_DONE, *house.missing) if house.missing else ():
        page.say(text)
    for name, value in house.facts:
        page.say(f"{name}: {value}")
    page.head(_("The mark, line by line"))
    if house.findings:
        head = (_("Action"), _("What was found"), _("Kind"), _("Off the mark"))
        rows = [(str(each.step), each.what, each.severity, each.points) for each in house.findings]
        page.rows(head, rows, (9, 58, 15, 18))
    else:
        page.say(_("Nothing was found."))
    for text in filter(None, (house.sum, house.trouble)):
        page.say(text)
    if house.built and house.reference:
        page.sheet(_("As built"), house.built, palette)
        page.sheet(_("Where each truss belongs"), house.reference, palette)
    if house.findings:
        _findings(page, house.findings)
    page.head(_("What was done"))
    for step in house.steps:
        page.say(f"{step.number}   {step.after}   {step.text}", SMALL)
        if step.refused:
            page.say(_("Nobody could do that: {why}").format(why=step.refused), SMALL, indent=12)


def _findings(page: Page, findings: Iterable[FindingContent]) -> None:
    page.add_page()
    page.say(_("What was found, and why it matters"), bold=True)
    for finding in findings:
        page.ln(2)
        if page.will_page_break(30):
            page.add_page()
        where = ", ".join(filter(None, (finding.severity, finding.member)))
        heading = _("{where}, at action {n}: {what}").format(where=where, n=finding.step, what=finding.what)
        page.say(heading, bold=True)
        for name, text in finding.texts:
            page.say(f"{name}: {text}", SMALL, indent=5)


def _answers(page: Page, content: AttemptContent) -> None:
    page.head(_("Questions"))
    right = sum(answer.right for answer in content.answers)
    page.say(_("{n} of {all} right.").format(n=right, all=len(content.answers)), bold=True)
    head = (_("No."), _("Question"), _("Given"), _("Wanted"), _("Right"))
    rows = [
        (str(a.number), a.text, a.given, a.want, _("yes") if a.right else _("no")) for a in content.answers
    ]  # fmt: skip
    page.rows(head, rows, (6, 40, 23, 23, 8))
