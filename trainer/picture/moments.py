"""A whole attempt as one drawing: every piece of it says at which moments it is to be seen.

Moment 0 is the empty site, moment n the site after n actions. A drawing of each moment would hold the same few thousand
pieces hundreds of times; here each piece is there once.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from trainer.layout import Layout
from trainer.picture import as_built
from trainer.picture.found import FoundMark, on_plan
from trainer.picture.model import SHEET_SCALE, Group, Item, Picture, Text, flat
from trainer.picture.on_page import HIGH, WIDE, page_scale, placed
from trainer.picture.still_site import StillSite
from trainer.picture.tags import naming, tags
from trainer.picture.trusses import trusses
from trainer.site.model import Site

ROOM = 0.05
"""What is kept round a replay for tags that are led out of the house, as a part of its width."""


def built_picture(site: Site, found: Iterable[FoundMark], title: str, words: str) -> Picture:
    """Return the plan of a site as it stands, what was ``found`` ringed on it."""
    layout = site.layout
    items = (*StillSite(layout).items(site, SHEET_SCALE), *on_plan(site, found))
    return Picture(as_built.whole_box(layout), (Group("site", items),), title, words)


def reference_picture(layout: Layout, title: str, words: str) -> Picture:
    """Return the plan of a layout with every truss where it belongs, drawn like a site."""
    ground = Group("site", (*as_built.ground(layout), *as_built.wall_names(layout)))
    return Picture(as_built.whole_box(layout), (ground, trusses(layout), _shared(layout)), title, words)


def _shared(layout: Layout) -> Group:
    """Return the tags of a layout, which neighbours may share where they have no room."""
    found = [(group.of, text) for group in tags(layout).items if isinstance(group, Group) for text in flat(group)]
    named = ((layout.by_tag[tag], text) for tag, text in found if isinstance(text, Text))
    return Group("tags", tuple(replace(text, names=naming(layout, m.tag, m.start, m.finish)) for m, text in named))


def moments_picture(sites: Sequence[Site], title: str, words: str) -> Picture:
    """Return all of ``sites``, moment by moment, as one picture.

    The group of each piece that changes bears in ``of`` the moments from and to which it shows, such as ``3 8 12 40``:
    from 3 up to and without 8, and from 12 up to and without 40.
    """
    layout = sites[0].layout
    still, box = StillSite(layout), as_built.whole_box(layout)
    scale = page_scale(box, WIDE, HIGH)
    left, low, right, top = box
    round_it = ROOM * (right - left)
    roomy = (left - round_it, low - round_it, right + round_it, top + round_it)
    pieces = Pieces()
    for moment, site in enumerate(sites):
        pieces.show(moment, placed(still.items(site, scale), scale, roomy))
    groups = tuple(pieces.groups(len(sites)))
    return Picture(roomy, (Group("moments", groups),), title, words)


class Pieces:
    """Pieces in painting order, each with the moments at which it shows."""

    def __init__(self) -> None:
        self._after: dict[Item | None, Item | None] = {None: None}
        self._spans: dict[Item, list[int]] = {}
        self._shown: frozenset[Item] = frozenset()

    def show(self, moment: int, items: Iterable[Item]) -> None:
        """From ``moment`` on, show just ``items``; new ones are painted after what is before them in the list."""
        before: Item | None = None
        shown = dict.fromkeys(items)
        for item in shown:
            if item not in self._spans:
                self._spans[item] = []
                self._after[item] = self._after[before]
                self._after[before] = item
            if item not in self._shown:
                self._spans[item].append(moment)
            before = item
        for gone in self._shown - shown.keys():
            self._spans[gone].append(moment)
        self._shown = frozenset(shown)

    def spans(self, moments: int) -> Iterator[tuple[Item, list[int]]]:
        """Yield the pieces in painting order with the moments from and to which each shows, up to ``moments``."""
        for item in self._shown:
            self._spans[item].append(moments)
        self._shown = frozenset()
        at = self._after[None]
        while at is not None:
            yield at, self._spans[at]
            at = self._after[at]

    def groups(self, moments: int) -> Iterator[Group]:
        """Yield the pieces, those that always show without moments of their own."""
        for spans, alike in groupby(self.spans(moments), key=lambda piece: piece[1]):
            yield _group([item for item, _spans in alike], spans, moments)


def _group(items: list[Item], spans: list[int], moments: int) -> Group:
    return Group("piece", tuple(items), "" if spans == [0, moments] else " ".join(map(str, spans)))
