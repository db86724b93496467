"""Fasten an end of a truss, or a place at which it crosses something."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from trainer.board.overlay import circle
from trainer.board.tools.panel import Screen, choice, choice_of, entry, faint, row
from trainer.board.tools.tool import TrussTool, Wanted
from trainer.board.widgets import Widget
from trainer.picture.as_built import end_sign
from trainer.picture.model import Item
from trainer.plan import Point
from trainer.session.hands import fix_along
from trainer.site.actions import Fix
from trainer.site.fastening import CONNECTORS
from trainer.site.load_path import SLOTTED
from trainer.site.model import Site
from trainer.site.spots import Spot, spots_of
from trainer.terms import thing
from trainer.words import _

BOTH_ENDS = 0
FIRST_CROSSING = 3
"""From this number on, ``where`` is one of the other places at which a truss can be fixed."""


@dataclass
class FixTool(TrussTool[Fix]):
    """``where`` is :data:`BOTH_ENDS`, 1 or 2, or from :data:`FIRST_CROSSING` on a crossing of the chosen truss."""

    key = "X"
    first_words = _("Choose a truss that stands, its end and the connector.")
    button = _("Fix it")
    only_standing = True
    routine = "fix along"
    one_or_all = (_("this one"), _("all along, with the same"))

    where: int = 1
    with_: str = CONNECTORS[0]
    count: int = 1
    half: bool = False
    """Whether half of the nail holes are left empty."""

    def take_up(self) -> None:
        if self.where >= FIRST_CROSSING:
            self.where = 1

    @property
    def crossings(self) -> tuple[Spot, ...]:
        """The other places at which the chosen truss can be fixed."""
        return spots_of(self.site, self.hand.truss)

    def actions(self) -> Wanted:
        if not self.hand.stands:
            return _("Choose a standing truss to fix.")
        if self.where >= FIRST_CROSSING:
            if not self.crossings:
                return _("It crosses nothing. Choose an end.")
            spot = self.crossings[(self.where - FIRST_CROSSING) % len(self.crossings)]
            return self._along([self._fix(at=spot.at)])
        return self._along([self._fix(end=n) for n in self._ends])

    def _along(self, fixings: list[Fix]) -> list[Fix]:
        """Return the same all along what each bears on or crosses, where that is done in one go."""
        if not self.in_one_go:
            return fixings
        return list(dict.fromkeys(fix for one in fixings for fix in fix_along(self.site, one)))

    def _fix(self, *, end: Literal[1, 2] | None = None, at: Point | None = None) -> Fix:
        nails: Literal["half"] | None = "half" if self.half else None
        return Fix(tag=self.hand.truss, end=end, at=at, with_=self.with_, count=self.count, nails=nails)

    @property
    def _ends(self) -> tuple[Literal[1, 2], ...]:
        return (1, 2) if self.where == BOTH_ENDS else (1,) if self.where == 1 else (2,)

    def aim_at(self, action: Fix) -> str:
        trouble = super().aim_at(action)
        self.half = action.nails == "half"
        self.where = action.end or self._nearest(action.at, self._crossing_places)
        return trouble

    @property
    def title(self) -> str:
        return _("Fix {tag}").format(tag=self.hand.truss) if self.hand.stands else _("Fix an end")

    def controls(self, screen: Screen) -> list[Widget]:
        wheres = [_("both ends"), _("end 1"), _("end 2"), *(f"{n}: {s.words}" for n, s in enumerate(self.crossings, 1))]
        where = choice(
            screen, _("Which"), wheres, self.where % len(wheres), lambda i: setattr(self, "where", i), key="where",
            shortcut="E",
        )  # fmt: skip
        with_ = choice_of(screen, _("With"), self, "with_", CONNECTORS)
        count = entry(screen, _("How many"), self.count, self._put_count, key="panel/count", nudge=1.0, unit="")
        nails = choice(
            screen, _("Nail holes"), [_("all filled"), _("half filled")], int(self.half),
            lambda i: setattr(self, "half", i == 1), key="half", shortcut="W",
        )  # fmt: skip
        advice = faint(_("Choose a standing truss in the list, or press on an end on the plan."))
        return [*([] if self.hand.stands else [advice]), row(with_, where, count, nails, *self.go_choice(screen))]

    def _put_count(self, number: float) -> None:
        self.count = max(1, min(20, round(number)))

    # on the plan

    def press_truss(self, place: Point, tag: str) -> None:
        """A press means the nearer end, or the nearest crossing where crossings are fixed; a slotted bracket goes over
        an inside wall.
        """
        super().press_truss(place, tag)
        stood = self.site.stood[tag]
        slotted = {n: spot.at for n, spot in enumerate(self.crossings, FIRST_CROSSING) if not spot.other}
        crossings = slotted if self.with_ == SLOTTED else self._crossing_places if self.where >= FIRST_CROSSING else {}
        self.where = self._nearest(place, crossings or {1: stood.start, 2: stood.finish})

    @property
    def _crossing_places(self) -> dict[int, Point]:
        return {n: spot.at for n, spot in enumerate(self.crossings, FIRST_CROSSING)}

    @staticmethod
    def _nearest(place: Point | None, places: dict[int, Point]) -> int:
        if place is None:
            return FIRST_CROSSING
        return min(places, key=lambda number: math.dist(places[number], place), default=FIRST_CROSSING)

    def drawn(self, hovered: str) -> list[Item]:
        rings = super().drawn(hovered)
        if not self.hand.stands:
            return rings
        stood = self.site.stood[self.hand.truss]
        if self.where >= FIRST_CROSSING:
            fixed = [at for n, at in self._crossing_places.items() if n == self.where]
        else:
            fixed = [end_sign(stood, n) for n in self._ends]
        return [*rings, *(circle(at, 110, 3.0) for at in fixed)]

    @classmethod
    def detail(cls, action: Fix, site: Site) -> str:
        count = f"{action.count} × " if action.count > 1 else ""
        half = _("half its nails") if action.nails == "half" else ""
        return ", ".join(filter(None, (_where(action, site), count + thing(action.with_), half)))


def _where(action: Fix, site: Site) -> str:
    """Which truss or wall is crossed where a fixing is at no end; nothing where it is at one."""
    at = action.at
    if at is None:
        return ""
    near = min(spots_of(site, action.tag), key=lambda spot: math.dist(spot.at, at), default=None)
    if near is None:
        return ""
    return _("at {tag}").format(tag=near.other) if near.other else near.words
