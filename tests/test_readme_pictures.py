"""The pictures of the README: there, small, and what another reader of PNG files sees is what was drawn."""

import io
import re
from pathlib import Path

import pygame
import pytest
from board_person import Person
from readme_pictures import PICTURES, png

ROOT = Path(__file__).parents[1]


def test_every_picture_is_there_and_shown_with_words_for_who_can_not_see_it() -> None:
    shown = dict(re.findall(r"!\[([^\]]+)\]\(\.readme/(\w+)\.png\)", (ROOT / "README.md").read_text(encoding="utf-8")))
    assert set(shown.values()) == set(PICTURES)
    assert all(len(words.split()) > 3 for words in shown)


@pytest.mark.parametrize("name", PICTURES)
def test_a_picture_is_small_and_whole(name: str) -> None:
    path = ROOT / ".readme" / f"{name}.png"
    assert path.stat().st_size < 80_000
    assert pygame.image.load(path).get_size() == (1280, 800)


def test_few_colours_come_back_as_they_were() -> None:
    person = Person((640, 480))
    plain = pygame.Surface((60, 40))
    for number, role in enumerate(("paper", "ink", "timber", "stop", "mark")):
        plain.fill(person.app.look[role], (number * 12, number * 3, 12, 20))
    back = pygame.image.load(io.BytesIO(png(plain)), "a.png").convert(plain)
    assert pygame.image.tobytes(back, "RGB") == pygame.image.tobytes(plain, "RGB")
