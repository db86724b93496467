"""What came of it: the roof as built with every finding on it, the mark line by line, and what it does not say."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pygame

from trainer.board import wording
from trainer.board.command import Command
from trainer.board.library import Entry
from trainer.board.paint import Brush
from trainer.board.plan_view import PlanView
from trainer.board.scene import Scene
from trainer.board.scenes.asking import save_diary
from trainer.board.scenes.note import finding_widgets
from trainer.board.services import Services
from trainer.board.widgets import Block, Button, Column, Flow, Label, Listing, Pad, Prose, Row, Scroll, Widget
from trainer.picture import as_built
from trainer.picture.found import INKS
from trainer.picture.model import Item, Polygon
from trainer.picture.still_site import StillSite
from trainer.picture.trusses import strip
from trainer.score import mark
from trainer.words import CAUTION, _

if TYPE_CHECKING:
    from trainer.session import Session


class Result(Scene):
    """The roof after hand-over."""

    order = ("side", "plan", "bar")

    def __init__(self, services: Services, entry: Entry, session: Session, code: str) -> None:
        super().__init__(services)
        self.name = _("Result: {title}").format(title=entry.level.title)
        self.entry = entry
        self.session = session
        self.code = code
        # In the order of the mark's lines.
        self.findings = tuple(sorted(session.findings, key=lambda f: (f.event, f.rule, f.member, f.got)))
        lesson = entry.level.lesson
        self.mark = mark(self.findings, lesson.weights.by_severity(), lesson.practice_mark, handed_over=True)
        self.chosen = ""
        self.open = False
        self._still = StillSite(session.site.layout)
        self.plan = PlanView(
            _("The roof as built"), as_built.whole_box(session.site.layout), self._still_items, self._live
        )
        self.plan.told = _("{n} findings").format(n=len(self.findings))

    def _still_items(self, scale: float) -> list[Item]:
        return self._still.items(self.session.site, scale, self.ui.look.scale)

    def _live(self, brush: Brush) -> None:
        """Ring the trusses that findings are about, the chosen one more strongly."""
        site = self.session.site
        for index, finding in enumerate(self.findings):
            if finding.member in site.stood:
                lies = as_built.lying(site.stood[finding.member])
                wide = site.layout.by_tag[finding.member].width + 190
                strong = str(index) == self.chosen
                ring = strip(lies.at(-120), lies.at(lies.length + 120), wide)
                brush.paint([Polygon(ring, None, INKS[finding.severity], 4.0 if strong else 1.5)])

    def tick(self, now_ms: int) -> None:
        self.plan.now_ms = now_ms
        if not self.plan.resting:
            self.redraw("plan")

    def look_changed(self) -> None:
        self.plan.spoil()

    def places(self, size: tuple[int, int]) -> dict[str, pygame.Rect]:
        wide, high = size
        top = self._bar().high(self.ui, wide)
        side = min(self.ui.look.px(480), int(wide * 0.45))
        return {
            "bar": pygame.Rect(0, 0, wide, top),
            "side": pygame.Rect(wide - side, top, side, high - top),
            "plan": pygame.Rect(0, top, wide - side, high - top),
        }

    def make(self, region: str) -> Widget:
        if region == "plan":
            return self.plan
        if region == "bar":
            return self._bar()
        return self._finding() if self.open else self._summary()

    def first_focus(self) -> str:
        return "result/back" if self.open else ("result/findings" if self.findings else "result/again")

    def _bar(self) -> Widget:
        title = Label(self.name, "heading", "ink", ground="paper", role="heading")
        help_ = Button(_("Help"), self.services.help, shortcut="F1", kind="quiet", ground="paper", key="bar/help")
        back = Button(
            _("Houses"), self.services.go_home, shortcut="Esc", kind="quiet", ground="paper", key="bar/houses"
        )
        return Pad(Flow([back, title, help_], gap=6, key="bar/flow"), pad=6, ground="paper", name=_("Top"), key="bar")

    def _summary(self) -> Widget:
        outcome = Label(wording.OUTCOME[self.mark.outcome], "title", role="heading")
        score = Label(_("{score} of 100").format(score=f"{self.mark.score:g}"), "figure", "accent")
        wanted = _("Practice mark of this house: {mark}. No stop-work finding may be left.").format(
            mark=self.entry.level.lesson.practice_mark
        )
        about = Label(wanted, "small", "panel_faint")
        closed = _("Recorded. The code of this attempt: {code}").format(code=self.code)
        listing = self._listing()
        buttons = Flow(
            [
                Button(_("Build it again"), self._again, key="result/again", kind="primary"),
                Button(_("Save the diary"), self.save, shortcut="Ctrl S", key="result/save"),
            ],
            gap=10, key="result/buttons",
        )  # fmt: skip
        caution = Prose([Block(CAUTION, "small", "panel_faint", space=0)], key="caution")
        told = [Label(closed, "body", key="result/code")] if self.code and self.session.mode == "assessment" else []
        parts: list[Widget] = [outcome, score, about, *told, listing, buttons, caution]
        column = Column(parts, gap=10)
        room = self.places(self.size)["side"]
        pad = 2 * self.ui.look.px(18)
        listing.grows = False
        if column.high(self.ui, room.width - pad) > room.height - pad:
            return Pad(Scroll(column, _("Result")), pad=18, column=True, name=_("Result"), key="result")
        listing.grows = True
        return Pad(column, pad=18, column=True, name=_("Result"), key="result")

    def _listing(self) -> Listing:
        """The mark line by line: each finding and what it takes off."""
        rows = [
            Row(
                str(index), ", ".join(filter(None, (finding.member, wording.SEVERITY[finding.severity]))),
                detail=f"−{line.points}", picture=finding.severity, second=finding.what,
            )
            for index, (finding, line) in enumerate(zip(self.findings, self.mark.lines, strict=True))
        ]  # fmt: skip
        return Listing(
            _("Findings"), rows, self.chosen, self.choose, take=self.open_finding, key="result/findings", tall=True,
            empty=_("Nothing was found: 100, and nothing taken off."),
        )  # fmt: skip

    def _finding(self) -> Widget:
        finding = self.findings[int(self.chosen)]
        parts = [*finding_widgets(finding), Prose([Block(CAUTION, "small", "panel_faint")], key="caution")]
        back = Button(_("Back to the result"), self._close, kind="primary", shortcut="Esc", key="result/back")
        column = Column([Scroll(Column(parts, gap=4), _("What was found")), back], gap=12)
        return Pad(column, pad=18, column=True, name=_("What was found"), key="note")

    def choose(self, index: str) -> None:
        """Choose a finding; it is shown on the plan."""
        self.chosen = index
        finding = self.findings[int(index)]
        if finding.member in self.session.site.stood:
            lies = as_built.lying(self.session.site.stood[finding.member])
            self.plan.camera.reveal(lies.at(lies.length / 2))
        self.refresh("side", "plan")

    def open_finding(self, index: str) -> None:
        """Read a finding whole."""
        self.choose(index)
        self.open = True
        self.refresh("side")

    def _close(self) -> None:
        self.open = False
        self.refresh("side")

    def _again(self) -> None:
        self.services.go_work(self.entry, "practice")

    def save(self) -> None:
        """Save the diary as a file."""
        save_diary(self.services, self.session)

    def commands(self) -> list[Command]:
        return [
            Command(_("Build it again"), "", self._again),
            Command(_("Save the diary"), "Ctrl S", self.save),
            Command(_("Back to the houses"), "Esc", self.services.go_home),
        ]

    def key(self, event: pygame.event.Event) -> bool:
        if event.mod & pygame.KMOD_CTRL and event.key == pygame.K_s:
            self.save()
        elif event.key == pygame.K_ESCAPE:
            self._close() if self.open else self.services.go_home()
        else:
            return self.plan.zoom_key(event)
        return True
