"""A robot plays every level of the course, and new ones, by the board's own tools: no finding, and none skipped."""

import pytest
from attempts import layout_of, level_of
from board_robot import played
from sizes import by_size, some

from trainer.generate import make_level
from trainer.layout import lay_out
from trainer.rehearse import rehearse
from trainer.session import Session
from trainer.shipped import level_paths

IDS = [path.stem for path in level_paths()]
EACH = by_size(1, 2, 20)
"""New levels of each difficulty; 20 make the 200 of a full run."""
SEEDS = range(by_size(1, 1, 5))


@pytest.mark.parametrize("name", some(IDS, 6, 26))
def test_it_plays_every_level_of_the_course(name: str) -> None:
    for seed in SEEDS:
        diary = rehearse(level_of(name), seed, layout=layout_of(name))
        done = played(level_of(name), diary.actions, Session(level_of(name), seed, layout=layout_of(name)))
        assert done.site.handed_over
        assert (done.findings, done.refused) == ((), ())


@pytest.mark.parametrize("hard", some(range(1, 11), 5))
def test_it_plays_new_levels(hard: int) -> None:
    for seed in range(EACH):
        level = make_level(seed, hard)
        layout = lay_out(level.house())
        diary = rehearse(level, seed, layout=layout)
        done = played(level, diary.actions, Session(level, seed, layout=layout))
        assert done.site.handed_over
        assert (done.findings, done.refused) == ((), ())
