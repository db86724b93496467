"""Houses of one family: no two alike, and as much work of the same kind for everybody."""

from __future__ import annotations

from collections import Counter

import pytest
from sizes import some

from trainer.generate import SHAPES, CannotMake, make_family
from trainer.layout import lay_out
from trainer.level import Level, parse_level, write_level

CLASS = 5


def faults(level: Level) -> Counter[str]:
    """What is wrong on a site, by kind."""
    site = level.site
    wrong: list[str] = [*(wall.fault for wall in site.walls), *(truss.fault for truss in site.delivery)]
    return Counter([*wrong, *(danger.what for danger in site.dangers)])


@pytest.mark.parametrize("shape", some(sorted(SHAPES), 2, 8))
def test_a_family_differs_in_its_houses_and_not_in_its_work(shape: str) -> None:
    levels = make_family(11, SHAPES[shape].hardest, shape, CLASS)
    assert len({(level.plates.outline, level.roof.pitch) for level in levels}) == CLASS
    layouts = [lay_out(level.house()) for level in levels]
    counts = [len(layout.members) for layout in layouts]
    assert max(counts) <= 1.05 * min(counts)
    assert len({frozenset(member.kind for member in layout.members) for layout in layouts}) == 1
    assert len({level.lesson.stages for level in levels}) == 1
    assert all(faults(level) == faults(levels[0]) for level in levels)
    for level in levels:
        assert parse_level(write_level(level), "made") == level
    assert make_family(11, SHAPES[shape].hardest, shape, CLASS) == levels


def test_where_the_faults_are_differs_too() -> None:
    levels = make_family(3, 8, "z", CLASS)
    assert faults(levels[0])
    assert len({tuple(truss.truss for truss in level.site.delivery) for level in levels}) > 1


def test_a_shape_that_is_none_is_said() -> None:
    with pytest.raises(CannotMake, match="no shape is called"):
        make_family(1, 5, "zigzag", 2)
