"""Putting in permanent bracing, and taking roof braces off again."""

from __future__ import annotations

import math
from dataclasses import replace

from trainer.plan.points import to_half
from trainer.site.actions import Restrain, Unbrace
from trainer.site.doing import does
from trainer.site.holding import held_from_scratch
from trainer.site.holding import restrain as held_by
from trainer.site.letting_go import let_go_of_lost
from trainer.site.model import Event, Refused, Restrained, Site, changed
from trainer.site.refusals import not_standing
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


def release(site: Site, index: int, action: Unbrace) -> tuple[Site, Event] | Refused:
    """Take off every roof brace that lies over all the trusses named; what only they held is let go.

    Trusses that one pulled over spring back to how they were stood.
    """
    tags = set(action.tags)
    off = [p for p in site.permanent if p.kind == "roof brace" and tags <= {tag for tag, _run in p.crosses}]
    if not off:
        for tag in action.tags:
            if refused := not_standing(site, tag):
                return refused
        text = _("No roof brace lies over {tags}. Name trusses that one lies over.")
        return Refused(text.format(tags=", ".join(action.tags)))
    sprung = {tag for piece in off if piece.pulled_over for tag, _run in piece.crosses}
    bare = changed(
        site,
        permanent=tuple(piece for piece in site.permanent if piece not in off),
        plumbed={tag: trued for tag, trued in site.plumbed.items() if tag not in sprung},
    )
    still = set(site.restrained)
    for row in {piece.row for piece in off}:
        still -= {site.at_place[m.tag] for m in site.job.rows[row].members if m.tag in site.at_place}
        still |= held_for_good(bare, row)
    bare = changed(bare, restrained=frozenset(still))
    return let_go_of_lost(site, changed(bare, holds=held_from_scratch(bare)), index, action)
