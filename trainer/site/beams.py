"""Which verandah beam a fault of the site is about, and which trusses bear on it."""

from __future__ import annotations

import math

from trainer.layout import Layout
from trainer.layout.posts import beam_under, posts
from trainer.level.dangers import OF_BEAMS, OF_POSTS
from trainer.site.conditions import Flaw

SAME_POST = 1.0
"""Two beams that meet at a corner stand on one post: its middle is the same within this, mm."""


def walls_of_beams(layout: Layout, flaw: Flaw) -> frozenset[str]:
    """Return the walls whose beams a fault is about: its own, or those that its post stands under; else none."""
    if flaw.what in OF_BEAMS or flaw.what == "bowed beam":
        return frozenset({flaw.wall})
    if flaw.what not in OF_POSTS or flaw.at is None:
        return frozenset()
    found = posts(layout)
    nearest = min((math.dist(post.at, flaw.at) for post in found), default=0.0)
    return frozenset(post.wall for post in found if math.dist(post.at, flaw.at) <= nearest + SAME_POST)


def bears_on_beam(layout: Layout, place: str, walls: frozenset[str]) -> bool:
    """Whether the truss of a place bears on the beam of one of these walls."""
    found = (beam_under(layout.house.plan, end) for end in layout.by_tag[place].ends)
    return any(beam is not None and beam.wall in walls for beam in found)
