"""From a house chosen to the screen on which it is built."""

from __future__ import annotations

from typing import TYPE_CHECKING

from trainer.board.scenes.asking import tell
from trainer.words import _

if TYPE_CHECKING:
    from trainer.board.library import Entry
    from trainer.board.scenes.work import Work
    from trainer.board.services import Mode, Services


def open_work(services: Services, entry: Entry, mode: Mode) -> Work | None:
    """Lay the house out and open it; where it can't be laid out, say why and open nothing."""
    # These load the core's libraries: only once a house is opened.
    from trainer.board.keeping import Keeper  # noqa: PLC0415
    from trainer.board.scenes.work import Work  # noqa: PLC0415
    from trainer.layout import LayoutRefused  # noqa: PLC0415
    from trainer.session import Session  # noqa: PLC0415

    seed = services.seed()
    keeper = Keeper(services.data, f"{entry.id}-{services.stamp()}", entry.id, seed)
    try:
        session = Session(entry.level, seed, mode, journal=keeper.note)
    except LayoutRefused as refused:
        reasons = [f"**{r.place}**: {r.why}" for r in refused.reasons]
        tell(services, _("This house can't be built here"), reasons)
        return None
    return Work(services, entry, session, mode, keeper)
