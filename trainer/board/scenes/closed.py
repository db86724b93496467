"""The end of a sitting: the code that the assessor writes down, and what came of each part."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

import pygame

from trainer.board.back_to import BackTo
from trainer.board.library import entry_of
from trainer.board.scene import Scene
from trainer.board.services import Services
from trainer.board.widgets import Button, Column, Flow, Label, Pad, Paragraph, Prose, Scroll, Widget
from trainer.level import parse_level
from trainer.records.attempt import Attempt
from trainer.records.handing_in import HandedIn
from trainer.records.judging import missing_from, session_of
from trainer.records.verify import LIMITS
from trainer.terms import OUTCOME_NAMES
from trainer.words import CAUTION, _, ngettext


class Closed(Scene):
    """What is shown once a sitting is closed; only now is anything said of how it went."""

    order = ("side",)

    def __init__(
        self, services: Services, made: Attempt, write: Callable[[], HandedIn], withhold: bool = False
    ) -> None:
        """Show how it went, unless that is for the assessor to say (``withhold``); ``write`` writes its file."""
        super().__init__(services)
        self.name = _("The sitting is closed")
        self.made = made
        self.write = write
        self.written = write()
        self.withhold = withhold

    def places(self, size: tuple[int, int]) -> dict[str, pygame.Rect]:
        return {"side": pygame.Rect(0, 0, *size)}

    def make(self, region: str) -> Widget:
        where = self.written.trouble or _("The result is in this file: {file}").format(file=self.written.file)
        parts: list[Widget] = [
            Label(self.name, "title", role="heading"),
            Label(
                _("Have your assessor write down this code before you go. It belongs to {code}:").format(
                    code=self.made.code
                ),
                "body",
            ),
            Label(self.made.head_code, "figure", "accent", key="closed/code"),
            Prose([Paragraph(where)], key="closed/file"),
        ]
        if self.written.trouble:
            parts.append(Button(_("Write the result again"), self._again, key="closed/again"))
        if self.withhold:
            parts.append(Label(_("Your assessor tells you how it went."), "body", key="closed/withheld"))
        else:
            parts.append(Label(_("What came of it"), "heading", role="heading"))
            parts += [self._house(n) for n in range(len(self.made.houses))]
        if self.made.answers and not self.withhold:
            right = sum(bool(entry.body["right"]) for entry in self.made.answers)
            n = len(self.made.answers)
            text = ngettext(
                "Questions: {right} of {n} answered was right.", "Questions: {right} of {n} answered were right.", n
            )
            parts.append(Label(text.format(right=right, n=n), "body", key="closed/answers"))
        notes = [Paragraph(text, "small", "panel_faint") for text in (*LIMITS, CAUTION)]
        parts.append(Prose(notes, key="caution"))
        back = Button(_("Houses"), self.services.go_home, kind="primary", shortcut="Esc", key="closed/houses")
        column = Column([Scroll(Column(parts, gap=10), self.name), back], gap=12)
        return Pad(column, pad=24, column=True, name=self.name, key="closed")

    def _again(self) -> None:
        self.written = self.write()
        self.refresh()

    def _house(self, number: int) -> Widget:
        house = self.made.houses[number]
        mark = house.mark or {"score": 0, "outcome": "unfinished"}
        outcome = OUTCOME_NAMES[mark["outcome"]]
        text = _("{house}: {score} of 100. {outcome}.")
        if mark["outcome"] == "unfinished":  # a mark of what was left would say too much
            text = _("{house}: {outcome}.")
        title = parse_level(house.text, house.level).title
        line = text.format(house=title, score=mark["score"], outcome=outcome)
        look = Button(_("Look at {house}").format(house=title), partial(self._look, number), key=f"closed/{number}")
        lacks = len(missing_from(house))
        more = ngettext("{n} thing is missing.", "{n} things are missing.", lacks).format(n=lacks) if lacks else ""
        words = " ".join(filter(None, (line, more)))
        return Flow([Label(words, "body"), look], gap=10, key=f"closed/{number}/flow")

    def _look(self, number: int) -> None:
        """Look at one house, its findings and its replay; from there one comes back here, where the code stands."""
        from trainer.board.scenes.result import ResultScreen

        house = self.made.houses[number]
        session = session_of(house, self.made.mode)
        back = BackTo(_("Back to the sitting"), _("Sitting"), partial(self.services.show, self))
        self.services.show(
            ResultScreen(self.services, entry_of(session.level, house.text), session, self.made.head_code, back)
        )

    def first_focus(self) -> str:
        return "closed/houses"

    def key(self, event: pygame.event.Event) -> bool:
        if event.key == pygame.K_ESCAPE:
            self.services.go_home()
            return True
        return False
