"""A whole house of the course while a part of it is built: it says when a safe point is come to."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from trainer.board.scenes.asking import ask_which
from trainer.board.scenes.assignment import OneHouse
from trainer.board.today import reached, safe
from trainer.words import _

if TYPE_CHECKING:
    from trainer.board.back_to import BackTo
    from trainer.board.library import HouseEntry
    from trainer.board.services import Services
    from trainer.course import Build
    from trainer.records.seat import OpenAttempt
    from trainer.session import ActionResult, Session
    from trainer.site.actions import AnyAction


class TodaysHouse(OneHouse):
    """One part of a house. Its end is the first moment after it at which all that stands is held."""

    back = _("Today's work")

    def __init__(
        self, session: Session, attempt: OpenAttempt | None, services: Services, part: Build, back: BackTo,
        done: Callable[[], None],
    ) -> None:  # fmt: skip
        """Build a ``part``; ``done`` is called at its end, and ``back`` leads to today."""
        super().__init__(session, attempt)
        self._services, self._part, self._done = services, part, done
        self.back_from_result = self._way = back
        self._steps = len(session.site.job.order.steps)
        self.at_safe_point = False

    def do(self, actions: Sequence[AnyAction]) -> tuple[ActionResult, ...]:
        """Do what one hand does in one go; say so when today's part of the house is done."""
        outcomes = super().do(actions)
        wanted = self._part.number < self._part.parts and not self.at_safe_point
        if wanted and reached(self._part, len(self.session.outcomes), self._steps) and safe(self.session.site):
            self.at_safe_point = True
            lines = [
                _("All that stands is held. That is a good place to stop."),
                _("It is kept as it is: Today's work leads back to it."),
            ]
            self._done()
            options = ((self._way.name, self._way.go), (_("Keep building"), None))
            ask_which(self._services, _("A safe point"), lines, options)
        return outcomes

    def handed_over(self, services: Services, entry: HouseEntry, session: Session) -> None:
        """Show what came of it, and lead back to today."""
        self._done()
        super().handed_over(services, entry, session)

    def before_leaving(self) -> str:
        """Nothing is lost where it is kept."""
        return "" if self.attempt is not None else super().before_leaving()

    def left(self, services: Services) -> None:
        """Go back to today."""
        self._way.go()
