"""A quiz that is done: how many are right, judgement apart from sums, and each answer to be looked back at."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from trainer.board.back_to import BackTo
from trainer.board.quizzing import Quizzing
from trainer.board.scenes.asking import ask_which, confirm
from trainer.board.widgets import Button, Column, Followed, Label, Listing, Pad, Paragraph, Prose, Row, Scroll, Widget
from trainer.quiz.sitting import sums_apart
from trainer.words import CAUTION, _, ngettext

if TYPE_CHECKING:
    from trainer.board.services import Services


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


def leave_quiz(services: Services, quiz: Quizzing, back: BackTo) -> None:
    """Go ``back``, after asking where something was answered; a sitting can be closed with questions left."""
    left = len(quiz.sitting.questions) - len(quiz.sitting.given)
    if quiz.closes_sitting and left:
        said = ngettext(
            "{n} question is not answered. Closed now, it counts as not right, and nobody can go on.",
            "{n} questions are not answered. Closed now, they count as not right, and nobody can go on.",
            left,
        )
        lines = [_("Left, the sitting is kept: open its folder again under Assessments."), said.format(n=left)]
        ways = ((_("Leave"), back.go), (_("Close the sitting now"), quiz.end), (_("Go on answering"), None))
        ask_which(services, _("Leave the questions?"), lines, ways, first=2)
    elif quiz.asked is None or not quiz.sitting.given:
        back.go()
    else:
        confirm(services, _("Leave the quiz?"), [_("What you have answered is kept.")], _("Leave"), back.go)
