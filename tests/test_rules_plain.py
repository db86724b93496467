"""Lengths and masses in findings: what is over a limit never reads like the limit."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.rules.plain import kg, mm


@pytest.mark.parametrize(
    ("length", "limit", "words"),
    [(10.2, 10, "10.2 mm"), (10.6, 10, "11 mm"), (10.04, 10, "10.04 mm"), (10, 10, "10 mm"), (1812.4, None, "1812 mm")],
)
def test_a_length_is_as_fine_as_it_takes_beside_its_limit(length: float, limit: float | None, words: str) -> None:
    assert mm(length, limit) == words


@given(st.integers(1, 9000), st.floats(0.01, 50))
def test_what_is_over_a_limit_never_reads_like_it(limit: int, over: float) -> None:
    for say in (mm, kg):
        got, most = say(limit + over, limit).split()[0], say(limit).split()[0]
        assert float(got) > float(most)
