"""How much of the sheet is seen; beside it, as they are drawn: the roof at an angle, and a section along a truss."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

import pygame

from trainer.board.angled_view import DEGREES_PER_PX, STEP
from trainer.board.camera import Camera
from trainer.board.look import Look
from trainer.board.plan_view import PlanView
from trainer.board.table.hand import ARROWS
from trainer.board.widgets import Ui
from trainer.layout import Layout
from trainer.picture.angled import box_round
from trainer.picture.drafted import SHEET, at_an_angle, cut_along, middle_of, sheet_box, truss_of
from trainer.picture.model import Item
from trainer.picture.space import Turn
from trainer.table import Drawing
from trainer.words import _

Looked = Callable[[], Layout | None]
FOOT = 204
"""Height of what is under the sheet: the line to type in with a sentence and two faults, the views; px at 100 %."""


def places(look: Look, size: tuple[int, int], bar: int, *, cut: bool) -> dict[str, pygame.Rect]:
    """Return where each part of the screen is, under a bar so many px high; ``cut``: there is a section to be seen."""
    (wide, high), roomy = size, look.roomy(size)
    side = min(look.px(410), int(wide * (0.36 if roomy else 0.46)))
    # It keeps its height whatever is said in it, so that nothing on the sheet moves under the mouse.
    foot = max(look.px(FOOT), int(high * 0.24)) if roomy else min(look.px(FOOT), int(high * 0.36))
    left, top = wide - side, high - foot
    view = int(left * 0.29) if roomy else 0
    # Where nothing is laid out there is no section, and its room is for the faults.
    section = view if cut else 0
    said = left - view - section
    return {
        "bar": pygame.Rect(0, 0, wide, bar),
        "side": pygame.Rect(left, bar, side, high - bar),
        "plan": pygame.Rect(0, bar, left, top - bar),
        "foot": pygame.Rect(0, top, said, foot),
        "section": pygame.Rect(said, top, section, foot if section else 0),
        "angled": pygame.Rect(left - view, top, view, foot),
    }


def keep_in_sight(camera: Camera, drawing: Drawing, *, closes: bool) -> None:
    """Show more of the sheet where what is drawn needs it; while the outline is open, the view holds until then."""
    left, low, right, high = sheet_box(drawing)
    box = camera.box
    if closes:
        camera.look_at((left, low, right, high))
    elif drawing.corners and not drawing.closed:
        (x0, y1), (x1, y0) = camera.view.to_mm((0, 0)), camera.view.to_mm(camera.size)
        if not all(x0 <= x <= x1 and y0 <= y <= y1 for x, y in drawing.corners):
            camera.look_at((left, low, right, high))
        camera.hold()
    elif left < box[0] or low < box[1] or right > box[2] or high > box[3]:
        camera.look_at((min(left, box[0]), min(low, box[1]), max(right, box[2]), max(high, box[3])))


class RoofView(PlanView):
    """The roof of the sheet at an angle, turned by mouse or arrows."""

    role = "view"

    def __init__(self, look: Looked) -> None:
        self._look = look
        self.turn = Turn()
        super().__init__(_("The roof at an angle"), SHEET, self._items)
        self.press_key = self._turn_key
        self._button = 1

    @property
    def value(self) -> str:
        return f"{self.turn.yaw:g}° {self.turn.tilt:g}°"

    def reachable(self) -> bool:
        return super().reachable() and self._look() is not None

    def follow(self) -> Iterator[None]:
        """Show the roof as it is now, all of it, in two steps."""
        layout = self._look()
        if layout is not None:
            turn = replace(self.turn, middle=middle_of(layout))
            box = box_round(layout, turn)
            yield
            self.turn = turn
            self.camera.look_at(box)
        self.invalidate()

    def _items(self, scale: float) -> list[Item]:
        layout = self._look()
        return at_an_angle(layout, self.turn, scale) if layout is not None else []

    def _lettering(self, scale: float) -> tuple[float, float, float, float]:
        return (0.0, 0.0, 0.0, 0.0)

    def _turn_by(self, yaw: float, tilt: float) -> None:
        self.turn = self.turn.turned(yaw, tilt)
        for _step in self.follow():
            pass

    def _turn_key(self, event: pygame.event.Event) -> bool:
        if event.key not in ARROWS:
            return False
        across, up = ARROWS[event.key]
        self._turn_by(-across * STEP, up * STEP)
        return True

    def on_press(self, ui: Ui, pos: tuple[int, int], button: int) -> bool:
        self._button = button
        return super().on_press(ui, pos, button)

    def on_drag(self, ui: Ui, pos: tuple[int, int]) -> None:
        moved = self.dragged(pos) if self._button == 1 else None
        if moved is not None:
            self._turn_by(moved[0] * DEGREES_PER_PX, moved[1] * DEGREES_PER_PX)
        elif self._button != 1:
            super().on_drag(ui, pos)

    def on_hover(self, ui: Ui, pos: tuple[int, int]) -> bool:
        return False


class CutView(PlanView):
    """A section along one truss of the sheet; the arrows go on to the next."""

    role = "view"

    def __init__(self, look: Looked) -> None:
        self._look = look
        self.tag = ""
        self._of = ("", "")
        self._drawn: list[Item] = []
        super().__init__(_("A section"), SHEET, lambda _scale: self._drawn)
        self.press_key = self._next_key

    @property
    def value(self) -> str:
        return self.tag

    def reachable(self) -> bool:
        return super().reachable() and self._look() is not None

    def follow(self, wall: str = "", kind: str = "") -> None:
        """Show a truss of the ``wall`` that was chosen or made another ``kind`` since; else the one looked at before.

        Where there is neither, the longest.
        """
        layout = self._look()
        members = layout.members if layout is not None else ()
        self._drawn = []
        if layout is not None and members:
            if wall in layout.house.plan.by_name and (wall, kind) != self._of:
                self.tag = truss_of(layout, wall).tag
            elif self.tag not in layout.by_tag:
                standing = [member for member in members if member.kind == "standard"] or list(members)
                self.tag = min(standing, key=lambda member: (-member.span, member.station)).tag
            self._drawn, box = cut_along(layout, self.tag)
            self.camera.look_at(box)
        self._of = (wall, kind)
        self.invalidate()

    def _next_key(self, event: pygame.event.Event) -> bool:
        layout = self._look()
        if event.key not in {pygame.K_UP, pygame.K_DOWN} or layout is None or self.tag not in layout.by_tag:
            return False
        tags = list(layout.by_tag)
        self.tag = tags[(tags.index(self.tag) + (1 if event.key == pygame.K_DOWN else -1)) % len(tags)]
        self.follow(*self._of)
        return True

    def on_hover(self, ui: Ui, pos: tuple[int, int]) -> bool:
        return False
