"""Which verandah beam a fault of the site is about."""

from __future__ import annotations

import math

from trainer.layout import Layout
from trainer.layout.posts import posts
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
