"""Long webs with nothing to hold their middles."""

from __future__ import annotations

from trainer.rules.permanent import Unserved, left_unserved
from trainer.rules.plain import listed, mm
from trainer.rules.rule import LEVEL, Finds, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.words import _, ngettext


@rule(
    severity="rework",
    on=HandOver,
    what=_("{member} has {got}. Wanted: {want}."),
    why=_("A long thin web that is pushed bows out sideways. A tie at its middle keeps it straight."),
    fix=_("Run a tie along the row. Nail it to each long web near its middle."),
    safety=_("Work from a platform. Keep clear of the edges of the floor below."),
    source=LEVEL,
)
def long_web_not_tied(before: Site, event: Event, after: Site) -> Finds:
    """Webs longer than the level's limit are handed over with no tie near their middles.

    Once for each line of webs; where several lie in the same trusses, once for all of these.
    """
    over = mm(after.job.bracing.web_ties_over)
    lines: dict[tuple[str, ...], list[Unserved]] = {}
    for missing in left_unserved(after, "web tie"):
        lines.setdefault(tuple(missing.tags(after)), []).append(missing)
    for tags, left in lines.items():
        got = ngettext(
            "a web longer than {over} with no tie", "{n} webs longer than {over} with no ties", len(left)
        ).format(over=over, n=len(left))
        want = ngettext("a tie along the webs of {trusses}", "{n} ties along the webs of {trusses}", len(left)).format(
            trusses=listed(tags), n=len(left)
        )
        yield Found(tags[0], got, want, left[0].cause)
