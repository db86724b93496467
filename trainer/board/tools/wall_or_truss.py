"""Tools that say something of a wall or of a truss, as what is said has it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, get_args

from trainer.board.aim import nearest_wall
from trainer.board.overlay import frame_of_wall
from trainer.board.tools.panel import Screen, choice_of, chosen, wall_names
from trainer.board.tools.tool import A, TrussTool
from trainer.board.widgets import Widget
from trainer.level.as_found import WallFault
from trainer.picture.model import Item
from trainer.plan import Point
from trainer.site.actions import WallReading
from trainer.site.model import Stood
from trainer.words import _


@dataclass
class WallOrTrussTool(TrussTool[A]):
    """A tool whose subject, a reading or a fault, is either of a wall or of a truss."""

    @property
    def subject(self) -> str:
        """What is read or said."""
        raise NotImplementedError

    @property
    def of_wall(self) -> bool:
        """Whether that is of a wall."""
        return self.subject in get_args(WallReading) or self.subject in get_args(WallFault)

    @property
    def subject_of(self) -> dict[str, str]:
        """The wall or the truss that it is aimed at, as an action names it."""
        return {"wall": self.hand.wall} if self.of_wall else {"tag": self.hand.truss}

    def aim_control(self, screen: Screen, *, standing: bool) -> Widget:
        """Return the control or the line for what it is aimed at."""
        if self.of_wall:
            return choice_of(screen, _("Wall"), self.hand, "wall", wall_names(self.hand), shortcut="W")
        return chosen(self.hand, standing=standing)

    def point_at(self, place: Point, truss: Stood | None, mm_per_px: float) -> None:
        if self.of_wall:
            self.hand.wall = nearest_wall(self.hand.plan, place).name

    def press(self, screen: Screen, place: Point, tag: str) -> None:
        if not self.of_wall:
            super().press(screen, place, tag)
        elif self.at_once:
            screen.act()

    def move(self, screen: Screen, across: int, up: int, step: float) -> None:
        if not self.of_wall:
            super().move(screen, across, up, step)

    def drawn(self, hovered: str) -> list[Item]:
        return frame_of_wall(self.hand.wall, self.site) if self.of_wall else super().drawn(hovered)

    @property
    def aimed_at(self) -> str:
        return _("wall {wall}").format(wall=self.hand.wall) if self.of_wall else self.hand.truss

    def ghost(self, action: Any) -> list[Item]:
        return frame_of_wall(action.wall, self.site, "ghost") if action.wall else super().ghost(action)
