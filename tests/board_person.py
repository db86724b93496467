"""A person at the board: sees its tree of names and the plan, and has only a keyboard and a mouse."""

import os

os.environ.setdefault("SDL_VIDEODRIVER", "dummy")
os.environ.setdefault("SDL_AUDIODRIVER", "dummy")
os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")

import math
from collections.abc import Iterable
from copy import copy
from functools import cache
from pathlib import Path
from typing import cast

import pygame

from trainer.board import library
from trainer.board.aim import LIES_NAMES, Aim, aims_of
from trainer.board.app import App
from trainer.board.plan_view import PlanView
from trainer.board.scenes.work import Work
from trainer.board.scenes.work_frame import stage_label
from trainer.board.settings import Settings, read_settings
from trainer.board.tools.brace import HOLDS, KIND_NAMES
from trainer.board.tools.plan import SLUNG_NAMES
from trainer.board.tools.registry import STAGE_TOOLS, TOOLS, stage_of
from trainer.board.tools.unbrace import pieces_on
from trainer.board.widgets import Node
from trainer.board.window import palettes
from trainer.plan import Point
from trainer.session import Session
from trainer.shipped import level_paths
from trainer.site import AnyAction, Brace, Fit, Fix, HandOver, Mark, Stand
from trainer.site.actions import (
    Check,
    Clear,
    Cut,
    Inspect,
    Load,
    Measure,
    Plan,
    Plumb,
    Remove,
    Report,
    Restrain,
    Stop,
    String,
    Unbrace,
)
from trainer.site.spots import spots_of
from trainer.terms import CUTS, LOADS, READINGS, VERBS, thing

KEYS = {
    "enter": pygame.K_RETURN, "tab": pygame.K_TAB, "esc": pygame.K_ESCAPE, "up": pygame.K_UP, "down": pygame.K_DOWN,
    "left": pygame.K_LEFT, "right": pygame.K_RIGHT, "home": pygame.K_HOME, "end": pygame.K_END,
    "page down": pygame.K_PAGEDOWN, "page up": pygame.K_PAGEUP, "space": pygame.K_SPACE, "f1": pygame.K_F1,
    "f2": pygame.K_F2, "f3": pygame.K_F3, "f4": pygame.K_F4, "f5": pygame.K_F5, "f7": pygame.K_F7,
    "f6": pygame.K_F6, "f8": pygame.K_F8, "f9": pygame.K_F9,
    "backspace": pygame.K_BACKSPACE, ".": pygame.K_PERIOD, "-": pygame.K_MINUS,
    "+": pygame.K_PLUS,
}  # fmt: skip

_read, _read_once = library.read_entry, cache(library.read_entry)
SHIPPED_PATHS = frozenset(level_paths())
# Every board of a run is shown the shipped houses as they were read for the first: nothing changes an entry.
library.read_entry = lambda path: (_read_once if path in SHIPPED_PATHS else _read)(path)


_begun: dict[tuple[object, ...], Session] = {}
"""Attempts that nobody keeps a record of as far as some actions go, by level, seed, mode and these."""


class Person:
    """Drives an App by events as a window would, and lets its clock run."""

    def __init__(
        self, size: tuple[int, int] = (1280, 800), *, theme: str = "light", scale: float = 1.0,
        data: Path | None = None, remembered: bool = False,
    ) -> None:  # fmt: skip
        pygame.display.init()
        self.surface = pygame.display.set_mode(size)
        settings = read_settings(data) if remembered else Settings(theme, scale, shown=True, guided=False)
        self.app = App(self.surface, palettes(), data=data, settings=settings)
        self.now = 0
        self.folder: object = None
        self.wait(3)

    # time and eyes

    def wait(self, frames: int = 1, ms: int = 50) -> None:
        for _ in range(frames):
            self.now += ms
            self.app.frame(self.now)

    def pass_time(self, ms: int) -> None:
        """Let time pass without a look at the window: what is to be seen is drawn when somebody waits."""
        self.now += ms
        self.app.now_ms = self.now
        self.app.scene.tick(self.now)

    def wait_long(self, ms: int) -> None:
        """Let time pass that only its end is looked at of: what moves is not drawn on the way."""
        for _ in range(ms // 50 - 1):
            self.pass_time(50)
        self.wait(2)

    def wait_for_houses(self) -> None:
        """Let time pass, without drawing, until every shipped house has been read."""
        for _ in range(400):
            library = getattr(self.app.scene, "library", None)
            if library is not None and not library.waiting:
                break
            self.pass_time(50)
        assert len(self.see("list", "Houses").children) == len(SHIPPED_PATHS)

    def tree(self) -> Node:
        return self.app.tree()

    def see(self, role: str, name: str = "") -> Node:
        return self.tree().one(role, name)

    def sees(self, role: str, name: str = "") -> bool:
        return bool(self.tree().all(role, name))

    @property
    def focused(self) -> Node:
        """What has the focus, as the tree shows it: made alone, since going on by Tab looks at nothing else."""
        self.app._update()
        widget = self.app._find(self.app.ui.focus)
        assert widget is not None
        return widget.node(self.app.ui)

    @property
    def status(self) -> str:
        return self.see("status").name

    @property
    def work(self) -> Work:
        """The work screen; for looking at the site only."""
        assert isinstance(self.app.scene, Work)
        return self.app.scene

    @property
    def plan(self) -> PlanView:
        return cast(PlanView, self.app.scene.roots["plan"])

    def build(self, actions: Iterable[AnyAction]) -> None:
        """Do ``actions`` first thing, through the session; what was done before by another person is taken over."""
        session, done = self.work.session, tuple(actions)
        if session._journal is None:
            key = (session.level.id, session.job.seed, session.mode, done)
            if key not in _begun:
                _begun[key] = copy(session.replay(done))
            session.__dict__ |= _begun[key].__dict__
            session._outcomes, session._standing = [*session._outcomes], [*session._standing]
        else:
            session.replay(done)
        self.work.changed()

    # keyboard

    def key(self, name: str, *, ctrl: bool = False, shift: bool = False, alt: bool = False, times: int = 1) -> None:
        for _ in range(times):
            self._press_key(name, ctrl, shift, alt)
        self.pass_time(5)

    def _press_key(self, name: str, ctrl: bool, shift: bool, alt: bool) -> None:
        code = KEYS.get(name) or pygame.key.key_code(name)
        mod = (pygame.KMOD_CTRL if ctrl else 0) | (pygame.KMOD_SHIFT if shift else 0) | (pygame.KMOD_ALT if alt else 0)
        typed = " " if name == "space" else name if len(name) == 1 and not ctrl else ""
        self.app.handle(pygame.event.Event(pygame.KEYDOWN, key=code, mod=mod, unicode=typed))
        self.app.handle(pygame.event.Event(pygame.KEYUP, key=code, mod=mod))

    def write(self, words: str) -> None:
        for char in words:
            self.key("space") if char == " " else self.key(char)

    def type(self, number: float) -> None:
        for char in f"{number:g}" if float(number).is_integer() else f"{number:.1f}":
            self.key(char)

    def tab_to(self, role: str, name: str) -> None:
        for _ in range(80):
            node = self.focused
            if node.role == role and node.name.startswith(name):
                return
            self.key("tab")
        raise AssertionError(f"Tab never came to {role} {name!r}")

    def arrow_to(self, row: str, listing: str) -> None:
        """Go to a row of the list that has the focus."""
        if listing == "Houses" and self.focused.name == "Today's work":
            self.tab_to("list", listing)
        node = self.see("list", listing)
        assert node.focused, f"{listing} has not the focus; {self.focused.role} {self.focused.name} has"
        keys = [child.key for child in node.children]
        target, now = keys.index(row), self._chosen_in(listing)
        if now is None:
            self.key("home")
            now = 0
        page = 2
        while listing in {"Houses", "Roof so far"} and abs(target - now) > page / 2 + 1:  # long lists
            before = now
            self.key("page down" if target > now else "page up")
            now = self._chosen_in(listing) or 0
            page = max(page, abs(now - before))
        self.key("down" if target > now else "up", times=abs(target - now))
        assert self._chosen_in(listing) == target

    def _chosen_in(self, listing: str) -> int | None:
        rows = self.see("list", listing).children
        return next((i for i, child in enumerate(rows) if child.value == "chosen"), None)

    def press_until(self, key: str, choice: str, wanted: str) -> None:
        for _ in range(60):
            if self.see("choice", choice).value == wanted:
                return
            self.key(key)
        raise AssertionError(f"{choice} never came to {wanted}")

    def read_note(self, *, by_mouse: bool = False) -> None:
        """Read what was found to its end, page by page, and go on."""
        for _ in range(12):
            if not self.work.noted:
                return
            self.click_on("button", "Go on") if by_mouse else self.key("enter")
        raise AssertionError("the note never went away")

    # mouse

    def move(self, pos: tuple[int, int]) -> None:
        self.app.handle(pygame.event.Event(pygame.MOUSEMOTION, pos=pos, rel=(0, 0), buttons=(0, 0, 0)))

    def press(self, pos: tuple[int, int], button: int = 1) -> None:
        self.move(pos)
        self.app.handle(pygame.event.Event(pygame.MOUSEBUTTONDOWN, pos=pos, button=button))

    def let_go(self, pos: tuple[int, int], button: int = 1) -> None:
        self.app.handle(pygame.event.Event(pygame.MOUSEBUTTONUP, pos=pos, button=button))
        self.pass_time(5)

    def click(self, pos: tuple[int, int], button: int = 1) -> None:
        self.press(pos, button)
        self.let_go(pos, button)

    def click_on(self, role: str, name: str) -> None:
        node = self.see(role, name)
        assert node.enabled, f"{role} {name!r} can't be pressed"
        self.click(node.rect.center)

    def wheel(self, pos: tuple[int, int], amount: int) -> None:
        self.move(pos)
        self.app.handle(pygame.event.Event(pygame.MOUSEWHEEL, x=0, y=amount, precise_x=0.0, precise_y=float(amount)))
        self.pass_time(5)

    def click_row(self, listing: str, row: str) -> None:
        """Press on a row, scrolled to by the wheel."""
        for _ in range(200):
            node = self.see("list", listing)
            found = next(child for child in node.children if child.key == row)
            if node.rect.top <= found.rect.centery < node.rect.bottom:
                self.click(found.rect.center)
                return
            self.wheel(node.rect.center, 1 if found.rect.centery < node.rect.top else -1)
        raise AssertionError(f"the wheel never came to {row}")

    def open_tab(self, name: str) -> None:
        """Open a part of the column by mouse."""
        self.click_on("tab", name) if self.sees("tab", name) else self.choose_by_mouse("Show", name)

    def choose_by_mouse(self, choice: str, wanted: str) -> None:
        for _ in range(20):
            node = self.see("choice", choice)
            if node.value == wanted:
                return
            self.click((node.rect.right - 12, node.rect.bottom - 12))
        raise AssertionError(f"{choice} never came to {wanted}")

    def step_up_by_mouse(self, entry: str, least: float) -> None:
        """Press on the more of an entry until it is enough: steps go from truss to truss."""
        for _ in range(60):
            node = self.see("entry", entry)
            if float(node.value.split()[0]) >= least:
                return
            self.click((node.rect.right - 12, node.rect.bottom - 12))
        raise AssertionError(f"{entry} never came to {least}")

    def step_by_mouse(self, entry: str, wanted: float) -> None:
        """Press on the more or the less of an entry."""
        for _ in range(60):
            node = self.see("entry", entry)
            now = float(node.value.split()[0]) if node.value else 0.0
            if now == wanted:
                return
            self.click((node.rect.right - (12 if now < wanted else 36), node.rect.bottom - 12))
        raise AssertionError(f"{entry} never came to {wanted}")


class _Hands:
    """Does each action by the method of its kind."""

    def __init__(self, person: Person) -> None:
        self.person = person

    def do(self, action: AnyAction) -> None:
        getattr(self, f"_{action.do}")(action)


class ByKeyboard(_Hands):
    """Does actions with keys alone."""

    def _choose(self, tag: str) -> None:
        person = self.person
        standing = tag in person.work.site.stood
        person.key("o" if standing else "y")
        person.arrow_to(tag, "Roof so far" if standing else "Yard")

    def _mark(self, action: Mark) -> None:
        person = self.person
        person.key("m")
        if action.wall:
            person.press_until("w", "Wall", action.wall)
        else:
            self._choose(str(action.on))
        start = "corner" if action.measured_from is None else "the last mark"
        while person.sees("choice", "Tape from") and not person.see("choice", "Tape from").value.startswith(start):
            person.key("k")
        hooked = action.measured_from is None and action.wall is not None
        person.type(self.on_tape(str(action.wall), action.at) if hooked else action.at - (action.measured_from or 0))
        person.key("enter")

    def on_tape(self, wall: str, at: float) -> float:
        """A measure along a wall as the tape reads it."""
        start = self.person.work.hand.tape_start(wall)
        return start - at if start else at

    def _fit(self, action: Fit) -> None:
        person = self.person
        person.key("f")
        if action.on in person.work.site.layout.ledgers:
            person.press_until("c", "Part", action.part)
            person.press_until("l", "On", action.on)
            person.type(action.at)
            person.key("enter")
            return
        self._choose(action.on)
        person.press_until("c", "Part", action.part)
        if action.at is not None:
            if not person.sees("entry", "From its end 1"):
                person.tab_to("choice", "Where")
                person.key("right")
            person.type(action.at)
        for entry, number in (("One every", action.every), ("Run back", action.back)):
            if number is not None:
                person.tab_to("entry", entry)
                person.type(number)
        person.key("enter")

    def got_ready(self, action: Stand) -> None:
        """Choose what else there is to choose of a truss that is in the hand."""

    def lifted(self, action: Stand) -> Aim:
        """Choose a truss in the yard, what else there is to choose of it, and its wall: how it is to be aimed."""
        person, layout = self.person, self.person.work.site.layout
        person.arrow_to(action.tag, "Yard")
        self.got_ready(action)
        aim = aims_of(layout.house.plan, layout.by_tag[action.tag], action.start, action.finish)[0]
        person.press_until("w", "Wall", aim.wall)
        return aim

    def _stand(self, action: Stand) -> None:
        person = self.person
        person.key("s")
        aim = self.lifted(action)
        if (person.work.hand.aim.turned) != aim.turned:
            person.key("t")
        person.type(self.on_tape(aim.wall, aim.at))
        person.key("tab")
        assert person.focused.name == "In from it"
        if aim.off or person.focused.value != "0 mm":
            person.type(aim.off)
            person.key("tab")
        person.press_until("l", "It lies", LIES_NAMES[aim.lies])
        person.key("enter")

    def _brace(self, action: Brace) -> None:
        person = self.person
        person.key("b")
        person.press_until("c", "With", KIND_NAMES[action.kind])
        if action.every is not None and person.see("entry", "A row every").value != f"{action.every} mm":
            person.type(action.every)
            person.tab_to("list", "Roof so far")
        if action.to is not None:
            person.tab_to("choice", "To")
            person.key("right")
            person.tab_to("list", "Roof so far")
        for tag in action.tags:
            person.arrow_to(tag, "Roof so far")
            person.key("enter")
        if action.kind in {"steel brace", "diagonal"}:
            person.tab_to("button", "Brace it")
            person.key("enter")

    def _fix(self, action: Fix) -> None:
        person = self.person
        person.key("x")
        person.press_until("c", "With", action.with_)
        person.arrow_to(action.tag, "Roof so far")
        person.press_until("e", "Which", which(person.work, action))
        person.press_until("w", "Nail holes", filled(action))
        if person.see("entry", "How many").value.strip() != str(action.count):
            person.tab_to("entry", "How many")
            person.type(action.count)
            person.tab_to("list", "Roof so far")
        person.key("enter")

    def _restrain(self, action: Restrain) -> None:
        person = self.person
        person.key("z")
        person.press_until("c", "Kind", thing(action.kind))
        if action.kind == "roof brace":
            person.press_until("e", "Strap pulled", pulled(action))
        names = ("Begins: across", "Begins: up", "Ends: across", "Ends: up")
        for name, number in zip(names, (*action.start, *action.finish), strict=True):
            person.tab_to("entry", name)
            person.type(number)
        person.tab_to("button", "Put it in")
        person.key("enter")

    def _check(self, action: Check) -> None:
        self.person.key("q")
        self.person.arrow_to(action.item, "Places")
        self.person.key("enter")

    def _measure(self, action: Measure) -> None:
        person = self.person
        person.key("a")
        person.press_until("c", "What", READINGS[action.what])
        if action.wall:
            person.press_until("w", "Wall", action.wall)
        elif action.at is not None:
            self._type_place(action.at)
        else:
            person.arrow_to(str(action.tag), "Roof so far")
        person.tab_to("button", "Measure it")
        person.key("enter")

    def _report(self, action: Report) -> None:
        person = self.person
        person.key("r", shift=True)
        person.arrow_to(action.fault, "Faults")
        if action.tag:
            self._choose(action.tag)
        else:
            person.key("enter")
        if action.wall:
            person.press_until("w", "Wall", action.wall)
        elif action.at is not None:
            self._type_place(action.at)
        person.tab_to("button", "Report it")
        person.key("enter")

    def _type_place(self, at: Point) -> None:
        for name, number in zip(("Across", "Up"), at, strict=True):
            self.person.tab_to("entry", name)
            self.person.type(number)

    def _plan(self, action: Plan) -> None:
        person = self.person
        person.key("p", shift=True)
        person.arrow_to(action.kind, "Lift plan")
        person.press_until("c", "By", thing(action.by))
        if action.slung:
            person.press_until("e", "Slung by", SLUNG_NAMES[action.slung])
        person.type(action.people)
        person.key("enter")

    def _stop(self, action: Stop) -> None:
        self.person.key("s", shift=True)
        self.person.tab_to("button", "Stop the lift")
        self.person.key("enter")

    def _clear(self, action: Clear) -> None:
        self.person.key("f", shift=True)
        self.person.tab_to("button", "Clear it away")
        self.person.key("enter")

    def _string(self, action: String) -> None:
        self.person.key("g")
        for tag in (action.start, action.finish):
            self.person.arrow_to(tag, "Roof so far")
            self.person.key("enter")
        self.person.key("enter")

    def _one(self, key: str, tag: str) -> None:
        self.person.key(key)
        self.person.arrow_to(tag, "Roof so far")
        self.person.key("enter")

    def _plumb(self, action: Plumb) -> None:
        self._one("p", action.tag)

    def _remove(self, action: Remove) -> None:
        self._one("r", action.tag)

    def _inspect(self, action: Inspect) -> None:
        self.person.key("i")
        self.person.arrow_to(action.tag, "Roof so far")
        self.person.press_until("c", "Your verdict", "accept it" if action.accept else "reject it")
        self.person.key("enter")

    def _unbrace(self, action: Unbrace) -> None:
        self.person.key("b", shift=True)
        self.person.arrow_to(piece_of(self.person.work, action), "Bracing")
        self.person.key("enter")

    def _cut(self, action: Cut) -> None:
        self.person.key("x", shift=True)
        self._choose(action.tag)
        self.person.press_until("c", "Where", CUTS[action.where])
        self.person.tab_to("button", "Cut it")
        self.person.key("enter")

    def _load(self, action: Load) -> None:
        self.person.key("i", shift=True)
        self.person.press_until("w", "When", "after hand-over" if action.pattern else "now")
        if action.pattern:
            self.person.press_until("c", "They land", thing(action.pattern))
        else:
            self.person.press_until("c", "With", LOADS[action.what])
        self.person.tab_to("button", "Say so" if action.pattern else "Load it")
        self.person.key("enter")

    def _hand_over(self, action: HandOver) -> None:
        self.person.key("enter", ctrl=True)
        self.person.tab_to("button", "Hand over")
        self.person.key("enter")


class ByMouse(_Hands):
    """Does actions with the mouse alone."""

    def take_up(self, tool: str) -> None:
        stage = stage_of(tool)
        if TOOLS[tool] not in STAGE_TOOLS[self.person.work.stage]:
            if self.person.sees("tab", stage_label(stage)):
                self.person.click_on("tab", stage_label(stage))
            else:
                self.person.choose_by_mouse("Stage", stage_label(stage))
        (node,) = [n for n in self.person.tree().all("button", VERBS[tool].name) if n.key == f"tool/{tool}"]
        self.person.click(node.rect.center)

    def _on_truss(self, tag: str) -> None:
        """Press on a standing truss where nothing else is near."""
        self.person.click(self._near(self._free_spot(tag, (0.2, 0.35, 0.5, 0.65, 0.8)), 4.0))

    def _on_wall(self, name: str) -> None:
        wall = self.person.work.site.layout.house.plan.by_name[name]
        self.person.click(self._near(wall.at(wall.length / 2), 8.0))

    def _near(self, place: Point, mm_per_px: float) -> tuple[int, int]:
        """Turn the wheel over a place until it is seen large enough; return where it is then."""
        person, plan = self.person, self.person.plan
        for _ in range(60):
            pos = plan.to_window(place)
            if not plan.rect.inflate(-10, -10).collidepoint(pos):
                person.wheel(plan.rect.center, -1)
            elif plan.camera.mm_per_px > mm_per_px:
                person.wheel(pos, 1)
            else:
                return pos
        raise AssertionError("the wheel never showed the place")

    def _free_spot(self, tag: str, runs: tuple[float, ...]) -> Point:
        """A place along a standing truss that is clearly nearer to it than to any other."""
        site = self.person.work.site
        stood = site.stood[tag]

        def spot(part: float) -> Point:
            return (
                stood.start[0] + (stood.finish[0] - stood.start[0]) * part,
                stood.start[1] + (stood.finish[1] - stood.start[1]) * part,
            )

        def room(part: float) -> float:
            return min((_gap(spot(part), o.start, o.finish) for t, o in site.stood.items() if t != tag), default=1e6)

        return spot(max(runs, key=room))

    def _mark(self, action: Mark) -> None:
        self.take_up("mark")
        site = self.person.work.site
        if action.wall:
            wall = site.layout.house.plan.by_name[action.wall]
            pos = self._near(wall.at(action.at), 0.9)
            if not 0 <= action.at <= wall.length:
                self.person.choose_by_mouse("Wall", wall.name)
            self.person.click(pos)
            return
        self.person.open_tab("Roof")
        self.person.click_row("Roof so far", str(action.on))
        place = _along(site.stood[str(action.on)].start, site.stood[str(action.on)].finish, action.at)
        self.person.click(self._near(place, 2.0))

    def _fit(self, action: Fit) -> None:
        self.take_up("fit")
        self.person.choose_by_mouse("Part", action.part)
        layout = self.person.work.site.layout
        if action.on in layout.ledgers:
            place = layout.house.plan.by_name[layout.ledgers[action.on]].at(action.at or 0)
            self.person.click(self._near(place, 2.0))
            return
        standing = action.on in self.person.work.site.stood
        self.person.open_tab("Roof" if standing else "Yard")
        self.person.click_row("Roof so far" if standing else "Yard", action.on)
        if action.at is None:
            if self.person.sees("choice", "Where"):
                self.person.choose_by_mouse("Where", "on it as a whole")
            if action.every is not None:
                self.person.step_by_mouse("One every", action.every)
            if action.back is not None:
                self.person.step_up_by_mouse("Run back", action.back)
            self.person.click_on("button", "Fit it")
            return
        stood = self.person.work.site.stood[action.on]
        self.person.click(self._near(_along(stood.start, stood.finish, action.at or 0), 2.0))

    def _stand(self, action: Stand) -> None:
        person = self.person
        self.take_up("stand")
        person.click_row("Yard", action.tag)
        member = person.work.site.layout.by_tag[action.tag]
        aims = aims_of(person.work.site.layout.house.plan, member, action.start, action.finish)
        hung = not any(end.on_plate for end in member.ends)
        if hung:
            aim = next(a for a in aims if a.wall == person.work.hand.aim.wall)
            place = ((action.start[0] + action.finish[0]) / 2, (action.start[1] + action.finish[1]) / 2)
        else:
            aim = aims[0]
            place = action.finish if aim.turned else action.start
        person.choose_by_mouse("It lies", LIES_NAMES[aim.lies])
        if person.work.hand.aim.turned != aim.turned:
            person.click_on("button", "Turn end for end")
        pos = self._near(place, 1.5)
        person.move(pos)
        person.click(pos)

    def _brace(self, action: Brace) -> None:
        person = self.person
        self.take_up("brace")
        person.choose_by_mouse("With", KIND_NAMES[action.kind])
        if action.every is not None:
            person.step_by_mouse("A row every", action.every)
        if action.to is not None:
            person.choose_by_mouse("To", HOLDS[1])
        for tag in action.tags:
            if person.work.tools["brace"].picked[-1:] != (tag,) or len(action.tags) == 1:
                self._on_truss(tag)
        if action.kind in {"steel brace", "diagonal"}:
            person.click_on("button", "Brace it")

    def _fix(self, action: Fix) -> None:
        self.take_up("fix")
        self.person.choose_by_mouse("With", action.with_)
        self.person.choose_by_mouse("Nail holes", filled(action))
        self.person.step_by_mouse("How many", action.count)
        if action.at is not None:
            self.person.click_row("Roof so far", action.tag)
            self.person.choose_by_mouse("Which", which(self.person.work, action))
            self.person.click_on("button", "Fix it")
            return
        runs = (0.12, 0.2, 0.3, 0.4) if action.end == 1 else (0.88, 0.8, 0.7, 0.6)
        self.person.click(self._near(self._free_spot(action.tag, runs), 4.0))

    def _hand_over(self, action: HandOver) -> None:
        self.person.click_on("button", "Hand over")
        self.person.click_on("button", "Hand over")

    def _restrain(self, action: Restrain) -> None:
        self.take_up("restrain")
        self.person.choose_by_mouse("Kind", thing(action.kind))
        if action.kind == "roof brace":
            self.person.choose_by_mouse("Strap pulled", pulled(action))
        for place in (action.start, action.finish):
            self.person.click(self._near(place, 0.9))

    def _check(self, action: Check) -> None:
        self.take_up("check")
        self.person.click_row("Places", action.item)

    def _measure(self, action: Measure) -> None:
        self.take_up("measure")
        self.person.choose_by_mouse("What", READINGS[action.what])
        if action.wall:
            self._on_wall(action.wall)
        elif action.at is not None:
            self.person.click(self._near(action.at, 4.0))
        else:
            self._on_truss(str(action.tag))

    def _report(self, action: Report) -> None:
        person = self.person
        self.take_up("report")
        person.click_row("Faults", action.fault)
        if action.wall:
            self._on_wall(action.wall)
        elif action.at is not None:
            person.click(self._near(action.at, 4.0))
        elif action.tag:
            standing = action.tag in person.work.site.stood
            person.open_tab("Roof" if standing else "Yard")
            person.click_row("Roof so far" if standing else "Yard", str(action.tag))
        person.click_on("button", "Report it")

    def _plan(self, action: Plan) -> None:
        person = self.person
        self.take_up("plan")
        person.click_row("Lift plan", action.kind)
        person.choose_by_mouse("By", thing(action.by))
        if action.slung:
            person.choose_by_mouse("Slung by", SLUNG_NAMES[action.slung])
        person.step_by_mouse("People", action.people)
        person.click_on("button", "Plan it so")

    def _stop(self, action: Stop) -> None:
        self.take_up("stop")
        self.person.click_on("button", "Stop the lift")

    def _clear(self, action: Clear) -> None:
        self.take_up("clear")
        self.person.click_on("button", "Clear it away")

    def _string(self, action: String) -> None:
        self.take_up("string")
        for tag in (action.start, action.finish):
            self._on_truss(tag)

    def _plumb(self, action: Plumb) -> None:
        self.take_up("plumb")
        self._on_truss(action.tag)

    def _remove(self, action: Remove) -> None:
        self.take_up("remove")
        self._on_truss(action.tag)

    def _inspect(self, action: Inspect) -> None:
        self.take_up("inspect")
        self.person.choose_by_mouse("Your verdict", "accept it" if action.accept else "reject it")
        self._on_truss(action.tag)

    def _unbrace(self, action: Unbrace) -> None:
        self.take_up("unbrace")
        self.person.click_row("Bracing", piece_of(self.person.work, action))
        self.person.click_on("button", "Take it off")

    def _cut(self, action: Cut) -> None:
        self.take_up("cut")
        standing = action.tag in self.person.work.site.stood
        self.person.open_tab("Roof" if standing else "Yard")
        self.person.click_row("Roof so far" if standing else "Yard", action.tag)
        self.person.choose_by_mouse("Where", CUTS[action.where])
        self.person.click_on("button", "Cut it")

    def _load(self, action: Load) -> None:
        self.take_up("load")
        self.person.choose_by_mouse("When", "after hand-over" if action.pattern else "now")
        if action.pattern:
            self.person.choose_by_mouse("They land", thing(action.pattern))
        else:
            self.person.choose_by_mouse("With", LOADS[action.what])
        self.person.click_on("button", "Say so" if action.pattern else "Load it")


def which(work: Work, action: Fix) -> str:
    """What of a truss is fixed, as the board's choice says it."""
    if action.at is None:
        return f"end {action.end}"
    spots = spots_of(work.site, action.tag)
    return next(f"{n}: {spot.words}" for n, spot in enumerate(spots, 1) if spot.at == action.at)


def piece_of(work: Work, action: Unbrace) -> str:
    """The row of a piece of bracing in the board's list; a roof brace is named by trusses that it lies over."""
    roof, tags = action.kind == "roof brace", set(action.tags)
    same = {
        i: len(piece.tags) for i, piece in enumerate(pieces_on(work.site))
        if (piece.kind, piece.every) == (action.kind, action.every)
        and (tags <= set(piece.tags) if roof else tags == set(piece.tags))
    }  # fmt: skip
    return str(min(same, key=lambda i: same[i]))


def filled(action: Fix) -> str:
    """How many of its nail holes are filled, as the board's choice says it."""
    return "half filled" if action.nails == "half" else "all filled"


def pulled(action: Restrain) -> str:
    """How hard a strap is pulled, as the board's choice says it."""
    return "hard" if action.tension == "hard" else "straight"


def _along(start: Point, finish: Point, run: float) -> Point:
    length = math.dist(start, finish)
    return (start[0] + (finish[0] - start[0]) * run / length, start[1] + (finish[1] - start[1]) * run / length)


def _gap(point: Point, a: Point, b: Point) -> float:
    """Distance of a place from a straight piece."""
    length = math.dist(a, b)
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    run = min(max((point[0] - a[0]) * ux + (point[1] - a[1]) * uy, 0.0), length)
    return math.dist(point, (a[0] + ux * run, a[1] + uy * run))


def carriers_first(actions: tuple[AnyAction, ...]) -> list[AnyAction]:
    """The same actions, marks and parts at a place on a truss put off until it stands: so they can be pointed at."""
    waiting: dict[str, list[AnyAction]] = {}
    standing: set[str] = set()
    ordered: list[AnyAction] = []
    for action in actions:
        pointed = isinstance(action, Mark) or (isinstance(action, Fit) and action.at is not None)
        on = action.on if pointed and isinstance(action, Mark | Fit) else None
        if on is not None and on not in standing:
            waiting.setdefault(on, []).append(action)
            continue
        ordered.append(action)
        if isinstance(action, Stand):
            standing.add(action.tag)
            ordered += waiting.pop(action.tag, [])
    return ordered
