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
TALLEST, LEAST_TALL = 420.0, 120.0
"""The most and the least height of the picture at 100 %, px; between them it has all the room that words leave."""
PAD, GAP = 20, 10
"""Room round the column and between what stands in it, at 100 %, px."""
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
        self.number = 0
        self.shown = False
        """Whether the answer to the question of this ``number`` shows."""
        self._drawn: Drawn = ([], (0.0, 0.0, 1.0, 1.0))
        self._seen = False

    @property
    def over(self) -> bool:
        """Whether the last answer shows."""
        return self.shown and self.number == len(WHYS) - 1

    def tick(self, now_ms: int) -> None:
        """Draw the picture once the words are there: what draws it is slow to load."""
        if self._seen and not self._drawn[0]:
            level = read_entry(find_level(DRAWN_HOUSE)).level
            lesson = level.lesson.model_copy(update={"stages": ("hand-over",)})
            self._drawn = hip_and_saddle(Session(level.model_copy(update={"lesson": lesson}), 1).site)
            self.refresh("side")
        self._seen = True

    def side(self) -> Widget:
        ui, room = self.ui, self.places(self.size)["side"]
        heading = Label(_("Every roof asks these"), "heading", role="heading")
        name = _("Go on") if self.over else _("Next question") if self.shown else _("Show the answer")
        buttons = [Button(name, self.go_on, kind="primary", shortcut="Enter", key="whys/go on")]
        if not self.over:
            buttons.append(Button(_("Skip"), self.then, key="whys/skip"))
        does = Flow(buttons, gap=10, key="whys/buttons")
        wide = room.width - 2 * ui.look.px(PAD)
        # The picture is as large for each question: nothing moves when an answer comes.
        words = max(self._words(number, shown=True).high(ui, wide) for number in range(len(WHYS)))
        rest = heading.high(ui, wide) + does.high(ui, wide) + 2 * ui.look.px(PAD) + 3 * ui.look.px(GAP)
        tall = max(LEAST_TALL, min(TALLEST, (room.height - words - rest) / ui.look.scale))
        drawing = picture(ui, _("A finished roof, with a hip truss and a saddle named"), lambda: self._drawn, tall)
        text = Scroll(
            Column([heading, drawing, self._words(self.number, shown=self.shown)], gap=GAP), self.name, key=WORDS
        )
        return Pad(Column([text, does], gap=GAP), pad=PAD, name=self.name, key="whys")

    def _words(self, number: int, *, shown: bool) -> Prose:
        """Return a question and, once it is shown, its answer; where there is room under those before it."""
        roomy = self.ui.look.roomy(self.size)
        lines: list[Paragraph] = []
        for asked, answer in WHYS[:number] if roomy else ():
            lines += [Paragraph(asked, "strong", space=1), Paragraph(answer, space=8)]
        asked, answer = WHYS[number]
        lines.append(Paragraph(asked, "strong", "accent", space=1))
        lines.append(Paragraph(answer if shown else _("Say it to yourself. Then look."), space=8))
        lines.append(Paragraph(CAUTION if roomy else IN_SHORT, "small", "panel_faint", space=0))
        return Prose(lines, key="whys/words")

    def first_focus(self) -> str:
        return "whys/go on"

    def _bar(self) -> Widget:
        return top_bar(self.name, _("Houses"), self.services.go_home, self.services.help)

    def go_on(self) -> None:
        """Show the answer, then ask the next question; after the last answer, go where it was to lead."""
        if self.over:
            self.then()
            return
        self.number, self.shown = self.number + int(self.shown), not self.shown
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
