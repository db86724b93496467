"""What every screen holds to, at every size of window and text and in every theme; read from the tree of widgets."""

from collections.abc import Iterator
from itertools import combinations, product

import pygame
import pytest
from board_person import Person
from board_screens import SCALES, SCREENS, SIZES, THEMES, at
from sizes import by_size, some

from trainer.board.scenes.work import Work
from trainer.board.widgets import Node
from trainer.board.window import palettes
from trainer.picture import contrast

Seen = tuple[tuple[int, int], float, str]
"""A size of window, a size of text, a theme."""
ALL: list[Seen] = list(product(SIZES, SCALES, THEMES))
CONTROLS = {"button", "tab", "choice", "entry", "list", "plan", "view"}


def looks(screen: str) -> list[Seen]:
    """The tightest look, the themes taking turns; sampled, one in turn of all looks too; or all."""
    turn = list(SCREENS).index(screen)
    tightest = (*CORNERS[0], THEMES[turn % 3])
    return by_size([tightest], [tightest, ALL[turn * 5 % len(ALL)]], ALL)


CORNERS = tuple(product((SIZES[0], SIZES[-1]), (SCALES[-1], SCALES[0])))
"""The smallest window with the largest text comes first: most is cut there."""
EVERY_SIZE = tuple(product(SIZES, SCALES))
VISITS = [(screen, look) for screen in some(list(SCREENS), 14) for look in looks(screen)]


def scrolling(node: Node, inside: bool = False) -> Iterator[tuple[Node, bool]]:
    """Every node, and whether it lies in something that scrolls."""
    yield node, inside
    for child in node.children:
        yield from scrolling(child, inside or node.role in {"scroll", "list"})


@pytest.mark.parametrize(("screen", "look"), VISITS, ids=str)
def test_no_text_is_cut_nothing_overlaps_and_tab_goes_everywhere(screen: str, look: Seen) -> None:
    person = at(screen, *look)
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
    assert poor_pairs(person) == []
    everywhere_by_tab(person)


def everywhere_by_tab(person: Person) -> None:
    """Every control is reached and left by Tab, forwards and back, and has the focus in sight."""
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


def poor_pairs(person: Person) -> list[tuple[str, str, tuple[str, str]]]:
    """What has too little contrast on a screen, in any theme: a colour's role is the same in all of them."""
    return [
        (theme, name, pair)
        for name, pair, least in pairs(person)
        for theme, palette in palettes().items()
        if contrast(palette[pair[0]], palette[pair[1]]) < least
    ]


def test_pairs_of_colours_are_seen_and_the_same_in_every_theme() -> None:
    screens = by_size(("stand", "found"), *[("stand", "found", "poor_result")] * 2)
    used = [
        {(pair, least) for screen in screens for _name, pair, least in pairs(at(screen, SIZES[0], 1.0, theme))}
        for theme in THEMES
    ]
    assert used[0] == used[1] == used[2]
    assert len(used[0]) > 15


@pytest.mark.parametrize("scale", some(SCALES, 1))
def test_targets_are_large_enough(scale: float) -> None:
    """24 px at least, WCAG 2.2, 2.5.8; ours are 44 or more across one way."""
    for screen in ("houses", "stand", "fix", "poor_result"):
        # Whole, also where a part of it is scrolled away.
        for root in at(screen, SIZES[0], scale, "light").app.scene.roots.values():
            for widget in root.walk():
                if widget.role in {"button", "choice", "entry", "tab"} and widget.rect.height:
                    assert max(widget.rect.size) >= 44
                    assert min(widget.rect.size) >= 24


@pytest.mark.parametrize("theme", THEMES)
def test_a_theme_shows(theme: str) -> None:
    person = at("houses", SIZES[0], 1.0, theme)
    paper = pygame.Color(palettes()[theme]["paper"])
    assert person.surface.get_at((4, person.surface.get_height() - 4)) == paper


@pytest.mark.parametrize(("size", "scale"), by_size(CORNERS[:1], EVERY_SIZE, EVERY_SIZE), ids=str)
@pytest.mark.parametrize(
    "screen",
    some(["houses", "begun_house", "mark", "stand", "fix", "found", "restrain", "poor_result", "clean_result"], 5),
)
def test_the_house_is_the_largest_thing(screen: str, size: tuple[int, int], scale: float) -> None:
    """No other part of the window takes more of it than the house, and the house shows whole.

    What was said last may take some of it at large text, while it is long.
    """
    person = at(screen, size, scale, "light")
    if isinstance(person.app.scene, Work):
        person.app.scene.say("Taken back.")
        person.wait(2)
    parts = {region: root.rect.width * root.rect.height for region, root in person.app.scene.roots.items()}
    assert max(parts, key=lambda region: parts[region]) == "plan", parts
    left, bottom, right, top = person.plan.camera.box
    for corner in ((left, bottom), (right, top)):
        assert person.plan.rect.inflate(2, 2).collidepoint(person.plan.to_window(corner))
