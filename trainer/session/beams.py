"""What a level says of beams and posts on its site, held against the beams that the house has."""

from __future__ import annotations

import math
from collections.abc import Iterator

from trainer.layout import Layout
from trainer.layout.posts import NEAR, free_posts
from trainer.level import Level
from trainer.level.dangers import OF_BEAMS, OF_POSTS, Danger
from trainer.read import Where
from trainer.words import _, listed


def on_a_beam(danger: Danger, layout: Layout) -> bool:
    """Whether a danger of a beam is on a wall that has one; of any other danger nothing is asked."""
    return danger.what not in OF_BEAMS or danger.wall in {beam.wall for beam in layout.house.plan.beams}


def at_a_post(danger: Danger, layout: Layout) -> bool:
    """Whether a danger of a post lies at one that stands free; of any other danger nothing is asked."""
    at = danger.at
    if danger.what not in OF_POSTS or at is None:
        return True
    return any(math.dist(post.at, at) <= NEAR for post in free_posts(layout))


def beam_site_faults(level: Level, layout: Layout) -> Iterator[tuple[Where, str]]:
    """Yield (path in the level file, what is wrong) for faults of beams and posts where the house has none."""
    beams = sorted({beam.wall for beam in layout.house.plan.beams})
    there = _("beams are on {walls}").format(walls=", ".join(beams)) if beams else _("this house has none")
    for i, wall in enumerate(level.site.walls):
        if wall.fault == "bowed beam" and wall.wall not in beams and wall.wall in layout.house.plan.by_name:
            yield ("site", "walls", i, "wall"), _("has no beam; {there}").format(there=there)
    for i, danger in enumerate(level.site.dangers):
        if danger.wall in layout.house.plan.by_name and not on_a_beam(danger, layout):
            yield ("site", "dangers", i, "wall"), _("has no beam; {there}").format(there=there)
        if not at_a_post(danger, layout):
            places = [f"[{post.at[0]:g}, {post.at[1]:g}]" for post in free_posts(layout)]
            text = (
                _("lies at no post; posts stand at {places}") if places else _("lies at no post; this house has none")
            )
            yield ("site", "dangers", i, "at"), text.format(places=listed(places))
