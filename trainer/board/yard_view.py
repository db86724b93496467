"""The yard on the screen: the chosen truss large and with its measures, beside another one if two are compared."""

from __future__ import annotations

from collections.abc import Callable

from trainer.board.plan_view import PlanView
from trainer.picture.bodies import Stander
from trainer.picture.elevation import elevation
from trainer.picture.model import Box, Item, Line, Polygon, Text
from trainer.site.model import Site
from trainer.words import _

BETWEEN = 500.0
"""Room between two trusses that are compared, mm."""
EMPTY: Box = (0.0, 0.0, 6000.0, 3000.0)


class YardView(PlanView):
    """A truss from the side; ``other`` is the one it is compared with, none if empty."""

    role = "view"
    letters_grow = True

    def __init__(
        self, name: str, site: Callable[[], Site], stander: Stander, chosen: Callable[[], str],
        turned: Callable[[], bool],
    ) -> None:  # fmt: skip
        self.other = ""
        self._site = site
        self._stander = stander
        self._chosen = chosen
        self._turned = turned
        self._last: tuple[object, ...] = ()
        super().__init__(name, EMPTY, self._items)

    @property
    def value(self) -> str:
        return " – ".join(filter(None, (self._chosen(), self.other)))

    def settle(self) -> None:
        """Show the trusses that are chosen now."""
        now = (self._chosen(), self.other, self._turned())
        if now != self._last:
            self._last = now
            self.camera.look_at(self._drawn()[1])
            self.spoil()

    def compare(self) -> None:
        """Keep the chosen truss to compare the next one with; again to stop."""
        self.other = "" if self.other else self._chosen()
        self.spoil()

    def _items(self, scale: float) -> list[Item]:
        return self._drawn()[0]

    def _drawn(self) -> tuple[list[Item], Box]:
        layout = self._site().layout
        one = layout.by_tag.get(self._chosen())
        if one is None:
            return [Text((3000.0, 1500.0), _("Choose a truss in the list."), "faint", 18.0, "px")], EMPTY
        items, box = elevation(self._stander.framed(one), mirrored=self._turned(), measured=True)
        items.append(_name(one.tag, box))
        two = layout.by_tag.get(self.other)
        if two is None or two.tag == one.tag:
            return items, box
        more, below = elevation(self._stander.framed(two), mirrored=False, measured=True)
        more.append(_name(two.tag, below))
        down = box[1] - below[3] - BETWEEN
        items += [_moved(item, down) for item in more]
        return items, (min(box[0], below[0]), below[1] + down, max(box[2], below[2]), box[3])


def _name(tag: str, box: Box) -> Text:
    return Text((box[0] + 100, box[3] - 150), tag, "ink", 20.0, "px", anchor="start", bold=True)


def _moved(item: Item, up: float) -> Item:
    if isinstance(item, Text):
        at = (item.at[0], item.at[1] + up)
        return Text(at, item.text, item.role, item.size, item.unit, item.anchor, bold=item.bold, ground=item.ground)
    points = tuple((x, z + up) for x, z in item.points)
    if isinstance(item, Polygon):
        return Polygon(points, item.fill, item.edge, item.width, item.unit)
    return Line(points, item.role, item.width, item.unit, item.dash)
