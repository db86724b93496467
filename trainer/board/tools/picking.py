"""Tools that take several standing trusses, one after the other."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from trainer.board.tools.panel import DO_IT, Screen
from trainer.board.tools.tool import A, TrussTool
from trainer.plan import Point
from trainer.words import _


@dataclass
class PickingTool(TrussTool[A]):
    """A tool that trusses are picked for; a second press leaves one out again."""

    looked_over: ClassVar[bool] = False
    """Whether two that were picked by keys wait for Enter, to be looked over."""

    picked: tuple[str, ...] = ()
    done_now: bool = False
    """Whether two were just done, so that an Enter more is a habit, and picks nothing."""

    @property
    def picks(self) -> bool:
        """Whether it wants several trusses."""
        return True

    @property
    def pair(self) -> bool:
        """Whether two are all it takes; else it goes on until the learner says that it is enough."""
        return True

    @property
    def picked_in_words(self) -> str:
        """The trusses picked so far."""
        return " – ".join(self.picked) or _("none yet")

    def take_up(self) -> None:
        self.picked = ()

    def pick(self, screen: Screen, tag: str) -> None:
        """Pick a standing truss, or leave it out again; do it once no more are wanted."""
        self.done_now = False
        if tag in self.picked:
            self.picked = tuple(t for t in self.picked if t != tag)
        else:
            self.picked = (*self.picked, tag)[-2:] if self.pair else (*self.picked, tag)
        if self.pair and len(self.picked) == 2:
            if self.looked_over and screen.by_keyboard:
                screen.say(_("Picked: {tags}. Press Enter if that is right.").format(tags=self.picked_in_words))
                screen.focus_on(DO_IT)
            else:
                screen.act()

    def take(self, screen: Screen, tag: str) -> None:
        if self.picks:
            self.pick(screen, tag)
        else:
            super().take(screen, tag)

    def press(self, screen: Screen, place: Point, tag: str) -> None:
        if self.picks and tag:
            self.pick(screen, tag)
        else:
            super().press(screen, place, tag)

    def enter(self, screen: Screen) -> None:
        if not self.picks:
            screen.act()
        elif self.done_now:
            self.done_now = False
            screen.say(_("Those two are done. Space picks the next two."))
        elif self.hand.stands:
            self.pick(screen, self.hand.truss)
        else:
            screen.say(self.wanting)

    @property
    def listed(self) -> str:
        return self.hand.truss or (self.picked[-1] if self.picks and self.picked else "")

    @property
    def ringed(self) -> frozenset[str]:
        return frozenset(self.picked) if self.picks else super().ringed

    @property
    def aimed_at(self) -> str:
        return " – ".join(self.picked) if self.picks else self.hand.truss

    def after(self, action: A) -> None:
        self.picked, self.done_now = (), self.pair
