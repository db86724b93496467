"""Which skill to drill on a house: two to five minutes each, in the order of the job."""

from __future__ import annotations

import pygame

from trainer.board.library import Entry
from trainer.board.scenes.drilling import drill_on
from trainer.board.scenes.middle import Middle
from trainer.board.services import Services
from trainer.board.widgets import Button, Column, Flow, Label, Listing, Pad, Row, Widget
from trainer.drill import drills
from trainer.words import _


class DrillChoice(Middle):
    """Choose a drill; it is made from the house of ``entry``."""

    def __init__(self, services: Services, entry: Entry) -> None:
        super().__init__(services)
        self.name = _("Drills")
        self.entry = entry
        self.kinds = {kind.name: kind for kind in drills()}
        self.chosen = next(iter(self.kinds))

    def side(self) -> Widget:
        rows = [Row(kind.name, kind.title, second=kind.skill) for kind in self.kinds.values()]
        listing = Listing(_("Which skill?"), rows, self.chosen, self.choose, key="drill/kinds", tall=True)
        house = _("A short drill on {title}. Nothing of it is recorded.").format(title=self.entry.level.title)
        begin = Button(_("Begin"), self.begin, kind="primary", shortcut="Enter", key="drill/begin")
        heading = Label(_("What would you like to drill?"), "title", role="heading")
        column = Column(
            [heading, listing, Label(house, "small", "panel_faint"), Flow([begin], key="drill/start")], gap=12
        )
        return Pad(column, pad=18, column=True, name=_("Drills"), key="drills")

    def first_focus(self) -> str:
        return "drill/kinds"

    def choose(self, kind: str) -> None:
        """Choose a kind of drill."""
        self.chosen = kind
        self.refresh()

    def begin(self) -> None:
        """Begin the drill that is chosen; where the house has nothing for it, that is said."""
        drill_on(self.services, self.entry.level, self.chosen)

    def key(self, event: pygame.event.Event) -> bool:
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        if event.key in {pygame.K_RETURN, pygame.K_KP_ENTER}:
            self.begin()
        elif event.key == pygame.K_ESCAPE:
            self.services.go_home()
        else:
            return False
        return True
