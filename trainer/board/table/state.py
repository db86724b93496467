"""What lies on the drawing table: the sheet with all that was drawn, what comes of it, and what is chosen on it."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Literal

from trainer.board.table.files import Source, keep_sheet
from trainer.level.style import Styles
from trainer.read import read_yaml
from trainer.records.errors import RecordsError
from trainer.table import (
    Act,
    CannotDraw,
    Drawing,
    History,
    Kind,
    PushBay,
    SetBeam,
    SetKind,
    SetValue,
    SplitWall,
    Study,
    TakeBack,
    TakeOut,
    glance,
    new_drawing,
    study,
)
from trainer.table.drawing import Corner
from trainer.table.form_acts import Way
from trainer.words import _

Tool = Literal["draw", "cut", "bay", "inside", "danger"]
TOOL_NAMES: Mapping[Tool, str] = {
    "draw": _("Draw and move"), "cut": _("Cut a wall"), "bay": _("Set a bay forward"), "inside": _("Internal wall"),
    "danger": _("Danger"),
}  # fmt: skip
TOOL_HINTS: Mapping[Tool, str] = {
    "draw": _("Press a wall to choose what it is. Drag a wall or a corner to move it."),
    "cut": _("Press a wall where it is to be cut in two."),
    "bay": _("Press a wall where the bay begins, and drag to its other corner."),
    "inside": _("Press where the wall begins, and drag to its end. A press on one takes it out."),
    "danger": _("Press where the danger lies, or the wall that it is on. Press again to take it away."),
}
OVER_IT = _("The trusses are taken to run from the beam to the far wall. No wall inside carries one.")
"""What is assumed of the wall behind a beam on posts."""
SCALE = _("Lines are 1 m apart, strong ones 5 m.")
MOST_DIGITS = 7
GRIDS = (1000, 500, 100, 50, 10)
"""What places on the sheet snap to, mm."""


@dataclass
class Table:
    """The state of the table. ``changed`` is called after each act; the sheet is kept in the folder ``data``."""

    styles: Styles
    data: Path | None
    changed: Callable[[], None] = lambda: None
    history: History = field(default_factory=lambda: History(new_drawing()))
    source: Source | None = None
    tool: Tool = "draw"
    grid: int = 100
    wall: str = ""
    danger: str = "missing rail"
    posts: str = ""
    """Where posts stand, as it is typed."""
    truss: str = ""
    other: str = ""
    truss_fault: str = "broken web"
    wall_fault: str = "bowed wall"
    said: str = ""
    """What was refused, in words, or done; shown until the next act."""

    def __post_init__(self) -> None:
        self._typed: tuple[Way, str] = ((), "")
        self.study: Study = study(self.history.now, self.styles)
        self.ahead: Study | None = None
        """What the sheet would be if what is held were let go now."""

    @property
    def drawing(self) -> Drawing:
        """The sheet as it is now."""
        return self.history.now

    @property
    def hint(self) -> str:
        """What to do now."""
        if self.drawing.closed:
            ends = self.tool == "draw" and self.chosen[1] == "beam"
            return _("Drag a diamond to where the beam ends.") if ends else TOOL_HINTS[self.tool]
        return f"{self.study.faults[0].what} {SCALE}"

    @property
    def chosen(self) -> tuple[str, str]:
        """The wall that is chosen and what it is; two empty texts where none is."""
        return (self.wall, self.drawing.walls[self.drawing.index(self.wall)].kind) if self.wall else ("", "")

    @property
    def saved(self) -> bool:
        """Whether the file holds what is on the sheet."""
        return self.source is not None and self.source.drawing == self.drawing

    def write(self, values: Mapping[Way, Any], way: Way = (), text: str = "") -> None:
        """Write values under their keys, such as the title; what is typed for ``way`` is ``text`` so far.

        While somebody types, all letters are one act.
        """
        written = self.drawing
        for each, value in values.items():
            if written.at(*each) != value:
                written = SetValue(each, value).on(written)
        if written != self.drawing:
            begun = self.history.before if way and self._typed[0] == way and self.history.before else self.history
            self._put(History(written, begun), self.wall)
        self._typed = (way, text)

    def typed(self, way: Way) -> str | None:
        """Return the text as it is being typed for a value; None where nobody does."""
        return self._typed[1] if way == self._typed[0] else None

    def act(self, act: Act) -> None:
        """Do one thing; where nobody could, it is said why."""
        self.act_as(lambda: act)

    def act_as(self, make: Callable[[], Act]) -> None:
        """Do what is made of measures from a form; where one of them can't be meant, or the act be done, say why."""
        try:
            act = make()
            history = self.history.do(act)
        except CannotDraw as why:
            self.said = str(why)
            self.changed()
            return
        start = self.drawing.ends(self.drawing.index(self.wall))[0] if self.wall else None
        self._put(history, self._same_wall(history.now, start) if isinstance(act, SplitWall | PushBay) else self.wall)

    def _same_wall(self, after: Drawing, start: Corner | None) -> str:
        """Return the wall that starts where the chosen one did: it has another letter where a corner came before it."""
        return after.names[after.corners.index(start)] if start in after.corners else self.wall

    def look_ahead(self, act: Act | None) -> Iterator[None]:
        """See what an act would make of the sheet, without doing it, in short steps; None looks no further."""
        try:
            self.ahead = (yield from glance(act.on(self.drawing), self.styles)) if act is not None else None
        except CannotDraw:
            self.ahead = None

    @property
    def seen(self) -> Study:
        """What the views beside the sheet show."""
        return self.ahead or self.study

    def undo(self) -> None:
        """Take the last act back."""
        self._put(self.history.undo(), self.wall, "" if self.history.before else _("Nothing is left to take back."))

    def redo(self) -> None:
        """Do again what was taken back last."""
        self._put(self.history.redo(), self.wall, "" if self.history.undone else _("Nothing was taken back."))

    def open(self, drawing: Drawing, source: Source | None) -> None:
        """Put another sheet on the table."""
        self.source = source
        self._put(History(drawing), "")

    def _put(self, history: History, wall: str, said: str = "") -> None:
        self.history, self.wall, self.said, self._typed = history, wall, said, ((), "")
        looked_at = self.ahead if self.ahead is not None and self.ahead.drawing == history.now else self.study
        self.study, self.ahead = study(history.now, self.styles, looked_at), None
        if self.wall not in history.now.names:
            self.wall = ""
        try:
            keep_sheet(self.data, history.now, self.source)
        except RecordsError as why:
            self.said = str(why)
        self.changed()

    def habits(self, style: str | None) -> frozenset[str]:
        """Return the truss settings that a house style gives."""
        if style is None or style not in self.styles:
            return frozenset()
        data = read_yaml(*self.styles[style]).data
        trusses = data.get("trusses") if isinstance(data, dict) else None
        return frozenset(trusses) if isinstance(trusses, dict) else frozenset()

    def choose(self, wall: str) -> None:
        """Choose a wall."""
        self.wall, self.posts = wall, ""
        self.changed()

    def next_wall(self, by: int) -> None:
        """Choose the next wall, or the one before."""
        names = self.drawing.names
        if names:
            self.choose(names[(names.index(self.wall) + by) % len(names)] if self.wall else names[0 if by > 0 else -1])

    def name_truss(self, tag: str) -> None:
        """Name a truss by its tag."""
        self.truss = tag.strip().upper()
        self.changed()

    def name_other(self, tag: str) -> None:
        """Name the truss whose tag another one wears."""
        self.other = tag.strip().upper()
        self.changed()

    def type_posts(self, text: str) -> None:
        """Keep what is typed of the posts of a beam."""
        self.posts = text

    def put_posts(self) -> None:
        """Let the posts of the chosen beam stand where it was typed; as the rules put them where nothing was."""
        places = re.split(r"[\s,;]+", self.posts.strip()) if self.posts.strip() else []
        if not all(place.isdecimal() and len(place) < MOST_DIGITS for place in places):
            self.said = _("Write where the posts stand in mm, such as: 0, 2400, 4800.")
            self.changed()
            return
        stretch = self.drawing.walls[self.drawing.index(self.wall)].stretch
        self.act(SetBeam(self.wall, stretch, tuple(map(int, places)) or None))

    def choose_faults(self, truss: str = "", wall: str = "") -> None:
        """Choose the fault that a truss or a wall is given next."""
        self.truss_fault, self.wall_fault = truss or self.truss_fault, wall or self.wall_fault
        self.changed()

    def make_it(self, kind: Kind) -> None:
        """Let the chosen wall be of a kind."""
        if self.wall:
            self.act(SetKind(self.wall, kind))
            if kind == "beam" and not self.said:
                self.said = OVER_IT
                self.changed()
        else:
            self.said = _("Choose a wall first: press it, or N for the next one.")
            self.changed()

    def next_tool(self, by: int) -> None:
        """Take the next of what the mouse does."""
        tools = list(TOOL_NAMES)
        self.take_tool(tools[(tools.index(self.tool) + by) % len(tools)])

    def take_tool(self, tool: Tool) -> None:
        """Let the mouse do something else."""
        self.tool = tool
        self.changed()

    def take_out(self) -> None:
        """Take the chosen wall out, or the last corner of an open outline."""
        if self.wall or not self.drawing.closed:
            self.act(TakeOut(self.wall) if self.drawing.closed else TakeBack())

    def keep(self, source: Source) -> None:
        """Note that the sheet was saved, under the id that it has in its file."""
        self.source = source
        if source.drawing != self.drawing:
            self._put(History(source.drawing, self.history), self.wall)
        else:
            self._put(self.history, self.wall)

    def next_grid(self) -> None:
        """Snap to the next of the grids."""
        self.grid = GRIDS[(GRIDS.index(self.grid) + 1) % len(GRIDS)]
        self.changed()

    def snapped(self, place: tuple[float, float]) -> tuple[int, int]:
        """Return the place on the grid next to a place."""
        x, y = (round(part / self.grid) * self.grid for part in place)
        return x, y
