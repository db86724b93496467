"""What every screen holds to, at every size of window and text and in every theme; read from the tree of widgets."""

from collections.abc import Iterator
from itertools import combinations

import pygame
import pytest
from board_person import Person
from board_screens import SCALES, SCREENS, SIZES, THEMES, at

from trainer.board.widgets import Node
from trainer.board.window import palettes
from trainer.picture import contrast

LOOKS = [(size, scale) for size in SIZES for scale in SCALES]
CONTROLS = {"button", "tab", "choice", "entry", "list", "plan", "view"}


def scrolling(node: Node, inside: bool = False) -> Iterator[tuple[Node, bool]]:
    """Every node, and whether it lies in something that scrolls."""
    yield node, inside
    for child in node.children:
        yield from scrolling(child, inside or node.role in {"scroll", "list"})


@pytest.mark.parametrize(("size", "scale"), LOOKS, ids=str)
@pytest.mark.parametrize("screen", SCREENS)
def test_no_text_is_cut_and_nothing_overlaps(screen: str, size: tuple[int, int], scale: float) -> None:
    person = at(screen, size, scale, "light")
    tree = person.tree()
    assert [node.name for node in tree.walk() if node.cut] == []
    for region in tree.children:
        assert tree.rect.contains(region.rect), f"{region.name} lies outside the window"
        for node, scrolls in scrolling(region):
            if node.inks and not scrolls:
                assert region.rect.contains(node.rect), f"{node.role} {node.name!r} runs out of its part of the window"
    controls = [node for node in tree.walk() if node.role in CONTROLS and node.rect.width and node.rect.height]
    met = [(a.name, b.name) for a, b in combinations(controls, 2) if a.rect.colliderect(b.rect)]
    assert met == []


@pytest.mark.parametrize(("size", "scale"), [(SIZES[0], 1.0), (SIZES[0], 2.0)], ids=str)
@pytest.mark.parametrize("screen", SCREENS)
def test_every_control_is_reached_and_left_by_tab(screen: str, size: tuple[int, int], scale: float) -> None:
    person = at(screen, size, scale, "light")
    wanted = {node.key for node in person.tree().walk() if node.focusable}
    assert wanted
    for shift in (False, True):
        reached = []
        for _ in range(len(wanted) + 1):
            reached.append(person.focused.key)
            assert person.focused.rect.height > 0, f"{person.focused.name} has the focus out of sight"
            person.key("tab", shift=shift)
        assert set(reached) == wanted
        assert reached[0] == reached[-1], "Tab comes round again"


def pairs(person: Person) -> Iterator[tuple[str, tuple[str, str], float]]:
    """Name, colour roles and the contrast wanted: 4.5:1 for text and 3:1 for controls, WCAG 2.2, 1.4.3 and 1.4.11."""
    for node in person.tree().walk():
        yield from ((node.name, pair, 4.5) for pair in node.inks)
        yield from ((node.name, pair, 3.0) for pair in node.edges)


@pytest.mark.parametrize("theme", THEMES)
def test_every_pair_of_colours_in_use_has_its_contrast(theme: str) -> None:
    palette = palettes()[theme]
    used = {(pair, least) for screen in SCREENS for _name, pair, least in pairs(at(screen, SIZES[0], 1.0, theme))}
    assert len(used) > 15
    poor = [(pair, least) for pair, least in used if contrast(palette[pair[0]], palette[pair[1]]) < least]
    assert poor == []


@pytest.mark.parametrize("scale", SCALES)
def test_targets_are_large_enough(scale: float) -> None:
    """24 px at least, WCAG 2.2, 2.5.8; ours are 44 or more across one way."""
    for screen in ("houses", "stand", "fix", "poor_result"):
        for node in at(screen, SIZES[0], scale, "light").tree().walk():
            if node.role in {"button", "choice", "entry", "tab"} and node.rect.height:
                assert max(node.rect.size) >= 44
                assert min(node.rect.size) >= 24 or node.rect.bottom >= SIZES[0][1] - 60


@pytest.mark.parametrize("theme", THEMES)
def test_a_theme_shows(theme: str) -> None:
    person = at("houses", SIZES[0], 1.0, theme)
    paper = pygame.Color(palettes()[theme]["paper"])
    assert person.surface.get_at((4, person.surface.get_height() - 4)) == paper
