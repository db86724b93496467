"""How fast the board is: ``pytest tests/bench/test_board_bench.py --benchmark-only``. Nothing here asserts a time.

At 1920 × 1080 with the dummy driver and a house of over 300 trusses, all standing. Aims: a frame with nothing
changing under 1 ms; while dragging a truss, panning or zooming under 4 ms; the first frame within three times
a bare window's (both as processes of their own).
"""

import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pygame
import pytest
from board_person import Person
from board_table import paced, table_of

from trainer.board.angled_view import AngledView
from trainer.board.library import read_entry
from trainer.board.scenes.work import Work
from trainer.site import Brace, Fix, Remove, Stand
from trainer.table import MoveWall

LONG_HOUSE = """
schema: 1
id: long-house
title: A long house
brief: Only long enough to measure with.
plates: {outline: [[0, 0], [72000, 0], [72000, 9000], [0, 9000]], width: 90}
roof: {pitch: 22.5, overhang: 600, heel: 90}
trusses: {spacing: 300, setback: 1800}
"""
BARE = (
    "import pygame; pygame.display.init(); surface = pygame.display.set_mode((1920, 1080))\n"
    "surface.fill('white'); pygame.display.flip()"
)
BOARD = (
    "import pygame; pygame.display.init(); surface = pygame.display.set_mode((1920, 1080))\n"
    "from trainer.board.app import App; from trainer.board.window import palettes\n"
    "pygame.display.update(App(surface, palettes()).frame(0))"
)


@pytest.fixture(scope="module")
def person(tmp_path_factory: pytest.TempPathFactory) -> Person:
    """Somebody before a long house with every truss up."""
    path = Path(tmp_path_factory.mktemp("levels")) / "long-house.yaml"
    path.write_text(LONG_HOUSE, encoding="utf-8")
    someone = Person((1920, 1080))
    someone.app.services.go_work(read_entry(path), "practice")
    work = someone.work
    assert len(work.site.layout.members) > 300
    for member in work.site.layout.members:
        work.session.do(Stand(tag=member.tag, start=member.start, finish=member.finish))
        work.session.do(Brace(kind="solid", tags=(member.tag,)))
        work.session.do(Fix(tag=member.tag, end=1, with_="framing anchor"))
    work.changed()
    someone.wait(10)
    return someone


def next_frame(person: Person) -> bool:
    person.now += 16
    changed = person.app.frame(person.now)
    if changed:
        pygame.display.update(changed)
    return bool(changed)


def drag_to(person: Person, at: tuple[int, int]) -> None:
    """Move the mouse with its button down, in one step."""
    person.app.handle(pygame.event.Event(pygame.MOUSEMOTION, pos=at, rel=(0, 0), buttons=(1, 0, 0)))


def test_a_frame_with_nothing_changing(benchmark: Any, person: Person) -> None:
    person.wait(10)
    assert not benchmark(next_frame, person)


def test_dragging_a_truss(benchmark: Any, person: Person) -> None:
    work = person.work
    if "ST50" in work.site.stood:
        work.session.do(Remove(tag="ST50"))
        work.changed()
    work.use("stand")
    work.take("ST50")
    person.wait(10)
    step = 0

    def drag() -> None:
        nonlocal step
        step += 1
        person.move((300 + step * 7 % 1000, 560 + step % 60))
        next_frame(person)

    benchmark(drag)
    assert work.plan.layer.paintings > 0


@pytest.mark.parametrize("way", ["pan", "zoom"])
def test_moving_the_plan(benchmark: Any, person: Person, way: str) -> None:
    camera = person.plan.camera
    camera.fit()
    person.wait(10)
    step = 0

    def move() -> None:
        nonlocal step
        step += 1
        back = step // 50 % 2
        if way == "pan":
            camera.pan(-4 if back else 4, 0)
        else:
            camera.zoom(1 / 1.02 if back else 1.02, (700, 400))
        next_frame(person)

    benchmark(move)
    assert isinstance(person.app.scene, Work)


def test_painting_the_whole_plan_anew(benchmark: Any, person: Person) -> None:
    def paint() -> bool:
        person.plan.invalidate()
        person.work.redraw("plan")
        return next_frame(person)

    assert benchmark(paint)


@pytest.mark.parametrize("what", ["a bare window", "the board"])
def test_the_first_frame(benchmark: Any, what: str) -> None:
    """A whole process, to its first frame and out again."""
    code = BARE if what == "a bare window" else BOARD
    env = {**os.environ, "SDL_VIDEODRIVER": "dummy", "PYGAME_HIDE_SUPPORT_PROMPT": "1"}

    def start() -> int:
        return subprocess.run([sys.executable, "-c", code], env=env, check=True).returncode

    assert benchmark.pedantic(start, rounds=8, warmup_rounds=1) == 0


@pytest.mark.parametrize("view", ["angled", "section"])
def test_moving_another_view(benchmark: Any, person: Person, view: str) -> None:
    """Turning the angled view; zooming the section."""
    work = person.work
    work.views.show("angled" if view == "angled" else "section")
    person.wait(10)
    open_now = work.views.view()
    step = 0

    def move() -> None:
        nonlocal step
        step += 1
        if isinstance(open_now, AngledView):
            open_now.turn_by(1.0, 0.3 if step // 40 % 2 else -0.3)
        else:
            open_now.camera.zoom(1 / 1.02 if step // 50 % 2 else 1.02, (700, 400))
        next_frame(person)

    benchmark(move)
    work.views.show("plan")
    person.wait(10)
    assert open_now.layer.paintings > 0


COMB = "46200 right, 12900 up" + ", 5700 left, 4500 down, 4500 left, 4500 up" * 4 + ", 5400 left, close"
"""A plan of twenty corners."""


@pytest.fixture(scope="module")
def at_table() -> Person:
    """Somebody at the drawing table with a plan of twenty corners."""
    someone = Person((1920, 1080))
    paced(someone, COMB)
    someone.wait(6)
    assert len(table_of(someone).table.drawing.corners) == 20
    return someone


def test_an_act_at_the_drawing_table(benchmark: Any, at_table: Person) -> None:
    """A wall drawn out or in, up to the sheet with its layout and faults on the screen; the aim is 50 ms."""
    table, out = table_of(at_table).table, [100, -100]

    def draw() -> None:
        table.act(MoveWall("A", out[0]))
        out.reverse()
        next_frame(at_table)

    benchmark(draw)
    assert table.study.layout is not None


def test_dragging_a_wall_at_the_drawing_table(benchmark: Any, at_table: Person) -> None:
    """A frame while a wall is held and the views beside follow it; the aim is 16 ms."""
    plan = table_of(at_table).plan
    a, b = table_of(at_table).table.drawing.ends(0)
    x, y = plan.to_window(((a[0] + b[0]) / 2, a[1]))
    at_table.press((x, y))
    step = 0

    def drag() -> None:
        nonlocal step
        step += 1
        drag_to(at_table, (x, y + 4 + step % 40))
        next_frame(at_table)

    benchmark(drag)
    at_table.let_go((x, y))
