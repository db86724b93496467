"""Today's work: a quarter of an hour in three parts.

*Go on* leads from one to the next, and says what comes another day.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

import pygame

from trainer.board.back_to import BackTo
from trainer.board.command import Command
from trainer.board.course_words import kind_of, part_in_words, sitting_in_words, why_in_words
from trainer.board.library import HouseEntry, Library
from trainer.board.quiz_start import quiz_on_cards, quiz_on_rules, quiz_on_why
from trainer.board.quizzing import Quizzing
from trainer.board.scenes.asking import show_message
from trainer.board.scenes.drilling import begin_drill
from trainer.board.scenes.middle import Middle
from trainer.board.scenes.opening import kept, open_again, open_new
from trainer.board.scenes.quiz import Quiz
from trainer.board.scenes.todays_house import TodaysHouse
from trainer.board.services import Services
from trainer.board.table.files import own_paths
from trainer.board.today import Day, new_entry, note_done, now_of, plan_day, so_far, wanted_houses
from trainer.board.widgets import Button, Column, Flow, Label, Listing, Pad, Row, Widget
from trainer.course import Build, Done, FinishIt, Part, Watch, finish, once_more_house
from trainer.course.today import AFTER_FILM, ONE_DAY
from trainer.drill import CannotDrill
from trainer.quiz.of_rules import PUT_RIGHT
from trainer.records.drills import keep_watched
from trainer.records.errors import RecordsError
from trainer.shipped import level_paths
from trainer.shipped.course import course
from trainer.words import _, ngettext

if TYPE_CHECKING:
    from trainer.board.scenes.film import FilmScreen
    from trainer.records.seat import OpenAttempt
    from trainer.session import Session

DAY = "today/day"
"""Where the day stays in memory while one of its parts is on the screen."""


class TodayScreen(Middle):
    """The three parts of today, how far they are, and the course."""

    def __init__(self, services: Services, *, at_once: bool = False) -> None:
        """Show today's work, also once it is done; ``at_once`` goes on with its next part."""
        super().__init__(services)
        self.name = _("Today's work")
        # At the very first start nobody was at the houses yet.
        self.library = services.library or Library(level_paths(), own_paths(services.records.folder))
        services.library = self.library
        self._seen = self._looked = False
        self._at_once = at_once
        self._done = Done()

    @property
    def day(self) -> Day | None:
        """The day that is being gone through, once it is planned."""
        day: Day | None = self.ui.memory.get(DAY)
        return day

    def tick(self, now_ms: int) -> None:
        if not self._seen:
            self._seen = True
        elif not wanted_houses() <= set(self._entries):
            self.library.read_next()
        elif not self._looked:
            self._looked = True
            self._look()

    def _look(self) -> None:
        """Plan the day, or see how far it has come since it was left."""
        self.services.path.look()
        self._done = so_far(self.services, self._entries)
        if self.day is None or now_of(self.services) > self.day.planned + ONE_DAY:
            self.ui.memory[DAY] = plan_day(self.services, self._entries, self._done)
        for part in self.day.left if self.day else ():
            if self.day is not None and self._done.has(part):
                note_done(self.services, self.day, part)
        self.refresh()
        if self._at_once:
            self._at_once = False
            self.go_on()

    @property
    def _entries(self) -> dict[str, HouseEntry]:
        return {entry.id: entry for entry in self.library.entries}

    # what shows

    def side(self) -> Widget:
        day = self.day
        if day is None or not self._looked:
            # The button is there at once, so that Enter never goes to whatever else has the focus meanwhile.
            begin = Button(_("Begin"), self.go_on, kind="primary", shortcut="Enter", key="today/on")
            moment = Label(_("One moment …"), "body", "panel_ink", role="status")
            return Pad(Column([moment, Flow([begin])], gap=10), pad=18, column=True, name=_("Today's work"))
        rows = self._rows(day)
        chosen = next((row.key for row in rows if row.picture == "house_open"), "")
        listing = Listing(
            _("The parts of today's work"), rows, chosen, lambda _row: None, key="today/parts", tall=True,
            show=len(rows),
        )  # fmt: skip
        listing.grows = not self.ui.look.roomy(self.size)
        minutes = max(1, round(day.minutes_left))
        if day.begun:
            long = ngettext("About {n} minute left.", "About {n} minutes left.", minutes)
        else:
            long = ngettext("About {n} minute.", "About {n} minutes.", minutes)
        head = _("Today's work is done.") if day.over else long.format(n=minutes)
        parts: list[Widget] = [Label(head, "title", role="heading"), listing, self._buttons(day)]
        parts.append(Label(self._after(day), "body", "panel_ink"))
        return Pad(Column(parts, gap=10), pad=18, column=True, name=_("Today's work"), key="today")

    def _rows(self, day: Day) -> list[Row]:
        left = set(day.left)
        rows = []
        if (n := len(day.plan.review)) or not day.reviewed:
            asked = ngettext("{n} question on what you have met", "{n} questions on what you have met", n).format(n=n)
            rows.append(_row("review", _("What is due"), asked, day.reviewed))
        building = day.plan.building.parts if day.plan.building else ()
        rows += [
            _row(f"part {n}", kind_of(part), part_in_words(part, self._entries), part not in left)
            for n, part in enumerate(building)
        ]
        if n := len(day.plan.why):
            rows.append(_row("why", _("Why"), why_in_words(day.plan, self._entries), day.asked_why))
        return rows

    def _buttons(self, day: Day) -> Widget:
        if day.over:
            home = Button(
                _("Finish for today"), self.services.go_home, kind="primary", shortcut="Enter", key="today/on"
            )
            more = [Button(_("Go on with more"), self.more, key="today/more")] if day.plan.after else []
            whole = self._whole(day)
            if whole is not None:
                name = _("Build the whole house: {house}").format(house=whole.level.title)
                more.insert(0, Button(name, partial(self.services.go_work, whole, "practice"), key="today/whole"))
            return Flow([home, *more], key="today/buttons", gap=10)
        name = _("Go on") if day.begun else _("Begin")
        return Flow([Button(name, self.go_on, kind="primary", shortcut="Enter", key="today/on")], key="today/buttons")

    def _whole(self, day: Day) -> HouseEntry | None:
        """The house in which all that was new today comes together, until it was built to its practice mark."""
        step, done = day.plan.building.new if day.plan.building else None, self.services.path.done
        if step is None or (step.whole in done and done[step.whole].met):
            return None
        return self._entries.get(step.whole)

    def _after(self, day: Day) -> str:
        if day.plan.after is None:
            return _("The course is done. More houses stand on the path.")
        if day.over:
            night = _("A night between makes it stick. Next time: {what}")
            return night.format(what=sitting_in_words(day.plan.after, self._entries))
        return _("Next time: {what}").format(what=sitting_in_words(day.plan.after, self._entries))

    def first_focus(self) -> str:
        return "today/on"

    # doing

    def go_on(self) -> None:
        """Go on with the next part that is left; when all is done, go to the houses."""
        day = self.day
        if day is None or not self._looked:
            return
        if not day.reviewed:
            self._ask(
                day, "reviewed", quiz_on_cards(day.plan.review, self.services.seed(), self.services.records.seat())
            )
        elif day.left:
            self._begin(day, day.left[0])
        elif not day.asked_why:
            self._ask(day, "asked_why", quiz_on_why(day.plan, self.services.seed(), self.services.records.seat()))
        else:
            self.services.go_home()

    def more(self) -> None:
        """Plan another go today."""
        self.ui.memory[DAY] = None
        self._look()

    def _come_back(self) -> None:
        self.services.show(TodayScreen(self.services))

    def _ask(self, day: Day, what: str, quiz: Quizzing | None) -> None:
        """Ask the questions of a part; it is done when they are answered."""

        def back() -> None:
            if quiz is None or quiz.asked is None:
                setattr(day, what, True)
            self._come_back()

        if quiz is None:
            back()
        else:
            self.services.show(Quiz(self.services, quiz, BackTo(_("Go on with today"), _("Today's work"), back)))

    def _begin(self, day: Day, part: Part) -> None:
        match part:
            case Watch():
                self._watch(day, part)
            case FinishIt():
                self._finish(day, part)
            case Build():
                self._build(day, part)

    def _watch(self, day: Day, part: Watch) -> None:
        from trainer.board.scenes.film import FilmScreen  # loads what draws in space

        def watched() -> None:
            note_done(self.services, day, part)
            seat = self.services.records.seat()
            trouble = ""
            try:
                if seat is not None:
                    keep_watched(seat, part.name, part.step.watch, screen.right, screen.asked)
            except RecordsError as error:
                trouble = str(error)
            self._after_film(part, screen)
            if trouble:
                show_message(self.services, _("Nothing is recorded"), [trouble])

        entry = self._entries[part.step.watch]
        if kept(self.services, entry):
            return
        screen = FilmScreen(
            self.services, entry, back=_("Today's work"), leave=self._come_back, part=part.step.film, watched=watched
        )
        self.services.show(screen)

    def _after_film(self, part: Watch, screen: FilmScreen) -> None:
        """Ask about what was seen where the film had nothing to ask there."""
        seed, seat = self.services.seed(), self.services.records.seat()
        asked_later = self.day.plan.why if self.day else ()
        # The course names first what an idea is about: that was just seen, and the rest comes with practice.
        rules = [rule for rule in part.step.rules if rule not in asked_later]
        quiz = None if screen.asks else quiz_on_rules(rules[:AFTER_FILM], seed, seat, PUT_RIGHT)
        if quiz is None:
            self._come_back()
        else:
            self.services.show(
                Quiz(self.services, quiz, BackTo(_("Go on with today"), _("Today's work"), self._come_back))
            )

    def _finish(self, day: Day, part: FinishIt) -> None:
        def back() -> None:
            if doing.ended:
                note_done(self.services, day, part)
            self._come_back()

        if kept(self.services, self._entries[part.house]):
            return
        seed = self.services.seed()
        level = once_more_house(course(), part, seed) or self._entries[part.house].level
        try:
            drill = finish(part.step, part.number, level, seed)
        except CannotDrill as why:
            note_done(self.services, day, part)
            show_message(self.services, _("No drill for this here"), [str(why)])
            return
        again = partial(self._finish, day, part)
        doing = begin_drill(self.services, drill, BackTo(_("Go on with today"), _("Today's work"), back), again)

    def _build(self, day: Day, part: Build) -> None:
        begun = self.services.path.begun.get(part.house)
        entry = new_entry(self.services, part.house) if part.new else self._entries[part.house]

        def assign(session: Session, attempt: OpenAttempt | None) -> TodaysHouse:
            back = BackTo(_("Go on with today"), _("Today's work"), self._come_back)
            ended = partial(note_done, self.services, day, part)
            return TodaysHouse(session, attempt, self.services, part, back, ended)

        if not part.new and kept(self.services, entry):
            return
        if begun is None:
            open_new(self.services, entry, "assessment" if part.new else "practice", assign)
        else:
            open_again(self.services, begun, assign)

    def commands(self) -> list[Command]:
        return [Command(_("Go on with today"), "Enter", self.go_on), Command(_("Houses"), "Esc", self.services.go_home)]

    def key(self, event: pygame.event.Event) -> bool:
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        if event.key in {pygame.K_RETURN, pygame.K_KP_ENTER}:
            self.go_on()
        elif event.key == pygame.K_ESCAPE:
            self.services.go_home()
        else:
            return False
        return True


def _row(key: str, title: str, second: str, done: bool) -> Row:
    return Row(
        key, title, second=second, picture="house_built" if done else "house_open", detail=_("done") if done else ""
    )
