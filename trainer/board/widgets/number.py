"""A measure to type in, or to step up and down."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import pygame

from trainer.board.widgets.base import Ui, draw_focus
from trainer.board.widgets.captioned import Captioned
from trainer.board.widgets.typing import Typing, draw_typing, keep_typing, letter_at, typing_of
from trainer.plan.points import half

MOST_LETTERS = 9
HOLD_MS, EVERY_MS, FASTER_AFTER = 400, 70, 15
"""A stepper that is held steps again after so long, then so often, and ten times as far after so many steps."""
FURTHEST = 200_000.0
"""How far from zero a measure may be, as far as a level's places may, mm."""


class NumberEntry(Captioned):
    """A measure in millimetres. Digits start a new number; Enter takes it; Up and Down nudge it.

    So do its two steppers, again and again while they are held, and the wheel over them while it has the focus. Left,
    Right, Home, End and a second press put a caret into the number, to mend it.

    With ``stops`` it goes from one of them to the next. One that is ``blank`` shows nothing: where there is no measure
    yet, ``number`` is where Up and Down begin. What is typed is taken to half a millimetre, or ``exact``;
    ``at_once`` it is taken figure by figure, so that what comes of it is seen.
    """

    role = "entry"
    repeats = True

    def __init__(
        self, name: str, number: float, take: Callable[[float], None], *, key: str = "", unit: str = "mm",
        enter: Callable[[], None] | None = None, nudge: float = 1.0, blank: bool = False,
        stops: Sequence[float] = (), exact: bool = False, at_once: bool = False,
    ) -> None:  # fmt: skip
        super().__init__(name, key=key)
        self.at_once = at_once
        self.number = number
        self.take = take
        self.enter = enter
        self.unit = unit
        self.nudge = nudge
        self.blank = blank
        self.stops = tuple(stops)
        self.exact = exact

    @property
    def value(self) -> str:
        return "" if self.blank else f"{self.number:.1f}".removesuffix(".0") + f" {self.unit}"

    def wide(self, ui: Ui) -> int:
        return max(
            ui.look.width(f"-00000.0 {self.unit}", "strong") + ui.look.px(12) + 2 * max(24, ui.look.px(24)),
            self.caption_wide(ui),
        )

    @property
    def inks(self) -> tuple[tuple[str, str], ...]:
        return (*super().inks, ("panel_ink", "select"))

    def _draft(self, ui: Ui) -> str | None:
        draft = ui.memory.get(f"draft/{self.key}")
        return None if draft is None or ui.focus != self.key else str(draft)

    def _typing(self, ui: Ui) -> Typing:
        """Return what is being typed; before that the whole number, marked, since a figure begins a new one."""
        draft = self._draft(ui)
        if draft is not None:
            return typing_of(ui, self.key, draft)
        shown = "" if self.blank else f"{self.number:.1f}".removesuffix(".0")
        return Typing(shown, len(shown), 0)

    def _stand(self, ui: Ui, typing: Typing) -> None:
        """Let the number stand like that while it is typed."""
        ui.memory[f"draft/{self.key}"] = typing.text
        keep_typing(ui, self.key, typing)
        if self.at_once:
            self._take(typing.text)

    def steppers(self, ui: Ui) -> tuple[pygame.Rect, pygame.Rect]:
        """Where less and more are pressed by mouse, at the right of the box."""
        box, wide = self.box(ui), max(24, ui.look.px(24))
        more = pygame.Rect(box.right - wide - 2, box.top, wide, box.height)
        return more.move(-wide, 0), more

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        look = ui.look
        self.draw_caption(ui, surface)
        box = self.box(ui)
        pygame.draw.rect(surface, look["panel"], box, border_radius=look.px(4))
        hot = ui.hover == self.key
        pygame.draw.rect(surface, look["panel_edge"], box, 3 if hot else 2, border_radius=look.px(4))
        steppers, typing = self.steppers(ui), self._typing(ui)
        room = pygame.Rect(box.left + look.px(8), box.top, steppers[0].left - box.left - look.px(8), box.height)
        if ui.focus == self.key:
            self.cut = look.width(typing.text, "strong") > room.width
            draw_typing(ui, surface, typing, room, style="strong", caret=self._draft(ui) is not None)
            if self._draft(ui) is None:
                unit = look.text(f" {self.unit}", "strong", "panel_ink")
                surface.blit(
                    unit, (room.left + look.width(typing.text, "strong"), room.centery - unit.get_height() // 2)
                )
        else:
            drawn = look.text(self.value, "strong", "panel_ink")
            self.cut = drawn.get_width() > room.width
            surface.blit(drawn, (room.left, room.centery - drawn.get_height() // 2))
        arm = look.px(5)
        for place, upright in zip(steppers, (False, True), strict=True):
            x, y = place.center
            pygame.draw.line(surface, look["panel_ink"], (x - arm, y), (x + arm, y), 2)
            if upright:
                pygame.draw.line(surface, look["panel_ink"], (x, y - arm), (x, y + arm), 2)
        draw_focus(ui, surface, self, box)

    def commit(self, ui: Ui) -> None:
        """Take what has been typed, if anything that is a number."""
        draft = ui.memory.pop(f"draft/{self.key}", None)
        keep_typing(ui, self.key, None)
        if draft is None:
            return
        if not self._take(str(draft)):
            ui.refresh()

    def _take(self, typed: str) -> bool:
        """Take what is typed; return whether it is a number."""
        try:
            number = float(typed.replace(",", "."))
        except ValueError:
            return False
        self.take(max(-FURTHEST, min(FURTHEST, number if self.exact else half(number))))
        return True

    def on_leave(self, ui: Ui) -> None:
        self.commit(ui)

    def on_key(self, ui: Ui, event: pygame.event.Event) -> bool:
        typing, typed = self._typing(ui), getattr(event, "unicode", "")
        after = typing.key(event)
        if after is not None:
            # Backspace in a number that nobody has begun to type takes its last figure off, not the whole of it.
            fresh = self._draft(ui) is None and event.key == pygame.K_BACKSPACE
            self._stand(ui, typing.to(len(typing.text)).key(event) or after if fresh else after)
        elif event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        elif typed and typed in "0123456789.,-":
            self._stand(ui, typing.put(typed, MOST_LETTERS))
        elif event.key in {pygame.K_RETURN, pygame.K_KP_ENTER}:
            self.commit(ui)
            if self.enter:
                self.enter()
        elif event.key in {pygame.K_UP, pygame.K_DOWN}:
            self.commit(ui)
            self.take(self._stepped(1 if event.key == pygame.K_UP else -1, 10 if event.mod & pygame.KMOD_SHIFT else 1))
        elif event.key == pygame.K_ESCAPE and self._draft(ui) is not None:
            ui.memory.pop(f"draft/{self.key}")
        else:
            return False
        ui.refresh()
        return True

    def _stepper_at(self, ui: Ui, pos: tuple[int, int]) -> int:
        """Return which way the stepper at a place goes; 0 where there is none."""
        less, more = self.steppers(ui)
        return 1 if more.collidepoint(pos) else -1 if less.collidepoint(pos) else 0

    def on_press(self, ui: Ui, pos: tuple[int, int], button: int) -> bool:
        way = self._stepper_at(ui, pos)
        ui.memory[f"held/{self.key}"] = (way if button == 1 else 0, 0)
        if button == 1 and not way and ui.focus == self.key and self.box(ui).collidepoint(pos):
            typing, left = self._typing(ui), self.box(ui).left + ui.look.px(8)
            at = letter_at(typing.text, pos[0] - left, lambda text: ui.look.width(text, "strong"))
            self._stand(ui, typing.to(at))
        return super().on_press(ui, pos, button)

    def on_hold(self, ui: Ui, held_ms: int) -> bool:
        way, done = ui.memory.get(f"held/{self.key}", (0, 0))
        if not way or held_ms < HOLD_MS + done * EVERY_MS:
            return False
        ui.memory[f"held/{self.key}"] = (way, done + 1)
        self._step(ui, way, 10 if done >= FASTER_AFTER else 1)
        return True

    def on_release(self, ui: Ui, pos: tuple[int, int], button: int) -> None:
        way, done = ui.memory.pop(f"held/{self.key}", (0, 0))
        if button == 1 and way and not done and self._stepper_at(ui, pos) == way:
            self._step(ui, way)

    def on_wheel(self, ui: Ui, amount: float, pos: tuple[int, int]) -> bool:
        # Who scrolls past it with the wheel does not mean to change it.
        if ui.focus != self.key or not self._stepper_at(ui, pos):
            return False
        self._step(ui, 1 if amount > 0 else -1)
        return True

    def _step(self, ui: Ui, way: int, times: int = 1) -> None:
        self.commit(ui)
        self.take(self._stepped(way, times))
        ui.refresh()

    def _stepped(self, way: int, times: int = 1) -> float:
        """The number a step up or down from here: the next stop, or else so much more or less."""
        beyond = [stop for stop in self.stops if (stop - self.number) * way > 0.25]
        nearest = min(beyond, key=lambda stop: abs(stop - self.number), default=None)
        return self.number + way * times * self.nudge if nearest is None else nearest
