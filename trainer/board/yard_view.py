"""The yard on the screen: the chosen truss large and with its measures, beside another one if two are compared."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from trainer.board.plan_view import PlanView
from trainer.picture.bodies import Stander
from trainer.picture.elevation import elevation, mirror
from trainer.picture.model import Box, Item, Text
from trainer.picture.yard import faults, stacks
from trainer.site import packs, shows
from trainer.site.model import Site
from trainer.site.standing import piece_of
from trainer.words import _

BETWEEN = 500.0
"""Room between two trusses that are compared, mm."""
WORDS = 500.0
"""Room over a truss for what is wrong with it, mm."""
STACKS = 2300.0
"""Room for the packs under the truss, mm."""
LEAST = 11_000.0
"""Least width of the whole, so that the packs have room beside each other, mm."""
EMPTY: Box = (0.0, 0.0, 11_000.0, 4000.0)


class YardView(PlanView):
    """A truss from the side; ``other`` is the one it is compared with, none if empty."""

    role = "view"
    letters_grow = True

    def __init__(
        self, name: str, site: Callable[[], Site], stander: Stander, chosen: Callable[[], str],
        turned: Callable[[], bool], *, told: bool,
    ) -> None:  # fmt: skip
        self.other = ""
        self._site = site
        self._stander = stander
        self._chosen = chosen
        self._turned = turned
        self._told = told
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
        site, chosen = self._site(), self._chosen()
        if chosen not in site.layout.by_tag:
            return [*self._stacks(EMPTY)], EMPTY
        items, box = self._truss(chosen, mirrored=self._turned())
        if self.other and self.other != chosen:
            more, below = self._truss(self.other, mirrored=False)
            down = box[1] - below[3] - BETWEEN
            items += [_moved(item, down) for item in more]
            return items, (min(box[0], below[0]), below[1] + down, max(box[2], below[2]), box[3])
        spare = max(0.0, LEAST - (box[2] - box[0])) / 2
        whole = (box[0] - spare, box[1] - STACKS, box[2] + spare, box[3])
        return [*items, *self._stacks(whole)], whole

    def _stacks(self, box: Box) -> Iterator[Item]:
        site = self._site()
        return stacks(packs(site), site.layout, self._chosen(), box)

    def _truss(self, tag: str, *, mirrored: bool) -> tuple[list[Item], Box]:
        """Return a truss from the side, as it was delivered: what wears the tag, and what is wrong with it."""
        site = self._site()
        flaws = tuple(shows(site, tag))
        if "missing truss" in flaws:
            text = Text((5500.0, 2000.0), _("It is not in the packs."), "ink", 18.0, "px", bold=True)
            return [text, _name(tag, EMPTY)], EMPTY
        stood = site.stood.get(tag)
        piece = piece_of(site, tag) if stood is None else site.layout.by_tag[stood.piece or tag]
        framed = self._stander.framed(piece)
        items, box = elevation(framed, mirrored=mirrored, measured=True)
        straight = box if not mirrored else (-box[2], box[1], -box[0], box[3])
        wrong = faults(framed, flaws, straight, told=self._told)
        items += [_name(tag, box), *(map(mirror, wrong) if mirrored else wrong)]
        return items, (*box[:3], box[3] + (WORDS if flaws else 0.0))


def _name(tag: str, box: Box) -> Text:
    return Text((box[0] + 100, box[3] - 150), tag, "ink", 20.0, "px", anchor="start", bold=True)


def _moved(item: Item, up: float) -> Item:
    if isinstance(item, Text):
        return replace(item, at=(item.at[0], item.at[1] + up))
    return replace(item, points=tuple((x, z + up) for x, z in item.points))
