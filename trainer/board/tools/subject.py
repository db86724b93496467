"""Tools that say something of a wall, a truss or a place on the plan, as what is said has it; or of the whole site."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any, Literal

from trainer.board.aim import nearest_wall
from trainer.board.overlay import cross, frame_of_wall
from trainer.board.tools.panel import MEASURE, Screen, choice_of, chosen, entry, faint, row, wall_names
from trainer.board.tools.tool import A, TrussTool
from trainer.board.widgets import Widget
from trainer.picture.dangers import DangerSpot, spots
from trainer.picture.model import Item
from trainer.plan import Point
from trainer.site.model import Site, Stood
from trainer.words import _

Subject = Literal["wall", "tag", "at", ""]
"""What an action is of: a wall, a truss, a place on the plan, or nothing in particular; by its key in the action."""
MEANT = 900.0
"""A danger is meant by whoever presses this near to it on the plan, mm: about as far as its shape reaches."""
WHOLE = 10.0
"""A place that nothing catches is taken to so many mm."""


def spot_near(site: Site, place: Point) -> DangerSpot | None:
    """Return the danger that is meant at a place of the plan, if any."""
    near = [spot for spot in spots(site) if math.dist(spot.place, place) <= MEANT]
    return min(near, key=lambda spot: math.dist(spot.place, place), default=None)


@dataclass
class SubjectTool(TrussTool[A]):
    """A tool whose subject depends on what is read or said; the hand has the wall, the truss and the place."""

    @property
    def subject(self) -> Subject:
        """What it is of."""
        raise NotImplementedError

    @property
    def subject_of(self) -> dict[str, Any]:
        """The wall, truss or place that it is aimed at, as an action names it."""
        hand = self.hand
        aims: dict[Subject, Any] = {"wall": hand.wall, "tag": hand.truss, "at": hand.point}
        return {self.subject: aims[self.subject]} if self.subject else {}

    def aim_at(self, action: A) -> str:
        self.hand.point = getattr(action, "at", None) or self.hand.point
        return super().aim_at(action)

    def aim_controls(self, screen: Screen, *, standing: bool) -> list[Widget]:
        """Return the controls or the line for what it is aimed at."""
        if self.subject == "wall":
            return [choice_of(screen, _("Wall"), self.hand, "wall", wall_names(self.hand), shortcut="W")]
        if self.subject == "tag":
            return [chosen(self.hand, standing=standing)]
        if self.subject == "at":
            return [
                faint(_("Press on the place, or type it: across and up the plan from the corner of wall A.")),
                row(
                    self._entry(screen, _("Across"), 0, MEASURE),
                    self._entry(screen, _("Up"), 1, "panel/up"),
                ),
            ]
        return []

    def _entry(self, screen: Screen, name: str, axis: Literal[0, 1], key: str) -> Widget:
        x, y = self.hand.point

        def put(number: float) -> None:
            self.hand.point = (number, y) if axis == 0 else (x, number)

        return entry(screen, name, self.hand.point[axis], put, key=key)

    # on the plan

    def _hold_at(self, place: Point) -> None:
        """Aim at the wall or the place that is pointed at; a danger that is drawn there catches."""
        if self.subject == "wall":
            self.hand.wall = nearest_wall(self.hand.plan, place).name
        elif self.subject == "at":
            spot = spot_near(self.site, place)
            x, y = spot.place if spot else (round(value / WHOLE) * WHOLE for value in place)
            self.hand.point, self.hand.caught = (x, y), spot.word if spot else ""

    def point_at(self, place: Point, truss: Stood | None, mm_per_px: float) -> None:
        if self.at_once:
            self._hold_at(place)

    def press(self, screen: Screen, place: Point, tag: str) -> None:
        if self.subject == "tag":
            super().press(screen, place, tag)
            return
        self._hold_at(place)
        if self.at_once and self.subject:
            screen.act()

    def move(self, screen: Screen, across: int, up: int, step: float) -> None:
        if self.subject == "tag":
            super().move(screen, across, up, step)
        elif self.subject == "at":
            self.hand.caught = ""
            self.hand.point = (self.hand.point[0] + across * step, self.hand.point[1] + up * step)

    def next_catch(self) -> bool:
        """Go on to the next danger that is drawn on the plan."""
        found = sorted(spots(self.site), key=lambda spot: spot.place) if self.subject == "at" else []
        if found:
            spot = next((spot for spot in found if spot.place > self.hand.point), found[0])
            self.hand.point, self.hand.caught = spot.place, spot.word
        return bool(found)

    def drawn(self, hovered: str) -> list[Item]:
        if self.subject == "wall":
            return frame_of_wall(self.hand.wall, self.site)
        if self.subject == "at":
            return cross(self.hand.point, self.hand.caught)
        return super().drawn(hovered) if self.subject else []

    @property
    def aimed_at(self) -> str:
        if self.subject == "wall":
            return _("wall {wall}").format(wall=self.hand.wall)
        x, y = self.hand.point
        return f"{x:g}, {y:g}" if self.subject == "at" else self.hand.truss if self.subject else ""

    def ghost(self, action: Any) -> list[Item]:
        if action.wall:
            return frame_of_wall(action.wall, self.site, "ghost")
        return cross(action.at, "", "ghost") if action.at else super().ghost(action)
