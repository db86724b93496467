"""A window smaller than a screen has room in never ends the program: the screen stays whole and can all be reached."""

import pygame
import pytest
from board_person import Person
from board_screens import at
from sizes import some

from trainer.board.small_window import least
from trainer.picture.palette import contrast

SIZES = ((640, 480), (300, 200), (90, 60), (1, 1))


def shrunk(person: Person, size: tuple[int, int]) -> None:
    person.surface = pygame.display.set_mode(size)
    person.app.handle(pygame.event.Event(pygame.VIDEORESIZE, size=size))
    person.wait(3)


@pytest.mark.parametrize("scale", [1.0, 2.0])
@pytest.mark.parametrize("screen", ["first look", "help", "lesson"])
def test_a_screen_keeps_its_least_size_in_a_window_of_any_size(screen: str, scale: float) -> None:
    person = Person((1280, 800), scale=scale)
    if screen == "lesson":
        person.app.services.go_first()
    elif screen == "help":
        person.key("f1")
    for size in SIZES:
        shrunk(person, size)
        person.key("tab", times=3)
        person.wait(2)
        drawn = person.app.surface.get_size()
        assert drawn[0] >= least(scale)[0] and drawn[1] >= least(scale)[1]
    shrunk(person, (1280, 800))
    assert person.app.surface.get_size() == (1280, 800) and person.app.surface is person.surface


def test_every_place_of_the_screen_is_under_the_mouse_somewhere_in_the_window() -> None:
    person = Person((1280, 800), scale=2.0)
    shrunk(person, (320, 240))
    small, (wide, high) = person.app._small, person.app.surface.get_size()
    assert small.under((0, 0)) == (0, 0) and small.under((319, 239)) == (wide - 1, high - 1)
    reached = {small.under((x, 120))[0] for x in range(320)}
    assert max(b - a for a, b in zip(sorted(reached), sorted(reached)[1:], strict=False)) <= wide / 320 + 1


def test_what_has_the_focus_is_in_sight() -> None:
    person = Person((1280, 800), scale=2.0)
    person.key("f1")
    shrunk(person, (500, 380))
    for _step in range(4):
        person.key("tab")
        person.wait(2)
        small, rect = person.app._small, person.focused.rect
        seen = pygame.Rect(small.shift, (500, 380))
        assert seen.collidepoint(rect[0] + 1, rect[1] + 1), person.focused.name


@pytest.mark.parametrize("size", some([(1280, 800), (1366, 768)], 1))
@pytest.mark.parametrize("screen", ["quiz_right", "quiz_wrong"])
def test_after_an_answer_what_is_said_of_it_is_in_sight_at_twice_the_text(screen: str, size: tuple[int, int]) -> None:
    person = at(screen, size, 2.0, "light")
    side = person.app.scene.roots["side"]
    scroll, verdict = (next(w for w in side.walk() if w.key == key) for key in ("quiz/scrolled", "quiz/verdict"))
    assert verdict.rect.height > 30
    assert scroll.rect.top <= verdict.rect.top and verdict.rect.bottom <= scroll.rect.bottom


def test_the_ring_of_focus_has_a_gap_inside_on_the_main_button() -> None:
    """3:1 beside what it touches (W3C, WCAG 2.2, criterion 1.4.11); the fill of the button is too like it."""
    for theme in ("light", "dark", "contrast"):
        person = at("quiz_right", (1280, 800), 1.0, theme)
        person.app.ui.show_focus = True
        person.app.scene.redraw()
        person.wait(1)
        look, button = person.app.look, next(w for w in person.app.scene.roots["side"].walk() if w.key == "quiz/go on")
        assert person.app.ui.focus == button.key
        across = [person.surface.get_at((button.rect.left + k, button.rect.centery))[:3] for k in range(7)]
        assert across[1] == look["focus"] and across[4] == look[button.ground]
        assert contrast(look.hex("focus"), look.hex(button.ground)) >= 3.0
