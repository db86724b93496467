"""Fit a part to a truss, or a set of parts to a gable truss."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.board.overlay import tape_along_truss
from trainer.board.tools.along import caught_on_truss, following, places_on, within
from trainer.board.tools.panel import MEASURE, Screen, choice, choice_of, entry, faint, row
from trainer.board.tools.tool import TrussTool, Wanted
from trainer.board.widgets import Widget
from trainer.order.verge import ON_DUTCH
from trainer.picture.measures import figure
from trainer.picture.model import Item
from trainer.plan import Point
from trainer.site.actions import LEAST_EVERY, Fit
from trainer.site.fastening import BRACKETS, FRAMING
from trainer.site.model import Site, Stood
from trainer.terms import thing
from trainer.words import _

PARTS = (*BRACKETS, *FRAMING)
WHOLE = frozenset({"batten", "plies joined", "verge rafter", *ON_DUTCH})
"""Parts that go on a truss as a whole."""
SPACED = frozenset({"outrigger", "gable stud"})
"""Parts that go on a gable truss as a set, so many mm apart."""


@dataclass
class FitTool(TrussTool[Fit]):
    """``on`` is the truss that will carry, ``at`` mm along it; a set goes ``every`` so many mm and runs ``back``."""

    key = "F"
    first_words = _("Choose the truss that will carry, then where the part goes.")
    button = _("Fit it")

    part: str = PARTS[0]
    on: str = ""
    at: float = 0.0
    by_place: bool = False
    """Whether a part that may go on a truss as a whole is fitted at a place."""
    every: float = 0.0
    back: float = 0.0

    @property
    def placed(self) -> bool:
        """Whether the part goes at a place along its truss."""
        return self.part in BRACKETS or (self.part not in WHOLE and self.by_place)

    def take_up(self) -> None:
        self.on = self.hand.truss

    def choose(self, tag: str) -> None:
        super().choose(tag)
        self.on = tag

    def take(self, screen: Screen, tag: str) -> None:
        if screen.by_keyboard:
            screen.focus_on(MEASURE) if self.placed else screen.act()

    def actions(self) -> Wanted:
        if not self.on:
            return _("Choose the truss that the part goes on.")
        if self.placed or self.part not in SPACED:
            return [Fit(part=self.part, on=self.on, at=self.at if self.placed else None)]
        outrigger = self.part == "outrigger"
        if self.every < LEAST_EVERY or (outrigger and self.back <= 0):
            return _("Type how far apart they go, and how far outriggers run back.")
        return [Fit(part=self.part, on=self.on, every=self.every, back=self.back if outrigger else None)]

    def aim_at(self, action: Fit) -> str:
        self.by_place = action.at is not None
        return super().aim_at(action)

    @property
    def title(self) -> str:
        return _("Fit on {tag}").format(tag=self.on) if self.on else _("Fit a part")

    @property
    def has_button(self) -> bool:
        return bool(self.on)

    def controls(self, screen: Screen) -> list[Widget]:
        part = choice_of(screen, _("Part"), self, "part", PARTS)
        if not self.on:
            return [faint(_("Choose the truss that will carry: in a list, or on the plan.")), part]
        controls: list[Widget] = [part]
        if self.part not in BRACKETS and self.part not in WHOLE:
            options = [_("on it as a whole"), _("at a place")]
            controls.append(
                choice(
                    screen, _("Where"), options, int(self.by_place), lambda i: setattr(self, "by_place", bool(i)),
                    key="by place",
                )
            )  # fmt: skip
        if self.placed:
            controls.append(entry(screen, _("From its end 1"), self.at, lambda at: setattr(self, "at", at)))
        elif self.part in SPACED:
            controls += self._set_controls(screen)
        return [row(*controls)]

    def _set_controls(self, screen: Screen) -> list[Widget]:
        """Return what a set of parts wants typed."""
        every: list[Widget] = [
            entry(
                screen, _("One every"), self.every, lambda mm: setattr(self, "every", mm), key="panel/every", nudge=50.0
            )
        ]
        if self.part != "outrigger":
            return every
        back = entry(
            screen, _("Run back"), self.back, lambda mm: setattr(self, "back", mm), key="panel/back", nudge=50.0
        )
        return [*every, back]

    # on the plan

    def point_at(self, place: Point, truss: Stood | None, mm_per_px: float) -> None:
        if truss is not None:
            self.at = caught_on_truss(self.hand, truss, place, mm_per_px)
            self.on = truss.tag

    def press_truss(self, place: Point, tag: str) -> None:
        super().press_truss(place, tag)
        self.by_place = True

    def move(self, screen: Screen, across: int, up: int, step: float) -> None:
        if up:
            super().move(screen, across, up, step)
        elif self.on:
            self.hand.caught = ""
            self.at = within(self.hand, self.on, self.at + across * step)

    def next_catch(self) -> bool:
        places = places_on(self.hand, self.on)
        if places:
            self.at = following(self.hand, places, self.at)
        return bool(places)

    def drawn(self, hovered: str) -> list[Item]:
        return tape_along_truss(self.site, self.on, self.at, self.hand.caught)

    @property
    def aimed_at(self) -> str:
        return f"{self.on} {figure(self.at)} mm" if self.on else ""

    def ghost(self, action: Fit) -> list[Item]:
        return tape_along_truss(self.site, action.on, action.at or 0.0, "")

    @classmethod
    def detail(cls, action: Fit, site: Site) -> str:
        return thing(action.part)
