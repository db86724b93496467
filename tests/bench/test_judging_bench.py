"""How long a round of ten more actions and their ten undos takes: a twentieth of what is printed is one action.

By hand only: ``pytest tests/bench --benchmark-only``. In processor time; ``action_times.py`` has each action.
"""

import time

import pytest

from trainer.level import parse_level
from trainer.rehearse import rehearse
from trainer.session import Session

LARGE = """\
schema: 1
id: bench
title: A large house, for measuring only
brief: Invented for measuring.
plates: {outline: [[0, 0], [60000, 0], [60000, 9000], [45000, 9000], [45000, 24000], [36000, 24000], [36000, 9000],
                   [24000, 9000], [24000, 24000], [15000, 24000], [15000, 9000], [0, 9000]], width: 90}
roof: {pitch: 22.5, overhang: 600, heel: 90}
trusses: {spacing: 450, setback: 1800}
"""


@pytest.fixture(scope="module")
def attempt():
    level = parse_level(LARGE, "bench.yaml")
    session = Session(level, seed=1)
    assert len(session.job.layout.members) >= 300
    return level, session.job.layout, rehearse(level, 1).actions


@pytest.mark.benchmark(group="ten more actions and their ten undos, on 300 trusses", timer=time.process_time)
@pytest.mark.parametrize("before", [60, 600, 1100])
def test_ten_more_actions_and_their_ten_undos(benchmark, attempt, before):
    level, layout, actions = attempt
    session = Session(level, seed=1, layout=layout).replay(actions[:before])

    def ten_and_back():
        for action in actions[before : before + 10]:
            session.do(action)
        for _ in range(10):
            session.undo()

    benchmark(ten_and_back)
    assert not session.findings


@pytest.mark.benchmark(group="grade a whole diary")
def test_a_whole_diary(benchmark, attempt):
    level, layout, actions = attempt
    session = benchmark(lambda: Session(level, seed=1, layout=layout).replay(actions[:600]))
    assert not session.findings
