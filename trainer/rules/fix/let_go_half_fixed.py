"""A truss let go with one of its ends not fastened yet."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.order import TIED
from trainer.rules.rule import PRACTICE, Found, rule
from trainer.site import Event, Site, Stand, held
from trainer.words import _


@rule(
    "let-go-half-fixed",
    stage="fix",
    severity="habit",
    on=Stand,
    what=_("{member} was left with {got}. Wanted: {want}."),
    why=_("One fixed end holds the truss for now. But an end that is left for later is soon forgotten."),
    fix=_("Go back and fasten that end now. Then stand the next truss."),
    safety=_("Do not stand on a truss that is not fixed at both ends."),
    source=PRACTICE,
)
def let_go_half_fixed(before: Site, event: Event, after: Site) -> Iterator[Found]:
    """The next truss was stood while the last one was held by one fixed end alone."""
    for tag in event.let_go if "fix" in before.job.stages else ():
        loose = [end for end in (1, 2) if not before.fixed.get((tag, end))]
        if (
            loose
            and before.layout.by_tag[tag].kind not in TIED
            and held(before, tag)
            and before.holds[tag] == "fastened"
        ):
            text = _("end {end} not fixed")
            yield Found(
                tag, text.format(end=loose[0]), _("both ends fixed first"), f"fix {before.stood[tag].place or tag}"
            )
