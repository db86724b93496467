"""Every mistake is found wherever it can occur, alone and beside another; and a right order is never marked down.

A sample by default; ``TRAINER_FULL=1`` takes every rule on every level in 20 orders, 10 pairs for each rule, and 200
right orders for each level. ``python tests/recall.py`` prints the table.
"""

import os

import pytest
from attempts import LEVELS, layout_of
from recall import forget, marked_down, pair, trouble

from trainer.rehearse import mistakes

FULL = os.environ.get("TRAINER_FULL") == "1"
ORDERS = range(20 if FULL else 1)
PAIRS = range(10 if FULL else 1)
RIGHTS = range(200 if FULL else 1)
NAMES = mistakes()
BY_SIZE = sorted(LEVELS, key=lambda level: len(layout_of(level).members))
"""Every level, the smallest first."""
TRUSSES = 600
"""Of a level with more trusses than this shared out among its rules, fewer rules are sampled."""


def sample(level):
    """Which rules are planted on a level: all; or every so many, from another start on each, fewer on a large one."""
    many = max(2, min(10, TRUSSES // len(layout_of(level).members)))
    step = -(-len(NAMES) // many)
    return NAMES if FULL else NAMES[BY_SIZE.index(level) % step :: step]


@pytest.fixture(autouse=True)
def _forgotten():
    yield
    forget()


@pytest.mark.parametrize("level", LEVELS)
def test_a_planted_mistake_is_found_and_nothing_else(level):
    told = [trouble(level, 100 + seed, name) for name in sample(level) for seed in ORDERS]
    assert not [said for said in told if said]


def test_the_sample_takes_in_every_rule():
    assert {name for level in LEVELS for name in sample(level)} == set(NAMES)


@pytest.mark.parametrize("level", LEVELS if FULL else BY_SIZE[:12])
def test_two_mistakes_in_one_diary_are_both_found(level):
    names = sample(level)
    told = [
        pair(level, 200 + seed, name, names[(k + 1 + seed) % len(names)])
        for k, name in enumerate(names)
        for seed in PAIRS
    ]
    assert not [said for said in told if said]


@pytest.mark.parametrize("level", LEVELS if FULL else BY_SIZE[::4])
def test_a_right_order_is_never_marked_down(level):
    for seed in RIGHTS:
        assert marked_down(level, 300 + seed) == []
