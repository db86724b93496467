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

from trainer.board.angled_view import AngledView
from trainer.board.library import read_entry
from trainer.board.scenes.work import Work
from trainer.site import Brace, Fix, Remove, Stand

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
