"""The houses to choose from: read one at a time, so that the window is there at once."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from trainer.picture.model import Box, Item, Line, Polygon
from trainer.picture.space import Turn
from trainer.picture.sun import lit

if TYPE_CHECKING:
    from trainer.level import Level
    from trainer.roof.model import Roof

TURN = (28.0, 30.0)
"""How a house is looked at on the path: turned and from above, degrees."""


@dataclass(frozen=True)
class HouseEntry:
    """One house: its level, the level's whole text as attempts keep it, and its roof."""

    level: Level
    text: str = field(repr=False)
    roof: Roof = field(repr=False)
    own: Path | None = None
    """The file of a house that somebody drew here; none for a shipped one."""

    @property
    def id(self) -> str:
        """The level's id."""
        return self.level.id

    @property
    def size(self) -> str:
        """Length and width over the plates, in metres."""
        left, bottom, right, top = self.level.house().plan.bounds
        return f"{(right - left) / 1000:g}\u00a0×\u00a0{(top - bottom) / 1000:g}\u00a0m"

    @cached_property
    def box(self) -> Box:
        """The box round the eaves."""
        points = [point for face in self.roof.faces for point in face.polygon]
        xs, ys = [p[0] for p in points], [p[1] for p in points]
        return min(xs), min(ys), max(xs), max(ys)

    @cached_property
    def roof_items(self) -> tuple[Item, ...]:
        """The roof from above: its planes, ridges, hips and valleys."""
        plan = self.level.house().plan
        items: list[Item] = []
        for face in self.roof.faces:
            nx, ny = plan.by_name[face.wall].inward
            items.append(Polygon(tuple((x, y) for x, y, _z in face.polygon), lit("cover", (-nx, -ny)), "roof", 1.0))
        items += [
            Line(((a[0], a[1]), (b[0], b[1])), "roof", 1.8)
            for a, b in (*self.roof.ridges, *self.roof.hips, *self.roof.valleys)
        ]
        return tuple(items)

    @cached_property
    def turn(self) -> Turn:
        """How the house is looked at."""
        left, bottom, right, top = self.level.house().plan.bounds
        return Turn(*TURN, ((left + right) / 2, (bottom + top) / 2))

    @cached_property
    def standing(self) -> tuple[Item, ...]:
        """The house as it will stand, in space."""
        from trainer.layout import LayoutRefused, lay_out
        from trainer.picture.finished import finished  # slow to load: after the first frame

        house = self.level.house()
        try:
            layout = lay_out(house) if house.plan.beams else None
        except LayoutRefused:
            layout = None  # its posts are where its trusses want them
        return tuple(finished(house, self.roof, self.turn, layout))

    @cached_property
    def standing_box(self) -> Box:
        """The box on the paper round the house as it will stand."""
        from trainer.picture.finished import box_of

        return box_of(self.level.house(), self.roof, self.turn)


def read_entry(path: Path) -> HouseEntry:
    """Read one level file; raises :class:`trainer.read.Faulty` with its faults."""
    from trainer.level import parse_level, whole_text  # slow to load: after the first frame
    from trainer.shipped import style_texts

    content = path.read_bytes()
    level = parse_level(content, str(path), style_texts(path))
    return entry_of(level, whole_text(level, content.decode("utf-8")))


def entry_of(level: Level, text: str = "") -> HouseEntry:
    """Return the entry of a level that was read already; ``text`` is its whole text, where that is at hand."""
    from trainer.level import write_level
    from trainer.roof import solve

    house = level.house()
    return HouseEntry(level, text or write_level(level), solve(house.plan, house.roof))


class Library:
    """The shipped levels in the order of the path, and somebody's own after them, read one by one as asked for."""

    def __init__(self, paths: tuple[Path, ...], own: tuple[Path, ...] = ()) -> None:
        self.waiting = [*paths, *own]
        self.entries: list[HouseEntry] = []
        self._own = set(own)
        self._places = {path.stem: number for number, path in enumerate(paths, 1)}

    def read_next(self) -> bool:
        """Read one more house; return whether there was one. A faulty shipped file is a fault of the program."""
        if not self.waiting:
            return False
        path = self.waiting.pop(0)
        if path in self._own:
            self.read_again(path)
        else:
            self.entries.append(read_entry(path))
        self.entries.sort(key=self._order)
        return True

    def read_again(self, path: Path) -> None:
        """Read somebody's own house, new or changed; one that has faults is opened on the drawing table alone."""
        from trainer.read import Faulty

        self._own.add(path)
        self.entries = [entry for entry in self.entries if entry.own != path]
        try:
            entry = read_entry(path)
        except (Faulty, OSError):
            return
        if all(entry.id != other.id for other in self.entries):
            self.entries.append(replace(entry, own=path))
            self.entries.sort(key=self._order)

    def _order(self, entry: HouseEntry) -> tuple[int, bool]:
        """A level that says its own place goes before the one that the path has there."""
        own = entry.level.lesson.place
        if entry.own:
            return (len(self._places) + 1, True)
        return (own, False) if own else (self._places[entry.id], True)
