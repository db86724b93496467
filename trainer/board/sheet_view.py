"""The layout drawing on the screen: its measures run from the corners that the tape is hooked on."""

from __future__ import annotations

from collections.abc import Callable, Collection

from trainer.board.paint import Brush
from trainer.board.plan_view import PlanView
from trainer.layout import Layout
from trainer.picture.model import Item
from trainer.picture.on_screen import on_screen, ring_round
from trainer.picture.sheet import plan_picture
from trainer.words import _


class SheetView(PlanView):
    """The truss that is ``chosen`` is ringed where it belongs.

    Walls that are measured ``back`` have their figures from the other corner than their first.
    """

    def __init__(
        self, name: str, layout: Layout, chosen: Callable[[], str], back: Callable[[], Collection[str]]
    ) -> None:
        self._layout = layout
        self._chosen = chosen
        self._back = back
        self._hooked = frozenset(back())
        picture = plan_picture(layout, back=self._hooked)
        self._drawn = on_screen(layout, picture)
        super().__init__(name, picture.box, self._items, self._ringed)
        self.note = lambda: _("Measures run from the thick bar at one corner of each wall, as the tape does.")

    def follow(self) -> None:
        """Measure from where the tape is hooked now."""
        if (now := frozenset(self._back())) != self._hooked:
            self._hooked = now
            self._drawn = on_screen(self._layout, plan_picture(self._layout, back=now))
            self.invalidate()

    def _items(self, scale: float) -> list[Item]:
        return self._drawn(scale)

    def _ringed(self, brush: Brush) -> None:
        place = self._layout.by_tag.get(self._chosen())
        if place is not None:
            brush.paint([ring_round(self._layout, place)])
