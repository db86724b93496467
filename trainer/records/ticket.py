"""What a ticket says: leave for one candidate to sit one pack, and what is granted to them."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from trainer.records.shape import CodeName, Hash, Moment, Percent, Recorded, Whole, hexes

Granted = Annotated[int, Field(ge=0, le=1440)]
"""Minutes."""


TextSize = Literal[100, 125, 150, 175, 200]
"""Per cent of the usual size."""


class Eased(Recorded):
    """How the board is set for one candidate while they sit; what is left out is as the seat has it."""

    text_size: TextSize | None = None
    high_contrast: Literal[True] | None = None
    still: Literal[True] | None = None
    """Nothing moves by itself."""

    def words(self) -> tuple[str, ...]:
        """Return it as a list of code names has it, such as *text 150*."""
        sized = (f"{TEXT} {self.text_size}",) if self.text_size else ()
        return (*sized, *(word for word, key in EASED.items() if getattr(self, key)))


TEXT = "text"
EASED = {"high contrast": "high_contrast", "still": "still"}
"""Words by which a list of code names, and every table, says what is eased."""
PLAIN = Eased()


class DueHouse(Recorded):
    """A house that is to be sat: the SHA-256 of its level file's text, and the seed of its site."""

    text: Hash
    seed: Whole


class Due(Recorded):
    """What is to be sat, so that a result shows without the pack whether it is that.

    ``minutes`` is how long it may take with what is granted, ``practice_mark`` that of the pack; None as there.
    """

    houses: Annotated[list[DueHouse], Field(max_length=20)]
    minutes: Annotated[int, Field(ge=1, le=2880)] | None = None
    practice_mark: Percent | None = None


class TicketContent(Recorded):
    """Leave to sit one pack, by its hash; why minutes are added or breaks allowed is nobody's business here.

    ``break_minutes`` may be spent in stops: they are not counted.
    """

    nonce: Annotated[str, hexes(32)]
    code: CodeName
    pack: Hash
    made: Moment
    expires: Moment
    extra_minutes: Granted
    break_minutes: Granted | None = None
    eased: Eased | None = None
    due: Due | None = None
