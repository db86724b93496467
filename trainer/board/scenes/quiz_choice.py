"""What to be asked about: what has come back, everything, or one topic; how many; explained at once or at the end."""

from __future__ import annotations

from collections import Counter
from functools import partial

import pygame

from trainer.board import quiz_start
from trainer.board.back_to import BackTo
from trainer.board.library import HouseEntry
from trainer.board.quizzing import Quizzing
from trainer.board.scenes.asking import show_message
from trainer.board.scenes.drilling import practise
from trainer.board.scenes.middle import Middle
from trainer.board.scenes.quiz import Quiz
from trainer.board.services import Services
from trainer.board.widgets import Button, Choice, Column, Flow, Label, Listing, Pad, Row, Scroll, Widget
from trainer.layout import LayoutRefused
from trainer.quiz.paper import TooFewQuestions
from trainer.quiz.review import RULE
from trainer.quiz.unit import TOPIC_NAMES, TOPICS
from trainer.records.errors import RecordsError
from trainer.terms import Mode
from trainer.words import _, ngettext

COUNTS = (5, 10, 20, 40)
MODES: tuple[Mode, ...] = ("practice", "assessment")
HOW_FAR = (_("What you have met"), _("Everything"))
"""Ideas that a quiz on a bit of everything asks about."""
MODE_NAMES = {"practice": _("Explained at once"), "assessment": _("Silent to the end")}


class QuizChoice(Middle):
    """Choose a quiz; ``entry`` is the house that worked questions are about."""

    def __init__(self, services: Services, entry: HouseEntry) -> None:
        super().__init__(services)
        self.name = _("Quiz")
        self.entry = entry
        self.seat = services.records.seat()
        self.due = quiz_start.due_now(self.seat)
        self.left = quiz_start.left_in_the_middle(self.seat)
        self.wrong_rule = next((name for kind, name in (card.about for card in self.due) if kind == RULE), "")
        self.about = quiz_start.DUE if self.due else quiz_start.ALL
        self.count = 1
        self.mode = 0
        self.everything = 0

    def side(self) -> Widget:
        written = Counter(question.topic for question in quiz_start.bank())
        due = len(self.due)
        rows = [
            Row(quiz_start.DUE, _("What has come back"), detail=ngettext("{n} due", "{n} due", due).format(n=due)),
            Row(quiz_start.ALL, _("A bit of everything")),
            *(Row(topic, TOPIC_NAMES[topic], detail=_how_many(written[topic])) for topic in TOPICS),
        ]
        listing = Listing(_("What about?"), rows, self.about, self.choose, key="quiz/about")
        house = _("Worked questions are about {title}.").format(title=self.entry.level.title)
        options = Flow(
            [
                Choice(_("How many"), [str(n) for n in COUNTS], self.count, self._count, key="quiz/count"),
                Choice(_("Answers"), [MODE_NAMES[mode] for mode in MODES], self.mode, self._mode, key="quiz/mode"),
                *(
                    [Choice(_("Asks about"), HOW_FAR, self.everything, self._how_far, key="quiz/how far")]
                    if self.about == quiz_start.ALL
                    else []
                ),
            ],
            gap=16, key="quiz/options",
        )  # fmt: skip
        buttons = [Button(_("Begin"), self.begin, kind="primary", shortcut="Enter", key="quiz/begin")]
        if self.left is not None:
            buttons.append(Button(_("Go on with the last one"), self.go_on, shortcut="G", key="quiz/resume"))
        if self.wrong_rule:
            buttons.append(Button(_("Practise what went wrong"), self.drill, shortcut="D", key="quiz/drill"))
        heading = Label(_("What would you like to be asked?"), "title", role="heading")
        foot = Column([Label(house, "small", "panel_faint"), options, Flow(buttons, gap=10, key="quiz/start")], gap=10)
        column = Column([heading, listing, foot], gap=12)
        room = self.places(self.size)["side"]
        pad = 2 * self.ui.look.px(18)
        if foot.high(self.ui, room.width - pad) + 4 * self.ui.look.line("title") > room.height - pad:
            listing.grows = False
            return Pad(Scroll(column, _("Quiz")), pad=18, column=True, name=_("Quiz"), key="quiz")
        return Pad(column, pad=18, column=True, name=_("Quiz"), key="quiz")

    def choose(self, about: str) -> None:
        """Choose what to be asked about."""
        self.about = about
        self.refresh()

    def _count(self, index: int) -> None:
        self.count = index
        self.refresh()

    def _how_far(self, index: int) -> None:
        self.everything = index
        self.refresh()

    def _mode(self, index: int) -> None:
        self.mode = index
        self.refresh()

    def begin(self) -> None:
        """Begin the quiz that is chosen."""
        mode = "practice" if self.about == quiz_start.DUE else MODES[self.mode]
        wish = quiz_start.Wish(
            self.about, self.entry, COUNTS[self.count], mode, self.services.seed(), bool(self.everything)
        )
        try:
            quiz = quiz_start.begin_quiz(wish, self.seat)
        except TooFewQuestions as few:
            show_message(self.services, _("There is nothing to ask"), [str(few)])
        except RecordsError as error:
            show_message(self.services, _("Nothing can be recorded"), [str(error)])
        except LayoutRefused as refused:
            show_message(
                self.services,
                _("This house can't be asked about"),
                [f"**{r.place}**: {r.why}" for r in refused.reasons],
            )
        else:
            self._open(quiz)

    def go_on(self) -> None:
        """Go on with the quiz that was left in the middle."""
        if self.left is None or self.seat is None or self.services.library is None:
            return
        while self.services.library.read_next():
            pass
        try:
            quiz = quiz_start.go_on_with(self.left, self.seat, self.services.library)
        except RecordsError as error:
            show_message(self.services, _("This can't be gone on with"), [str(error)])
            return
        if quiz is None:
            why = _("A house or a question of it is no longer there. What you answered stays recorded.")
            show_message(self.services, _("This can't be gone on with"), [why])
            return
        self._open(quiz)

    def drill(self) -> None:
        """Practise on the chosen house what has been got wrong on a roof and has come back."""
        if self.wrong_rule:
            back = BackTo(_("Back to the quiz"), _("Quiz"), partial(self.services.go_quiz, self.entry))
            practise(self.services, self.entry.level, self.wrong_rule, back)

    def _open(self, quiz: Quizzing) -> None:
        self.services.show(Quiz(self.services, quiz))

    def first_focus(self) -> str:
        return "quiz/about"

    def key(self, event: pygame.event.Event) -> bool:
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        if event.key in {pygame.K_RETURN, pygame.K_KP_ENTER}:
            self.begin()
        elif event.key == pygame.K_g and self.left is not None:
            self.go_on()
        elif event.key == pygame.K_d and self.wrong_rule:
            self.drill()
        elif event.key == pygame.K_ESCAPE:
            self.services.go_home()
        else:
            return False
        return True


def _how_many(written: int) -> str:
    return ngettext("{n} written", "{n} written", written).format(n=written)
