"""How long a frame of the board takes, beside what it is to take: ``python tests/bench/board_times.py``.

First how long the board takes to start, and how much memory it has then, as a process of its own; and the same of a
bare window, by turns. Then, at 1920 × 1080 with the dummy driver and a house of over 300 trusses, all standing.
Processor time, of a frame that of the one thread that draws, so that other work on the machine makes little
difference; in ms.
"""

# ruff: noqa: E402 - the folders of the tests are put on the path first
import gc
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parents[1]), str(Path(__file__).parents[2])]

from board_person import Person
from board_table import paced, table_of
from test_board_bench import COMB, LONG_HOUSE, drag_to, next_frame

from trainer.board.angled_view import AngledView
from trainer.board.library import read_entry
from trainer.board.window import clear_up_at_rest
from trainer.site import Brace, Fix, Remove, Stand

FRAMES = 300
STARTS = 7
"""How often each of the two windows is opened, after once that leaves their bytecode behind, as installing does."""
STATE = """
import sys, time

def state(what, *more):
    lines = [line.split()[1] for line in open("/proc/self/status") if line.startswith("VmRSS")]
    print(what, time.process_time() * 1000, (time.monotonic() - float(sys.argv[1])) * 1000, int(lines[0]) / 1024, *more)
"""
BARE = (
    STATE
    + """
import pygame
pygame.display.init()
pygame.display.get_desktop_sizes()
pygame.display.set_mode((int(sys.argv[2]), int(sys.argv[3])), pygame.RESIZABLE).fill((200, 200, 200))
pygame.display.update()
state("bare")
"""
)
"""The least that a program with a window does until its first frame."""
STARTING = (
    STATE
    + """
import trainer.__main__
import pygame
from pathlib import Path
from trainer.board import window

def loop(app):
    for number in range(200):
        pygame.display.update(app.frame(number * 15))
        if not number:
            state("frame", *app.surface.get_size())
        if getattr(app.scene, "entry", None) is not None:
            return state("house")

window._loop = loop
window.open_window(None, Path(sys.argv[2]))
"""
)


def somebody(folder: Path) -> Person:
    """Stand somebody before a long house with every truss up."""
    path = folder / "long-house.yaml"
    path.write_text(LONG_HOUSE, encoding="utf-8")
    person = Person((1920, 1080))
    person.app.services.go_work(read_entry(path), "practice")
    for member in person.work.site.layout.members:
        person.work.session.do(Stand(tag=member.tag, start=member.start, finish=member.finish))
        person.work.session.do(Brace(kind="solid", tags=(member.tag,)))
        person.work.session.do(Fix(tag=member.tag, end=1, with_="framing anchor"))
    person.work.changed()
    person.wait(10)
    return person


def measure(name: str, most: float, person: Person, do: Callable[[int], object]) -> None:
    """Print the median, the 99th percentile and the worst of a frame in which something is done first."""
    person.wait(10)
    gc.collect()
    times = []
    for number in range(FRAMES):
        begun = time.thread_time()
        do(number)
        next_frame(person)
        times.append((time.thread_time() - begun) * 1000)
    times.sort()
    median, late, worst = times[FRAMES // 2], times[FRAMES * 99 // 100], times[-1]
    print(f"{name:24} median {median:6.2f}   p99 {late:6.2f}   most {worst:6.2f}   aim {most}")


def starting() -> None:
    """Print when a board of its own has its first frame and its first house, beside a bare window, and its memory."""
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "settings.json").write_text('{"shown": true}', encoding="utf-8")
        found = started(STARTING, folder, folder)
        size = [str(int(each)) for each in found["frame"][3:]]
        started(BARE, folder, *size)
        both: dict[str, list[list[float]]] = {}
        for _ in range(STARTS):
            for what, figures in (started(BARE, folder, *size) | started(STARTING, folder, folder)).items():
                both.setdefault(what, []).append(figures)
    middle = {what: [statistics.median(each) for each in zip(*figures, strict=True)] for what, figures in both.items()}
    aims = {"bare": "", "frame": "aim 300, 80 MB", "house": "aim 1000"}
    names = {"bare": "a bare window", "frame": "first frame", "house": "a house on the screen"}
    for what, (busy, passed, memory, *_size) in middle.items():
        print(f"{names[what]:24} {busy:6.0f} ms   by the clock {passed:6.0f} ms   {memory:6.1f} MB   {aims[what]}")
    busy, passed = (middle["frame"][i] / middle["bare"][i] for i in (0, 1))
    print(f"{'first frame over bare':24} {busy:6.2f}      by the clock {passed:6.2f}                  aim 3")


def started(code: str, folder: str, *given: str) -> dict[str, list[float]]:
    """Run a process that opens a window; return its figures by what it came to: ms busy, ms by the clock, MB, more."""
    env = {**os.environ, "SDL_FRAMEBUFFER_ACCELERATION": "0", "PYTHONPATH": os.pathsep.join(sys.path)}
    env |= {"PYTHONPYCACHEPREFIX": str(Path(folder) / "bytecode"), "PYTHONDONTWRITEBYTECODE": ""}
    command = [sys.executable, "-c", code, str(time.monotonic()), *given]
    said = subprocess.run(command, env=env, check=True, capture_output=True, text=True).stdout
    lines = [line.split() for line in said.splitlines() if line.split()[0] in {"bare", "frame", "house"}]
    return {what: [float(each) for each in figures] for what, *figures in lines}


def drawing() -> None:
    """Drag walls of a plan of twenty corners at the drawing table."""
    person = Person((1920, 1080))
    paced(person, COMB)
    person.wait(6)
    for wall in ("A", "K"):
        table = table_of(person)
        (ax, ay), (bx, by) = table.table.drawing.ends(table.table.drawing.index(wall))
        x, y = table.plan.to_window(((ax + bx) / 2, (ay + by) / 2))
        person.press((x, y))
        across = (1, 0) if ax == bx else (0, 1)
        measure(
            f"dragging wall {wall} drawn", 16.0, person,
            lambda i, x=x, y=y, across=across: drag_to(  # type: ignore[misc]
                person, (x + across[0] * (i % 40 - 20), y + across[1] * (i % 40 - 20))
            ),
        )  # fmt: skip
        person.let_go((x, y))


def main() -> None:
    starting()
    clear_up_at_rest()
    drawing()
    with tempfile.TemporaryDirectory() as folder:
        person = somebody(Path(folder))
    work, camera = person.work, person.plan.camera
    measure("nothing changing", 0.5, person, lambda _i: None)
    work.session.do(Remove(tag="ST50"))
    work.changed()
    work.use("stand")
    work.take("ST50")
    measure("dragging a truss", 4.0, person, lambda i: person.move((300 + i * 7 % 1000, 560 + i % 60)))
    camera.fit()
    measure("zooming the plan", 4.0, person, lambda i: camera.zoom(1 / 1.02 if i // 50 % 2 else 1.02, (700, 400)))
    work.views.show("angled")
    view = work.views.view()
    assert isinstance(view, AngledView)
    measure("turning the angled view", 12.0, person, lambda i: view.turn_by(1.0, 0.3 if i // 40 % 2 else -0.3))


if __name__ == "__main__":
    main()
