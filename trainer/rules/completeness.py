"""What is missing from a roof that is handed over, each gap told once.

A place stands empty, or holds a piece that belongs elsewhere. A truss that stands wrong was found when
it was stood, and the empty place it should have filled is not told again: a hole is *missing* only where
no truss that belongs in it stands elsewhere. A truss still in the yard is *left over* only where its
place is taken; otherwise it is the same thing as the hole.
"""

from __future__ import annotations

from collections.abc import Iterator

from trainer.rules.placement import in_wrong_place, same_piece
from trainer.site import Site


def missing(site: Site) -> Iterator[str]:
    """Yield the places that stand empty for want of a truss."""
    astray = wrong(site)
    for place in site.layout.members:
        if place.tag in site.at_place:
            continue
        in_yard = place.tag not in site.stood
        stands_elsewhere = (tag for tag in astray if same_piece(site.layout.by_tag[site.stood[tag].piece], place))
        instead = None if in_yard else next(stands_elsewhere, None)
        if instead is None:
            yield place.tag
        else:
            astray.remove(instead)


def left_over(site: Site) -> Iterator[tuple[str, str]]:
    """Yield (truss still in the yard, truss that wrongly stands where it belongs)."""
    gaps = list(missing(site))
    holes = [site.layout.by_tag[tag] for tag in gaps if tag in site.stood]
    takers = [tag for tag in wrong(site) if site.stood[tag].place]
    for truss in site.layout.members:
        if truss.tag in site.stood or truss.tag in gaps:
            continue
        if hole := next((place for place in holes if same_piece(place, truss)), None):
            holes.remove(hole)
            continue
        taker = next((tag for tag in takers if _belongs_there(site, truss.tag, tag)), None)
        if taker is not None:
            takers.remove(taker)
            yield truss.tag, taker


def _belongs_there(site: Site, truss: str, taker: str) -> bool:
    by_tag = site.layout.by_tag
    return same_piece(by_tag[truss], by_tag[site.stood[taker].place or taker])


def wrong(site: Site) -> list[str]:
    """Return the trusses that stand in a place that isn't theirs, or in nobody's."""
    return [tag for tag in site.stood if in_wrong_place(site, tag)]
