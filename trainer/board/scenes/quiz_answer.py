"""How each kind of question is answered, and what is said of an answer."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import Protocol

import pygame

from trainer.board.overlay import place_marked
from trainer.board.quizzing import Quizzing, lettered
from trainer.board.widgets import Button, Choice, Flow, Label, LineEntry, Listing, Paragraph, Prose, Row, Widget
from trainer.board.widgets.drawing import Sign
from trainer.picture.model import Item, Polygon
from trainer.quiz.judge import LETTERS, Verdict, answer_text, judge, option_names, options, right_answer
from trainer.quiz.measure import Unclear
from trainer.quiz.question import Amount, Asked, InOrder, Pairs, PointAt, SomeOf, SpotFault
from trainer.quiz.sitting import Given
from trainer.quiz.unit import TOPIC_NAMES
from trainer.report.paper_text import how_to_answer
from trainer.words import CAUTION, _

CHOICES = "quiz/choices"
"""Key of the list that is chosen from or put in order."""
TYPED = "quiz/typed"
"""Key of the line that a number is typed in."""
PARTNER = "quiz/partner"
"""Beginning of the keys of the choices of a match."""


class Asking(Protocol):
    """The screen of a quiz as these widgets see it."""

    quiz: Quizzing
    cursor: int

    def point(self, index: int) -> None:
        """Go to a choice, a line, a place or a step."""

    def pick(self, index: int) -> None:
        """Choose it, or leave it again where several may be chosen."""

    def match(self, left: int, right: int) -> None:
        """Give a left side its partner."""

    def shift(self, by: int) -> None:
        """Move the step that is chosen up or down."""

    def typing(self, text: str) -> None:
        """Keep what is typed."""

    def answer(self) -> None:
        """Answer."""


def head_widgets(asked: Asked, style: str) -> list[Widget]:
    """Return what a question is about, and what is asked, in a style of text."""
    house = _("House {house}").format(house=asked.level.capitalize()) if asked.level else ""
    about = " · ".join(filter(None, (TOPIC_NAMES[asked.topic], house)))
    return [Label(about, "small", "panel_faint"), *text_widgets(asked, style)]


def text_widgets(asked: Asked, style: str = "heading") -> list[Widget]:
    """Return what is asked, in a style of text, and under it the lines that it speaks of, if any."""
    question, *lists = asked.text.split("\n")
    found: list[Widget] = [Label(question, style, key="quiz/text")]
    if lists:
        found.append(Prose([Paragraph(line, space=6) for line in lists], key=f"quiz/lines/{asked.id}"))
    return found


def how_here(asked: Asked) -> str:
    """Say how a question is answered on the screen; on paper an order is given by letters."""
    return _("Put them in order, the first one first.") if isinstance(asked.task, InOrder) else how_to_answer(asked)


def answer_widgets(screen: Asking, asked: Asked) -> list[Widget]:
    """Return what the question is answered with."""
    match asked.task:
        case Amount():
            name = _("Your answer, such as 1800, 1 800 or 1.8 m") if asked.task.unit == "mm" else _("Your answer")
            return [LineEntry(name, screen.quiz.draft.typed, screen.typing, key=TYPED, enter=screen.answer)]
        case Pairs(left=left):
            partners = (_("choose"), *lettered(asked))
            return [
                Choice(
                    f"{number}. {side}", partners, screen.quiz.draft.chosen[number - 1] + 1,
                    partial(_matched, screen.match, number - 1), key=f"{PARTNER}/{number}",
                )
                for number, side in enumerate(left, 1)
            ]  # fmt: skip
        case InOrder():
            move = [
                Button(_("Move up"), partial(screen.shift, -1), shortcut="Alt ↑", key="quiz/up"),
                Button(_("Move down"), partial(screen.shift, 1), shortcut="Alt ↓", key="quiz/down"),
            ]
            return [_listing(screen, asked, _("The order, first to last")), Flow(move, gap=8, key="quiz/move")]
        case _:
            return [_listing(screen, asked, _("Choices"))]


def _matched(match: Callable[[int, int], None], left: int, index: int) -> None:
    match(left, index - 1)


def _listing(screen: Asking, asked: Asked, name: str) -> Listing:
    draft, texts = screen.quiz.draft, lettered(asked)
    several, ordered = isinstance(asked.task, SomeOf), isinstance(asked.task, InOrder)
    order = draft.chosen if ordered else range(len(texts))
    chosen = _("chosen") if several else ""
    rows = [
        Row(
            str(place), f"{place + 1}. {options(asked)[index]}" if ordered else texts[index],
            detail=chosen if index in draft.chosen else "",
        )
        for place, index in enumerate(order)
    ]  # fmt: skip
    at = str(screen.cursor) if 0 <= screen.cursor < len(rows) else ""
    listing = Listing(
        name, rows, at, lambda row: screen.point(int(row)), key=CHOICES, cards=True,
        take=(lambda row: screen.pick(int(row))) if several else None, show=len(rows),
    )  # fmt: skip
    listing.grows = False
    return listing


def verdict_widgets(asked: Asked, verdict: Verdict) -> list[Widget]:
    """Return what is said of an answer: right or not, the answer, the working, and why."""
    word = _("Right") if verdict.right else _("Not right")
    head = Flow(
        [Sign("good" if verdict.right else "tolerance", word), Label(word, "heading", "panel_ink", role="heading")],
        key="quiz/verdict",
    )
    blocks = [Paragraph(_("You answered: {answer}.").format(answer=verdict.understood.rstrip(".")), space=8)]
    if not verdict.right:
        answer = answer_text(asked, right_answer(asked)).rstrip(".")
        blocks.append(Paragraph(_("The answer: {answer}.").format(answer=answer), "strong", space=8))
    blocks += [Paragraph(verdict.slip)] if verdict.slip else []
    return [head, Prose([*blocks, *reason_blocks(asked)], key=f"quiz/said/{asked.id}")]


def reason_blocks(asked: Asked) -> list[Paragraph]:
    """Return the working and the reason of a question."""
    parts: Sequence[tuple[str, Sequence[str]]] = (
        (_("Working"), asked.working),
        # What the question said already is no reason.
        (_("Why"), () if asked.why in asked.text else (asked.why,)),
        (_("Safety"), (asked.safety,) if asked.safety else ()),
    )
    blocks: list[Paragraph] = []
    for heading, texts in parts:
        if texts:
            blocks += [Paragraph(heading, "strong", "accent", space=1), *(Paragraph(text, space=4) for text in texts)]
    return [*blocks, Paragraph(_("Source: {source}").format(source=asked.source), "small", "panel_faint")]


def place_chosen(asked: Asked, index: int, scale: float) -> list[Item]:
    """Return a square round the place on the plan that is chosen, if one is; ``scale`` in px to the mm."""
    if not isinstance(asked.task, PointAt) or not 0 <= index < len(asked.task.places):
        return []
    x, y = asked.task.places[index].at
    half = 14 / scale
    square = ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))
    return [Polygon(square, None, "mark", 3.0)]


def places_answered(asked: Asked, given: Given, mm_per_px: float) -> list[Item]:
    """Return the right place on the plan, and the one that was chosen instead."""
    if not isinstance(asked.task, PointAt | SpotFault) or not asked.task.places:
        return []
    places, right = asked.task.places, asked.task.right
    chosen = given.answer[0] if isinstance(given.answer, tuple) and given.answer else right
    found = place_marked(places[right].at, _("The answer"), mm_per_px)
    if chosen != right:
        found += place_marked(places[chosen].at, _("Yours"), mm_per_px, dashed=True)
    return found


def looked_back(asked: Asked, given: Given) -> list[Widget]:
    """Return a question answered before, with what is to be said of it."""
    verdict = judge(asked, given.answer)
    found: list[Widget] = text_widgets(asked)
    if not isinstance(verdict, Unclear):
        found += verdict_widgets(asked, verdict)
    return [*found, Prose([Paragraph(CAUTION, "small", "panel_faint")], key="caution")]


def letter_of(asked: Asked, text: str) -> int | None:
    """The index that a key stands for: a letter, or the number of a place; none where it names no answer."""
    names = option_names(asked)
    if text in names:
        return names.index(text)
    return LETTERS.find(text.upper()) if len(text) == 1 and text.upper() in LETTERS else None


def digit_of(event: pygame.event.Event) -> str:
    """Return the figure that a key types, if it is one."""
    typed = getattr(event, "unicode", "")
    return typed if typed and typed in "0123456789" else ""
