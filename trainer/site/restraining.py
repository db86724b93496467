"""Putting in permanent bracing, and taking roof braces off again."""

from __future__ import annotations

import math
from dataclasses import replace

from trainer.plan.points import to_half
from trainer.site.actions import Restrain
from trainer.site.doing import does
from trainer.site.holding import restrain as held_by
from trainer.site.model import Event, Refused, Restrained, Site, changed
from trainer.site.restraints import crosses, held_for_good, on_own_slope, pulls_alone
from trainer.words import _

SHORTEST = 100.0
"""A shorter piece is no brace, mm."""


@does(Restrain)
def restrain(site: Site, index: int, action: Restrain) -> tuple[Site, Event] | Refused:
    """Put in a piece over the standing trusses that it crosses."""
    start, finish = to_half(action.start), to_half(action.finish)
    if math.dist(start, finish) < SHORTEST:
        return Refused(_("A brace from a place to itself holds nothing. Give two places apart."))
    by_row = {row: crosses(site, lines, start, finish) for row, lines in site.job.rows.items()}
    row = max(by_row, key=lambda name: len(by_row[name]), default="")
    if not row or len(by_row[row]) < 2:
        text = _("No two standing trusses of a row are under that {kind}. Stand them first, or give other places.")
        return Refused(text.format(kind=action.kind))
    piece = Restrained(action.kind, row, start, finish, by_row[row])
    if action.kind == "roof brace":
        places = {tag: site.layout.by_tag[site.stood[tag].place or tag] for tag, _ in piece.crosses}
        piece = on_own_slope(site.job.rows[row], places, piece)
        piece = replace(piece, pulled_over=action.tension == "hard" and pulls_alone(site, piece))
    after = changed(site, permanent=(*site.permanent, piece))
    if action.kind == "roof brace":
        after = held_by(after, site.restrained | held_for_good(after, row))
    return after, Event(index, action)
