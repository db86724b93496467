"""The screen on which a house is built: where plan, tools, column and strip go, and what each shows."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

import pygame

from trainer.board.command import Command
from trainer.board.library import HouseEntry
from trainer.board.overlay import rings_of
from trainer.board.paint import Brush
from trainer.board.plan_view import PlanView
from trainer.board.scenes import work_frame, work_keys
from trainer.board.scenes.assignment import Assignment
from trainer.board.scenes.building import NOTE_TEXT, Building
from trainer.board.scenes.film import FilmScreen
from trainer.board.scenes.note import note, read_last_found, shown_on_views
from trainer.board.scenes.views import Views
from trainer.board.scenes.work_keys import LAST_FOUND_KEY, TAB_KEYS
from trainer.board.scenes.work_side import TAB_NAMES, side
from trainer.board.services import Services
from trainer.board.tools.registry import TOOLS
from trainer.board.widgets import Widget
from trainer.picture import as_built
from trainer.picture.compare import Difference
from trainer.picture.found import FoundMark
from trainer.picture.model import Item
from trainer.picture.still_site import StillSite
from trainer.session import Session
from trainer.site.actions import Stand
from trainer.terms import STAGE_NAMES, VERBS, Mode
from trainer.words import _

if TYPE_CHECKING:
    from trainer.film.predicting import Prediction


class Work(Building):
    """Build one house. In practice findings are explained at once; in assessment it is silent until hand-over."""

    order: tuple[str, ...] = ("rail", "side", "views", "plan", "strip", "bar")

    def __init__(
        self, services: Services, entry: HouseEntry, session: Session, mode: Mode, assignment: Assignment
    ) -> None:
        super().__init__(services, entry, session, mode, assignment)
        self._status = assignment.status()
        self._predicted: dict[Prediction, int] = {}
        self._still = StillSite(session.site.layout)
        box = as_built.whole_box(session.site.layout)
        self.plan = PlanView(_("Plan"), box, self._still_items, self._live, self._still.outlying)
        self.plan.at_point = self.hover
        self.plan.click = self.click
        self.plan.press_key = lambda event: work_keys.plan_key(self, event)
        self.plan.list_places = lambda: work_frame.places(self)
        self.views = views_of(self)

    def places(self, size: tuple[int, int]) -> dict[str, pygame.Rect]:
        return work_frame.places_of_regions(self, size)

    def said(self, width: int) -> int:
        return work_frame.said_high(self, width)

    def make(self, region: str) -> Widget:
        if region == "plan":
            self.plan.status = self.tool.aimed_at
            return self.views.view()
        if region == "side":
            room = self.places(self.size)["side"]
            return note(self, self.noted) if self.noted else side(self, room.height, room.width)
        return work_frame.REGIONS[region](self)

    def first_focus(self) -> str:
        return NOTE_TEXT if self.noted else f"tool/{self.tool.verb}"

    def tick(self, now_ms: int) -> None:
        self.views.tick(now_ms)
        self.assignment.beat()
        if self.assignment.status() != self._status:
            self._status = self.assignment.status()
            self.refresh("bar")

    def look_changed(self) -> None:
        self.views.invalidate()

    def act(self) -> None:
        """Do what the tool is aimed at; what was done well may be a moment to stop and think."""
        before = len(self.session.outcomes)
        super().act()
        done = self.session.outcomes[before:]
        if done and not any(each.refused or each.findings for each in done) and self._asks_first:
            from trainer.board.scenes.predicting import ask_to_predict  # loads the questions

            ask_to_predict(self, self.site, done[-1].action, self._predicted)

    @property
    def _asks_first(self) -> bool:
        """Whether questions come while it is built: in practice, on a house that was never handed over."""
        done = self.services.path.done.get(self.entry.id)
        new = self.assignment.handed_over_by_hand and not (done is not None and done.tries)
        return self.practice and new and self.services.comfort.settings.guided

    def _still_items(self, scale: float) -> list[Item]:
        return self._still.items(self.site, scale, self.views.share)

    def _live(self, brush: Brush) -> None:
        brush.paint(self.views.moving.items())
        if self.noted:
            # Nothing but what was found: the truss in the hand waits.
            brush.paint(rings_of(self.site, (FoundMark(one.member, one.severity) for one in reversed(self.noted))))
            return
        if self.ghost is not None:
            brush.paint(self.tools.ghost(self.ghost))
        brush.paint(self.tool.drawn(self.hovered))

    def commands(self) -> list[Command]:
        return commands_of(self)

    def key(self, event: pygame.event.Event) -> bool:
        return work_keys.scene_key(self, event)


def views_of(work: Building) -> Views:
    """Return the ways to look at the house that is being built; an assessment shows it in its true size alone."""
    return Views(
        work, work.plan, lambda: work.site, chosen=lambda: work.hand.truss, choose=work.choose,
        found=lambda: shown_on_views(work.noted), turned=lambda: work.hand.turned, larger=work.practice,
        reference=lambda: _hinted(work), say=work.say, sheet=work.entry.level.lesson.layout_sheet,
        back=lambda: work.hand.read_back,
    )  # fmt: skip


def _may_watch(work: Building) -> bool:
    return work.practice and work.services.path.may_watch(work.entry)


def _watch(work: Building) -> None:
    """Watch the house being built, and come back to it as it was left."""
    film = FilmScreen(work.services, work.entry, back=_("Your work"), leave=lambda: work.services.show(work))
    work.services.show(film)


def _hinted(work: Building) -> tuple[Difference, ...]:
    """Return the place of the truss that a hint suggests to stand, to be shown where it belongs."""
    if not isinstance(work.ghost, Stand):
        return ()
    return (Difference("missing", work.site.layout.by_tag[work.ghost.tag]),)


def commands_of(work: Building) -> list[Command]:
    """Return the commands of the work screen: what is needed most comes first."""
    found = [
        Command(_("Use a tool: {tool}").format(tool=VERBS[verb].name), tool.key, partial(work.use, verb))
        for verb, tool in TOOLS.items()
    ]
    found.append(Command(_("Do what the tool is aimed at"), "Enter", work.act))
    if work.practice:
        found += [
            Command(_("Undo"), "U", work.undo),
            Command(_("Hint"), "H", work.hint),
            Command(_("Read again what was found last"), LAST_FOUND_KEY, partial(read_last_found, work)),
        ]
    found += [
        Command(_("Show: {tab}").format(tab=TAB_NAMES[tab]), key, partial(work.open_tab, tab))
        for tab, key in TAB_KEYS.items()
    ]
    found += [
        Command(_("Stage: {stage}").format(stage=name), f"Ctrl {number}", partial(work.open_stage, stage))
        for number, (stage, name) in enumerate(STAGE_NAMES.items(), 1)
    ]
    found += [
        Command(_("Turn end for end"), "T", work.turn),
        *work.views.commands(),
        Command(_("Save the diary"), "Ctrl S", work.save),
        *([Command(_("Watch it built"), "", partial(_watch, work))] if _may_watch(work) else []),
        *([Command(_("Hand over"), "Ctrl Enter", work.hand_over)] if work.assignment.handed_over_by_hand else []),
        Command(_("Back to: {place}").format(place=work.assignment.back), "Esc", work.leave),
    ]
    return found
