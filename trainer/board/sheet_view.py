"""The layout drawing on the screen: its measures run from the corners that the tape is hooked on."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import replace

from trainer.board.paint import Brush
from trainer.board.plan_view import PlanView
from trainer.layout import Layout
from trainer.picture.as_built import square
from trainer.picture.model import Item, Line, Polygon
from trainer.picture.on_screen import on_screen, ring_round
from trainer.picture.sheet import plan_picture
from trainer.words import _

MARK_PX, SQUARE_PX = 3.0, 6.0
"""How thick a mark that was made is drawn over the drawing's own, and the square at its end, px."""
ONLY_READ = _("The layout drawing is only to be read. Work on the plan: F3.")


class SheetView(PlanView):
    """The truss that is ``chosen`` is ringed where it belongs, and what is ``marked`` on a plate or girder is shown.

    Walls that are measured ``back`` have their figures from the other corner than their first. A press only has it
    said that nothing is done here.
    """

    def __init__(
        self, name: str, layout: Layout, chosen: Callable[[], str], back: Callable[[], Collection[str]],
        marked: Callable[[], Sequence[Line]], say: Callable[[str], None] | None,
    ) -> None:  # fmt: skip
        self._layout = layout
        self._marked = marked
        self._marks: Sequence[Line] | None = None
        self._chosen = chosen
        self._back = back
        self._hooked = frozenset(back())
        picture = plan_picture(layout, back=self._hooked)
        self._drawn = on_screen(layout, picture)
        super().__init__(name, picture.box, self._items, self._over)
        self.note = self._said
        self.click = (lambda _place, _button: say(ONLY_READ)) if say is not None else None

    def follow(self) -> None:
        """Measure from where the tape is hooked now."""
        if (now := frozenset(self._back())) != self._hooked:
            self._hooked = now
            self._drawn = on_screen(self._layout, plan_picture(self._layout, back=now))
            self.invalidate()

    def _items(self, scale: float) -> list[Item]:
        return self._drawn(scale)

    def invalidate(self) -> None:
        self._marks = None
        super().invalidate()

    @property
    def marks(self) -> Sequence[Line]:
        """The marks that were made, found once until something changes."""
        if self._marks is None:
            self._marks = self._marked()
        return self._marks

    def _said(self) -> str:
        marks = _("A thick blue mark with a square: you marked it.") if self.marks else ""
        bar = _("Measures run from the thick bar at one corner of each wall, as the tape does.")
        return "  ".join(filter(None, (marks, bar)))

    def _over(self, brush: Brush) -> None:
        half = SQUARE_PX / 2 / brush.view.scale
        brush.paint(
            item
            for mark in self.marks
            for item in (replace(mark, width=MARK_PX), Polygon(square(mark.points[-1], half), None, "mark", 2.0))
        )
        place = self._layout.by_tag.get(self._chosen())
        if place is not None:
            brush.paint([ring_round(self._layout, place)])
