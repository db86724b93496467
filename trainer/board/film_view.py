"""The picture of a film on the screen. Only where something came or went is it painted again."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Sequence

import pygame

from trainer.board.camera import Camera
from trainer.board.paint import Brush
from trainer.board.widgets import Ui, Widget
from trainer.picture.filmed import Seen, lifted
from trainer.picture.model import Box, Item, Text, View, shifted

MOST_CHANGED = 400
"""Where more than this came or went at once, all of it is painted again."""
MARGIN_PX = 4
TAG_ROOM = (120, 40)
"""Room in which a tag lies about its place, px at 100 %."""


class FilmView(Widget):
    """Shows ``seen`` at the moment that ``now`` gives; ``told`` says in words what is to be seen."""

    role = "image"

    def __init__(self, name: str, box: Box, now: Callable[[], int], told: Callable[[], str]) -> None:
        super().__init__(name, key="film/picture")
        self.ground = "paper"
        self.seen: Sequence[Seen] = ()
        self._box = box
        self._now = now
        self._told = told
        self._shown_ms = -1
        self._still: pygame.Surface | None = None
        self._view = View(1.0, 0.0, 0.0)
        self._places: list[pygame.Rect] = []
        self._changes: list[tuple[int, int]] = []
        """(moment, index of what comes, lands or goes right after it), in time."""

    @property
    def value(self) -> str:
        return self._told()

    def show(self, seen: Sequence[Seen]) -> None:
        """Show a film once all of it is made."""
        self.seen = seen
        changes = {(moment, n) for n, each in enumerate(seen) for span in each.spans for moment in span}
        changes |= {(each.lift[1] - 1, n) for n, each in enumerate(seen) if each.lift}
        self._changes = sorted(changes)
        self.invalidate()

    def invalidate(self) -> None:
        """Paint all of it again at the next chance."""
        self._still = None

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        clip = surface.get_clip()
        surface.set_clip(self.rect.clip(clip))
        if self.seen and self.rect.width > 20 and self.rect.height > 20:
            now = self._now()
            self._bring_up(ui, now)
            assert self._still is not None
            window = surface.subsurface(self.rect.clip(surface.get_rect()))
            window.blit(self._still, (0, 0))
            moving = [shifted(each.item, (0.0, lifted(each.lift, now))) for each in self._moving(now) if each.lift]
            Brush(window, ui.look.colours, self._view, lettering=ui.look.scale).paint(moving)
        else:
            surface.fill(ui.look["paper"], self.rect)
        surface.set_clip(clip)

    def _moving(self, now: int) -> list[Seen]:
        return [each for each in self.seen if each.moves(now)]

    def _bring_up(self, ui: Ui, now: int) -> None:
        """Paint what came or went since the last time; all of it, where that is much or the place is another."""
        if self._still is None or self._still.get_size() != self.rect.size:
            self._begin(ui)
            self._repaint(ui, now, None)
        elif now != self._shown_ms:
            first, last = sorted((self._shown_ms, now))
            low, high = (bisect_left(self._changes, (moment, -1)) for moment in (first, last))
            touched = {n for _moment, n in self._changes[low:high]}
            if len(touched) > MOST_CHANGED:
                self._repaint(ui, now, None)
            elif touched:
                places = [self._places[n] for n in touched]
                self._repaint(ui, now, places[0].unionall(places[1:]))
        self._shown_ms = now

    def _begin(self, ui: Ui) -> None:
        self._still = pygame.Surface(self.rect.size)
        camera = Camera(lambda _scale: (0.0, 0.0, 0.0, 0.0))
        camera.resize(self.rect.size)
        camera.look_at(self._box)
        self._view = camera.view
        self._places = [self._place(ui, each.item) for each in self.seen]

    def _place(self, ui: Ui, item: Item) -> pygame.Rect:
        """Return where an item is painted, px."""
        if isinstance(item, Text):
            x, y = self._view.to_px(item.at)
            wide, high = (ui.look.px(size) for size in TAG_ROOM)
            return pygame.Rect(round(x) - wide // 2, round(y) - high, wide, 2 * high)
        xs, ys = zip(*map(self._view.to_px, item.points), strict=True)
        left, top = int(min(xs)), int(min(ys))
        return pygame.Rect(left, top, int(max(xs)) - left + 1, int(max(ys)) - top + 1).inflate(
            2 * MARGIN_PX, 2 * MARGIN_PX
        )

    def _repaint(self, ui: Ui, now: int, within: pygame.Rect | None) -> None:
        assert self._still is not None
        self._still.set_clip(within)
        self._still.fill(ui.look["paper"])
        items = [
            each.item
            for each, place in zip(self.seen, self._places, strict=True)
            if (within is None or place.colliderect(within)) and each.at(now) and not each.moves(now)
        ]
        Brush(self._still, ui.look.colours, self._view, lettering=ui.look.scale).paint(items)
        self._still.set_clip(None)
