"""What a ticket says: leave for one candidate to sit one pack, and what is granted to them."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from trainer.records.shape import CodeName, Hash, Moment, Recorded, hexes

Granted = Annotated[int, Field(ge=0, le=1440)]
"""Minutes."""


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
