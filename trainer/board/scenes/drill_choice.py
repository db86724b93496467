"""Which skill to drill on a house: two to five minutes each, in the order of the job."""

from __future__ import annotations

import pygame

from trainer.board.back_to import BackTo
from trainer.board.library import HouseEntry
from trainer.board.scenes.drilling import drill_on
from trainer.board.scenes.middle import Middle
from trainer.board.services import Services
from trainer.board.widgets import Button, Column, Flow, Label, Listing, Pad, Row, Widget
from trainer.drill import drills
from trainer.records.drills import done_right
from trainer.records.errors import RecordsError
from trainer.words import _

DONE = {True: _("done right"), False: _("tried")}


class DrillChoice(Middle):
    """Choose a drill; it is made from the house of ``entry``."""

    def __init__(self, services: Services, entry: HouseEntry, chosen: str = "") -> None:
        super().__init__(services)
        self.name = _("Drills")
        self.entry = entry
        self.kinds = {kind.name: kind for kind in drills()}
        self.chosen = chosen or next(iter(self.kinds))
        self.done = self._done()

    def _done(self) -> dict[str, bool]:
        """The kinds done on this house before, and whether one of each was all right."""
        seat = self.services.records.seat()
        try:
            return done_right(seat.store, seat.code).get(self.entry.id, {}) if seat is not None else {}
        except RecordsError as error:
            self.services.records.trouble = str(error)
            return {}

    def side(self) -> Widget:
        rows = [
            Row(
                kind.name, kind.title, second=kind.skill, picture="good" if self.done.get(kind.name) else "open",
                detail=DONE[self.done[kind.name]] if kind.name in self.done else "",
            )
            for kind in self.kinds.values()
        ]  # fmt: skip
        listing = Listing(_("Which skill?"), rows, self.chosen, self.choose, key="drill/kinds", tall=True)
        house = _("A short drill on {title}. How it went is recorded when it is done.")
        house = house.format(title=self.entry.level.title)
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
        back = BackTo(_("Back to the drills"), _("Drills"), self._come_back)
        drill_on(self.services, self.entry.level, self.chosen, back)

    def _come_back(self) -> None:
        self.services.show(DrillChoice(self.services, self.entry, self.chosen))

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
