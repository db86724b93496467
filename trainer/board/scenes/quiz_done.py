"""A quiz that is done: how many are right, judgement apart from sums, and each answer to be looked back at."""

from __future__ import annotations

from collections.abc import Callable

from trainer.board.back_to import BackTo
from trainer.board.quizzing import Quizzing
from trainer.board.widgets import Button, Column, Followed, Label, Listing, Pad, Paragraph, Prose, Row, Scroll, Widget
from trainer.quiz.sitting import sums_apart
from trainer.words import CAUTION, _


def done_widgets(quiz: Quizzing, look_back: Callable[[str], None], back: BackTo) -> Widget:
    """Return what a quiz came to, the answers to be looked back at, and the way ``back``."""
    sitting = quiz.sitting
    score = _("{right} of {all} right").format(right=sitting.right, all=len(sitting.questions))
    rows = [
        Row(
            str(n), quiz.questions[given.question].text, picture="good" if given.right else "tolerance",
            second=_("right") if given.right else _("not right"),
        )
        for n, given in enumerate(sitting.given)
    ]  # fmt: skip
    listing = Listing(
        _("Your answers"), rows, "", look_back, take=look_back, key="quiz/answers", tall=True,
        empty=_("Nothing was asked."), show=len(rows),
    )  # fmt: skip
    listing.grows = False
    kept = _("What you got wrong comes back on another day.")
    apart = sums_apart((quiz.questions[given.question].is_sum, given.right) for given in sitting.given)
    parts: list[Widget] = [
        Label(_("The quiz is done"), "title", role="heading"),
        Label(score, "figure", "accent"),
        *([Label(apart, "body", key="quiz/sums apart")] if apart else []),
        Label(kept, "body", "panel_faint"),
        listing,
        Prose([Paragraph(CAUTION, "small", "panel_faint", space=0)], key="caution"),
    ]
    go = Button(back.name, back.go, kind="primary", key="quiz/houses")
    column = Followed(Scroll(Column(parts, gap=10), _("The quiz is done")), go)
    return Pad(column, pad=18, column=True, name=_("The quiz is done"), key="summary")
