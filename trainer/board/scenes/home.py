"""The first screen: the learning path, its houses as roof plans, and what can be done on each."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

import pygame

from trainer.board.command import Command
from trainer.board.library import HouseEntry, Library
from trainer.board.path import FIRST_HOUSE
from trainer.board.plan_view import PlanView
from trainer.board.scenes.asking import ask_which
from trainer.board.scenes.home_side import HousesShown, path_column
from trainer.board.scenes.opening import kept, open_again
from trainer.board.scenes.past import look_back_at
from trainer.board.services import Services
from trainer.board.table.files import own_paths
from trainer.board.widgets import (
    Button,
    Column,
    Flow,
    Label,
    Pad,
    Paragraph,
    Prose,
    Scroll,
    Widget,
)
from trainer.picture.model import Item
from trainer.shipped import level_paths
from trainer.terms import Mode
from trainer.words import CAUTION, IN_SHORT, _, ngettext

SEEN = "houses/seen"
"""The houses that were built on or watched since the start: their films are not offered again."""


class Home(HousesShown):
    """The learning path: choose a house, and what to do on it."""

    name = _("Houses")
    order = ("side", "plan", "foot", "bar")

    def __init__(self, services: Services, *, offer: bool = True) -> None:
        """Show the houses; ``offer`` to go on with what was left in the middle, once a start of the program."""
        super().__init__(services)
        self.library = services.library or Library(level_paths(), own_paths(services.records.folder))
        services.library = self.library
        self.path = services.path
        self.plan = PlanView(_("The house as it will stand"), (0.0, 0.0, 10_000.0, 7_000.0), self._still)
        self.plan.note = lambda: "" if self.roomy else IN_SHORT  # the whole caution is said of the house
        self._chosen = str(self.ui.memory.get("home/chosen", self.services.comfort.settings.house))
        self._started = self._looked = False
        self._shown: HouseEntry | None = None
        if not offer:
            self.ui.memory["home/offered"] = True
        self._look_at_chosen()

    @property
    def entry(self) -> HouseEntry | None:
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
        self._shown = self.entry
        if self.entry is not None:
            self.plan.camera.look_at(self.entry.standing_box)
            self.plan.invalidate()
            self.plan.status = f"{self.entry.level.title}, {self.entry.size}"

    def tick(self, now_ms: int) -> None:
        self.plan.now_ms = now_ms
        # The first frame comes before the first house: reading the core's libraries takes a while.
        if self._started and self.library.read_next():
            if self.entry is not self._shown:
                self._look_at_chosen()
            self.refresh("side", "foot", "plan")
        elif self._started and not self._looked:
            # And the records after the houses, for the same reason.
            self._looked = True
            self.path.look()
            self.refresh("side", "foot", "plan")  # the foot may take more room now
            self._offer_to_go_on()
        self._started = True
        if not self.plan.resting:
            self.redraw("plan")

    def _offer_to_go_on(self) -> None:
        """At the start of the program, offer what was left in the middle: by closing the window or otherwise."""
        attempt = self.path.latest
        offered, self.ui.memory["home/offered"] = self.ui.memory.get("home/offered"), True
        if attempt is None or offered:
            return
        house = attempt.houses[-1].level
        entry = next((e for e in self.library.entries if e.id == house), None)
        self.choose(house)
        done = len(attempt.houses[-1].acts)
        kept = ngettext("Everything you did is kept: {n} action.", "Everything you did is kept: {n} actions.", done)
        lines = [
            _("You were building **{house}**.").format(house=entry.level.title if entry else house),
            kept.format(n=done),
        ]
        ask_which(self.services, _("Go on where you stopped?"), lines, ((_("Go on"), self.go_on), (_("Not now"), None)))

    def look_changed(self) -> None:
        self.plan.invalidate()

    def places(self, size: tuple[int, int]) -> dict[str, pygame.Rect]:
        look = self.ui.look
        wide, high = size
        bar = self._bar().high(self.ui, wide)
        side = min(look.px(424), int(wide * (0.40 if look.roomy(size) else 0.36)))
        # The house stays the largest thing, also where the text is large.
        most = min((high - bar) // 2, (high - bar) * (wide - 2 * side) // (wide - side)) - 1
        foot = min(self._foot().high(self.ui, wide - side), most)
        return {
            "bar": pygame.Rect(0, 0, wide, bar),
            "side": pygame.Rect(wide - side, bar, side, high - bar),
            "foot": pygame.Rect(0, high - foot, wide - side, foot),
            "plan": pygame.Rect(0, bar, wide - side, high - bar - foot),
        }

    def make(self, region: str) -> Widget:
        if region == "plan":
            return self.plan
        if region == "side":
            return path_column(self)
        return self._bar() if region == "bar" else self._foot()

    def _still(self, _scale: float) -> list[Item]:
        return list(self.entry.standing) if self.entry else []

    def _bar(self) -> Widget:
        from trainer.board.scenes.comfort import comfort_dialog

        does: tuple[tuple[str, Callable[[], None], str], ...] = (
            (_("Your first truss"), self.first_truss, "F"),
            (_("Text and colours"), lambda: comfort_dialog(self.services), "F2"),
            (_("Draw your own"), self.services.go_table, "T"),
            (_("Assessments"), self.services.go_assessments, "S"),
            (_("Assessor"), self.services.go_desk, "K"),
            (_("Help"), self.services.help, "F1"),
            (_("Leave"), self.services.quit, ""),
        )

        def buttons(*, keys: bool) -> list[Button]:
            return [
                Button(name, press, kind="quiet", shortcut=shortcut if keys else "", ground="paper")
                for name, press, shortcut in does
            ]

        title = Label(_("Roof truss trainer"), "title", "ink", ground="paper", role="heading")
        # Where there is no room, the title goes first and then the keys: they stand in the list of keys.
        tried = (
            Flow([title, *buttons(keys=True)], gap=10), Flow(buttons(keys=True), gap=4),
            Flow(buttons(keys=False), gap=0),
        )  # fmt: skip
        room = self.size[0] - self.ui.look.px(24)
        flow = next((flow for flow in tried if flow.wide(self.ui) <= room), tried[-1])
        return Pad(flow, pad=12 if flow is tried[0] else 6, ground="paper", name=_("Top"))

    def _foot(self) -> Widget:
        entry = self.entry
        if entry is None:
            return Pad(Label(_("One moment …"), "body", "ink", ground="paper"), pad=20, ground="paper")
        if not self.roomy:
            title = Label(entry.level.title, "heading", "ink", ground="paper", role="heading")
            does = Scroll(Column([title, self._buttons(entry)], gap=4), _("This house"))
            does.ground = "paper"
            return Pad(does, pad=8, ground="paper", name=_("This house"))
        scroll = Scroll(self.about(entry, "paper"), _("About this house"))
        scroll.ground = "paper"
        parts = [self._buttons(entry), scroll]
        return Pad(Column(parts, gap=12), pad=20, ground="paper", name=_("About this house"))

    def about(self, entry: HouseEntry, ground: str) -> Prose:
        """What is said of the chosen house."""
        ink, faint = ("ink", "faint") if ground == "paper" else ("panel_ink", "panel_faint")
        return Prose(
            [
                Paragraph(entry.level.title, "title", ink, space=2),
                Paragraph(f"{entry.id} · {entry.size} · {self.how_far(entry)}", "small", faint, space=6),
                Paragraph(entry.level.brief, "body", ink, space=4),
                *self._lesson(entry),
                Paragraph(CAUTION, "small", faint, space=0),
            ],
            ground=ground, key="about",
        )  # fmt: skip

    def _buttons(self, entry: HouseEntry) -> Flow:
        """What can be done on the chosen house, the likeliest first; without much room, without their keys."""
        in_sitting = self.path.in_sitting(entry)
        begun = entry.id in self.path.begun and not in_sitting
        does: list[tuple[str, Callable[[], None], str]] = [(_("Go on"), self.go_on, "C")] if begun else []
        closed = self.path.closed(entry)
        if not closed:
            does.append((_("Begin again") if begun else _("Practise"), partial(self.start, "practice"), "P"))
        if not in_sitting:
            does.append((_("Be assessed"), partial(self.start, "assessment"), "A"))
        if not closed:
            does += [(_("Quiz"), self.quiz, "Q"), (_("Drills"), self.drills, "D")]
        if entry.own or not closed:
            does.append((_("Change this house"), self.draw_on, "E"))
        if entry.own:
            does.append((_("Delete this house"), self.delete, "Del"))
        if self.path.past(entry.id):
            does.append((_("Look back"), self.look_back, "L"))
        if self.path.may_watch(entry):
            # Before a house was ever tried it stands beside what begins it.
            tried = begun or entry.id in self.path.done
            does.insert(len(does) if tried else 1, (_("Watch it built"), self.watch, "W"))
        buttons = [
            Button(name, press, kind="plain", shortcut=key if self.roomy else "", ground="paper")
            for name, press, key in does
        ]
        return Flow(buttons, gap=12 if self.roomy else 6)

    def _lesson(self, entry: HouseEntry) -> list[Paragraph]:
        """What is new in a house, and how long it takes."""
        lesson = entry.level.lesson
        said = [_("New here: {ideas}.").format(ideas=", ".join(lesson.ideas))] if lesson.ideas else []
        if minutes := lesson.minutes:
            said.append(ngettext("About {n} minute.", "About {n} minutes.", minutes).format(n=minutes))
        said += [_("Kept for assessment.")] if lesson.unseen else []
        said += [_("In a sitting: finish that first, under Assessments.")] if self.path.in_sitting(entry) else []
        return [Paragraph(" ".join(said), "body", "accent", space=4)] if said else []

    def start(self, mode: Mode) -> None:
        """Start on the chosen house; before the first practice on it, offer its film."""
        entry = self.entry
        if entry is None or (self.path.in_sitting(entry) and kept(self.services, entry)):
            return

        path, guided = self.path, self.services.comfort.settings.guided

        def build() -> None:
            self._note_seen(entry.id)
            self.services.comfort.remember(house=entry.id)
            self.services.go_work(entry, mode)

        def think_and_build() -> None:
            from trainer.board.scenes.four_whys import ASKED, FourWhys  # loads what draws in space

            tried = entry.id in path.done or entry.id in path.begun or self.ui.memory.get(ASKED)
            if entry.id != FIRST_HOUSE or mode != "practice" or not guided or tried:
                build()
            else:
                self.services.show(FourWhys(self.services, build))

        known = (path.done, path.begun, path.drills, path.lessons, self.ui.memory.get(SEEN, ()))
        new = not any(entry.id in houses for houses in known)
        if mode == "practice" and new and entry.own is None and guided and self.path.may_watch(entry):
            lines = [
                _("You have not built **{house}** yet.").format(house=entry.level.title),
                _("The film shows the whole job in two or three minutes. You can also come back to it later."),
            ]
            choices = ((_("Watch it built"), self.watch), (_("Build it now"), think_and_build), (_("Not now"), None))
            ask_which(self.services, _("See it built first?"), lines, choices)
        else:
            think_and_build()

    def first_truss(self) -> None:
        """Go to the first truss, step by step, unless its house is in a sitting."""
        entry = next((each for each in self.library.entries if each.id == FIRST_HOUSE), None)
        if entry is None or not (self.path.in_sitting(entry) and kept(self.services, entry)):
            self.services.go_first()

    def go_on(self) -> None:
        """Go on with the chosen house where it was left."""
        if self.entry is None or (self.path.in_sitting(self.entry) and kept(self.services, self.entry)):
            return
        if self.entry.id in self.path.begun:
            open_again(self.services, self.path.begun[self.entry.id])

    def look_back(self) -> None:
        """Look back at an attempt at the chosen house."""
        if self.entry is not None:
            look_back_at(self.services, self.path.past(self.entry.id))

    def quiz(self) -> None:
        """Choose a quiz; worked questions are about the chosen house."""
        if self.entry is not None:
            self.services.go_quiz(self.entry)

    def watch(self) -> None:
        """Watch the chosen house being built."""
        from trainer.board.scenes.film import FilmScreen  # loads what draws in space

        if self.entry is not None and self.path.may_watch(self.entry):
            self._note_seen(self.entry.id)
            self.services.show(FilmScreen(self.services, self.entry))

    def _note_seen(self, house: str) -> None:
        self.ui.memory[SEEN] = {*self.ui.memory.get(SEEN, ()), house}

    def drills(self) -> None:
        """Choose a drill on the chosen house."""
        from trainer.board.scenes.drill_choice import DrillChoice

        if self.entry is not None and not kept(self.services, self.entry):
            self.services.show(DrillChoice(self.services, self.entry))

    def draw_on(self) -> None:
        """Put the chosen house on the drawing table: one's own to change it, another as a copy."""
        if self.entry is not None and (self.entry.own or not self.path.closed(self.entry)):
            self.services.go_table(self.entry)

    def delete(self) -> None:
        """Ask whether the chosen house, one's own, is to go."""
        from trainer.board.table.own_houses import ask_to_delete

        if self.entry is not None and self.entry.own is not None:
            ask_to_delete(self.services, self.entry.own, self.entry.level.title, self._houses_changed)

    def _houses_changed(self) -> None:
        self._look_at_chosen()
        self.refresh()

    def first_focus(self) -> str:
        return "home/today"

    def commands(self) -> list[Command]:
        return [
            Command(_("Today's work: a quarter of an hour"), "Y", self.services.go_today),
            Command(_("Practise this house"), "P", lambda: self.start("practice")),
            Command(_("Be assessed on this house"), "A", lambda: self.start("assessment")),
            Command(_("Go on with this house"), "C", self.go_on),
            Command(_("Look back at this house"), "L", self.look_back),
            Command(_("Quiz on this house"), "Q", self.quiz),
            Command(_("Drills on this house"), "D", self.drills),
            Command(_("The drawing table: draw your own house"), "T", self.services.go_table),
            Command(_("Change this house on the drawing table"), "E", self.draw_on),
            Command(_("Delete this house, if it is your own"), "Del", self.delete),
            Command(_("Watch this house being built"), "W", self.watch),
            Command(_("Sit an assessment"), "S", self.services.go_assessments),
            Command(_("Assessor: hand out and take back"), "K", self.services.go_desk),
            Command(_("Your first truss, step by step"), "F", self.first_truss),
            *(
                Command(_("House: {title}").format(title=e.level.title), e.id, partial(self._go_to, e.id))
                for e in self.library.entries
            ),
        ]

    def _go_to(self, level: str) -> None:
        """Choose a house that was found by its name, and put the list on it."""
        self.choose(level)
        self.services.focus("list:Houses")

    def key(self, event: pygame.event.Event) -> bool:
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        begun = self.entry is not None and self.entry.id in self.path.begun
        unseen = self.entry is not None and self.entry.level.lesson.unseen
        enter = self.go_on if begun else lambda: self.start("assessment" if unseen else "practice")
        does: dict[int, Callable[[], object]] = {
            pygame.K_p: lambda: self.start("practice"), pygame.K_RETURN: enter, pygame.K_KP_ENTER: enter,
            pygame.K_a: lambda: self.start("assessment"), pygame.K_c: self.go_on, pygame.K_l: self.look_back,
            pygame.K_q: self.quiz, pygame.K_d: self.drills, pygame.K_s: self.services.go_assessments,
            pygame.K_k: self.services.go_desk,
            pygame.K_f: self.first_truss, pygame.K_w: self.watch, pygame.K_y: self.services.go_today,
            pygame.K_t: self.services.go_table, pygame.K_e: self.draw_on, pygame.K_DELETE: self.delete,
        }  # fmt: skip
        if event.key not in does:
            return self.plan.zoom_key(event)
        does[event.key]()
        return True
