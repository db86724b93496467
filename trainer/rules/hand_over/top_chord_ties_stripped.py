"""Temporary ties along the top chords that are not there when the roof is handed over."""

from __future__ import annotations

from trainer.rules.plain import listed
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site, row_of, standing_in_row, ties_stripped, tops_untied
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("{member} was handed over with {got}. Wanted: {want}."),
    why=_(
        "Roof braces keep a row from leaning. Only ties along the tops keep each top chord straight, until battens "
        "are on. A chord that nothing ties bends sideways under the first packs."
    ),
    fix=_("Nail the ties on, truss by truss. They come off as the roof battens go on."),
    safety=_("Nobody loads or climbs the roof before they are back. Work from a platform."),
    source=PRACTICE,
)
def top_chord_ties_stripped(before: Site, event: Event, after: Site) -> Finds:
    """A tie between two trusses was taken off, or never put on, and nothing ties their tops; once a row."""
    stripped = {tag for pair in ties_stripped(after) for tag in pair}
    rows: dict[str, list[str]] = {}
    for tag in dict.fromkeys([*stripped, *tops_untied(after)]):
        rows.setdefault(row_of(after, tag), []).append(tag)
    for row, tags in rows.items():
        loose = [tag for tag in standing_in_row(after, row) if tag in tags] or tags
        off = not stripped.isdisjoint(loose)
        got = _("the ties along the tops stripped") if off else _("no ties along the tops")
        want = _("the tops of {trusses} tied until battens replace the ties").format(trusses=listed(loose))
        yield Found(loose[0], got, want, f"stripped {row}")
