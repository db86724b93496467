"""The board in a real window under a virtual screen: a whole house by real mouse events, and one by real keys.

Run by name, since it wants ``Xvfb`` and ``xdotool``: ``pytest tests/screen``. The person sees the widget tree, and
moves the pointer and presses the keys of the X server; the window gets them the way any window does.
"""

import os
import subprocess
from collections.abc import Iterator

import pygame
import pytest
from attempts import level_of
from board_person import ByKeyboard, ByMouse, Person, carriers_first

from trainer.board.app import App
from trainer.board.scenes.result import ResultScreen
from trainer.board.settings import Settings
from trainer.board.window import palettes
from trainer.rehearse import rehearse

SIZE = (1600, 900)
NAMES = {
    "enter": "Return", "tab": "Tab", "esc": "Escape", "up": "Up", "down": "Down", "left": "Left", "right": "Right",
    "home": "Home", "end": "End", "page down": "Next", "page up": "Prior", "space": "space", "f1": "F1", "f2": "F2",
    "f6": "F6", "backspace": "BackSpace", ".": "period", "-": "minus", "+": "plus",
}  # fmt: skip


class AtTheScreen(Person):
    """A person whose hands are the X server's pointer and keyboard."""

    def __init__(self) -> None:
        pygame.display.init()
        self.surface = pygame.display.set_mode(SIZE)
        assert pygame.display.get_driver() == "x11"
        self.window = str(pygame.display.get_wm_info()["window"])
        self._x("windowfocus", "--sync", self.window)
        self.app = App(self.surface, palettes(), settings=Settings(shown=True, guided=False))
        self.now = 0
        self.pos = (-1, -1)
        self.wait(3)

    def _x(self, *words: str) -> None:
        subprocess.run(["xdotool", *words], check=True, timeout=20)

    def _take_until(self, kind: int, count: int = 1) -> None:
        """Hand the window's events to the board until so many of a kind have come."""
        seen = 0
        for _ in range(400):
            event = pygame.event.wait(10)
            while event.type != pygame.NOEVENT:
                self.app.handle(event)
                seen += event.type == kind
                event = pygame.event.poll()
            if seen >= count:
                return
        raise AssertionError(f"{pygame.event.event_name(kind)} came {seen} times, not {count}")

    def wait(self, frames: int = 1, ms: int = 50) -> None:
        for _ in range(frames):
            self.now += ms
            changed = self.app.frame(self.now)
            if changed:
                pygame.display.update(changed)

    def key(self, name: str, *, ctrl: bool = False, shift: bool = False, times: int = 1) -> None:
        if not times:
            return
        chord = "+".join((["ctrl"] if ctrl else []) + (["shift"] if shift else []) + [NAMES.get(name, name)])
        self._x("key", "--delay", "12", *[chord] * times)
        self._take_until(pygame.KEYUP, times)
        self.wait(ms=5)

    def move(self, pos: tuple[int, int]) -> None:
        if pos != self.pos:
            self._x("mousemove", "--window", self.window, str(pos[0]), str(pos[1]))
            self._take_until(pygame.MOUSEMOTION)
            self.pos = pos

    def press(self, pos: tuple[int, int], button: int = 1) -> None:
        self.move(pos)
        self._x("mousedown", str(button))
        self._take_until(pygame.MOUSEBUTTONDOWN)

    def let_go(self, pos: tuple[int, int], button: int = 1) -> None:
        self._x("mouseup", str(button))
        self._take_until(pygame.MOUSEBUTTONUP)
        self.wait(ms=5)

    def wheel(self, pos: tuple[int, int], amount: int) -> None:
        self.move(pos)
        self._x("click", "--repeat", str(abs(amount)), "--delay", "1", "4" if amount > 0 else "5")
        self._take_until(pygame.MOUSEWHEEL, abs(amount))
        self.wait(ms=5)


@pytest.fixture(scope="module")
def screen() -> Iterator[None]:
    """A virtual screen of its own."""
    read, write = os.pipe()
    command = ["Xvfb", "-displayfd", str(write), "-screen", "0", "1920x1080x24", "-nolisten", "tcp", "-noreset"]
    server = subprocess.Popen(command, pass_fds=(write,), stderr=subprocess.DEVNULL)
    os.close(write)
    with os.fdopen(read, encoding="ascii") as told:
        number = told.readline().strip()  # the whole line: the server dies if it can't write its end
    before = {name: os.environ.get(name) for name in ("DISPLAY", "SDL_VIDEODRIVER")}
    pygame.display.quit()
    os.environ.update(DISPLAY=f":{number}", SDL_VIDEODRIVER="x11")
    yield
    pygame.display.quit()
    for name, value in before.items():
        os.environ.pop(name, None)
        if value is not None:
            os.environ[name] = value
    server.terminate()
    server.wait(10)


def played_to_the_end(person: Person) -> None:
    assert isinstance(person.app.scene, ResultScreen)
    assert person.app.scene.findings == ()
    assert person.see("heading", "Practice mark met")


def test_the_flush_l_by_a_real_mouse(screen: None) -> None:
    person = AtTheScreen()
    person.wait_for_houses()
    person.click_row("Houses", "wren")
    person.click_on("button", "Practise")
    hands = ByMouse(person)
    for action in carriers_first(rehearse(level_of("wren"), 21).actions):
        hands.do(action)
        assert not person.sees("heading", "Have a look"), str(action)
    played_to_the_end(person)


def test_a_small_gable_by_real_keys(screen: None) -> None:
    person = AtTheScreen()
    person.wait_for_houses()
    person.arrow_to("pardalote", "Houses")
    person.key("p")
    hands = ByKeyboard(person)
    for action in rehearse(level_of("pardalote"), 22).actions:
        hands.do(action)
        assert not person.sees("heading", "Have a look"), str(action)
    played_to_the_end(person)
