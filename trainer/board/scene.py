"""A screen of the board: named regions of widgets, made afresh when what they show has changed."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pygame

from trainer.board.command import Command
from trainer.board.widgets import Node, Ui, Widget

if TYPE_CHECKING:
    from trainer.board.services import Services

TOO_SOON_MS = 1000
"""What is pressed so soon after a question has come was meant for what stood there before."""


class Scene:
    """The base of all screens. ``make`` returns the root widget of a region; ``places`` says where they go."""

    name = ""
    order: tuple[str, ...] = ()
    """The regions in the order in which Tab goes through them."""
    spoken: tuple[str, ...] = ("side", "strip", "whole")
    """Regions with texts to be read aloud."""

    def __init__(self, services: Services) -> None:
        self.services = services
        self.ui: Ui = services.ui
        self.roots: dict[str, Widget] = {}
        self.stale: set[str] = set(self.order)
        self.dirty: set[str] = set(self.order)
        self.size = (0, 0)

    # for a screen to fill in

    def places(self, size: tuple[int, int]) -> dict[str, pygame.Rect]:
        """Return where each region goes in a window of this size."""
        raise NotImplementedError

    def make(self, region: str) -> Widget:
        """Return the widgets of a region for the state as it is."""
        raise NotImplementedError

    def key(self, event: pygame.event.Event) -> bool:
        """Take a key that no widget wanted; return whether it was of use."""
        return False

    def commands(self) -> list[Command]:
        """Return what can be done on this screen, by name."""
        return []

    def tick(self, now_ms: int) -> None:
        """Let time pass."""

    def first_focus(self) -> str:
        """Key of the widget that has the focus when nothing else has."""
        return ""

    def look_changed(self) -> None:
        """Colours or text size are others now."""

    def hover_left(self) -> None:
        """The mouse is over nothing that follows it."""

    # what every screen does

    def refresh(self, *regions: str) -> None:
        """What these regions show (or all of them) has changed."""
        self.stale |= set(regions or self.order)

    def redraw(self, *regions: str) -> None:
        """These regions (or all of them) have to be drawn again, though nothing in them has changed."""
        self.dirty |= set(regions or self.order)

    def update(self, size: tuple[int, int]) -> None:
        """Make what is stale and put everything in its place."""
        resized = size != self.size
        if not self.stale and not resized:
            return
        if resized:
            self.size = size
            self.stale = set(self.order)
        places = self.places(size)
        for region in self.order:
            if region in self.stale:
                root = self.make(region)
                root.place(self.ui, places[region])
                self.roots[region] = root
        self.dirty |= self.stale
        self.stale = set()

    def draw(self, surface: pygame.Surface) -> list[pygame.Rect]:
        """Draw what is dirty; return which parts of the surface changed."""
        changed = []
        for region in self.order:
            if region in self.dirty:
                root = self.roots[region]
                clip = surface.get_clip()
                surface.set_clip(root.rect)
                root.draw(self.ui, surface)
                surface.set_clip(clip)
                changed.append(root.rect)
        self.dirty = set()
        return changed

    def region_of(self, key: str) -> str:
        """Return the region in which a widget is."""
        return next((r for r in self.order if any(w.key == key for w in self.roots[r].walk())), "")

    def nodes(self) -> tuple[Node, ...]:
        """Return the regions that have room as nodes."""
        roots = (self.roots[region] for region in self.order)
        return tuple(root.node(self.ui) for root in roots if root.rect.height)
