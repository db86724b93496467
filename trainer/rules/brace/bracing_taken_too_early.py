"""A brace, or a truss that others were tied to, taken away while it was needed."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.rules.letting_go import let_go_loose
from trainer.rules.rule import PRACTICE, Found, rule
from trainer.site import Event, Remove, Site, Unbrace
from trainer.words import _


@rule(
    "bracing-taken-too-early",
    stage="brace",
    severity="stop-work",
    on=(Remove, Unbrace),
    what=_("{member} was left {got}. Wanted: {want}."),
    why=_("Temporary bracing holds the roof until the permanent bracing is in. Take it early and trusses tip."),
    fix=_("Put it back at once. Brace another way first, then take it off."),
    safety=_("Look along the row before you loosen a brace. Keep everyone clear."),
    source=PRACTICE,
)
def bracing_taken_too_early(before: Site, event: Event, after: Site) -> Iterator[Found]:
    """What held a truss was taken away, in a row where something else is held; once for what was taken."""
    for loose in let_go_loose(before, event):
        if not loose.fell:
            yield loose.found
