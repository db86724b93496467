"""After the first truss: four questions that every roof asks, each thought about before its answer shows."""

from __future__ import annotations

from collections.abc import Callable

import pygame

from trainer.board.library import read_entry
from trainer.board.scenes.middle import Middle
from trainer.board.services import Services
from trainer.board.still_picture import Drawn, picture
from trainer.board.widgets import Button, Column, Flow, Label, Pad, Paragraph, Prose, Scroll, Widget, top_bar
from trainer.picture.first_look import hip_and_saddle
from trainer.session import Session
from trainer.shipped import find_level
from trainer.words import CAUTION, IN_SHORT, _

DRAWN_HOUSE = "wren"
"""The house whose finished roof shows a hip and a saddle."""
TALL, WORDS_TALL, LEAST_TALL = 300.0, 500.0, 120.0
"""Height of the picture, of all that is not the picture, and the least that it is drawn at, at 100 %, px."""
WORDS = "whys/scroll"
"""Key of what the words scroll in."""
ASKED = "whys/asked"
"""Whether they were asked since the start."""
FOOT = 10_000
"""Scrolled by so many px, the end of it shows."""
WHYS: tuple[tuple[str, str], ...] = (
    (
        _("Why is the first truss braced before it is let go?"),
        _("It stands on a thin edge, alone. Let go, it falls over. So it is braced to a wall or the floor."),
    ),
    (
        _("What makes a row of trusses fall?"),
        _("Trusses tied only to each other. One tips and takes them all. Something solid has to hold the row."),
    ),
    (
        _("What is a hip truss for?"),
        _("At a corner two slopes meet. The hip carries the short trusses there, and steadies the girder it ends on."),
    ),
    (
        _("Why does a saddle truss wait?"),
        _("It stands on other trusses and forms a valley. Those have to be straight, braced and fixed first."),
    ),
)  # fmt: skip
"""Each question with its answer. Common practice, no source."""


class FourWhys(Middle):
    """The questions one after the other over a picture of a hip and a saddle; ``then`` is what comes after them."""

    def __init__(self, services: Services, then: Callable[[], None]) -> None:
        super().__init__(services)
        self.name = _("Four questions first")
        self.then = then
        self.ui.memory[ASKED] = True
        self.answered = 0
        self._drawn: Drawn = ([], (0.0, 0.0, 1.0, 1.0))
        self._seen = False

    @property
    def over(self) -> bool:
        """Whether every answer shows."""
        return self.answered == len(WHYS)

    def tick(self, now_ms: int) -> None:
        """Draw the picture once the words are there: what draws it is slow to load."""
        if self._seen and not self._drawn[0]:
            level = read_entry(find_level(DRAWN_HOUSE)).level
            lesson = level.lesson.model_copy(update={"stages": ("hand-over",)})
            self._drawn = hip_and_saddle(Session(level.model_copy(update={"lesson": lesson}), 1).site)
            self.refresh("side")
        self._seen = True

    def side(self) -> Widget:
        lines: list[Paragraph] = []
        roomy = self.ui.look.roomy(self.size)
        shown = WHYS[: self.answered] if roomy else WHYS[max(0, self.answered - 1) : self.answered]
        for asked, answer in shown:
            lines += [Paragraph(asked, "strong", space=1), Paragraph(answer, space=8)]
        if not self.over:
            lines.append(Paragraph(WHYS[self.answered][0], "strong", "accent", space=1))
            lines.append(Paragraph(_("Say it to yourself. Then look."), space=8))
        lines.append(Paragraph(CAUTION if roomy else IN_SHORT, "small", "panel_faint", space=0))
        tall = max(LEAST_TALL, min(TALL, self.size[1] / self.ui.look.scale - WORDS_TALL))
        drawing = picture(self.ui, _("A finished roof, with a hip truss and a saddle named"), lambda: self._drawn, tall)
        name = _("Go on") if self.over else _("Show the answer")
        buttons = [Button(name, self.go_on, kind="primary", shortcut="Enter", key="whys/go on")]
        if not self.over:
            buttons.append(Button(_("Skip"), self.then, key="whys/skip"))
        heading = Label(_("Every roof asks these"), "heading", role="heading")
        text = Scroll(Column([heading, drawing, Prose(lines, key="whys/words")], gap=10), self.name, key=WORDS)
        column = Column([text, Flow(buttons, gap=10, key="whys/buttons")], gap=12)
        return Pad(column, pad=20, name=self.name, key="whys")

    def first_focus(self) -> str:
        return "whys/go on"

    def _bar(self) -> Widget:
        return top_bar(self.name, _("Houses"), self.services.go_home, self.services.help)

    def go_on(self) -> None:
        """Show the next answer; after the last, go where it was to lead."""
        if self.over:
            self.then()
        else:
            self.answered += 1
            self.ui.memory[WORDS] = FOOT  # where the text is large, what has just come is in sight
            self.refresh("side")

    def key(self, event: pygame.event.Event) -> bool:
        if event.key in {pygame.K_RETURN, pygame.K_KP_ENTER}:
            self.go_on()
        elif event.key == pygame.K_ESCAPE:
            self.services.go_home()
        else:
            return False
        return True
