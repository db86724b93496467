"""From one screen to another, and what can be done on every screen. Each screen is loaded when first shown."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from trainer.board.command import Command
from trainer.board.services import Services
from trainer.board.voice import NO_VOICE, Voice, texts_of
from trainer.terms import Mode
from trainer.words import _

if TYPE_CHECKING:
    from trainer.board.back_to import BackTo
    from trainer.board.library import HouseEntry
    from trainer.board.scene import Scene
    from trainer.board.widgets import Widget
    from trainer.session import Session


class Navigator:
    """Goes from screen to screen; ``scene`` gives the one that shows, ``services`` is put in once they are made."""

    services: Services

    def __init__(self, scene: Callable[[], Scene], read: Callable[[], Sequence[Widget]]) -> None:
        self._scene = scene
        self._read = read
        self.voice = Voice()

    def home(self) -> None:
        """Go to the learning path; at the very first start, to the first truss."""
        from trainer.board.scenes.home import Home

        self.services.comfort.give_back()
        if self.services.comfort.settings.shown:
            self.services.show(Home(self.services))
        else:
            self.first()

    def first(self) -> None:
        """Go to the first truss, step by step, after a look at what will be built."""
        from trainer.board.scenes.first_look import FirstLook

        self.services.show(FirstLook(self.services))

    def today(self) -> None:
        """Go to what today holds."""
        from trainer.board.scenes.today import TodayScreen

        self.services.show(TodayScreen(self.services))

    def work(self, entry: HouseEntry, mode: Mode) -> None:
        """Go to work on a house."""
        from trainer.board.scenes.opening import open_work

        open_work(self.services, entry, mode)

    def quiz(self, entry: HouseEntry) -> None:
        """Choose a quiz, worked questions about a house."""
        from trainer.board.scenes.opening import kept
        from trainer.board.scenes.quiz_choice import QuizChoice

        if not kept(self.services, entry):
            self.services.show(QuizChoice(self.services, entry))

    def table(self, entry: HouseEntry | None = None) -> None:
        """Go to the drawing table: to what lay there last, or with a house on it, a shipped one as a copy."""
        from trainer.board.scenes.drawing_table import DrawingTable
        from trainer.board.table.files import copy_of, open_source

        if entry is None:
            self.services.show(DrawingTable(self.services))
        elif entry.own is None:
            self.services.show(DrawingTable(self.services, (copy_of(entry.text), None)))
        else:
            source = open_source(entry.own)
            self.services.show(DrawingTable(self.services, (source.drawing, source)))

    def result(self, entry: HouseEntry, session: Session, code: str, back: BackTo | None = None) -> None:
        """Go to what came of it, and ``back`` from there: else to the houses."""
        from trainer.board.scenes.result import ResultScreen

        self.services.show(ResultScreen(self.services, entry, session, code, back))

    def help(self) -> None:
        """Show the list of keys."""
        from trainer.board.scenes.help import help_dialog

        self.services.ask(lambda: help_dialog(self.services, self.find, self.words, self.text_and_colours))

    def text_and_colours(self) -> None:
        """Ask for text size, colours and movement."""
        from trainer.board.scenes.comfort import comfort_dialog

        comfort_dialog(self.services)

    def words(self, word: str = "") -> None:
        """Show the trade words in pictures: the one asked for, else those on the screen first."""
        from trainer.board.glossary import met_in, term_of
        from trainer.board.scenes.words import words_dialog

        said = [text for tree in self._scene().nodes() for node in tree.walk() for text in (node.name, node.value)]
        words_dialog(self.services, met_in(said), term_of(word))

    def find(self) -> None:
        """Ask for an action by its name."""
        from trainer.board.scenes.finding import find_dialog

        find_dialog(self.services, [*self._scene().commands(), *self.everywhere()])

    def assessments(self) -> None:
        """Ask which of the assessments that wait here is to be sat."""
        from trainer.board.scenes.sitting import choose_sitting

        choose_sitting(self.services)

    def desk(self) -> None:
        """Go to the assessor's desk."""
        from trainer.board.scenes.desk import open_desk

        open_desk(self.services)

    def class_report(self) -> None:
        """Write a report of everybody on this machine."""
        from trainer.board.scenes.reporting import report_class

        report_class(self.services)

    def recorded(self) -> None:
        """Say what is stored of whoever works here, where and why."""
        from trainer.board.scenes.asking import show_message
        from trainer.records.what import WHAT

        seat, folder = self.services.records.seat(), self.services.records.folder
        lines = [
            _("Code name: {code}").format(code=seat.code) if seat else _("Nothing is recorded here."),
            self.services.records.trouble,
            _("Where: {folder}").format(folder=folder) if folder else "",
        ]
        show_message(self.services, _("What is recorded"), [*filter(None, lines), *WHAT])

    def read_aloud(self) -> None:
        """Read aloud what the screen says, or stop reading; where there is no voice, say so."""
        from trainer.board.scenes.asking import show_message

        if self.voice.reading:
            self.voice.stop()
        elif self.voice.there:
            self.voice.read(texts_of(self._read()))
        else:
            show_message(self.services, _("Read aloud"), NO_VOICE)

    def everywhere(self) -> list[Command]:
        """What can be done on every screen."""
        comfort = self.services.comfort
        return [
            Command(_("Help: the list of keys"), "F1", self.help),
            Command(_("Trade words in pictures"), "F8", self.words),
            Command(_("Text and colours"), "F2", self.text_and_colours),
            Command(_("Read aloud, or stop reading"), "F12", self.read_aloud),
            Command(_("What is recorded about me"), "", self.recorded),
            Command(_("Assessor's desk"), "", self.desk),
            Command(_("Write a class report"), "", self.class_report),
            Command(_("Larger text"), "Ctrl +", lambda: comfort.text_size(1)),
            Command(_("Smaller text"), "Ctrl −", lambda: comfort.text_size(-1)),
            Command(_("Other colours"), "Ctrl T", comfort.next_theme),
            Command(_("Movement on or off"), "", comfort.turn_motion),
            Command(_("Full screen, or a window again"), "F11", self.services.full_screen),
            Command(_("Leave the trainer"), "", self.services.quit),
        ]
