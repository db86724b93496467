"""The board as a whole: one screen at a time, a question over it at times, and where keys and mouse go."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

import pygame

from trainer.board.comfort import Comfort
from trainer.board.held import HeldKeys
from trainer.board.keeping import Records
from trainer.board.look import Look
from trainer.board.navigator import Navigator
from trainer.board.path import Path as LearningPath
from trainer.board.scene import Scene
from trainer.board.scenes.opening_up import OpeningUp
from trainer.board.services import Services
from trainer.board.settings import Settings
from trainer.board.small_window import SmallWindow
from trainer.board.widgets import Node, Scroll, Ui, Widget
from trainer.picture.palette import Palette

BUTTONS = (pygame.BUTTON_LEFT, pygame.BUTTON_MIDDLE, pygame.BUTTON_RIGHT)
"""What counts as a press; turns of the wheel come as buttons too."""


class App:
    """Drives screens by events and frames; all time is passed in, in ms.

    ``surface`` is what it draws on; ``data`` the folder for what the learner saves, if any; ``settings`` what is
    remembered of how it looks, else ``theme`` and ``scale``; ``full_screen`` turns the window to full screen and back.
    """

    def __init__(
        self, surface: pygame.Surface, palettes: Mapping[str, Palette], *, theme: str = "light", scale: float = 1.0,
        data: Path | None = None, stamp: Callable[[], str] = lambda: "attempt", seed: Callable[[], int] = lambda: 1,
        settings: Settings | None = None, full_screen: Callable[[], None] = lambda: None,
    ) -> None:  # fmt: skip
        settings = settings or Settings(theme, scale, shown=True)
        self.look = Look(palettes, settings.theme, settings.scale)
        self._small = SmallWindow(surface, settings.scale)
        self.surface = self._small.canvas
        self.look.still = settings.still
        self.comfort = Comfort(self.look, settings, data, self._look_changed)
        self.ui = Ui(self.look, self._refresh)
        self.running = True
        self.now_ms = 0
        self._dialog: Callable[[], Widget] | None = None
        self._dialog_root: Widget | None = None
        self._focus_before = ""
        self._mouse = (-1, -1)
        self._held_key = ""
        self._held_since: int | None = None
        self._focus_given = False
        self._all_dirty = True
        records, navigator = Records(data), Navigator(lambda: self.scene, self._to_read)
        self.navigator = navigator
        self.services = navigator.services = Services(
            look=self.look, ui=self.ui, comfort=self.comfort, records=records, path=LearningPath(records),
            show=self.show, ask=self.ask, close=self.close, focus=self.focus, quit=self._quit, help=navigator.help,
            go_home=navigator.home, go_first=navigator.first, go_today=navigator.today, go_work=navigator.work,
            go_quiz=navigator.quiz, go_assessments=navigator.assessments, go_desk=navigator.desk,
            go_table=navigator.table, go_result=navigator.result,
            clock=lambda: self.now_ms, stamp=stamp, seed=seed, full_screen=full_screen,
        )  # fmt: skip
        self.ui.look_up = navigator.words
        self._held_keys = HeldKeys()
        self.scene: Scene
        self.show(OpeningUp(self.services))

    # from screen to screen

    def show(self, scene: Scene) -> None:
        """Put another screen in place of the present one."""
        self.scene = scene
        if scene.size != (0, 0):  # it was left and is come back to; the look may be another now
            scene.look_changed()
            scene.refresh()
        self._dialog = self._dialog_root = None
        self.ui.focus = self.ui.hover = self.ui.pressed = self._held_key = ""
        self._all_dirty = True

    def open(self, level: str) -> None:
        """Open a level by its id or its file, in practice; LookupError if there is no such level."""
        from trainer.board.library import read_entry
        from trainer.board.scenes.home import Home
        from trainer.shipped import find_level

        # Under what may have to be asked or said first lie the houses.
        self.show(Home(self.services, offer=False))
        self.navigator.work(read_entry(find_level(level)), "practice")

    def _quit(self) -> None:
        self.running = False

    def ask(self, dialog: Callable[[], Widget]) -> None:
        """Put a question over the screen; it alone takes keys and mouse until it is closed."""
        if self._dialog is None:
            self._focus_before = self.ui.focus
        self._dialog = dialog
        self._dialog_root = None
        self.ui.focus = ""
        self._all_dirty = True

    def close(self) -> None:
        """Take the question away."""
        self._dialog = self._dialog_root = None
        self.ui.focus = self._focus_before
        self._all_dirty = True

    # the state of the tree

    def _refresh(self) -> None:
        if self._dialog is not None:
            self._dialog_root = None
        else:
            self.scene.refresh()

    def _update(self) -> None:
        """Make what is stale, and see that the focus is somewhere."""
        size = self.surface.get_size()
        self.scene.update(size)
        if self._dialog is not None and self._dialog_root is None:
            self._dialog_root = self._dialog()
            self._dialog_root.place(self.ui, self._dialog_rect(self._dialog_root, size))
            self._all_dirty = True
        self._place_focus()

    def _place_focus(self) -> None:
        """See that the focus is somewhere: where the screen wants it first, as soon as that is there."""
        reached = self._stops()
        stops = [w.key for w in reached]
        wanted = self._dialog_root.first_focus if self._dialog_root else self.scene.first_focus()
        lost = self.ui.focus not in stops
        if stops and (lost or (self._focus_given and wanted in stops and self.ui.focus != wanted)):
            # What is scrolled away takes the focus only when somebody goes there, which brings it into sight.
            shown = [w.key for w in reached if w.visible_rect().height] or stops
            self.ui.focus = wanted if wanted in shown else shown[0]
            self._focus_given = bool(wanted) and wanted not in stops
            self.scene.redraw()

    def _dialog_rect(self, root: Widget, size: tuple[int, int]) -> pygame.Rect:
        wide = min(size[0] - 40, self.look.px(720))
        high = min(size[1] - 40, root.high(self.ui, wide))
        return pygame.Rect((size[0] - wide) // 2, (size[1] - high) // 2, wide, high)

    def _roots(self) -> list[Widget]:
        """The roots that keys and mouse reach at present."""
        if self._dialog_root is not None:
            return [self._dialog_root]
        return [self.scene.roots[region] for region in self.scene.order]

    def _to_read(self) -> list[Widget]:
        """What is read aloud: a question over the screen alone, else what a screen says beside its bar and drawings."""
        if self._dialog_root is not None:
            return [self._dialog_root]
        return [self.scene.roots[region] for region in self.scene.order if region in self.scene.spoken]

    def _stops(self) -> list[Widget]:
        return [w for root in self._roots() for w in root.walk() if w.reachable()]

    def _find(self, key: str) -> Widget | None:
        return next((w for root in self._roots() for w in root.walk() if w.key == key), None) if key else None

    def _under(self, pos: tuple[int, int]) -> Iterator[Widget]:
        for root in self._roots():
            yield from root.at(pos)

    def tree(self) -> Node:
        """Return the whole window as nodes; a question over the screen comes alone."""
        self._update()
        nodes = (self._dialog_root.node(self.ui),) if self._dialog_root else self.scene.nodes()
        return Node(
            "window", self.scene.name, "", "window", self.surface.get_rect(), False, False, True, False, "", (), (),
            nodes,
        )  # fmt: skip

    @property
    def asking(self) -> bool:
        """Whether a question is over the screen."""
        return self._dialog is not None

    # time

    def frame(self, now_ms: int) -> list[pygame.Rect]:
        """Let time pass and draw what has changed; return the parts of the surface that did."""
        self.now_ms = now_ms
        self.scene.tick(now_ms)
        if self._held_key and self._held_since is not None:
            self._hold(now_ms - self._held_since)
        if (
            self.scene.stale
            or (self._dialog is not None and self._dialog_root is None)
            or self.scene.size != self.surface.get_size()
        ):
            self._update()
        if not self._all_dirty and not self.scene.dirty:
            return []
        if self._all_dirty:
            self._update()
            self.scene.redraw()
        changed = self.scene.draw(self.surface)
        if self._dialog_root is not None:
            self._draw_dialog(self._dialog_root)
        elif not self._all_dirty:
            return self._seen(changed)
        self._all_dirty = False
        return self._seen([self.surface.get_rect()])

    def _seen(self, changed: list[pygame.Rect]) -> list[pygame.Rect]:
        """Return what has changed of the window; one that is too small shows its part of the screen anew."""
        return [self._small.show(self.look["focus"])] if self._small.small else changed

    def _draw_dialog(self, root: Widget) -> None:
        edge = root.rect.inflate(6, 6)
        self.surface.fill(self.look["panel_edge"], edge)
        root.draw(self.ui, self.surface)

    # events

    def handle(self, event: pygame.event.Event) -> None:
        """Take one event of the window, the keyboard or the mouse."""
        self._update()
        if event.type == pygame.QUIT:
            self._quit()
        elif event.type == pygame.KEYDOWN:
            if not self._held_keys.only_held(event.key, (self.scene, self._dialog)):
                self._key(event)
        elif event.type == pygame.KEYUP:
            self._held_keys.let_go(event.key)
        elif event.type == pygame.MOUSEMOTION:
            self._motion(self._small.under(event.pos))
        elif event.type == pygame.MOUSEBUTTONDOWN and event.button in BUTTONS:
            self._down(self._small.under(event.pos), event.button)
        elif event.type == pygame.MOUSEBUTTONUP and event.button in BUTTONS:
            self._up(self._small.under(event.pos), event.button)
        elif event.type == pygame.MOUSEWHEEL:
            self._wheel(float(event.y))
        elif event.type in {pygame.VIDEORESIZE, pygame.WINDOWEXPOSED, pygame.WINDOWSIZECHANGED}:
            self._fit(pygame.display.get_surface() or self._small.window)

    def _key(self, event: pygame.event.Event) -> None:
        self.ui.show_focus = True
        focused = self._find(self.ui.focus)
        if focused is not None and focused.on_key(self.ui, event):
            self._reveal(focused)
            self._after_key()
        elif self._move_focus(event) or self._comfort(event):
            pass
        elif self._dialog is not None:
            if not self._press_by_shortcut(event) and event.key == pygame.K_ESCAPE:
                self.close()
        elif self.scene.key(event):
            self._after_key()
        else:
            self._scroll_by_key(event)

    def _after_key(self) -> None:
        if self._dialog is None:
            self.scene.redraw()
        else:
            self._all_dirty = True

    def _press_by_shortcut(self, event: pygame.event.Event) -> bool:
        """Press the button of a question whose shortcut is this key; return whether there is one."""
        from trainer.board.widgets import Button

        name = "ESC" if event.key == pygame.K_ESCAPE else pygame.key.name(event.key).upper()
        for widget in self._stops():
            if isinstance(widget, Button) and widget.shortcut.upper() == name:
                widget.press()
                return True
        self._scroll_by_key(event)
        return False

    def _scroll_by_key(self, event: pygame.event.Event) -> None:
        if event.key in {pygame.K_PAGEUP, pygame.K_PAGEDOWN}:
            for root in self._roots():
                for widget in root.walk():
                    if isinstance(widget, Scroll) and widget.overflow and widget.on_key(self.ui, event):
                        return

    def _move_focus(self, event: pygame.event.Event) -> bool:
        stops = self._stops()
        if not stops:
            return False
        index = next((i for i, w in enumerate(stops) if w.key == self.ui.focus), 0)
        if event.key == pygame.K_TAB and not event.mod & pygame.KMOD_CTRL:
            step = -1 if event.mod & pygame.KMOD_SHIFT else 1
        elif event.key == pygame.K_F6:
            self._next_region(-1 if event.mod & pygame.KMOD_SHIFT else 1)
            return True
        elif event.key in {pygame.K_UP, pygame.K_DOWN} and stops[index].role in {"button", "tab", "choice"}:
            step = -1 if event.key == pygame.K_UP else 1
        elif event.key in {pygame.K_LEFT, pygame.K_RIGHT} and stops[index].role in {"button", "tab"}:
            step = -1 if event.key == pygame.K_LEFT else 1
        else:
            return False
        self._focus(stops[(index + step) % len(stops)])
        return True

    def _next_region(self, step: int) -> None:
        regions = [r for r in self.scene.order if any(w.reachable() for w in self.scene.roots[r].walk())]
        if self._dialog is not None or not regions:
            return
        here = self.scene.region_of(self.ui.focus)
        there = regions[(regions.index(here) + step) % len(regions)] if here in regions else regions[0]
        self._focus(next(w for w in self.scene.roots[there].walk() if w.reachable()))

    def focus(self, key: str) -> None:
        """Give the focus to a widget, if there is such a one."""
        self._update()
        widget = self._find(key)
        if widget is not None and widget.reachable():
            self._focus(widget)

    def _focus(self, widget: Widget) -> None:
        left = self._find(self.ui.focus)
        if left is not None and left is not widget:
            left.on_leave(self.ui)
        self.ui.focus = widget.key
        self._focus_given = False
        self._reveal(widget)
        self._after_key()

    def _reveal(self, widget: Widget) -> None:
        """Scroll what a widget lies in so far that it is in sight; nothing where another screen was just put there."""
        for root in [self._dialog_root] if self._dialog_root is not None else self.scene.roots.values():
            for scroll in root.walk():
                if isinstance(scroll, Scroll) and widget is not scroll and any(w is widget for w in scroll.walk()):
                    scroll.reveal(self.ui, widget.in_use(self.ui))
        if self._small.small:
            self._small.reveal(widget.rect)
            self._all_dirty = True

    def _comfort(self, event: pygame.event.Event) -> bool:
        """Help, looks and the list of commands, from anywhere."""
        navigator = self.navigator
        opens = {pygame.K_F1: navigator.help, pygame.K_F2: navigator.text_and_colours, pygame.K_F8: navigator.words}
        if event.key in opens and self._dialog is None:
            opens[event.key]()
            return True
        if event.key == pygame.K_f and event.mod & pygame.KMOD_CTRL and self._dialog is None:
            self.navigator.find()
            return True
        if event.key == pygame.K_F12 and (self._dialog is None or navigator.voice.there):
            navigator.read_aloud()
            return True
        return self.comfort.key(event)

    def _fit(self, window: pygame.Surface) -> None:
        """Draw on the window, or on as much as a screen needs at least where that is smaller."""
        self.surface = self._small.fit(window, self.look.scale)
        self._all_dirty = True

    def _look_changed(self) -> None:
        """Make everything again, in other colours or another size."""
        self._fit(self._small.window)
        self.scene.look_changed()
        self.scene.refresh()
        self._dialog_root = None
        self._all_dirty = True

    # the mouse

    def _motion(self, pos: tuple[int, int]) -> None:
        self._mouse = pos
        self._all_dirty = self._all_dirty or self._small.small
        if self._held_key:
            held = self._find(self._held_key)
            if held is not None:
                held.on_drag(self.ui, pos)
            return
        under = list(self._under(pos))
        hot = next((w.key for w in under if w.focusable and w.enabled), "")
        if hot != self.ui.hover:
            for key in (hot, self.ui.hover):
                region = self.scene.region_of(key) if key else ""
                if region:
                    self.scene.redraw(region)
            self.ui.hover = hot
            self._all_dirty = self._all_dirty or self._dialog is not None
        for widget in under:
            if widget.on_hover(self.ui, pos):
                break
        else:
            self.scene.hover_left()

    def _down(self, pos: tuple[int, int], button: int) -> None:
        self._mouse = pos
        self.ui.show_focus = False
        for widget in self._under(pos):
            if widget.on_press(self.ui, pos, button):
                self._held_key = self.ui.pressed = widget.key
                self._held_since = self.now_ms if widget.repeats else None
                if widget.reachable():
                    self._focus(widget)
                self._after_key()
                return

    def _up(self, pos: tuple[int, int], button: int) -> None:
        key, self._held_key, self.ui.pressed = self._held_key, "", ""
        self._update()
        held = self._find(key)
        if held is not None:
            held.on_release(self.ui, pos, button)
        self._after_key()

    def _hold(self, held_ms: int) -> None:
        held = self._find(self._held_key)
        if held is not None and held.on_hold(self.ui, held_ms):
            self._after_key()

    def _wheel(self, amount: float) -> None:
        for widget in self._under(self._mouse):
            if widget.on_wheel(self.ui, amount, self._mouse):
                self._all_dirty = self._all_dirty or self._dialog is not None
                self.scene.redraw(*filter(None, [self.scene.region_of(widget.key)]))
                return
