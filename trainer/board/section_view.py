"""The section on the screen: along the chosen truss, or along any line across the house."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import chain, islice

import pygame

from trainer.board.plan_view import PlanView
from trainer.layout import Layout
from trainer.picture.angled import Scene3
from trainer.picture.cut import SectionLine
from trainer.picture.load_path import arrows, down_from_beams, in_words, path
from trainer.picture.model import Item, Text
from trainer.picture.section import along_truss, section, section_box
from trainer.plan import PlatePlan, Point, Wall
from trainer.site.model import Lying, Site

STEP, SMALL_STEP = 100.0, 10.0
"""How far an arrow moves the line, mm; the small step with Shift."""
BEYOND = 900.0
"""How far a line runs on past the walls, mm."""
QUARTER = 0.25
"""Where on a truss that fell a section is taken, as a share of its length: there both its chords are cut."""
LINES = 8
"""So many lines say where a load goes: enough for all but a saddle over many trusses."""


def first_line(plan: PlatePlan) -> SectionLine:
    """Return a line square across the house from the middle of its longest wall."""
    wall = max(plan.walls, key=lambda w: w.length)
    return square_across(plan, wall, round(wall.length / 2))


def square_across(plan: PlatePlan, wall: Wall, at: float) -> SectionLine:
    """Return a line square to a wall, from ``at`` mm along it through the house; it runs on past the eaves."""
    a = wall.at(at)
    cut = SectionLine(a, _far_wall(plan, a, wall.inward))
    return SectionLine(cut.point(-BEYOND), cut.point(cut.length + BEYOND))


def across_row(plan: PlatePlan, truss: Lying) -> SectionLine:
    """Return a line through the house square to a truss that fell, at a quarter of it; it runs on past the eaves."""
    (ax, ay), (bx, by) = truss.start, truss.finish
    length = math.dist(truss.start, truss.finish) or 1.0
    ux, uy = -(by - ay) / length, (bx - ax) / length
    x, y = ax + (bx - ax) * QUARTER, ay + (by - ay) * QUARTER
    runs = [(px - x) * ux + (py - y) * uy for px, py in plan.outline]
    first, last = min(runs) - BEYOND, max(runs) + BEYOND
    return SectionLine((x + ux * first, y + uy * first), (x + ux * last, y + uy * last))


def _far_wall(plan: PlatePlan, start: Point, inward: tuple[int, int]) -> Point:
    """Return where a line straight in from a wall leaves the house for good."""
    nx, ny = inward
    reach = 1.0
    for wall in plan.walls:
        (a, aside), (b, other) = (
            ((x - start[0]) * nx + (y - start[1]) * ny, (y - start[1]) * nx - (x - start[0]) * ny)
            for x, y in (wall.a, wall.b)
        )
        if min(aside, other) <= 0 <= max(aside, other):
            reach = max(reach, a, b)
    return (start[0] + nx * reach, start[1] + ny * reach)


class SectionView(PlanView):
    """What is seen on a line across the roof so far. ``chosen`` is the truss that it runs along, if it stands."""

    role = "view"

    def __init__(
        self, name: str, site: Callable[[], Site], look: Callable[[], Scene3], chosen: Callable[[], str],
        over: Callable[[SectionLine], list[Item]],
    ) -> None:  # fmt: skip
        self._site = site
        self._look = look
        self._chosen = chosen
        self._over = over
        self._last: SectionLine | None = None
        self._fell: tuple[str, ...] = ()
        self._before_fall = (True, first_line(look().layout.house.plan))
        self.on_truss = True
        self.across = first_line(look().layout.house.plan)
        super().__init__(name, section_box(look().layout, self.line), self._items)
        self.press_key = self._move

    @property
    def layout(self) -> Layout:
        """The layout of the house."""
        return self._look().layout

    @property
    def truss(self) -> str:
        """The standing truss that it runs along; none where it runs across the house."""
        return self.chosen if self.on_truss else ""

    @property
    def chosen(self) -> str:
        """The chosen truss, if it stands."""
        chosen = self._chosen()
        return chosen if chosen in self._look().solids else ""

    @property
    def line(self) -> SectionLine:
        """The line on the plan."""
        scene = self._look()
        if self.truss:
            return along_truss(scene.solids[self.truss])
        return self.across

    @property
    def value(self) -> str:
        return self.truss or self.across.words

    def follow(self) -> None:
        """Follow the truss or the line to where it is now; what has just fallen is shown before anything else."""
        self._follow_fall()
        cut = self.line
        if cut != self._last:
            self._last = cut
            self.camera.look_at(section_box(self._look().layout, cut))
            self.invalidate()

    def _follow_fall(self) -> None:
        """Go to a line through what has just fallen; once it is cleared, back to what was looked at before."""
        fall = self._site().fall
        fell = tuple(fall.lying) if fall else ()
        if fell == self._fell:
            return
        if not self._fell:
            self._before_fall = (self.on_truss, self.across)
        self._fell = fell
        if fall is not None:
            self.put(across_row(self.layout.house.plan, next(iter(fall.lying.values()))))
        else:
            self.on_truss, self.across = self._before_fall
            self.invalidate()

    def _items(self, _scale: float) -> list[Item]:
        scene, cut = self._look(), self.line
        named = {self.truss} if self.truss else set()
        seen = section(scene, cut, named)
        return [*seen, *self._over(cut), *self._load(cut)]

    def _load(self, cut: SectionLine) -> list[Item]:
        """Return where the load of the truss goes: arrows at its ends, and in words beside it."""
        site, scene = self._site(), self._look()
        stood = site.stood.get(self.truss)
        if stood is None or stood.place is None or self.truss in self._fell:
            return []
        bearings = path(site, stood.place)
        items = arrows(bearings, scene.solids[self.truss], cut, flipped=stood.flipped)
        left, _bottom, _right, top = section_box(scene.layout, cut)
        lines = list(islice(chain(in_words(bearings), down_from_beams(site, bearings)), LINES))
        for number, line in enumerate(lines):
            off = (0.0, 1.4 * (len(lines) - number))
            items.append(Text((left, top), line, "faint", 15.0, "px", "start", off=off))
        return items

    def put(self, cut: SectionLine) -> None:
        """Take another line across the house."""
        self.across = cut
        self.on_truss = False
        self.invalidate()

    def _move(self, event: pygame.event.Event) -> bool:
        """Move the line away from whoever looks, or nearer."""
        if event.key not in {pygame.K_UP, pygame.K_DOWN} or self.truss:
            return False
        step = (SMALL_STEP if event.mod & pygame.KMOD_SHIFT else STEP) * (1 if event.key == pygame.K_UP else -1)
        (ux, uy), ends = self.across.unit, (self.across.a, self.across.b)
        a, b = [(x - uy * step, y + ux * step) for x, y in ends]
        self.put(SectionLine(a, b))
        return True
