"""The screen on which a house is built: plan, tools, column and strip, and what the learner does there."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING

import pygame

from trainer.board import bench as hand
from trainer.board import wording
from trainer.board.aim import settle
from trainer.board.bench import Bench
from trainer.board.command import Command
from trainer.board.library import Entry
from trainer.board.paint import Brush
from trainer.board.plan_view import PlanView
from trainer.board.ready import afterwards
from trainer.board.scene import Scene
from trainer.board.scenes import work_frame, work_keys
from trainer.board.scenes.asking import save_diary, sure
from trainer.board.scenes.desk import AT, OWN_TABS, Tab
from trainer.board.scenes.hinting import hint
from trainer.board.scenes.kept import Kept
from trainer.board.scenes.note import note
from trainer.board.scenes.pointing import Pointer
from trainer.board.scenes.work_commands import commands_of
from trainer.board.scenes.work_live import ghost_items, live_items, rings_of, told
from trainer.board.scenes.work_mouse import click
from trainer.board.scenes.work_side import side
from trainer.board.scenes.work_views import views_of
from trainer.board.services import Services
from trainer.board.tools import ONE_STANDING, STAGE_TOOLS, Tool, stage_of
from trainer.board.verbs import actions, placed
from trainer.board.widgets import Widget
from trainer.picture import as_built
from trainer.picture.found import Found
from trainer.picture.model import Item
from trainer.picture.still_site import StillSite
from trainer.plan import Point
from trainer.site import HandOver, Site
from trainer.site.actions import AnyAction, Undo
from trainer.terms import Mode, Stage
from trainer.words import _

if TYPE_CHECKING:
    from trainer.rules.finding import Finding
    from trainer.session import Outcome, Session


STILL_PX = 12.0
"""A mouse left lying on the plan must move this far before it aims again."""


class Work(Scene):
    """Build one house. In practice findings are explained at once; in assessment it is silent until hand-over."""

    order: tuple[str, ...] = ("rail", "side", "views", "plan", "strip", "bar")

    def __init__(self, services: Services, entry: Entry, session: Session, mode: Mode, kept: Kept) -> None:
        super().__init__(services)
        self.name = entry.level.title
        self.entry = entry
        self.session = session
        self.practice = mode == "practice"
        self.kept = kept
        self._told = kept.told()
        self.bench: Bench = hand.first_bench(session.site)
        self.tab: Tab = "sheet"
        self.stage = stage_of(self.bench.tool)
        self.noted: tuple[Finding, ...] = ()
        self.message = _("Read the job sheet. Then choose a tool on the left.")
        self.diary_row = ""
        self.hovered = ""
        self.ghost: AnyAction | None = None
        self._mouse: tuple[int, int] = (-1, -1)
        self._mouse_left: tuple[int, int] | None = None
        self.pointer = Pointer()
        self._still = StillSite(session.site.layout)
        box = as_built.whole_box(session.site.layout)
        self.plan = PlanView(_("Plan"), box, self._still_items, self._live, self._still.outlying)
        self.plan.at_point = self.hover
        self.plan.click = self.click
        self.plan.press_key = lambda event: work_keys.plan_key(self, event)
        self.plan.list_places = lambda: work_frame.places(self)
        self.views = views_of(self, self)

    # what is asked of it

    @property
    def site(self) -> Site:
        """The site as it stands."""
        return self.session.site

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What has been found so far, as far as it may be shown."""
        return tuple(self.session.findings) if self.practice else ()

    @property
    def can_undo(self) -> bool:
        """Whether there is something to take back, and it may be."""
        return self.practice and self.site.done > 0

    # the screen

    def places(self, size: tuple[int, int]) -> dict[str, pygame.Rect]:
        return work_frame.places_of_regions(self, size)

    def make(self, region: str) -> Widget:
        if region == "plan":
            self.plan.told = told(self.bench, self.site)
            return self.views.view()
        if region == "side":
            room = self.places(self.size)["side"]
            return note(self, self.noted) if self.noted else side(self, room.height, room.width)
        return work_frame.REGIONS[region](self)

    def first_focus(self) -> str:
        return "note/go on" if self.noted else f"tool/{self.bench.tool}"

    def tick(self, now_ms: int) -> None:
        self.views.tick(now_ms)
        if self.kept.told() != self._told:
            self._told = self.kept.told()
            self.refresh("bar")

    def look_changed(self) -> None:
        self.views.spoil()

    def hover_left(self) -> None:
        if self.hovered:
            self.hovered = ""
            self.redraw("plan")

    def _still_items(self, scale: float) -> list[Item]:
        return self._still.items(self.site, scale, self.views.over)

    def _live(self, brush: Brush) -> None:
        if self.noted:
            # Nothing but what was found: the truss in the hand waits.
            brush.paint(rings_of(self.site, (Found(one.member, one.severity) for one in reversed(self.noted))))
            return
        if self.ghost is not None:
            brush.paint(ghost_items(self.ghost, self.site))
        brush.paint(live_items(self.bench, self.site, self.hovered))

    def changed(self) -> None:
        """The site is another: draw everything again."""
        self.ghost = None
        self.views.spoil()
        self.refresh()

    # choosing

    def hold_still(self) -> None:
        """Let a mouse that lies on the plan disturb nothing until it moves."""
        self._mouse_left = self._mouse

    def change(self, put: Callable[[Bench], object], *, settle_hip: bool = False) -> None:
        """Change the bench, and show it."""
        put(self.bench)
        self.bench.caught = ""
        self.hold_still()
        member = hand.member_in_hand(self.bench, self.site)
        if settle_hip and member is not None:
            self.bench.aim = settle(self.site.layout.house.plan, member, self.bench.aim)
        self.refresh()

    def use(self, tool: Tool) -> None:
        """Take up a tool, and open the list that goes with it."""
        self.views.stop_drawing()
        hand.use(self.bench, self.site, tool)
        if tool not in STAGE_TOOLS[self.stage]:
            self.stage = stage_of(tool)
        if tool in OWN_TABS:
            self.tab = "own"
        else:
            self.tab = "yard" if tool in {"stand", "mark", "report"} or not self.site.stood else "roof"
        self.noted = ()
        self.message = work_frame.first_words(tool)
        self.refresh()

    def open_stage(self, stage: Stage) -> None:
        """Show the tools of a stage."""
        self.stage = stage
        self.refresh()

    def choose_own(self, row: str) -> None:
        """Choose a row of the tool's own list: an item to check, or a piece of bracing."""
        if self.bench.tool == "check":
            self.bench.item = row
        else:
            self.bench.piece = int(row)
        self.refresh()

    def take_own(self, row: str) -> None:
        """Press Enter, or the mouse, on a row of the tool's own list; by mouse, bracing is only chosen."""
        self.choose_own(row)
        if self.bench.tool == "check" or self.ui.show_focus:
            self.act()

    def open_tab(self, tab: Tab) -> None:
        """Open a tab of the column."""
        self.tab = tab
        self.noted = ()
        self.refresh()

    def choose(self, tag: str) -> None:
        """Choose a truss in a list."""
        hand.take(self.bench, self.site, tag)
        self.refresh()

    def take(self, tag: str) -> None:
        """Press Enter, or the mouse, on a truss in a list: go on with it as the tool asks."""
        hand.take(self.bench, self.site, tag)
        tool = self.bench.tool
        if tag not in self.site.stood and (tool in ONE_STANDING or tool in {"brace", "string"}):
            self.use("stand")
        if hand.picks(self.bench):
            if hand.pick(self.bench, tag):
                self.act()
        elif hand.aims_at_truss(self.bench) or (tool == "fit" and not placed(self.bench)):
            if self.ui.show_focus:
                self.act()
        elif self.ui.show_focus:
            self.settle(self.size)
            self.services.focus("slip/go" if self.bench.tool in {"report", "cut"} else AT)
        self.refresh()

    def turn(self) -> None:
        """Turn the truss in the hand end for end."""
        hand.turn(self.bench)
        self.refresh()

    def choose_diary(self, row: str) -> None:
        """Choose a line of the diary."""
        self.diary_row = row
        self.refresh("side")

    def open_diary_row(self, row: str) -> None:
        """Show again what was found at a line of the diary."""
        found = tuple(f for f in self.findings if f.event == int(row))
        if found:
            self._show(found)

    # the mouse on the plan

    def hover(self, place: Point | None) -> None:
        """Follow the mouse, but not the slight move of one that lies still while somebody types."""
        if place is None:
            return
        self._mouse = self.plan.to_window(place)
        if self._mouse_left is not None:
            if math.dist(self._mouse, self._mouse_left) < STILL_PX:
                return
            self._mouse_left = None
        self.point_at(place)

    def point_at(self, place: Point) -> None:
        """Aim at a place of the plan."""
        before = self._aimed()
        hovered = self.pointer.point(self.bench, self.site, place, self.plan.camera.mm_per_px)
        if self._aimed() != before:
            self.refresh("plan", "side")
        elif hovered != self.hovered:
            self.redraw("plan")
        self.hovered = hovered

    def _aimed(self) -> tuple[object, ...]:
        bench = self.bench
        return (
            bench.aim, bench.mark_on, bench.mark_at, bench.fit_on, bench.fit_at, bench.wall, bench.point, bench.caught,
        )  # fmt: skip

    def click(self, place: Point, button: int) -> None:
        """Press on the plan: do what the tool does there; the right button turns the truss in the hand."""
        if button == 3:
            self.turn()
        elif button == 1:
            self.point_at(place)
            click(self, place)
            self.refresh()

    def carry(self, pos: tuple[int, int]) -> None:
        """Drag a truss out of the yard over the plan."""
        if self.bench.tool != "stand":
            self.use("stand")
        if self.plan.rect.collidepoint(pos):
            self.point_at(self.plan.to_mm(pos))

    def drop(self, pos: tuple[int, int]) -> None:
        """Let go of a truss dragged out of the yard: over the plan it is stood there."""
        if self.bench.tool == "stand" and self.plan.rect.collidepoint(pos):
            self.point_at(self.plan.to_mm(pos))
            self.act()

    # doing

    def say(self, text: str) -> None:
        """Put a sentence in the strip."""
        self.message = text
        self.refresh("strip")

    def act(self) -> None:
        """Do what the tool is aimed at."""
        wanted = actions(self.bench, self.site)
        if isinstance(wanted, str):
            self.say(wanted)
            return
        self.do(wanted)

    def do(self, wanted: Sequence[AnyAction]) -> bool:
        """Do actions one after the other; stop at one that can't be done. Return whether all were."""
        found: list[Finding] = []
        for action in wanted:
            outcome = self.kept_doing(action)
            if outcome is None:
                break
            if outcome.refused is not None:
                self.message = _("That can't be done. {why}").format(why=outcome.refused.why)
                break
            found += outcome.findings
            self.message = ", ".join(filter(None, wording.done(action, self.site)))
            if outcome.event is not None and (read := wording.reading(outcome.event)):
                self.message = f"{self.message}. {read}"
        else:
            afterwards(self.bench, self.site, wanted[-1])
        self.changed()
        if found and self.practice:
            self._show(tuple(found))
        return not found

    def kept_doing(self, action: AnyAction) -> Outcome | None:
        """Do an action and have it recorded; where that can't be, say why, and nothing was done."""
        from trainer.records.errors import RecordsError  # noqa: PLC0415

        try:
            return self.kept.do(action)
        except RecordsError as error:
            self.message = str(error)
            return None

    def _show(self, found: tuple[Finding, ...]) -> None:
        self.noted = found
        self.ui.memory.pop("scroll:What was found", None)
        self.ui.memory["note/back to"] = self.ui.focus
        self.refresh()
        self.ui.focus = "note/go on"

    def close_note(self) -> None:
        """Put the note away and go on."""
        self.noted = ()
        self.ui.focus = str(self.ui.memory.get("note/back to", ""))
        self.refresh()

    def undo(self) -> None:
        """Take the last action back."""
        if not self.practice:
            self.say(_("There is no undo in an assessment. Take the truss down instead."))
            return
        if not self.can_undo:
            self.say(_("There is nothing to take back."))
            return
        if self.kept_doing(Undo()) is not None:
            if self.noted:
                self.close_note()
            self.message = _("Taken back.")
        self.changed()

    def hint(self) -> None:
        """Ask what comes next; asked again, take up the tool for it."""
        hint(self)

    def hand_over(self) -> None:
        """Ask, then hand the roof over."""
        if not self.kept.handed_over_by_hand:
            self.say(_("A drill is not handed over. It ends by itself when all of it is done."))
            return
        waiting = len(hand.yard(self.site))
        lines = [_("The roof is judged as it stands. You can't go on afterwards.")]
        if waiting:
            lines.insert(0, _("{n} trusses are still in the yard.").format(n=waiting))
        sure(self.services, _("Hand the roof over?"), lines, _("Hand over"), self._hand_over)

    def _hand_over(self) -> None:
        outcome = self.kept_doing(HandOver())
        if outcome is None or outcome.refused is not None:
            self.say(outcome.refused.why if outcome and outcome.refused else self.message)
            return
        self.kept.handed_over(self.services, self.entry, self.session)

    def save(self) -> None:
        """Save the diary as a file and say where it is."""
        save_diary(self.services, self.session)

    def leave(self) -> None:
        """Go back to where one came from, after asking if anything has been done."""
        told = self.kept.before_leaving() if self.site.done else ""
        if not told:
            self.kept.left(self.services)
            return
        sure(self.services, _("Leave this house?"), [told], _("Leave"), partial(self.kept.left, self.services))

    def commands(self) -> list[Command]:
        return commands_of(self)

    def key(self, event: pygame.event.Event) -> bool:
        return work_keys.scene_key(self, event)
