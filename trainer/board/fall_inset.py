"""A small look at a row that goes over, in space, in a corner of whatever view is open: it stays until it is cleared.

Where nothing is to move it is two still pictures: before, and after.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

import pygame

from trainer.board.paint import Brush
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

    def paint(self, ui: Ui, surface: pygame.Surface, view: View, *, from_above: bool = True) -> None:
        """Paint on the surface of a view, in the corner that is furthest from what fell there.

        One that is not ``from_above`` has its drawing in the middle, and its name and notes in the other corners.
        """
        site = self._site()
        fell = [one for one in site.fall.lying.values() if not one.struck] if site.fall else []
        wide = min(round(surface.get_width() * PART), ui.look.px(MOST))
        if not fell or wide < LEAST:
            return
        size = (wide, round(wide * SHAPE))
        captions = [_("Before"), _("After")] if ui.look.still else [_("The fall")]
        x, y = view.to_px(fell[0].start)
        right = x < surface.get_width() / 2 or not from_above
        top = y > surface.get_height() / 2 or not from_above
        step = size[1] + EDGE
        if step * len(captions) > surface.get_height():
            captions = captions[-1:]
        for number, caption in enumerate(captions):
            drawn = self._picture(ui, size, caption, 0.0 if caption == _("Before") else self._share())
            row = number if top else len(captions) - 1 - number
            left = surface.get_width() - wide - EDGE if right else EDGE
            high = EDGE + row * step if top else surface.get_height() - (row + 1) * step
            surface.blit(drawn, (left, high))

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
