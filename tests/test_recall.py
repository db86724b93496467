"""Every mistake is found wherever it can occur, alone and beside another; and a right order is never marked down.

A sample by default; ``TRAINER_FULL=1`` takes every rule on every level in 20 orders, 10 pairs for each rule, and 200
right orders for each level. ``python tests/recall.py`` prints the table.
"""

import pytest
from attempts import LEVELS, layout_of
from recall import alone, in_pairs, not_at_all, pair
from sizes import FULL, by_size

from trainer.rehearse import mistakes

ORDERS = by_size(range(1), range(100, 101), range(100, 120))
"""Plain it is the order that other tests have played already."""
PAIRS = range(200, 200 + by_size(1, 1, 10))
RIGHTS = range(300, 300 + by_size(1, 2, 200))
NAMES = mistakes()
BY_SIZE = sorted(LEVELS, key=lambda level: len(layout_of(level).members))
"""Every level, the smallest first."""
TRIED = BY_SIZE[: by_size(24, len(BY_SIZE), len(BY_SIZE))]
"""The levels that mistakes are planted on."""
TRUSSES = by_size(400, 800, 0)
"""Of a level with more trusses than this shared out among its rules, fewer rules are sampled."""


def sample(level):
    """Which rules are planted on a level: all; or every so many, from another start on each, fewer on a large one."""
    many = max(2, min(by_size(5, 10, 0), TRUSSES // len(layout_of(level).members)))
    step = -(-len(NAMES) // many)
    return NAMES if FULL else NAMES[BY_SIZE.index(level) % step :: step]


@pytest.mark.parametrize("level", TRIED)
def test_a_planted_mistake_is_found_and_nothing_else(level):
    assert not [said for _name, said in alone(level, ORDERS, sample(level)) if said]


def test_the_sample_takes_in_every_rule():
    assert {name for level in TRIED for name in sample(level)} == set(NAMES)


@pytest.mark.parametrize("level", LEVELS if FULL else BY_SIZE[: by_size(6, 24, 0)])
def test_two_mistakes_in_one_diary_are_both_found(level):
    assert not [said for said in in_pairs(level, PAIRS, sample(level)) if said]


@pytest.mark.parametrize("level", LEVELS if FULL else BY_SIZE[:: by_size(12, 2, 1)])
def test_a_right_order_is_never_marked_down(level):
    assert not [down for down in not_at_all(level, RIGHTS) if down]


def test_a_wrong_truss_elsewhere_is_not_the_first_one_on_its_own_wall() -> None:
    """Found by the whole trial alone: the truss whose place is on a bowed beam stands in another's place by then."""
    assert pair("lapwing", 6, "wrong-truss-for-place", "plate-out-of-true") == ""
