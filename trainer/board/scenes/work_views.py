"""The views of the work screen: what they show of the site, of what is chosen and of what was found."""

from __future__ import annotations

from trainer.board.scenes.building import Building
from trainer.board.scenes.note import shown_on_views
from trainer.board.scenes.views import Views
from trainer.picture.compare import Difference
from trainer.site.actions import Stand


def views_of(work: Building) -> Views:
    """Return the ways to look at the house that is being built; an assessment shows it in its true size alone."""
    return Views(
        work, work.plan, lambda: work.site, chosen=lambda: work.hand.truss, choose=work.choose,
        found=lambda: shown_on_views(work.noted), turned=lambda: work.hand.turned, larger=work.practice,
        reference=lambda: _hinted(work), say=work.say, sheet=work.entry.level.lesson.layout_sheet,
    )  # fmt: skip


def _hinted(work: Building) -> tuple[Difference, ...]:
    """Return the place of the truss that a hint suggests to stand, to be shown where it belongs."""
    if not isinstance(work.ghost, Stand):
        return ()
    return (Difference("missing", work.site.layout.by_tag[work.ghost.tag]),)
