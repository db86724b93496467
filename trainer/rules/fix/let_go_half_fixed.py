"""A truss let go with an end not fixed yet."""

from __future__ import annotations

from trainer.rules.letting_go import half_fixed
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("{member} was let go with {got}. Wanted: {want}."),
    why=_("A truss is held by its top and by both its ends. A loose end slides off its bearing."),
    fix=_("Fix that end now, with one connector at least. Then lift the next truss."),
    safety=_("Do not stand on a truss that is not fixed at both ends."),
    source=PRACTICE,
)
def let_go_half_fixed(before: Site, event: Event, after: Site) -> Finds:
    """The next truss was lifted while the one before was held but for an end, or both, that nothing had fixed."""
    for tag in event.let_go:
        if loose := half_fixed(before, tag):
            got = _("end {end} not fixed").format(end=loose[0]) if len(loose) == 1 else _("neither end fixed")
            place = before.stood[tag].place or tag
            yield Found(tag, got, _("both ends fixed, by one connector each at least"), f"fix {place}")
