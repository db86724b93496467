"""What every widget is: a role, a name, a value, a place, children, and what it does with keys and the mouse.

Widgets are made afresh from the state of the scene whenever that changes. What must live longer (focus,
how far a list is scrolled, a number half typed) is kept in :class:`Ui` under the widget's key.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

import pygame

from trainer.board.look import LEAST_TARGET, Look


@dataclass
class Ui:
    """What widgets share: the look, where the focus is, and what is remembered from one making to the next."""

    look: Look
    refresh: Callable[[], None]
    focus: str = ""
    hover: str = ""
    pressed: str = ""
    show_focus: bool = True
    memory: dict[str, Any] = field(default_factory=dict)
    look_up: Callable[[str], None] | None = None
    """Called with a trade word that was pressed on in a text."""


@dataclass(frozen=True)
class Node:
    """A widget as a test or a screen reader meets it. ``cut`` says that some of its text is not shown whole;
    ``rect`` is the part of its place that is not scrolled away.

    ``inks`` are the pairs of colour roles (text, ground) and ``edges`` (shape, ground) that it is drawn with.
    """

    role: str
    name: str
    value: str
    key: str
    rect: pygame.Rect
    focused: bool
    focusable: bool
    enabled: bool
    cut: bool
    shortcut: str
    inks: tuple[tuple[str, str], ...]
    edges: tuple[tuple[str, str], ...]
    children: tuple[Node, ...]

    def walk(self) -> Iterator[Node]:
        """The node and all below it."""
        yield self
        for child in self.children:
            yield from child.walk()

    def all(self, role: str = "", name: str = "") -> list[Node]:
        """Every node of a role whose name begins with ``name``."""
        return [n for n in self.walk() if (not role or n.role == role) and n.name.startswith(name)]

    def one(self, role: str = "", name: str = "") -> Node:
        """The only node of a role and name; LookupError, with what there is, if there isn't exactly one."""
        found = self.all(role, name)
        exact = [n for n in found if n.name == name]
        if len(exact) == 1:
            return exact[0]
        if len(found) != 1:
            there = ", ".join(f"{n.role} {n.name!r}" for n in self.walk() if not role or n.role == role)
            raise LookupError(f"{len(found)} of {role!r} {name!r}; there is {there}")
        return found[0]


class Widget:
    """The base of all widgets; by itself an empty place."""

    role = "region"
    focusable = False
    repeats = False
    """Whether it does something again and again while a mouse button is held on it: see ``on_hold``."""

    def __init__(self, name: str = "", *, key: str = "", children: Sequence[Widget] = ()) -> None:
        self.name = name
        self.key = key or f"{self.role}:{name}"
        self.children: list[Widget] = list(children)
        self.rect = pygame.Rect(0, 0, 0, 0)
        self.shown: pygame.Rect | None = None
        self.enabled = True
        self.cut = False
        self.shortcut = ""
        self.ground = "panel"
        self.grows = False
        self.first_focus = ""
        """Key of the widget in it that has the focus first, where it is a question over the screen."""

    # what it says of itself

    @property
    def value(self) -> str:
        """What it holds at present, in words."""
        return ""

    @property
    def inks(self) -> tuple[tuple[str, str], ...]:
        """Colour roles of its text with the ground behind, for the contrast test."""
        return ()

    @property
    def edges(self) -> tuple[tuple[str, str], ...]:
        """Colour roles of the lines and shapes that one must see, with the ground behind."""
        return ()

    def reachable(self) -> bool:
        """Whether Tab stops here."""
        return self.focusable and self.enabled

    # room

    def wide(self, ui: Ui) -> int:
        """Width that it would like, px."""
        return 0

    def high(self, ui: Ui, width: int) -> int:
        """Height that it needs at a width, px."""
        return 0

    def place(self, ui: Ui, rect: pygame.Rect) -> None:
        """Take up its place on the screen."""
        self.rect = pygame.Rect(rect)

    # drawing

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        """Draw itself, then its children."""
        for child in self.children:
            child.draw(ui, surface)

    # doing; each returns whether it was of use

    def on_key(self, ui: Ui, event: pygame.event.Event) -> bool:
        """Take a key while it has the focus."""
        return False

    def on_leave(self, ui: Ui) -> None:
        """Note that the focus goes elsewhere."""

    def on_press(self, ui: Ui, pos: tuple[int, int], button: int) -> bool:
        """Take a mouse button going down on it."""
        return False

    def on_drag(self, ui: Ui, pos: tuple[int, int]) -> None:
        """Follow the mouse while the button that went down on it is held."""

    def on_hold(self, ui: Ui, held_ms: int) -> bool:
        """Go on while the button that went down on it has been held so long; return whether it did something."""
        return False

    def on_release(self, ui: Ui, pos: tuple[int, int], button: int) -> None:
        """Take the button going up again, wherever that is."""

    def on_hover(self, ui: Ui, pos: tuple[int, int]) -> bool:
        """Follow the mouse with no button held; return whether something has to be drawn again."""
        return False

    def on_wheel(self, ui: Ui, amount: float, pos: tuple[int, int]) -> bool:
        """Take a turn of the wheel."""
        return False

    # the tree

    def walk(self) -> Iterator[Widget]:
        """The widget and all below it."""
        yield self
        for child in self.children:
            yield from child.walk()

    def at(self, pos: tuple[int, int]) -> Iterator[Widget]:
        """The widgets under a place, the innermost first."""
        if self.visible_rect().collidepoint(pos):
            for child in reversed(self.children):
                yield from child.at(pos)
            yield self

    def visible_rect(self) -> pygame.Rect:
        """The part of its place that is not scrolled away."""
        return self.rect if self.shown is None else self.rect.clip(self.shown)

    def in_use(self, ui: Ui) -> pygame.Rect:
        """The part of its place that is kept in sight while it is used."""
        return self.rect

    def clip_to(self, shown: pygame.Rect) -> None:
        """Note that only what lies in ``shown`` can be seen of it and of its children."""
        for widget in self.walk():
            widget.shown = shown if widget.shown is None else widget.shown.clip(shown)

    def node(self, ui: Ui) -> Node:
        """Tell what this is."""
        return Node(
            self.role, self.name, self.value, self.key, self.visible_rect(), ui.focus == self.key, self.reachable(),
            self.enabled, self.cut, self.shortcut, self.inks, self.edges, tuple(c.node(ui) for c in self.children),
        )  # fmt: skip


def control_height(ui: Ui, lines: int = 1) -> int:
    """Height of a button, an entry, a row: never less than a comfortable target."""
    return max(LEAST_TARGET, ui.look.line("body") * lines + ui.look.px(12))


def draw_focus(
    ui: Ui, surface: pygame.Surface, widget: Widget, within: pygame.Rect | None = None, gap: str = ""
) -> None:  # fmt: skip
    """Draw the focus ring just inside the widget's place, or a part of it, if it has the focus.

    ``gap`` is the colour of a line inside the ring, where what is in it is too much like the ring itself.
    """
    if ui.focus == widget.key and ui.show_focus:
        place, wide, radius = within or widget.rect, max(3, ui.look.px(3)), ui.look.px(4)
        pygame.draw.rect(surface, ui.look["focus"], place, wide, border_radius=radius)
        if gap:
            pygame.draw.rect(surface, ui.look[gap], place.inflate(-2 * wide, -2 * wide), 2, border_radius=radius)
