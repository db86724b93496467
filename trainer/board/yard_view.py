"""The yard on the screen: the chosen truss large and with its measures, beside another one if two are compared."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pygame

from trainer.board.plan_view import PlanView
from trainer.board.widgets import Ui
from trainer.picture.elevation import elevation, mirror
from trainer.picture.falling import in_words
from trainer.picture.model import Box, Item, Text, shifted
from trainer.picture.solids import Stander
from trainer.picture.yard import faults, foot_room, stacks
from trainer.site import packs, shows
from trainer.site.model import Site
from trainer.site.standing import piece_of
from trainer.words import _

BETWEEN = 24.0
"""Room between two trusses that are compared, px."""
MOST_LETTERS = 45.0
"""Lettering takes no more than this, mm a px, however small the view is."""
STACKS = 0.09
"""Room for the packs under the truss, as a part of the whole's width."""
PACKS_FROM = 300
"""In a view lower than this at 100 %, px, the truss has all the room: its packs are left out."""
LEAST = 4500.0
"""Least width of the whole, mm: a creeper is not drawn as large as a girder."""
EMPTY: Box = (0.0, 0.0, 11_000.0, 4000.0)


class YardView(PlanView):
    """A truss from the side; ``other`` is the one it is compared with, none if empty."""

    role = "view"

    def __init__(
        self, name: str, site: Callable[[], Site], stander: Stander, chosen: Callable[[], str],
        turned: Callable[[], bool], *, explained: bool,
    ) -> None:  # fmt: skip
        self.other = ""
        self._site = site
        self._stander = stander
        self._chosen = chosen
        self._turned = turned
        self._explained = explained
        self._last: tuple[object, ...] = ()
        self._letters = 15.0
        super().__init__(name, EMPTY, self._items)

    @property
    def value(self) -> str:
        return " – ".join(filter(None, (self._chosen(), self.other)))

    def follow(self) -> None:
        """Show the trusses that are chosen now."""
        now = (self._chosen(), self.other, self._turned(), self.rect.size, self.text_scale())
        if now != self._last and self.rect.width:
            self._last = now
            self._letters = 1.0
            # How large lettering is in mm comes of the scale, and the scale of the room that lettering takes.
            for _try in range(4):
                self.camera.look_at(self._drawn()[1])
                # Never back to smaller: what has no room for what is in the packs would come and go for ever.
                self._letters = max(self._letters, min(MOST_LETTERS, self.text_scale() / self.camera.view.scale))
            self.camera.look_at(self._drawn()[1])
            self.invalidate()

    def place(self, ui: Ui, rect: pygame.Rect) -> None:
        super().place(ui, rect)
        self._ui = ui
        self.follow()

    def compare(self) -> None:
        """Keep the chosen truss to compare the next one with; again to stop."""
        self.other = "" if self.other else self._chosen()
        self.invalidate()

    def _items(self, scale: float) -> list[Item]:
        return self._drawn()[0]

    def _drawn(self) -> tuple[list[Item], Box]:
        site, chosen = self._site(), self._chosen()
        if chosen not in site.layout.by_tag:
            return [*self._stacks(EMPTY)], EMPTY
        letters = self._letters
        items, box = self._truss(chosen, mirrored=self._turned())
        if self.other and self.other != chosen:
            more, below = self._truss(self.other, mirrored=False)
            down = box[1] - below[3] - BETWEEN * letters
            items += [shifted(item, (0.0, down)) for item in more]
            return items, (min(box[0], below[0]), below[1] + down, max(box[2], below[2]), box[3])
        if self.rect.height < PACKS_FROM * self.text_scale():
            return items, box
        wide = max(LEAST, box[2] - box[0])
        spare = (wide - (box[2] - box[0])) / 2
        foot = STACKS * wide + foot_room(packs(site), wide, letters)
        whole = (box[0] - spare, box[1] - foot, box[2] + spare, box[3])
        return [*items, *self._stacks(whole)], whole

    def _stacks(self, box: Box) -> Iterator[Item]:
        site = self._site()
        return stacks(packs(site), site.layout, self._chosen(), box, self._letters)

    def _truss(self, tag: str, *, mirrored: bool) -> tuple[list[Item], Box]:
        """Return a truss from the side, as it was delivered: what wears the tag, and what is wrong with it."""
        site, letters = self._site(), self._letters
        flaws = tuple(shows(site, tag))
        if "missing truss" in flaws:
            text = Text((5500.0, 2000.0), _("It is not in the packs."), "ink", 18.0, "px", bold=True)
            return [text, _name(tag, EMPTY, letters)], EMPTY
        stood = site.stood.get(tag)
        piece = piece_of(site, tag) if stood is None else site.layout.by_tag[stood.piece or tag]
        framed = self._stander.framed(piece)
        items, box = elevation(framed, mirrored=mirrored, letters=letters)
        wrong = list(faults(framed, flaws, letters, named=self._explained))
        items += map(mirror, wrong) if mirrored else wrong
        xs, zs = zip(*(p for item in items if not isinstance(item, Text) for p in item.points), strict=True)
        high = max(zs) + (44 if wrong and self._explained else 30) * letters
        box = (min(*xs, box[0]), min(*zs, box[1]), max(*xs, box[2]), high)
        return [*items, _name(in_words(site, tag), box, letters)], box


def _name(words: str, box: Box, letters: float) -> Text:
    return Text((box[0] + 100, box[3] - 12 * letters), words, "ink", 20.0, "px", anchor="start", bold=True)
