"""What moves by itself on the views of a house: what an act has just moved, and a row that goes over."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from trainer.picture import acts
from trainer.picture.model import Item
from trainer.picture.solids import Stander

if TYPE_CHECKING:
    from trainer.site.model import Site

ACT_MS = 200
"""How long what an act moves takes to come to its place."""
FALL_MS = 2200
"""How long a row takes to go over."""


class Moving:
    """Moves what has just changed on a ``site``; nothing where it is ``still``.

    ``times`` is how much larger than it is a lean is shown. ``share`` is how much of a fall is over, from 0 to 1.
    """

    def __init__(
        self, site: Callable[[], Site], stander: Stander, times: Callable[[], float], still: Callable[[], bool]
    ) -> None:
        self.share = 1.0
        self._site = site
        self._stander = stander
        self._times = times
        self._still = still
        self._shown = site()
        self._moves: acts.Movement | None = None
        self._moves_from: int | None = None
        self._now = 0
        self._lying = _lying(self._shown)
        self._fell_at = -FALL_MS

    def acted(self) -> None:
        """The site is another: move there what the act moved; what is under way already is there at once."""
        before, after = self._shown, self._site()
        self._shown = after
        if before is not after and not self._still():
            self._moves = acts.movement(before, after, self._stander, self._times()) or None
            self._moves_from = None

    def items(self, flat: acts.Flat = acts.in_plan) -> list[Item]:
        """Return what is on its way just now, laid flat for a view."""
        if self._moves is None or self._moves_from is None:
            return []
        return acts.items(self._moves, min(1.0, (self._now - self._moves_from) / ACT_MS), flat)

    def tick(self, now_ms: int) -> tuple[bool, bool]:
        """Let time pass; return whether something that is drawn over a view moves, and whether a row is falling."""
        self._now = now_ms
        acting = self._moves is not None
        if self._moves is not None and self._moves_from is None:
            self._moves_from = now_ms
        elif self._moves_from is not None and now_ms - self._moves_from >= ACT_MS:
            self._moves = self._moves_from = None
        return acting, self._fall(now_ms)

    def _fall(self, now_ms: int) -> bool:
        """Let a row that has just gone over fall; it lies there until it is cleared."""
        lying = _lying(self._site())
        if lying != self._lying:
            self._lying, self._fell_at = lying, now_ms if lying else now_ms - FALL_MS
        share = 1.0 if self._still() else min(1.0, (now_ms - self._fell_at) / FALL_MS)
        falls, self.share = share != self.share, share
        return falls


def _lying(site: Site) -> tuple[str, ...]:
    return tuple(site.fall.lying) if site.fall else ()
