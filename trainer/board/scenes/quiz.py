"""A quiz on the board: the question, its house, the answer, and why; at the end, all of them to look back at."""

from __future__ import annotations

from functools import partial

import pygame

from trainer.board.back_to import BackTo
from trainer.board.library import entry_of
from trainer.board.paint import Brush
from trainer.board.plan_view import PlanView
from trainer.board.quizzing import Quizzing
from trainer.board.scene import Scene
from trainer.board.scenes.asking import show_message
from trainer.board.scenes.on_roof import OnRoof
from trainer.board.scenes.quiz_answer import (
    CHOICES,
    PARTNER,
    TYPED,
    answer_widgets,
    digit_of,
    head_widgets,
    how_here,
    letter_of,
    looked_back,
    place_chosen,
    places_answered,
    verdict_widgets,
)
from trainer.board.scenes.quiz_done import done_widgets, leave_quiz
from trainer.board.services import Services
from trainer.board.widgets import (
    Button,
    Column,
    Flow,
    Followed,
    Label,
    Pad,
    Paragraph,
    Prose,
    Scroll,
    Widget,
    top_bar,
)
from trainer.picture.model import Item, Picture
from trainer.picture.on_screen import on_screen, ring_round
from trainer.picture.sheet import plan_picture
from trainer.quiz.judge import nearest_place
from trainer.quiz.measure import Unclear
from trainer.quiz.question import Amount, Asked, InOrder, Pairs, PointAt, SomeOf, SpotFault
from trainer.records.errors import RecordsError
from trainer.report.question_picture import question_picture
from trainer.words import CAUTION, FORMULAS, _

SCROLLED = "quiz/scrolled"
"""Key of what a question scrolls in."""


class Quiz(Scene):
    """One quiz, question by question, then what came of it."""

    spoken = ("lines", "side")

    def __init__(self, services: Services, quiz: Quizzing, back: BackTo | None = None) -> None:
        """Ask ``quiz``; whoever leaves, or is done, goes ``back``: to the houses where nothing is said."""
        super().__init__(services)
        self.back = back or BackTo(_("Houses"), _("Houses"), services.go_home)
        self.name = _("Quiz")
        self.quiz = quiz
        self.cursor = self.looking_at = -1
        self.unclear = ""
        self.plan = PlanView(_("The house asked about"), (0.0, 0.0, 10_000.0, 7_000.0), self._still, self._live)
        self.plan.click = self._clicked
        self.seeing_house = False
        self.order: tuple[str, ...] = ()
        self._pictured: tuple[Asked, Picture] | None = None
        self._begun = services.clock()
        self._status = quiz.status()
        self._show()

    # what is on the screen

    @property
    def shown(self) -> Asked | None:
        """The question on the screen, also when looking back."""
        if self.looking_at >= 0:
            return self.quiz.looked_at_again(self.looking_at)[0]
        return self.quiz.asked

    def _show(self) -> None:
        """Put the present question on the screen, with its house where it has one."""
        asked = self.shown
        self.cursor, self.unclear = -1, ""
        if asked is not None and isinstance(asked.task, InOrder) and self.looking_at < 0:
            self.cursor = 0
        self.seeing_house = False
        self.roots = {}
        if asked is not None and asked.level:
            self.plan.camera.look_at(self._picture(asked).box)
            self.plan.status = _("House {house}").format(house=asked.level)
            self.plan.invalidate()
        self._begun = self.services.clock()
        self.size = (0, 0)
        self.refresh()

    def _picture(self, asked: Asked) -> Picture:
        """Return the picture of a question's house; that of the last question is kept, as every frame wants it."""
        if self._pictured is None or self._pictured[0] != asked:
            layout = self.quiz.subjects[asked.level].layout
            self._pictured = (asked, question_picture(asked) or plan_picture(layout))
        return self._pictured[1]

    def _still(self, scale: float) -> list[Item]:
        asked = self.shown
        if asked is None or not asked.level:
            return []
        return on_screen(self.quiz.subjects[asked.level].layout, self._picture(asked))(scale)

    def _live(self, brush: Brush) -> None:
        """Ring what the question is about once it is answered, and the place that is chosen."""
        asked = self.shown
        if asked is None or not asked.level:
            return
        layout = self.quiz.subjects[asked.level].layout
        if self.quiz.verdict is not None or self.looking_at >= 0:
            brush.paint([ring_round(layout, layout.by_tag[tag]) for tag in asked.about if tag in layout.by_tag])
            given = self.quiz.looked_at_again(self.looking_at)[1]  # at -1 the last, which has just been answered
            brush.paint(places_answered(asked, given, self.plan.camera.mm_per_px))
        brush.paint(place_chosen(asked, self.cursor, self.plan.camera.view.scale))

    def update(self, size: tuple[int, int]) -> None:
        order = self._regions(size)
        if order != self.order:
            self.order, self.size = order, (0, 0)
        super().update(size)

    def _regions(self, size: tuple[int, int]) -> tuple[str, ...]:
        """Return what is on the screen: where room is short, many lines stand beside their choices, not above them."""
        asked = self.shown
        to_answer = self.looking_at < 0 and self.quiz.verdict is None and not self.seeing_house
        if asked is not None and to_answer and "\n" in asked.text and not self.ui.look.roomy(size):
            return ("lines", "side", "bar")
        return ("side", "plan", "bar") if asked is not None and asked.level else ("ground", "side", "bar")

    def places(self, size: tuple[int, int]) -> dict[str, pygame.Rect]:
        wide, high = size
        top, (under,) = self._bar().high(self.ui, wide), set(self.order) - {"bar", "side"}
        of_text = self.ui.look.px(820 if under == "ground" else 520)
        side = int(wide * 0.52) if under == "lines" else min(of_text, wide if under == "ground" else wide // 2)
        left = (wide - side) // 2 if under == "ground" else wide - side
        return {
            under: pygame.Rect(0, top, wide if under == "ground" else left, high - top),
            "bar": pygame.Rect(0, 0, wide, top),
            "side": pygame.Rect(left, top, side, high - top),
        }

    def make(self, region: str) -> Widget:
        if region == "plan":
            return self.plan
        if region == "ground":
            return Pad(Widget(), ground="paper", name=_("Paper"), key="ground")
        if region == "bar":
            return self._bar()
        if region == "lines":
            return self._lines()
        if self.looking_at >= 0:
            return self._looked_back()
        return self._question() if self.quiz.asked is not None else done_widgets(self.quiz, self.look_back, self.back)

    def _bar(self) -> Widget:
        title = self.name
        if self.quiz.asked is not None:
            title = _("Question {n} of {count}").format(n=self.quiz.number, count=len(self.quiz.questions))
            title = ", ".join(filter(None, (self.name if self.quiz.alone else title, self._status)))
        return top_bar(title, self.back.short, self.leave, self.services.help)

    def _lines(self) -> Widget:
        """What is asked, beside its choices, and the way to its house instead."""
        asked = self.quiz.asked
        assert asked is not None
        text = Scroll(Column(head_widgets(asked, "strong"), gap=10), _("What is asked"), key="quiz/asked")
        text.stops = True  # by keys it is scrolled as well
        see = [Button(_("See the house"), self.see_house, shortcut="V", key="quiz/house")] if asked.level else []
        return Pad(Followed(text, Flow(see, gap=10, key="quiz/see")), pad=18, name=_("What is asked"), key="lines")

    def _question(self) -> Widget:
        asked = self.quiz.asked
        assert asked is not None
        beside, roomy = "lines" in self.order, self.ui.look.roomy(self.size)
        parts = [] if beside else head_widgets(asked, "heading" if roomy else "strong")
        foot: list[Widget] = []
        if self.quiz.verdict is not None:
            parts += verdict_widgets(asked, self.quiz.verdict)
            parts.append(Prose([Paragraph(CAUTION, "small", "panel_faint")], key="caution"))
            on = self.back.name if self.quiz.alone else _("Go on")
            buttons = [Button(on, self.go_on, kind="primary", shortcut="Enter", key="quiz/go on")]
            if asked.about:
                buttons.append(Button(_("Show me on the roof"), self.on_the_roof, shortcut="R", key="quiz/roof"))
        else:
            parts.append(Label(how_here(asked), "body", "panel_faint"))
            # A line to type in stays in sight, however long the question is.
            (foot if isinstance(asked.task, Amount) else parts).extend(answer_widgets(self, asked))
            parts += [Label(FORMULAS, "small", "panel_faint", key="quiz/formulas")] if asked.is_sum else []
            said = self.unclear or (_("Hint: {hint}").format(hint=self.quiz.hinted) if self.quiz.hinted else "")
            parts += [Label(said, "strong", "accent", key="quiz/unclear")] if said else []
            keys = "Ctrl Enter" if isinstance(asked.task, SomeOf) else "Enter"
            buttons = [Button(_("Answer"), self.answer, kind="primary", shortcut=keys, key="quiz/answer")]
            if self.quiz.has_hint:
                buttons.append(Button(_("Hint"), self.hint, shortcut="Ctrl H", key="quiz/hint"))
            if self.seeing_house:
                buttons.append(Button(_("Hide the house"), self.see_house, shortcut="V", key="quiz/house"))
        asked_and_said = Scroll(Column(parts, gap=10), _("Question"), key=SCROLLED)
        asked_and_said.stops = not roomy and not beside  # a long one is scrolled through first
        under = Column([*foot, Flow(buttons, gap=10, key="quiz/buttons")], gap=10, key="quiz/foot")
        return Pad(Followed(asked_and_said, under), pad=18, column=True, name=_("Question"), key="question")

    def _looked_back(self) -> Widget:
        asked, given = self.quiz.looked_at_again(self.looking_at)
        buttons = [Button(_("Back"), self._stop_looking, kind="primary", shortcut="Esc", key="quiz/back")]
        if asked.about:
            buttons.append(Button(_("Show me on the roof"), self.on_the_roof, shortcut="R", key="quiz/roof"))
        parts = Column(looked_back(asked, given), gap=10)
        column = Followed(Scroll(parts, _("Looking back")), Flow(buttons, gap=10, key="quiz/buttons"))
        return Pad(column, pad=18, column=True, name=_("Looking back"), key="looking back")

    def first_focus(self) -> str:
        asked = self.quiz.asked
        if self.looking_at >= 0:
            return "quiz/back"
        if asked is None:
            return "quiz/houses" if self.back.name != _("Houses") else "quiz/answers"
        if self.quiz.verdict is not None:
            return "quiz/go on"
        return {Amount: TYPED, Pairs: f"{PARTNER}/1"}.get(type(asked.task), CHOICES)

    # doing

    def point(self, index: int) -> None:
        """Go to a choice, a line, a place or a step; where only one is right it is chosen with that."""
        asked = self.quiz.asked
        self.cursor = index
        if asked is not None and not isinstance(asked.task, SomeOf | InOrder):
            self.quiz.draft.choose(asked, index)
            if isinstance(asked.task, PointAt):
                self.plan.camera.reveal(asked.task.places[index].at)
        self._changed()

    def pick(self, index: int) -> None:
        """Choose, or leave again, one of several."""
        if self.quiz.asked is not None:
            self.cursor = index
            self.quiz.draft.choose(self.quiz.asked, index)
            self._changed()

    def match(self, left: int, right: int) -> None:
        """Give a left side its partner."""
        self.quiz.draft.chosen[left] = right
        self._changed()

    def shift(self, by: int) -> None:
        """Move the step that is chosen up or down."""
        self.cursor = self.quiz.draft.move(max(0, self.cursor), by)
        self._changed()

    def typing(self, text: str) -> None:
        """Keep what is typed."""
        self.quiz.draft.typed = text
        self._changed()

    def _changed(self) -> None:
        self.unclear = ""
        self.refresh("side")
        if "plan" in self.order:
            self.redraw("plan")
        else:
            self.refresh()

    def answer(self) -> None:
        """Answer with what has been made; it is on the disk before anything is said of it."""
        try:
            outcome = self.quiz.answer(self.services.clock() - self._begun)
        except RecordsError as error:
            show_message(self.services, _("The answer could not be kept"), [str(error)])
            return
        if isinstance(outcome, Unclear):
            self.unclear = outcome.why
            self.refresh()
            # What is typed next goes on with the answer, and not to the button just pressed.
            self.ui.focus = self.first_focus()
        elif self.quiz.silent:
            self._show()
        else:
            self.ui.focus = ""
            self.refresh()
            self._to_the_verdict()

    def _to_the_verdict(self) -> None:
        """Scroll what was asked so far up that what is said of the answer is in sight."""
        self.ui.memory.pop(SCROLLED, None)
        self.update(self.size)
        parts = list(self.roots["side"].walk())
        scroll = next((part for part in parts if part.key == SCROLLED), None)
        verdict = next((part for part in parts if part.key == "quiz/verdict"), None)
        if isinstance(scroll, Scroll) and verdict is not None:
            scroll.move(self.ui, verdict.rect.top - scroll.rect.top)

    def go_on(self) -> None:
        """Go on to the next question; after the last, the quiz is closed and signed; after the only one, back."""
        try:
            self.quiz.go_on()
            if self.quiz.alone:
                self.back.go()
                return
        except RecordsError as error:
            show_message(self.services, _("The quiz could not be closed"), [str(error)])
        self.ui.memory.pop(SCROLLED, None)  # the next question begins at its top
        self.ui.focus = ""
        self._show()

    def hint(self) -> None:
        """Ask for the first step."""
        self.unclear = ""
        self.quiz.hint()
        if not self.quiz.hinted:
            self.unclear = _("There is no hint here.")
        self.refresh()

    def see_house(self) -> None:
        """Put the house in the place of the lines that stand beside the choices, or those back."""
        self.seeing_house = not self.seeing_house
        self.refresh()

    def on_the_roof(self) -> None:
        """Open the house of this question, finished, at what it is about; the quiz waits."""
        asked = self.shown
        if asked is not None and asked.about:
            subject = self.quiz.subjects[asked.level]
            back = partial(self.services.show, self)
            self.services.show(OnRoof(self.services, entry_of(subject.level), subject.layout, asked.about, back))

    def look_back(self, row: str) -> None:
        """Look at a question again."""
        self.looking_at = int(row)
        self.ui.focus = ""
        self._show()

    def _stop_looking(self) -> None:
        self.looking_at = -1
        self.ui.focus = ""
        self._show()

    def leave(self) -> None:
        """Go back to the houses; what is answered is kept."""
        leave_quiz(self.services, self.quiz, self.back)

    def _clicked(self, at: tuple[float, float], _button: int) -> None:
        asked = self.quiz.asked
        if asked is None or self.quiz.verdict is not None or not isinstance(asked.task, PointAt | SpotFault):
            return
        index = nearest_place(asked.task.places, at, 40 / self.plan.camera.view.scale)
        if index is not None:
            self.point(index)

    def tick(self, now_ms: int) -> None:
        self.plan.now_ms = now_ms
        self.quiz.beat()
        if self.quiz.status() != self._status:
            self._status = self.quiz.status()
            self.refresh("bar")
        if "plan" in self.order and not self.plan.resting:
            self.redraw("plan")

    def look_changed(self) -> None:
        self.plan.invalidate()

    def key(self, event: pygame.event.Event) -> bool:
        asked, answered = self.quiz.asked, self.quiz.verdict is not None
        letter = letter_of(asked, pygame.key.name(event.key)) if asked is not None and not answered else None
        plain = not event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT)
        if event.key == pygame.K_ESCAPE:
            self._stop_looking() if self.looking_at >= 0 else self.leave()
        elif event.key == pygame.K_r and plain and (answered or self.looking_at >= 0):
            self.on_the_roof()
        elif self.looking_at >= 0 or asked is None:
            return self.plan.zoom_key(event)
        elif event.key in {pygame.K_RETURN, pygame.K_KP_ENTER}:
            self.go_on() if answered else self.answer()
        elif event.key == pygame.K_h and event.mod & pygame.KMOD_CTRL:
            if not answered and self.quiz.has_hint:
                self.hint()
        elif (
            event.mod & pygame.KMOD_ALT
            and event.key in {pygame.K_UP, pygame.K_DOWN}
            and isinstance(asked.task, InOrder)
        ):
            self.shift(-1 if event.key == pygame.K_UP else 1)
        elif plain and isinstance(asked.task, Amount) and not answered and (digit := digit_of(event)):
            self.services.focus(TYPED)
            self.typing(self.quiz.draft.typed + digit)
        elif event.key == pygame.K_v and plain and ("lines" in self.order or self.seeing_house):
            self.see_house()
        elif plain and letter is not None:
            self._by_letter(asked, letter)
        elif event.key in {pygame.K_UP, pygame.K_DOWN} and not answered and not isinstance(asked.task, Amount | Pairs):
            self.services.focus(CHOICES)  # below a long question the choices are out of sight at first
        else:
            return self.plan.zoom_key(event)
        return True

    def _by_letter(self, asked: Asked, index: int) -> None:
        from trainer.quiz.judge import options

        if isinstance(asked.task, Amount | Pairs | InOrder) or index >= len(options(asked)):
            return
        self.services.focus(CHOICES)
        if isinstance(asked.task, SomeOf):
            self.pick(index)
        else:
            self.point(index)
