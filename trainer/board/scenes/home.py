"""The first screen: the houses as roof plans, and two ways to start on one."""

from __future__ import annotations

from functools import partial

import pygame

from trainer.board.command import Command
from trainer.board.library import Entry, Library
from trainer.board.paint import Brush
from trainer.board.plan_view import PlanView
from trainer.board.scene import Scene
from trainer.board.services import Mode, Services
from trainer.board.widgets import Block, Button, Column, Flow, Label, Listing, Pad, Prose, Row, Scroll, Widget
from trainer.picture.model import Box, Item, fit
from trainer.shipped import level_paths
from trainer.words import CAUTION, _


class Home(Scene):
    """Choose a house."""

    name = _("Houses")
    order = ("side", "plan", "foot", "bar")

    def __init__(self, services: Services) -> None:
        super().__init__(services)
        self.library = services.library or Library(level_paths())
        services.library = self.library
        self.plan = PlanView(_("Roof plan"), (0.0, 0.0, 10_000.0, 7_000.0), self._still)
        self._chosen = str(self.ui.memory.get("home/chosen", ""))
        self._started = False
        self._look_at_chosen()

    @property
    def entry(self) -> Entry | None:
        """The house that is chosen."""
        entries = self.library.entries
        return next((e for e in entries if e.id == self._chosen), entries[0] if entries else None)

    def choose(self, level: str) -> None:
        """Choose a house by its id."""
        self._chosen = level
        self.ui.memory["home/chosen"] = level
        self._look_at_chosen()
        self.refresh("side", "foot", "plan")

    def _look_at_chosen(self) -> None:
        if self.entry is not None:
            self.plan.camera.look_at(_roomy(self.entry.box))
            self.plan.spoil()
            self.plan.told = f"{self.entry.level.title}, {self.entry.size}"

    def tick(self, now_ms: int) -> None:
        self.plan.now_ms = now_ms
        # The first frame comes before the first house: reading the core's libraries takes a while.
        if self._started and self.library.read_next():
            self._look_at_chosen()
            self.refresh("side", "foot", "plan")
        self._started = True
        if not self.plan.resting:
            self.redraw("plan")

    def look_changed(self) -> None:
        self.plan.spoil()

    def places(self, size: tuple[int, int]) -> dict[str, pygame.Rect]:
        look = self.ui.look
        wide, high = size
        bar = self._bar().high(self.ui, wide)
        side = min(look.px(430), int(wide * 0.42))
        foot = min(self._foot().high(self.ui, wide - side), int(high * 0.5))
        return {
            "bar": pygame.Rect(0, 0, wide, bar),
            "side": pygame.Rect(wide - side, bar, side, high - bar),
            "foot": pygame.Rect(0, high - foot, wide - side, foot),
            "plan": pygame.Rect(0, bar, wide - side, high - bar - foot),
        }

    def make(self, region: str) -> Widget:
        if region == "plan":
            return self.plan
        return {"bar": self._bar, "side": self._side, "foot": self._foot}[region]()

    def _still(self, _scale: float) -> list[Item]:
        return list(self.entry.plan_items) if self.entry else []

    def _bar(self) -> Widget:
        from trainer.board.scenes.comfort import comfort_dialog  # noqa: PLC0415

        comfort = Button(
            _("Text and colours"), lambda: comfort_dialog(self.services), kind="quiet", shortcut="F2", ground="paper"
        )
        help_ = Button(_("Help"), self.services.help, kind="quiet", shortcut="F1", ground="paper")
        leave = Button(_("Leave"), self.services.quit, kind="quiet", ground="paper")
        title = Label(_("Roof truss trainer"), "title", "ink", ground="paper", role="heading")
        return Pad(Flow([title, comfort, help_, leave], gap=10), pad=12, ground="paper", name=_("Top"))

    def _side(self) -> Widget:
        rows = [
            Row(e.id, e.level.title, second=f"{e.id} · {e.size}", drawing=partial(_thumbnail, self, e))
            for e in self.library.entries
        ]
        chosen = self.entry.id if self.entry else ""
        listing = Listing(
            _("Houses"),
            rows,
            chosen,
            self.choose,
            take=lambda _level: None,
            tall=True,
            empty=_("The houses are being read …"),
        )
        heading = Label(_("Choose a house"), "heading", role="heading")
        column = Column([heading, listing], gap=10)
        return Pad(column, pad=16, column=True, name=_("Choose a house"))

    def _foot(self) -> Widget:
        entry = self.entry
        if entry is None:
            return Pad(Label(_("One moment …"), "body", "ink", ground="paper"), pad=20, ground="paper")
        text = Prose(
            [
                Block(entry.level.title, "title", "ink", space=2),
                Block(entry.level.brief, "body", "ink", space=4),
                *self._lesson(entry),
                Block(CAUTION, "small", "faint", space=0),
            ],
            ground="paper",
        )
        buttons = Flow(
            [
                Button(_("Practise"), lambda: self.start("practice"), kind="primary", shortcut="P", ground="paper"),
                Button(_("Be assessed"), lambda: self.start("assessment"), shortcut="A", ground="paper"),
                Button(_("Quiz"), self.quiz, shortcut="Q", ground="paper"),
            ],
            gap=12,
        )
        scroll = Scroll(text, _("About this house"))
        scroll.ground = "paper"
        return Pad(Column([buttons, scroll], gap=12), pad=20, ground="paper", name=_("About this house"))

    def _lesson(self, entry: Entry) -> list[Block]:
        """What is new in a house, and how long it takes."""
        lesson = entry.level.lesson
        said = [_("New here: {ideas}.").format(ideas=", ".join(lesson.ideas))] if lesson.ideas else []
        said += [_("About {minutes} minutes.").format(minutes=lesson.minutes)] if lesson.minutes else []
        said += [_("Kept for assessment.")] if lesson.unseen else []
        return [Block(" ".join(said), "body", "accent", space=4)] if said else []

    def start(self, mode: Mode) -> None:
        """Start on the chosen house."""
        if self.entry is not None:
            self.services.go_work(self.entry, mode)

    def quiz(self) -> None:
        """Choose a quiz; worked questions are about the chosen house."""
        if self.entry is not None:
            self.services.go_quiz(self.entry)

    def first_focus(self) -> str:
        return "list:Houses"

    def commands(self) -> list[Command]:
        return [
            Command(_("Practise this house"), "P", lambda: self.start("practice")),
            Command(_("Be assessed on this house"), "A", lambda: self.start("assessment")),
        ]

    def key(self, event: pygame.event.Event) -> bool:
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        if event.key in {pygame.K_p, pygame.K_RETURN, pygame.K_KP_ENTER}:
            self.start("practice")
        elif event.key == pygame.K_a:
            self.start("assessment")
        elif event.key == pygame.K_q:
            self.quiz()
        else:
            return self.plan.zoom_key(event)
        return True


def _roomy(box: Box) -> Box:
    margin = 0.06 * max(box[2] - box[0], box[3] - box[1])
    return (box[0] - margin, box[1] - margin, box[2] + margin, box[3] + margin)


def _thumbnail(scene: Scene, entry: Entry, surface: pygame.Surface, rect: pygame.Rect) -> None:
    """Draw a small roof plan; kept once drawn."""
    key = f"thumbnail/{entry.id}/{rect.size}/{scene.ui.look.theme}"
    kept = scene.ui.memory.get(key)
    if kept is None:
        kept = pygame.Surface(rect.size, pygame.SRCALPHA)
        Brush(kept, scene.ui.look.colours, fit(entry.box, *rect.size, 2)).paint(entry.roof_items)
        scene.ui.memory[key] = kept
    surface.blit(kept, rect)
