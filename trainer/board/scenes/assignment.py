"""What a house is built for: by itself, as a drill, in a sitting; who records it, and what comes after it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from trainer.board.scenes.asking import show_message
from trainer.words import _

if TYPE_CHECKING:
    from trainer.board.back_to import BackTo
    from trainer.board.library import HouseEntry
    from trainer.board.services import Services
    from trainer.order import Step
    from trainer.records.seat import OpenAttempt
    from trainer.session import ActionResult, Session
    from trainer.site.actions import AnyAction

NOT_KEPT = _("You can go on, but nothing you do is recorded.")


class Assignment:
    """Records what is done on the house that is being built, and knows what comes after it."""

    back = _("Houses")
    """What the way back is called: where somebody comes who leaves."""
    handed_over_by_hand = True
    """Whether the learner says when it is done; else it ends by itself."""

    def do(self, actions: Sequence[AnyAction]) -> tuple[ActionResult, ...]:
        """Do what one hand does in one go; it is on the disk when this returns.

        :raises RecordsError: in words for the learner, and then nothing of it was done.
        """
        raise NotImplementedError

    def handed_over(self, services: Services, entry: HouseEntry, session: Session) -> None:
        """Go on after the hand-over."""

    def status(self) -> str:
        """What stands beside the title while it is built, such as the time that is left."""
        return ""

    def beat(self) -> None:
        """Note that the program is still there, where that is on record."""

    def asks_for(self, step: Step) -> bool:
        """Whether this step is part of what is to be done here, so that a hint may name it."""
        return True

    def before_leaving(self) -> str:
        """What to say to somebody who leaves in the middle; nothing where there is nothing to be asked."""
        return ""

    def left(self, services: Services) -> None:
        """Go where somebody comes who leaves in the middle."""
        services.go_home()


class OneHouse(Assignment):
    """A house by itself; ``attempt`` is None where nothing is recorded."""

    back_from_result: BackTo | None = None
    """Where somebody comes who has seen what came of it; to the houses where nothing is said."""

    def __init__(self, session: Session, attempt: OpenAttempt | None) -> None:
        self.session = session
        self.attempt = attempt

    def do(self, actions: Sequence[AnyAction]) -> tuple[ActionResult, ...]:
        """Do what one hand does in one go."""
        return self.session.do_in_one_go(actions)

    def before_leaving(self) -> str:
        """What becomes of it."""
        if self.attempt is None:
            return _("What you have done here is not handed over, and it is not recorded. It will be lost.")
        return _("What you have done here is not handed over. It is kept: you can go on with it later.")

    def handed_over(self, services: Services, entry: HouseEntry, session: Session) -> None:
        """Close the attempt and show what came of it."""
        from trainer.records.errors import RecordsError

        code, trouble = "", ""
        if self.attempt is not None:
            try:
                code = self.attempt.finish().head_code
            except RecordsError as error:
                trouble = str(error)
        services.go_result(entry, session, code, self.back_from_result)
        if trouble:
            show_message(services, _("The attempt is not closed"), [trouble])
