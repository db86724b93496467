"""Houses of one family: as much work and of the same kind, and no two alike, so that nobody copies a neighbour's."""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable

from trainer.generate.draw import Draw
from trainer.generate.make import CannotMake, drawn_level
from trainer.layout import Layout, lay_out
from trainer.level import Level
from trainer.words import ngettext

WITHIN = 0.05
"""The most trusses of a family are so much more than the fewest, as a part of them."""
TRIES = 60
"""So many houses are tried for each that is wanted, before it is said that there are no more."""


def make_family(seed: int, hard: int, shape: str | None, count: int) -> tuple[Level, ...]:
    """Return ``count`` new levels of one family; the same for the same seed, difficulty, shape and count.

    They have the same shape, stages, kinds of truss and kinds of fault, trusses within :data:`WITHIN`; their measures,
    which way round they lie, and where the faults are differ.

    :raises CannotMake: where there is no such shape, or not so many houses of it.
    """
    found: list[Level] = []
    taken: set[Hashable] = set()
    traits: Hashable = None
    least = most = 0
    for variant in range(count * TRIES):
        if len(found) == count:
            break
        level = drawn_level(Draw(seed, hard, variant=variant), shape)
        layout = lay_out(level.house())
        n, own_shape = len(layout.members), (level.plates.outline, level.roof.pitch)
        own = _traits(level, layout)
        low, high = (min(least, n), max(most, n)) if found else (n, n)
        if own_shape in taken or (found and own != traits) or high - low > WITHIN * low:
            continue
        found.append(level)
        taken.add(own_shape)
        traits, least, most = own, low, high
    if len(found) < count:
        text = ngettext(
            "there is only {n} house of this shape and difficulty, and {count} are wanted; choose another",
            "there are only {n} houses of this shape and difficulty, and {count} are wanted; choose another",
            len(found),
        )
        raise CannotMake(text.format(n=len(found), count=count))
    return tuple(found)


def _traits(level: Level, layout: Layout) -> Hashable:
    """What houses of a family have in common, beside their shape."""
    site = level.site
    wrong: list[str] = [*(wall.fault for wall in site.walls), *(truss.fault for truss in site.delivery)]
    wrong += (danger.what for danger in site.dangers)
    asked = (site.wind, site.lifting is not None, site.loading, site.day)
    kinds = frozenset(member.kind for member in layout.members)
    return level.lesson.stages, kinds, frozenset(Counter(wrong).items()), asked
