"""Temporary bracing: what may be braced to what."""

from __future__ import annotations

from collections.abc import Iterable

from trainer.site.actions import Brace
from trainer.site.doing import does
from trainer.site.holding import gap, holding, tied_to
from trainer.site.model import Bracing, Event, Refused, Site, changed
from trainer.site.refusals import not_standing
from trainer.words import _

TYING = frozenset({"batten", "steel brace", "diagonal"})
"""Kinds that tie trusses to each other."""
ALONG_TOPS = frozenset({"batten", "steel brace"})
"""Kinds that run along the top chords and stay until roof battens replace them; a diagonal is there for the night."""
LONGEST = 6000.0
"""The longest gap that one length of timber or strap is taken to bridge, mm; common practice, no source."""


@does(Brace)
def brace(site: Site, index: int, action: Brace) -> tuple[Site, Event] | Refused:
    """Put bracing on trusses that stand."""
    tags = tuple(dict.fromkeys(action.tags))
    for tag in tags:
        if refused := not_standing(site, tag):
            return refused
        if action.kind == "wall tie" and (site.stood[tag].place or tag) not in site.layout.at_wall:
            text = _("{tag} stands at no higher wall. Tie it to a truss that is held, or brace it solid.")
            return Refused(text.format(tag=tag))
    if action.to is not None and not site.layout.house.plan.beams:
        return Refused(_("This house has no verandah beam. Brace it to the floor, the ground or a braced wall."))
    ties = dict(site.ties)
    if action.kind in TYING:
        if len(tags) < 2:
            return Refused(_("A {kind} ties trusses to each other. Name two or more.").format(kind=action.kind))
        if far := _out_of_reach(site, tags):
            text = _("{tag} is too far from the others for one {kind}. Tie it to one nearby, or brace it solid.")
            return Refused(text.format(tag=far, kind=action.kind))
        for tag in tags:
            ties[tag] = (*ties.get(tag, ()), *(other for other in tags if other != tag))
    piece = Bracing(action.kind, tags, action.every, action.to)
    after = changed(site, bracing=(*site.bracing, piece), ties=ties)
    if piece.solid:
        after = changed(after, holds=holding(after, dict.fromkeys(tags, "solid")))
    elif action.kind in TYING:
        newly = dict(pair for tag in tags if tag in site.holds for pair in tied_to(after, tag, site.holds))
        after = changed(after, holds=holding(after, newly)) if newly else after
    return after, Event(index, action)


def ties_of(bracing: Iterable[Bracing]) -> dict[str, tuple[str, ...]]:
    """For each truss, those that it is tied to."""
    ties: dict[str, tuple[str, ...]] = {}
    for piece in bracing:
        if piece.kind in TYING:
            for tag in piece.tags:
                ties[tag] = (*ties.get(tag, ()), *(other for other in piece.tags if other != tag))
    return ties


def _out_of_reach(site: Site, tags: tuple[str, ...]) -> str | None:
    """The first truss that is further from every other than one length bridges."""
    for tag in tags:
        if min(gap(site.stood[tag], site.stood[other]) for other in tags if other != tag) > LONGEST:
            return tag
    return None
