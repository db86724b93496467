"""Temporary ties along the top chords taken off before battens replace them."""

from __future__ import annotations

from trainer.rules.plain import listed
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site, row_of, standing_in_row, ties_stripped
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("{member} was handed over with {got}. Wanted: {want}."),
    why=_(
        "Roof braces keep a row from leaning. Only ties along the tops keep each top chord straight, until battens "
        "are on. A chord that nothing ties bends sideways under the first packs."
    ),
    fix=_("Nail the ties on again, truss by truss. They come off as the roof battens go on."),
    safety=_("Nobody loads or climbs the roof before they are back. Work from a platform."),
    source=PRACTICE,
)
def top_chord_ties_stripped(before: Site, event: Event, after: Site) -> Finds:
    """A tie between two trusses was taken off and nothing ties their tops at hand-over; once a row."""
    rows: dict[str, list[str]] = {}
    for one, other in ties_stripped(after):
        rows.setdefault(row_of(after, one), []).extend((one, other))
    for row, tags in rows.items():
        loose = [tag for tag in standing_in_row(after, row) if tag in tags] or tags
        got = _("the ties along the tops stripped")
        want = _("the tops of {trusses} tied until battens replace the ties").format(trusses=listed(loose))
        yield Found(loose[0], got, want, f"stripped {row}")
