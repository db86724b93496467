"""Before the first truss: what a finished roof looks like, and what one truss is made of, in two pictures."""

from __future__ import annotations

from functools import partial

import pygame

from trainer.board.library import read_entry
from trainer.board.path import FIRST_HOUSE
from trainer.board.scenes.first_truss import FirstTruss
from trainer.board.scenes.middle import Middle
from trainer.board.services import Services
from trainer.board.still_picture import Drawn, picture
from trainer.board.widgets import (
    Button,
    Column,
    Flow,
    Label,
    Pad,
    Paragraph,
    Prose,
    Scroll,
    Widget,
    top_bar,
)
from trainer.picture.first_look import finished_roof, named_truss
from trainer.picture.solids import Stander
from trainer.session import Session
from trainer.shipped import find_level
from trainer.words import INVENTED, _

ROOF_TALL, TRUSS_TALL = 260.0, 190.0
"""Height of the two pictures at 100 %, px, where there is room."""
WORDS_TALL, LEAST_TALL = 345.0, 148.0
"""Height of all that is not a picture, and the least height of pictures beside each other, at 100 %, px."""

MANY_PX, LARGE_ENOUGH = (2400, 1350), 1.5
"""A desktop of so many px is offered larger text at the first start, up to this size."""
SMALLEST = 0.85
"""Pictures that would have to be smaller than this part of their height go beside each other."""


class FirstLook(Middle):
    """Two pictures with a few sentences, and the way on to the first truss."""

    def __init__(self, services: Services) -> None:
        super().__init__(services)
        self.name = _("What you will build")
        self.entry = read_entry(find_level(FIRST_HOUSE))
        self._roof: Drawn = ([], (0.0, 0.0, 1.0, 1.0))
        self._truss: Drawn = self._roof
        self._seen = False

    def tick(self, now_ms: int) -> None:
        """Draw the pictures once the words are there: what draws them is slow to load."""
        if self._seen and not self._roof[0]:
            lesson = self.entry.level.lesson.model_copy(update={"stages": ("hand-over",)})
            site = Session(self.entry.level.model_copy(update={"lesson": lesson}), 1).site
            member = next(m for m in site.layout.members if m.kind == "standard")
            self._roof = finished_roof(site, member)
            self._truss = named_truss(Stander(site.layout).framed(member))
            self.refresh("side")
        self._seen = True

    def side(self) -> Widget:
        parts: list[Widget] = [
            Label(_("A roof is a row of trusses"), "heading", role="heading"),
            Prose(
                [
                    Paragraph(
                        _(
                            "The walls carry a top plate. Trusses stand on the plates, one after the other. "
                            "A station is where one stands: its distance from the end of the wall."
                        )
                    )
                ],
                key="first/roof words",
            ),
            *self._pictures(),
            Prose([Paragraph(INVENTED, "small", "panel_faint", space=0)], key="invented"),
        ]
        does = [
            Button(_("Stand your first truss"), self.go_on, kind="primary", shortcut="Enter", key="first/go on"),
            Button(_("Skip"), self.skip, shortcut="Esc", key="first/skip"),
        ]
        if self._text_may_be_small:
            larger = partial(self.services.comfort.text_size, 1)
            does.append(Button(_("Larger text"), larger, shortcut="Ctrl +", key="first/larger"))
        buttons = Flow(does, gap=10, key="first/buttons")
        text = Scroll(Column(parts, gap=10), self.name)
        return Pad(Column([text, buttons], gap=12), pad=20, name=self.name, key="first")

    @property
    def _text_may_be_small(self) -> bool:
        """Whether this is the first start on a screen with so many px that usual text is small on it."""
        settings, (wide, high) = self.services.comfort.settings, pygame.display.get_desktop_sizes()[0]
        return not settings.shown and settings.scale < LARGE_ENOUGH and wide >= MANY_PX[0] and high >= MANY_PX[1]

    def _pictures(self) -> list[Widget]:
        """Both pictures whole: under each other, or beside each other where the text leaves no room for that."""
        room = self.size[1] / self.ui.look.scale - WORDS_TALL
        share = min(1.0, room / (ROOF_TALL + TRUSS_TALL))
        beside = share < SMALLEST
        tall = max(LEAST_TALL, min(room, ROOF_TALL))
        talls = (tall, tall) if beside else (share * ROOF_TALL, share * TRUSS_TALL)
        roof = picture(self.ui, _("The finished roof, with plate and station named"), lambda: self._roof, talls[0])
        truss = picture(self.ui, _("One truss from the side, its parts named"), lambda: self._truss, talls[1])
        words = Prose(
            [Paragraph(_("This is one truss from the side. It comes ready made. It is never cut."))],
            key="first/truss words",
        )
        return [Flow([roof, truss], fill=True, key="first/pictures"), words] if beside else [roof, words, truss]

    def first_focus(self) -> str:
        return "first/go on"

    def _bar(self) -> Widget:
        return top_bar(self.name, _("Houses"), self.skip, self.services.help)

    def go_on(self) -> None:
        """Go to the first truss."""
        self.services.show(FirstTruss(self.services))

    def skip(self) -> None:
        """Leave it for the houses."""
        if not self.services.comfort.settings.shown:
            self.services.comfort.remember(shown=True)
        self.services.go_home()

    def key(self, event: pygame.event.Event) -> bool:
        if event.key in {pygame.K_RETURN, pygame.K_KP_ENTER}:
            self.go_on()
        elif event.key == pygame.K_ESCAPE:
            self.skip()
        else:
            return False
        return True
