"""A small look at a row that goes over, in space, in a corner of whatever view is open: it stays until it is cleared.

Where nothing is to move it is two still pictures: before, and after.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

import pygame

from trainer.board.paint import Brush, Colour
from trainer.board.widgets import Ui
from trainer.picture.angled import Scene3, angled, scene_of, sketch
from trainer.picture.model import View, fit
from trainer.picture.solids import Stander
from trainer.picture.space import Turn
from trainer.words import _

if TYPE_CHECKING:
    from trainer.site.model import Site

PART, SHAPE = 0.34, 0.72
"""The part of a view's width that a picture takes, and its height as a part of its own width."""
MOST, LEAST = 300, 130
"""The widest that it is, px at 100 %; one that would be less wide than the least, px, is left out: the open view shows
the fall as well."""
SMALLER = 0.85
"""Where there is not room enough, the next size is so much of the last."""
EDGE = 8
"""How far off the edges it stands, px."""
PAST = 900.0
"""How much round the row is shown, mm."""


class FallInset:
    """Paints the fall of a ``site`` over a view. ``look`` gives what stands as it is now, ``share`` how far it fell."""

    def __init__(
        self, site: Callable[[], Site], stander: Stander, look: Callable[[], Scene3], share: Callable[[], float]
    ) -> None:
        self._site = site
        self._stander = stander
        self._look = look
        self._share = share
        self._kept: dict[tuple[object, ...], pygame.Surface] = {}
        self._place: tuple[tuple[object, ...], pygame.Rect] | None = None

    def paint(self, ui: Ui, surface: pygame.Surface, view: View) -> None:
        """Paint on the surface of a view, in a corner and of a size that cover nothing drawn there, or little."""
        site = self._site()
        fell = [one for one in site.fall.lying.values() if not one.struck] if site.fall else []
        wide = min(round(surface.get_width() * PART), ui.look.px(MOST))
        if not fell or wide < LEAST:
            return
        captions = [_("Before"), _("After")] if ui.look.still else [_("The fall")]
        if _high(wide, 2) > surface.get_height():
            captions = captions[-1:]
        key = (tuple(one.tag for one in fell), self._share() == 1.0, view, surface.get_size(), wide, len(captions))
        if self._place is None or self._place[0] != key:  # it keeps its place while a mouse moves over the view
            self._place = (key, _free(surface, wide, len(captions), ui.look["paper"]))
        box = self._place[1]
        for number, caption in enumerate(captions):
            size = (box.width, round(box.width * SHAPE))
            drawn = self._picture(ui, size, caption, 0.0 if caption == _("Before") else self._share())
            surface.blit(drawn, (box.left, box.top + number * (size[1] + EDGE)))

    def _picture(self, ui: Ui, size: tuple[int, int], caption: str, share: float) -> pygame.Surface:
        site = self._site()
        lying = tuple(site.fall.lying) if site.fall else ()
        key = (lying, site.done, size, caption, ui.look.theme, ui.look.scale)
        if share in (0.0, 1.0) and key in self._kept:
            return self._kept[key]
        surface = pygame.Surface(size)
        surface.fill(ui.look["paper"])
        scene = self._look() if share else replace(scene_of(site, self._stander.solids(site, share=0.0)), site=None)
        turn, view = self._aim(site, size)
        items = angled(scene, turn, view.scale) if share in (0.0, 1.0) else sketch(scene, turn)
        Brush(surface, ui.look.colours, view, quick=share not in (0.0, 1.0)).paint(items)
        label = ui.look.text(caption, "small", "ink")
        box = label.get_rect(topleft=(6, 4))
        surface.fill(ui.look["paper"], box.inflate(10, 4))
        surface.blit(label, box)
        pygame.draw.rect(surface, ui.look["panel_edge"], surface.get_rect(), 2)
        if share in (0.0, 1.0):
            self._kept = {k: v for k, v in self._kept.items() if k[:2] == key[:2]} | {key: surface}
        return surface

    def _aim(self, site: Site, size: tuple[int, int]) -> tuple[Turn, View]:
        """Look at the row so that it goes over to the right, near enough to see each truss of it."""
        assert site.fall is not None
        fell = [one for one in site.fall.lying.values() if not one.struck]
        (tx, ty), xs, ys = fell[0].towards, *zip(*(p for one in fell for p in (one.start, one.finish)), strict=True)
        turn = Turn(math.degrees(-math.atan2(ty, tx)) + 24.0, 26.0, (sum(xs) / len(xs), sum(ys) / len(ys)))
        solids = [self._stander.solids(site, share=share) for share in (0.0, 1.0)]
        rims = [place for each in solids for one in fell for place in each[one.tag].rim]
        floor = -site.layout.house.plan.height
        flat = turn.all_flat((*rims, *((x, y, floor) for x, y, _z in rims)))
        fx, fy = zip(*flat, strict=True)
        return turn, fit((min(fx) - PAST, min(fy) - PAST / 2, max(fx) + PAST, max(fy) + PAST), *size)


def _high(wide: int, many: int) -> int:
    """Return how high pictures that stand over each other are, px."""
    return many * round(wide * SHAPE) + (many - 1) * EDGE


def _free(surface: pygame.Surface, wide: int, many: int, paper: Colour) -> pygame.Rect:
    """Return the room of pictures in a corner, the largest that covers nothing but paper; or the one that covers least.

    They are no wider than ``wide`` px.
    """
    inner = surface.get_rect().inflate(-2 * EDGE, -2 * EDGE)

    def drawn(box: pygame.Rect) -> int:
        seen = surface.subsurface(box.clip(surface.get_rect()))
        bare = pygame.transform.threshold(None, seen, paper, threshold=(0, 0, 0, 0), set_behavior=0)
        return seen.get_width() * seen.get_height() - bare

    boxes: list[pygame.Rect] = []
    while not boxes or wide >= LEAST:
        box = pygame.Rect(0, 0, wide, _high(wide, many))
        right, foot = inner.right - box.width, inner.bottom - box.height
        corners = ((right, inner.top), (inner.left, inner.top), (right, foot), (inner.left, foot))
        boxes += [box.move(corner) for corner in corners]
        wide = round(wide * SMALLER)
    return min(boxes, key=drawn)
