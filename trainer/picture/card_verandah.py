"""Beams and posts of a verandah as pieces of a card model.

A beam is a strip with a flange that is glued under the board's edge, and hangs down from it; it is cut at posts where
the paper is too short for it. A post, folded along its middle, stands behind the beam, from the table to the board.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from trainer.layout import Layout
from trainer.layout.posts import Post, free_posts
from trainer.picture.card import LEAST, Piece, Tab
from trainer.picture.verandah import DEEP
from trainer.plan import Beam

BEAM, POST = "B", "P"
"""What beams and posts are called on a model, before their number."""
FLANGE = 6.0
"""How far a beam's flange goes in under the board, mm of paper."""
LONGEST = 260.0
"""A longer strip does not fit the smallest paper, mm."""
POST_WIDE = 90.0
"""Width of a post's face, mm."""


def verandah_pieces(layout: Layout, scale: int, raised: float) -> Iterator[Piece]:
    """Yield the beams of a house and then its posts; ``raised`` is how high the board's underside is, mm of paper."""
    number = 0
    for beam in layout.house.plan.beams:
        for low, high in _lengths(layout, beam, scale):
            number += 1
            yield _beam(layout, beam, (low, high), number, scale)
    for number, post in enumerate(posts_of(layout), 1):
        yield _post(post, number, scale, raised)


def posts_of(layout: Layout) -> tuple[Post, ...]:
    """Return the posts of the model, each once: two beams share one at a corner."""
    return tuple({post.at: post for post in free_posts(layout)}.values())


def _lengths(layout: Layout, beam: Beam, scale: int) -> Iterator[tuple[float, float]]:
    """Yield the lengths a beam is cut into, at posts."""
    inside = sorted(post.run for post in free_posts(layout, beam.wall) if beam.low < post.run < beam.high)
    at = beam.low
    stops = [*inside, beam.high]
    for here, after in pairwise((*stops, math.inf)):
        if after - at > LONGEST * scale:
            yield at, here
            at = here


def _beam(layout: Layout, beam: Beam, ends: tuple[float, float], number: int, scale: int) -> Piece:
    wall, long = layout.house.plan.by_name[beam.wall], ends[1] - ends[0]
    deep, flange = max(DEEP, 2 * LEAST * scale), FLANGE * scale
    outline = ((0.0, -deep), (long, -deep), (long, 0.0), (long - flange, flange), (flange, flange), (0.0, 0.0))
    fold = Tab(
        0, ((0.0, 0.0), (long, 0.0)), ((0.0, 0.0), (flange, flange), (long - flange, flange), (long, 0.0)), False
    )
    return Piece(f"{BEAM}{number}", wall.at(ends[0]), wall.at(ends[1]), -deep, outline, (fold,), (), ())


def _post(post: Post, number: int, scale: int, raised: float) -> Piece:
    wide, high = max(POST_WIDE, 3 * LEAST * scale), raised * scale
    outline = ((0.0, 0.0), (2 * wide, 0.0), (2 * wide, high), (0.0, high))
    fold = Tab(0, ((wide, 0.0), (wide, high)), ((wide, 0.0), (2 * wide, 0.0), (2 * wide, high), (wide, high)), False)
    return Piece(f"{POST}{number}", post.at, (post.at[0] + 2 * wide, post.at[1]), 0.0, outline, (fold,), (), ())
