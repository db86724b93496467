"""Taking bracing off, temporary or a roof brace; what only it held is let go. And what comes off next."""

from __future__ import annotations

from itertools import combinations

from trainer.order import TIED
from trainer.site.actions import Brace, Plumb, Unbrace
from trainer.site.bracing import ALONG_TOPS, TYING, ties_of
from trainer.site.doing import does
from trainer.site.holding import SOLID, held_from_scratch, one_bay
from trainer.site.letting_go import let_go_of_lost
from trainer.site.model import Event, Refused, Site, changed
from trainer.site.query import beside
from trainer.site.refusals import not_standing
from trainer.site.restraints import held_for_good, locked
from trainer.site.striking import (
    held_if_tied,
    inside,
    lacks_of_girder,
    may_go,
    needed_no_more,
    tops_untied,
    without_braces,
)
from trainer.words import _


@does(Unbrace)
def unbrace(site: Site, index: int, action: Unbrace) -> tuple[Site, Event] | Refused:
    """Take off a piece of bracing that is on; what only it held is let go."""
    if action.kind == "roof brace":
        return _release(site, index, action)
    tags = set(action.tags)
    like = (p for p in site.bracing if p.kind == action.kind and set(p.tags) == tags)
    on = [p for p in like if action.every in (None, p.every) and action.to in (None, p.to)]
    piece = min(on, key=lambda p: (p.every != action.every, p.to != action.to), default=None)
    if piece is None:
        for tag in action.tags:
            if refused := not_standing(site, tag):
                return refused
        text = _("There is no {kind} on {tags} alone. Name one that is on, with all its trusses.")
        return Refused(text.format(kind=action.kind, tags=", ".join(action.tags)))
    left = list(site.bracing)
    left.remove(piece)
    bare = changed(site, bracing=tuple(left))
    if action.kind in TYING:
        bare = changed(bare, ties=ties_of(left))
    if action.kind in ALONG_TOPS:
        tips = sorted(tag for tag in tags if site.layout.by_tag[tag].kind in TIED)
        pairs = (pair for pair in combinations(tips, 2) if one_bay(site, *pair))
        bare = changed(bare, untied=site.untied.union(pairs))
    if action.kind not in (*TYING, *SOLID) or tags <= site.restrained:  # held as before
        return bare, Event(index, action)
    return let_go_of_lost(site, changed(bare, holds=held_from_scratch(bare)), index, action)


def _release(site: Site, index: int, action: Unbrace) -> tuple[Site, Event] | Refused:
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


def coming_out(site: Site) -> tuple[Brace | Unbrace, ...]:
    """Return what to do so that braces come out: take out all that may go by now, or tie a top so that one can.

    None of them holds what another does, so they come out one after the other. Once all are out, a top that only its
    own brace kept straight is tied too.
    """
    could, bare = needed_no_more(site), without_braces(site)
    staying = tuple(piece for piece in inside(site) if piece not in could)
    held = held_from_scratch(changed(bare, bracing=(*bare.bracing, *staying)), hip_ends=False)
    free = (piece for piece in could if may_go(bare, piece, held))
    out = [piece for piece in free if not any(lacks_of_girder(site, tag) for tag in piece.tags)]
    if out:
        return tuple(Unbrace(kind="solid" if piece.kind == "solid" else "prop", tags=piece.tags) for piece in out)
    would = held_if_tied(site)
    for tag in (tag for piece in could for tag in piece.tags):
        if tag not in held or lacks_of_girder(site, tag):
            steady = [other for other in beside(site, tag) if other in would and other not in site.ties.get(tag, ())]
            steady.sort(key=lambda other: (other not in held, other not in site.restrained))
            if steady:
                return (Brace(kind="batten", tags=(tag, steady[0]), every=site.job.bracing.batten_rows),)
    bare_top = next(tops_untied(site), None)
    if bare_top:
        tied = (bare_top, beside(site, bare_top)[0])
        return (Brace(kind="batten", tags=tied, every=site.job.bracing.batten_rows),)
    return ()


def next_out(site: Site) -> Brace | Unbrace | None:
    """Return what comes out next, or is tied for it; none where nothing does."""
    return next(iter(coming_out(site)), None)


def straightening(site: Site, tag: str) -> Plumb | Unbrace:
    """Return what to do next so that a truss is straightened: one that is braced for good has to be released first."""
    return Unbrace(kind="roof brace", tags=(tag,)) if tag in locked(site) else Plumb(tag=tag)
