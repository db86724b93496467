"""Frames: nothing is painted where nothing changed, and the still part of the plan only when it has to be."""

import pygame
import pytest
from board_person import ByMouse, Person
from board_screens import HOUSE

from trainer.board.camera import Camera
from trainer.board.layers import SETTLE_MS, StillLayer
from trainer.picture.model import View


def in_work(person: Person) -> Person:
    person.wait_for_houses()
    person.arrow_to(HOUSE, "Houses")
    person.key("p")
    person.wait(6)
    return person


def test_an_idle_board_draws_nothing() -> None:
    person = in_work(Person())
    for _ in range(50):
        person.now += 16
        assert person.app.frame(person.now) == []


def test_moving_a_truss_does_not_paint_the_still_plan_again() -> None:
    person = in_work(Person())
    ByMouse(person).take_up("stand")
    person.click_row("Yard", "ST1")
    person.wait(4)
    before = person.plan.layer.paintings
    drawn = 0
    for step in range(60):
        person.move((300 + step * 5, 500))
        person.now += 16
        drawn += bool(person.app.frame(person.now))
    assert drawn > 20
    assert person.plan.layer.paintings == before


def test_standing_one_paints_it_once() -> None:
    person = in_work(Person())
    person.key("s")
    person.arrow_to("TG1", "Yard")
    person.type(1800)
    before = person.plan.layer.paintings
    person.key("enter")
    person.wait(10)
    assert person.plan.layer.paintings == before + 1


def test_panning_shifts_and_paints_when_it_comes_to_rest() -> None:
    person = in_work(Person())
    rect = person.plan.rect
    before = person.plan.layer.paintings
    corner = person.plan.to_window((0.0, 0.0))
    person.press(rect.center)
    for step in range(1, 20):
        person.app.handle(
            pygame.event.Event(
                pygame.MOUSEMOTION, pos=(rect.centerx + step * 3, rect.centery), rel=(3, 0), buttons=(1, 0, 0)
            )
        )
        person.wait(ms=5)
    assert person.plan.layer.paintings == before
    assert person.plan.to_window((0.0, 0.0))[0] == pytest.approx(corner[0] + 57, abs=1)
    person.let_go((rect.centerx + 57, rect.centery))
    person.wait(3, ms=SETTLE_MS)
    assert person.plan.layer.paintings == before + 1


def test_the_preview_of_a_zoom_shows_what_the_painting_will() -> None:
    """A square painted, zoomed by stretching and then painted anew fills the same px but for its edges."""

    def paint(surface: pygame.Surface, view: View) -> None:
        surface.fill("white")
        x, y = view.to_px((0.0, 1000.0))
        pygame.draw.rect(surface, "black", (round(x), round(y), round(1000 * view.scale), round(1000 * view.scale)))

    layer = StillLayer(paint)
    target, rect = pygame.Surface((400, 300)), pygame.Rect(0, 0, 400, 300)
    layer.show(target, rect, View(0.1, -1000.0, 2000.0), 0)
    nearer = View(0.15, -800.0, 1800.0)
    layer.show(target, rect, nearer, 10)
    assert layer.paintings == 1
    preview = pygame.mask.from_threshold(target, "black", (10, 10, 10, 255))
    layer.show(target, rect, nearer, 10 + SETTLE_MS)
    assert layer.paintings == 2
    final = pygame.mask.from_threshold(target, "black", (10, 10, 10, 255))
    common = preview.overlap_area(final, (0, 0))
    assert final.count() == pytest.approx(150 * 150, rel=0.02)
    assert common > 0.97 * max(preview.count(), final.count())


def test_a_zoom_keeps_what_is_under_the_mouse() -> None:
    camera = Camera()
    camera.resize((800, 600))
    camera.look_at((0.0, 0.0, 12_000.0, 8_000.0))
    for about in ((10.0, 20.0), (400.0, 300.0), (777.0, 11.0)):
        place = camera.view.to_mm(about)
        camera.zoom(1.3, about)
        assert camera.view.to_px(place) == pytest.approx(about)


def test_a_fitted_plan_stays_fitted_when_the_window_changes() -> None:
    camera = Camera()
    camera.resize((800, 600))
    camera.look_at((0.0, 0.0, 12_000.0, 8_000.0))
    camera.resize((400, 300))
    left, top = camera.view.to_px((0.0, 8_000.0))
    right, bottom = camera.view.to_px((12_000.0, 0.0))
    assert left >= 0 and top >= 0 and right <= 400 and bottom <= 300
    camera.zoom(3.0, (200.0, 150.0))
    middle = camera.view.to_mm((200.0, 150.0))
    camera.resize((1000, 700))
    assert camera.view.to_mm((500.0, 350.0)) == pytest.approx(middle)
