"""The line of a section, drawn on the plan: pressed and dragged, clicked at both ends, moved by keys, or typed."""

from __future__ import annotations

import math
from collections.abc import Callable

import pygame

from trainer.board.snap import tape_places, tape_point, whole_step
from trainer.picture.cut import SectionLine
from trainer.picture.model import Item, Line, Polygon
from trainer.plan import Point
from trainer.site.model import Site
from trainer.words import _

STEP, SMALL_STEP = 50.0, 1.0
"""How far an arrow moves an end, mm; the small step with Shift."""
REACH_PX = 9.0
"""How near to a place an end must come to be caught by it, px."""
LEAST = 300.0
"""A line shorter than this, mm, shows nothing."""
ARM_PX, EYE_PX = 9.0, 22.0
"""Half the size of the sign at an end, and the length of the arrows that say from where one looks, px."""
_ARROWS = {pygame.K_LEFT: (-1, 0), pygame.K_RIGHT: (1, 0), pygame.K_UP: (0, 1), pygame.K_DOWN: (0, -1)}


class LineDrawer:
    """Holds a line while it is drawn. ``end`` is the end that is being put, 0 or 1.

    ``changed`` is called when it is another line, ``done`` when it is to be shown.
    """

    def __init__(
        self, site: Site, cut: SectionLine, changed: Callable[[], None], done: Callable[[SectionLine], None]
    ) -> None:
        self.ends = [cut.a, cut.b]
        self.end = 0
        self._site = site
        self._changed = changed
        self._done = done
        self._pressed: Point | None = None
        self._too_short = False

    @property
    def note(self) -> str:
        """What to do next, for the foot of the plan."""
        if self._too_short:
            return _("That line is too short. Make it {n} mm or more.").format(n=f"{LEAST:g}")
        if self.end == 0:
            return _("Press where it begins and drag to its end. Or: arrows, Enter.")
        return _("Now its end. You look along the arrows.")

    @property
    def status(self) -> str:
        """The line in words, for the tree."""
        return SectionLine(self.ends[0], self.ends[1]).words

    def put(self, end: int, place: Point) -> None:
        """Put an end at a place."""
        self.ends[end] = place
        self._too_short = False
        self._changed()

    def show(self) -> None:
        """Have the section on the line shown; of a line that is too short it is said so."""
        self._too_short = math.dist(*self.ends) < LEAST
        if self._too_short:
            self._changed()
        else:
            self._done(SectionLine(self.ends[0], self.ends[1]))

    def _caught(self, place: Point, mm_per_px: float) -> Point:
        return tape_point(self._site, place, REACH_PX * mm_per_px, whole_step(mm_per_px))[0]

    # the mouse on the plan

    def press(self, place: Point, mm_per_px: float) -> None:
        """Begin the line at a place, or end it there."""
        at = self._caught(place, mm_per_px)
        self._pressed = at
        if self.end == 0:
            self.ends = [at, at]
            self.end = 1
            self._changed()
        else:
            self.put(1, at)

    def follow(self, place: Point, mm_per_px: float) -> None:
        """Follow the mouse: the end that is to be put next goes with it."""
        if self.end == 1:
            self.put(1, self._caught(place, mm_per_px))

    def release(self) -> None:
        """Let go: where the line has a length by now it is shown, otherwise its end is still to come."""
        if self._pressed is not None and math.dist(*self.ends) >= LEAST:
            self.show()
        self._pressed = None

    # keys

    def key(self, event: pygame.event.Event) -> bool:
        """Move an end by the arrows, or with N to what catches next; Enter goes on to the other end, then shows it."""
        if event.key in _ARROWS:
            across, up = _ARROWS[event.key]
            step = SMALL_STEP if event.mod & pygame.KMOD_SHIFT else STEP
            x, y = self.ends[self.end]
            self.put(self.end, (x + across * step, y + up * step))
        elif event.key == pygame.K_n:
            spots = sorted(spot for spot, _by in tape_places(self._site))
            self.put(self.end, next((spot for spot in spots if spot > self.ends[self.end]), spots[0]))
        elif event.key in {pygame.K_RETURN, pygame.K_KP_ENTER, pygame.K_SPACE}:
            self.go_on()
        else:
            return False
        return True

    def go_on(self) -> None:
        """Go on to the other end, or show the section."""
        if self.end == 0:
            self.end = 1
            self._changed()
        else:
            self.show()

    # on the paper

    def items(self, scale: float) -> list[Item]:
        """Return the line as a drawing has it: dash and dot, arrows at its ends the way one looks."""
        a, b = self.ends
        cut = SectionLine(a, b)
        ux, uy = cut.unit if a != b else (0.0, 0.0)
        arm, eye = ARM_PX / scale, EYE_PX / scale
        items: list[Item] = [Line((a, b), "mark", 2.5, "px", (14.0, 4.0, 3.0, 4.0))]
        for number, (x, y) in enumerate(self.ends):
            tip = (x - uy * eye, y + ux * eye)
            foot, half = (tip[0] + uy * arm, tip[1] - ux * arm), arm * 0.6
            wings = [(foot[0] + side * ux * half, foot[1] + side * uy * half) for side in (1, -1)]
            items += [Line(((x, y), tip), "mark", 2.5), Polygon((tip, *wings), "mark")]
            if number == self.end:
                square = ((x - arm, y - arm), (x + arm, y - arm), (x + arm, y + arm), (x - arm, y + arm))
                items.append(Polygon(square, None, "mark", 2.5))
        return items
