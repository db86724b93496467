"""Looking back at what was built before: which attempt at a house, and what came of it."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import TYPE_CHECKING

from trainer.board.scenes.asking import show_message
from trainer.board.when import moment
from trainer.board.widgets import Button, Flow, Listing, Row, Widget, dialog
from trainer.terms import OUTCOME_NAMES
from trainer.words import _

if TYPE_CHECKING:
    from trainer.board.services import Services
    from trainer.records.progress import PastHouse


def look_back_at(services: Services, past: Sequence[PastHouse]) -> None:
    """Show what came of an attempt; where there are several at the house, ask which, the latest first."""
    if len(past) == 1:
        _open(services, past[0])
    elif past:
        services.ask(_PastChoosing(services, past).dialog)


class _PastChoosing:
    """Which of the attempts is chosen."""

    def __init__(self, services: Services, past: Sequence[PastHouse]) -> None:
        self.services = services
        self.past = past
        self.chosen = "0"
        self._came_of_it = cache(self._in_words)

    def choose(self, key: str) -> None:
        self.chosen = key

    def take(self, key: str) -> None:
        self.services.close()
        _open(self.services, self.past[int(key)])

    def _in_words(self, past: PastHouse) -> str:
        """Say what came of one attempt, with what its roof was handed over without."""
        outcome = OUTCOME_NAMES["unfinished" if past.left else "met" if past.outcome == "met" else "not yet met"]
        if past.left:
            return outcome
        said = _("{score} of 100. {outcome}.").format(score=past.score, outcome=outcome)
        return " ".join((said, *_missing(self.services, past)))

    def dialog(self) -> Widget:
        rows = [
            Row(str(n), moment(each.ended), second=self._came_of_it(each), picture="begun" if each.left else "good")
            for n, each in enumerate(self.past)
        ]
        listing = Listing(
            _("Which attempt?"), rows, self.chosen, self.choose, take=self.take, key="past/list", tall=True,
            show=min(5, len(rows)),
        )  # fmt: skip
        buttons = Flow(
            [
                Button(_("Look back"), lambda: self.take(self.chosen), kind="primary", key="past/open"),
                Button(_("Close"), self.services.close, shortcut="Esc", key="past/close"),
            ],
            key="past/buttons",
        )
        head = _("Look back at which attempt?")
        return dialog(_("Look back"), [listing, buttons], head=head, first="past/list")


def _missing(services: Services, past: PastHouse) -> tuple[str, ...]:
    """Return what the roof of one attempt was handed over without, as the records have it."""
    from trainer.records.errors import RecordsError
    from trainer.report.found_content import missing_in_words

    seat = services.records.seat()
    if seat is None or past.outcome == "met":
        return ()
    try:
        attempt = next(iter(seat.store.attempts(past.attempt)))
        return missing_in_words(attempt.houses[past.number])
    except (RecordsError, StopIteration, IndexError):
        return ()


def _open(services: Services, past: PastHouse) -> None:
    """Show again what came of one attempt; say why where that can't be."""
    from trainer.board.library import entry_of
    from trainer.layout import LayoutRefused
    from trainer.read import Faulty
    from trainer.records.errors import RecordsError
    from trainer.records.judging import session_of

    seat = services.records.seat()
    if seat is None:
        return
    try:
        attempt = next(iter(seat.store.attempts(past.attempt)))
        house = attempt.houses[past.number]
        session = session_of(house, attempt.mode)
    except (RecordsError, StopIteration, IndexError) as error:
        show_message(
            services, _("This can't be looked back at"), [str(error) or _("It is not in the records any more.")]
        )
        return
    except (Faulty, LayoutRefused, ValueError):
        show_message(services, _("This can't be looked back at"), [_("This trainer no longer understands it.")])
        return
    services.go_result(entry_of(session.level, house.text), session, attempt.head_code)
