"""The form of what one candidate is granted: time, breaks, and how the board is eased for them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, get_args

from trainer.board.widgets import Button, Choice, Column, Flow, Label, NumberEntry, Scroll, Widget, dialog
from trainer.read import Faulty
from trainer.records.stick import Candidate, read_candidates
from trainer.records.ticket import Eased, TextSize
from trainer.words import _

if TYPE_CHECKING:
    from trainer.board.services import Services

SIZES = (None, *get_args(TextSize))
EASED_NAMES = {
    "high_contrast": _("High contrast"), "still": _("Nothing moves by itself"),

}  # fmt: skip
MOST_MINUTES = 1440
NOTE = _("The seat is set so while they sit, and the record says it. Fewer presses: everybody has them there.")


def ask_eased(services: Services, names: str, say: Callable[[str], None], then: Callable[[str], None]) -> None:
    """Ask what one of the candidates in a list is granted; ``then`` gets the list with that in it.

    ``say`` gets what is to be put right in the list first.
    """
    try:
        candidates = read_candidates(names.encode("utf-8"), _("code names"))
    except Faulty as error:
        say(" ".join(str(fault) for fault in error.faults))
        return
    services.ask(_Granting(services, list(candidates), then).dialog)


class _Granting:
    """Who is chosen, and what they are granted so far."""

    def __init__(self, services: Services, candidates: list[Candidate], then: Callable[[str], None]) -> None:
        self.services = services
        self.candidates = candidates
        self.then = then
        self.at = 0

    @property
    def one(self) -> Candidate:
        """Whoever is chosen."""
        return self.candidates[self.at]

    def dialog(self) -> Widget:
        """Return the question."""
        one, eased = self.one, self.one.eased
        sizes = [_("as the seat has it") if size is None else f"{size} %" for size in SIZES]
        switches = [
            Button(
                name, partial(self._switch, key), kind="quiet", checked=bool(getattr(eased, key)), key=f"eased/{key}"
            )
            for key, name in EASED_NAMES.items()
        ]  # fmt: skip
        asked: list[Widget] = [
            Choice(_("Who"), [each.code for each in self.candidates], self.at, self._choose, key="eased/who"),
            Flow(
                [
                    NumberEntry(
                        _("Extra minutes"), one.extra, partial(self._minutes, "extra"), unit="min", nudge=5,
                        key="eased/extra",
                    ),
                    NumberEntry(
                        _("Minutes of breaks"), one.breaks, partial(self._minutes, "breaks"), unit="min", nudge=5,
                        key="eased/breaks",
                    ),
                ],
                gap=12, key="eased/minutes",
            ),
            Choice(_("Text size"), sizes, SIZES.index(eased.text_size), self._size, key="eased/text"),
            Flow([*switches], gap=8, key="eased/switches"),
            Label(NOTE, "small", "panel_faint", key="eased/note"),
        ]  # fmt: skip
        ways = Flow(
            [
                Button(_("Put it in the list"), self._done, kind="primary", key="eased/done"),
                Button(_("Not now"), self.services.close, shortcut="Esc", key="eased/close"),
            ],
            gap=8, key="eased/ways",
        )  # fmt: skip
        scroll = Scroll(Column(asked), _("For one candidate"))
        return dialog(_("For one candidate"), [scroll, ways], first="eased/who")

    def _put(self, one: Candidate) -> None:
        self.candidates[self.at] = one
        self.services.ui.refresh()

    def _choose(self, index: int) -> None:
        self.at = index
        self.services.ui.refresh()

    def _minutes(self, what: str, number: float) -> None:
        minutes = max(0, min(MOST_MINUTES, round(number)))
        self._put(replace(self.one, extra=minutes) if what == "extra" else replace(self.one, breaks=minutes))

    def _size(self, index: int) -> None:
        self._ease(text_size=SIZES[index])

    def _switch(self, key: str) -> None:
        self._ease(**{key: None if getattr(self.one.eased, key) else True})

    def _ease(self, **values: object) -> None:
        self._put(replace(self.one, eased=Eased.model_validate({**self.one.eased.as_json(), **values})))

    def _done(self) -> None:
        self.services.close()
        self.then("\n".join(each.line() for each in self.candidates))
