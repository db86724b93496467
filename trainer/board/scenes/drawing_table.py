"""The drawing table: a house drawn by mouse or keys, with its roof, layout and faults as it is drawn."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from itertools import chain
from textwrap import shorten
from typing import Literal

import pygame

from trainer.board.command import Command
from trainer.board.plan_view import PlanView
from trainer.board.scene import Scene
from trainer.board.services import Services
from trainer.board.table.faults_said import fault_rows
from trainer.board.table.files import Source, kept_sheet, same_file
from trainer.board.table.go_on import go_on_panel, going_on
from trainer.board.table.hand import SheetHand
from trainer.board.table.job_panel import job_panel
from trainer.board.table.lesson_panel import lesson_panel
from trainer.board.table.panels import KIND_WORDS, drawing_panel, sizes_panel
from trainer.board.table.shelf import Shelf
from trainer.board.table.state import TOOL_NAMES, Table
from trainer.board.table.views import CutView, RoofView, keep_in_sight, places
from trainer.board.widgets import Button, Choice, Column, Flow, Label, LineEntry, Listing, Pad, Scroll, Widget
from trainer.picture.drafted import KIND_NAMES, sheet, sheet_box
from trainer.picture.model import Item
from trainer.shipped import level_paths, style_texts
from trainer.table import KINDS, Act, CannotDraw, Close, Drawing, Mirror, Turn, read_pace
from trainer.words import INVENTED, _, ngettext

Tab = Literal["house", "sizes", "job", "lesson", "go on"]
TAB_NAMES: dict[Tab, str] = {
    "house": _("House"), "sizes": _("Sizes"), "job": _("Job"), "lesson": _("Lesson"), "go on": _("Go on"),
}  # fmt: skip
View = Literal["sheet", "angled", "section"]
VIEW_NAMES: dict[View, str] = {"sheet": _("Sheet"), "angled": _("At an angle"), "section": _("Section")}
PACE, FORM = "table/pace", "table/length"
"""Keys of the line to type walls in, and of the first measure of the chosen wall."""
LET_BE = _("Let the wall be: {kind}")
MOST_TITLE = 32
"""Letters of a title that the bar has room for."""
ON_THE_SHEET = frozenset(map(ord, "cmrgwv"))
"""Keys that do something to the house or its view, and nothing while somebody is in a field."""
MOST_TYPED = 2000
"""Letters of a line of walls: some sixty corners."""


class DrawingTable(Scene):
    """The sheet in the middle, what is to be done with it on the right, views and faults with it."""

    name = _("Drawing table")

    def __init__(self, services: Services, opened: tuple[Drawing, Source | None] | None = None) -> None:
        """Put a drawing on the table; without one, what lay there last, or an empty sheet."""
        data = services.records.folder
        styles = style_texts(level_paths()[0])
        self.table = Table(styles, data)
        self.hand = SheetHand(self.table, lambda: self.redraw("plan"))
        self.plan = PlanView(_("Sheet"), sheet_box(self.table.drawing), self._still)
        self.plan.drawer = self.hand
        self.plan.note = lambda: self.table.hint
        self.angled = RoofView(lambda: self.table.seen.shown)
        self.section = CutView(lambda: self.table.seen.layout)
        self.shelf = Shelf(services, self.table, self._show_all)
        self.tab: Tab = "house"
        self.view: View = "sheet"
        self._held: Act | None = None
        self._steps: Iterator[None] = iter(())
        self.doing: Iterator[None] = iter(())
        self.typed = ""
        self.fault = ""
        self.entries: dict[str, float] = {}
        self._was_closed = self.table.drawing.closed
        self._kinds = [wall.kind for wall in self.table.drawing.walls]
        self._drawn = self.table.study
        self._late = False
        super().__init__(services)
        self.table.changed = self._changed
        kept = kept_sheet(data)
        if kept is not None:
            self.table.open(*kept)
        if opened is not None and opened[1] is not None and kept is not None and same_file(kept[1], opened[1]):
            opened = None  # it lies there already, perhaps with more drawn on it
        self._opened = opened
        self._show_all()

    # regions

    @property
    def order(self) -> tuple[str, ...]:  # type: ignore[override]
        """The regions; without much room, one view at a time."""
        if self._roomy:
            return ("plan", "foot", "section", "angled", "side", "bar")
        return ("plan", "foot", "side", "bar")

    @property
    def _roomy(self) -> bool:
        return self.ui.look.roomy(self.size) if getattr(self, "size", (0, 0)) != (0, 0) else True

    def places(self, size: tuple[int, int]) -> dict[str, pygame.Rect]:
        bar = self._bar().high(self.ui, size[0])
        return places(self.ui.look, size, bar, cut=self.table.study.layout is not None)

    def make(self, region: str) -> Widget:
        if region == "section" and self.table.study.layout is None:
            return Widget()
        shown: dict[str, Widget] = {"plan": self.plan, "angled": self.angled, "section": self.section}
        if region == "plan" and not self._roomy:
            return shown[{"sheet": "plan"}.get(self.view, self.view)]
        if region in shown:
            return shown[region]
        return {"bar": self._bar, "side": self._side, "foot": self._foot}[region]()

    def _still(self, _scale: float) -> list[Item]:
        return sheet(self.table.study, self.plan.reach(), tagged=self.tab == "lesson")

    def _bar(self) -> Widget:
        roomy = self._roomy
        does: list[tuple[str, Callable[[], object], str]] = [
            (_("Houses"), self._leave, "Esc"), (_("Undo"), self.table.undo, "Ctrl Z"),
            (_("Redo"), self.table.redo, "Ctrl Y"), (_("Save"), self.save, "Ctrl S"),
            (_("New sheet"), self.shelf.new_sheet, ""), (_("Open"), self.shelf.open_own, ""),
            (_("Help"), self.services.help, "F1"),
        ]  # fmt: skip
        parts: list[Widget] = [
            Button(
                name, partial(_do, press), kind="quiet", shortcut=key if roomy else "", ground="paper",
                key=f"bar/{name}",
            )
            for name, press, key in does
        ]  # fmt: skip
        if roomy:
            state = _("saved") if self.table.saved else _("not saved")
            title = shorten(str(self.table.drawing.at("title")), MOST_TITLE, placeholder=" …")
            said = _("{title} ({state})").format(title=title, state=state)
            parts.append(Label(said, "heading", "ink", ground="paper", role="heading", key="bar/title"))
        flow = Flow(parts, gap=6 if roomy else 0, key="bar/flow")
        return Pad(flow, pad=4, ground="paper", name=_("Top"), key="bar")

    def _side(self) -> Widget:
        tabs = list(TAB_NAMES)
        made: Widget = Flow(
            [
                Button(name, partial(self.open_tab, tab), kind="tab", checked=self.tab == tab, key=f"tab/{tab}")
                for tab, name in TAB_NAMES.items()
            ],
            gap=2, key="tabs",
        )  # fmt: skip
        if not self._roomy:
            names = list(TAB_NAMES.values())
            made = Choice(
                _("Show"), names, tabs.index(self.tab), lambda i: self.open_tab(tabs[i]), key="tab", tight=True
            )
        panel = {
            "house": lambda: drawing_panel(self.table, self.entries), "sizes": lambda: sizes_panel(self.table),
            "job": lambda: job_panel(self.table),
            "lesson": lambda: lesson_panel(self.table, self.entries), "go on": lambda: go_on_panel(self),
        }[self.tab]()  # fmt: skip
        said = TAB_NAMES[self.tab]
        scroll = Scroll(Column(panel, gap=8, key=f"panel/{self.tab}"), said, key=f"side/{self.tab}")
        pad = 12 if self._roomy else 6
        return Pad(Column([made, scroll], gap=8), pad=pad, column=True, name=said, key="side")

    def _foot(self) -> Widget:
        typed = _("Pace the walls (P): 12000 right, 7200 up")
        pace = LineEntry(typed, self.typed, self._type, key=PACE, enter=self.pace, most=MOST_TYPED)
        ink = "panel_ink" if self.table.said else "panel_faint"
        said = Label(self.table.said or self._state(), "small", ink, key="table/said", role="status")
        rows: list[Widget] = [pace]
        faults = self.table.study.faults
        if faults and self.table.drawing.closed:
            listing = Listing(
                _("Faults"), fault_rows(self.table.drawing, faults), self.fault or "1", self.look_at, tall=True,
                key="table/faults", show=min(2, len(faults)),
            )  # fmt: skip
            listing.grows = False
            rows.append(listing)
        rows.insert(1 if self.table.said else len(rows), said)
        if not self._roomy:
            views, names = list(VIEW_NAMES), list(VIEW_NAMES.values())
            seen = views.index(self.view)
            rows.append(Choice(_("View"), names, seen, lambda i: self.see(views[i]), key="table/view", shortcut="V"))
        scroll = Scroll(Column(rows, gap=6, key="foot/column"), _("What is drawn"), key="foot/scroll")
        return Pad(scroll, pad=8, name=_("What is drawn"), key="foot")

    def _state(self) -> str:
        found = self.table.study
        if found.layout is None:
            return INVENTED
        n = len(found.layout.members)
        text = ngettext("Laid out: {n} truss.", "Laid out: {n} trusses.", n).format(n=n)
        return f"{text} {INVENTED}"

    # what changes

    def _changed(self) -> None:
        self._held, self._steps = None, self._views()
        if self.table.study is not self._drawn:  # else a wall was chosen, say: that is drawn over the sheet
            self._drawn = self.table.study
            self.plan.invalidate()
        drawing, camera = self.table.drawing, self.plan.camera
        closes, self._was_closed = drawing.closed and not self._was_closed, drawing.closed
        named, self._kinds = self._kinds, [wall.kind for wall in drawing.walls]
        # What a wall is called now wants room beside its length.
        keep_in_sight(camera, drawing, closes=closes or (camera.fitted and drawing.closed and named != self._kinds))
        self.refresh()

    def _show_all(self) -> None:
        self.plan.camera.look_at(sheet_box(self.table.drawing))
        self.plan.invalidate()
        self.refresh()

    def tick(self, now_ms: int) -> None:
        if self._opened is not None:  # once the screen is there: there may be something to ask
            opened, self._opened = self._opened, None
            self.shelf.unless_unsaved(_("Open the other one"), partial(self.shelf.put, *opened))
        self._follow_hand()
        next(self.doing, None)
        for view in (self.plan, self.angled, self.section):
            view.now_ms = now_ms
        was_late, self._late = self._late, False
        for region in self.order:
            shown = self.roots.get(region)
            if isinstance(shown, PlanView) and not shown.resting:
                self.redraw(region)
                # A view that is painted takes its time: what is held on the sheet then moves a frame later.
                self._late = not was_late and self.hand.grip is not None and self.plan.resting
        if was_late:
            self.redraw("plan")
        elif self._late:
            self.dirty.discard("plan")

    def _follow_hand(self) -> None:
        """Show beside the sheet what it would be if what is held were let go; a step a frame, so that none is long."""
        if next(self._steps, self) is self:
            act = self.hand.held if self.table.drawing.closed else None
            if act != self._held:
                self._held, self._steps = act, chain(self.table.look_ahead(act), (None,), self._views())

    def _views(self) -> Iterator[None]:
        """Let the views beside the sheet show what is drawn now, each in a frame of its own."""
        yield from self.angled.follow()
        yield
        self.section.follow(*self.table.chosen)
        yield

    def look_changed(self) -> None:
        for view in (self.plan, self.angled, self.section):
            view.invalidate()

    def first_focus(self) -> str:
        return self.plan.key

    def open_tab(self, tab: Tab) -> None:
        """Show another panel."""
        self.tab = tab
        self.plan.invalidate()
        self.refresh()

    def see(self, view: View) -> None:
        """Show the sheet, or another view in its place."""
        self.view = view
        self.refresh()

    def look_at(self, number: str) -> None:
        """Bring a fault of the list into sight."""
        self.fault = number
        fault = self.table.study.faults[int(number) - 1]
        if fault.at is not None:
            self.plan.camera.reveal(fault.at)
        if fault.wall:
            self.table.wall = fault.wall
        self.refresh()

    def _type(self, text: str) -> None:
        self.typed = text

    def pace(self) -> None:
        """Draw the walls that were typed."""
        try:
            act = read_pace(self.typed)
        except CannotDraw as why:
            self.table.said = str(why)
            self.refresh()
            return
        before = self.table.drawing
        self.table.act(act)
        if self.table.drawing is not before:
            self.typed = ""
            self._show_all()
            if self.table.drawing.closed:
                self.services.focus(self.plan.key)

    def save(self, then: Callable[[], None] = lambda: None) -> None:
        """Save the house to its file, and go on."""
        self.shelf.save(then)

    def _leave(self) -> None:
        self.services.go_home()

    def _back(self) -> None:
        """Leave the entry where somebody types, else the table."""
        if getattr(self._focused, "role", "") == "entry":
            self.services.focus(self.plan.key)
        else:
            self._leave()

    @property
    def _focused(self) -> Widget | None:
        """The control of the column or under the sheet that has the focus."""
        roots = (self.roots[region] for region in ("side", "foot") if region in self.roots)
        return next((each for root in roots for each in root.walk() if each.key == self.ui.focus), None)

    def _next_wall(self, by: int) -> None:
        """Choose the next wall; who is in the form stays there, in the measure of the same name if there is one."""
        entry = self._focused
        if entry is not None:
            entry.on_leave(self.ui)  # what is typed is of the wall before
        self.table.next_wall(by)
        if entry is not None:
            self.services.focus(entry.key)
            if self.ui.focus != entry.key:
                self.services.focus(FORM)

    def _to_form(self) -> None:
        """Go to the measures of the chosen wall."""
        self.tab = "house"
        if not self.table.wall:
            self.table.next_wall(1)
        self.refresh()
        self.services.focus(FORM)

    def _to_pace(self) -> None:
        self.services.focus(PACE)

    def _paces(self, event: pygame.event.Event) -> bool:
        """Digits on a sheet whose outline is open begin a wall's length."""
        typed = getattr(event, "unicode", "")
        if self.table.drawing.closed or self.table.wall or not typed or typed not in "0123456789":
            return False
        self._to_pace()
        entry = self._focused
        return entry is not None and entry.key == PACE and entry.on_key(self.ui, event)

    def _typed_astray(self, event: pygame.event.Event) -> bool:
        """Letters that a field has no use for do nothing to the house: who writes "7 m" means no mirror."""
        if getattr(self._focused, "role", "") != "entry" or event.key not in ON_THE_SHEET:
            return False
        self.table.said = _("A field has the keys now, and takes no such letter. Esc goes back to the sheet.")
        self.refresh()
        return True

    # keys

    def commands(self) -> list[Command]:
        return [
            Command(_("Undo"), "Ctrl Z", self.table.undo), Command(_("Redo"), "Ctrl Y", self.table.redo),
            Command(_("Save the house"), "Ctrl S", self.save), Command(_("Open a house"), "", self.shelf.open_own),
            Command(_("Begin a new sheet"), "", self.shelf.new_sheet),
            Command(_("Close the outline"), "C", lambda: self.table.act(Close())),
            Command(_("Mirror the house"), "M", lambda: self.table.act(Mirror())),
            Command(_("Turn the house"), "R", lambda: self.table.act(Turn())),
            Command(_("Choose the next wall"), "N", lambda: self._next_wall(1)),
            Command(_("Go to the measures of the chosen wall"), "F", self._to_form),
            *(
                Command(LET_BE.format(kind=said), str(n), partial(self.table.make_it, kind), KIND_WORDS[kind])
                for n, (kind, said) in enumerate(KIND_NAMES.items(), 1)
            ),
            *(
                Command(_("The mouse: {tool}").format(tool=name), "", partial(self.table.take_tool, tool))
                for tool, name in TOOL_NAMES.items()
            ),
            *going_on(self),
            Command(_("Pace the walls"), "P", self._to_pace),
            *(Command(TAB_NAMES[tab], "", partial(self.open_tab, tab)) for tab in TAB_NAMES),
        ]  # fmt: skip

    def key(self, event: pygame.event.Event) -> bool:
        if event.mod & pygame.KMOD_CTRL:
            again = self.table.redo if event.mod & pygame.KMOD_SHIFT else self.table.undo
            does: dict[int, Callable[[], object]] = {
                pygame.K_z: again, pygame.K_y: self.table.redo, pygame.K_s: self.save,
            }  # fmt: skip
        elif self._paces(event) or self._typed_astray(event):
            return True
        else:
            does = self._plain_keys(event)
        if event.key in does:
            does[event.key]()
            return True
        return self.plan.zoom_key(event)

    def _plain_keys(self, event: pygame.event.Event) -> dict[int, Callable[[], object]]:
        back = bool(event.mod & pygame.KMOD_SHIFT)
        table, views = self.table, list(VIEW_NAMES)
        step = -1 if back else 1
        return {
            pygame.K_ESCAPE: self._back, pygame.K_DELETE: table.take_out, pygame.K_g: table.next_grid,
            pygame.K_c: lambda: table.act(Close()), pygame.K_m: lambda: table.act(Mirror()),
            pygame.K_r: lambda: table.act(Turn()), pygame.K_n: lambda: self._next_wall(step),
            pygame.K_f: self._to_form,
            pygame.K_w: lambda: table.next_tool(step),
            **{pygame.K_1 + number: partial(table.make_it, kind) for number, kind in enumerate(KINDS)},
            pygame.K_p: self._to_pace,
            pygame.K_v: lambda: self.see(views[(views.index(self.view) + 1) % len(views)]),
        }  # fmt: skip


def _do(press: Callable[[], object]) -> None:
    press()
