"""Item statistics: a published example, a general statistics library, and manners with few learners."""

from __future__ import annotations

import json
import random
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from typer.testing import CliRunner

from trainer.cli import app
from trainer.quiz.items import read_answers, statistics
from trainer.read import Faulty

# K. Wuensch, East Carolina University, KR20.txt: ten students, ten items.
PUBLISHED = (
    "1111110110 1011011101 1111011001 0010001000 0000010010 1110111111 1101110111 1111111101 0101111101 1101101110"
)
ROWS = [tuple(map(int, row)) for row in PUBLISHED.split()]
NAMES = tuple(f"q{n}" for n in range(1, 11))
RUNNER = CliRunner()


def a_class(learners: int, items: int, seed: int = 1) -> list[tuple[int, ...]]:
    """Answers that hang together: abler learners get more right."""
    dice = random.Random(seed)
    hard = [dice.uniform(-1.5, 1.5) for _ in range(items)]
    return [tuple(int(a + dice.gauss(0, 1) > h) for h in hard) for a in (dice.gauss(0, 1) for _ in range(learners))]


def test_the_published_example() -> None:
    found = statistics(NAMES, ROWS)
    variances = [item.p * (1 - item.p) for item in found.items]  # type: ignore[operator]
    # Published: item variances and the total's. Reckoned from them, agreeing with two general libraries: the rest.
    assert variances == pytest.approx([0.21, 0.21, 0.24, 0.21, 0.24, 0.16, 0.21, 0.21, 0.25, 0.24])
    assert found.sd is not None and found.sd**2 == pytest.approx(5.84)
    assert found.kr20 == pytest.approx(0.6963, abs=5e-5)
    assert found.sem == pytest.approx(1.332, abs=5e-4)
    assert found.items[0].point_biserial == pytest.approx(0.7946, abs=5e-5)
    assert found.items[0].rest_point_biserial == pytest.approx(0.7059, abs=5e-5)
    assert found.kr20 != pytest.approx(0.7378, abs=1e-3), "that is what the sample variance would give"


@pytest.mark.parametrize(("learners", "items"), [(12, 5), (40, 20), (150, 60)])
def test_a_general_library_agrees(learners: int, items: int) -> None:
    from scipy import stats  # takes a second to load, for whoever collects the tests too

    rows = a_class(learners, items)
    matrix = np.array(rows)
    total = matrix.sum(axis=1)
    found = statistics([str(i) for i in range(items)], rows)
    for i, item in enumerate(found.items):
        column = matrix[:, i]
        assert item.p == pytest.approx(column.mean())
        if 0 < column.mean() < 1:
            assert item.point_biserial == pytest.approx(stats.pointbiserialr(column, total).statistic)
            assert item.rest_point_biserial == pytest.approx(stats.pointbiserialr(column, total - column).statistic)
            interval = stats.binomtest(int(column.sum()), learners).proportion_ci(method="wilson")
            assert (item.p_low, item.p_high) == pytest.approx((interval.low, interval.high))
    covariance = np.cov(matrix, rowvar=False, bias=True)
    alpha = items / (items - 1) * (1 - np.trace(covariance) / covariance.sum())  # Cronbach's alpha is KR-20 for 0 and 1
    assert found.kr20 == pytest.approx(alpha)
    assert found.sem == pytest.approx(np.sqrt(covariance.sum() * (1 - alpha)))


@given(st.integers(2, 60), st.integers(2, 12), st.integers(0, 10**6))
def test_the_order_of_rows_changes_nothing(learners: int, items: int, seed: int) -> None:
    rows = a_class(learners, items, seed)
    names = [str(i) for i in range(items)]
    shuffled = random.Random(seed).sample(rows, len(rows))
    one, other = statistics(names, rows), statistics(names, shuffled)
    for a, b in zip(one.items, other.items, strict=True):
        assert a.d == pytest.approx(b.d)
        assert a.d is not None and -1 - 1e-9 <= a.d <= 1 + 1e-9


def test_discrimination_without_ties_is_upper_less_lower() -> None:
    # A hundred learners with totals all different would need a hundred items; here item k is right for totals over k.
    rows = [tuple(int(j < total) for j in range(100)) for total in range(100)]
    found = statistics([str(i) for i in range(100)], rows)
    for k in (0, 20, 50, 80):
        upper = sum(total > k for total in range(73, 100)) / 27
        lower = sum(total > k for total in range(27)) / 27
        assert found.items[k].d == pytest.approx(upper - lower)


@pytest.mark.parametrize("rows", [[], [(1, 0)], [(1, 1)] * 5, [(0, 0)] * 5, [(1, 0)] * 5])
def test_where_nothing_varies_nothing_is_claimed_and_nothing_crashes(rows: list[tuple[int, ...]]) -> None:
    found = statistics(["a", "b"], rows)
    assert found.kr20 is None and found.sem is None
    assert all(item.point_biserial is None for item in found.items)


def written(folder: Path, rows: list[tuple[int, ...]]) -> Path:
    path = folder / "answers.csv"
    lines = [",".join(f"q{n}" for n in range(1, len(rows[0]) + 1)), *(",".join(map(str, row)) for row in rows)]
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return path


def test_json_holds_the_contract(tmp_path: Path) -> None:
    result = RUNNER.invoke(app, ["items", "--csv", str(written(tmp_path, ROWS)), "--json"])
    assert result.exit_code == 0
    document = json.loads(result.stdout)
    assert {"learners", "kr20", "sem", "items"} <= set(document)
    assert document["learners"] == 10
    assert document["kr20"] == pytest.approx(0.6963, abs=5e-5)
    assert list(document["items"][0]) == ["item", "p", "d", "point_biserial", "rest_point_biserial"]


@pytest.mark.parametrize(
    ("learners", "told", "silent"),
    [
        (9, "counts only", "interval"),
        (10, "early look", "KR-20"),
        (30, "r rest", "KR-20"),
        (100, "KR-20", "early look"),
    ],
)
def test_manners_with_few_learners(tmp_path: Path, learners: int, told: str, silent: str) -> None:
    result = RUNNER.invoke(app, ["items", "--csv", str(written(tmp_path, a_class(learners, 8)))])
    assert result.exit_code == 0
    assert told in result.stdout and silent not in result.stdout
    assert "Nobody is failed on a safety item by statistics." in result.stdout


def test_every_fault_of_a_table_is_told_at_its_line() -> None:
    with pytest.raises(Faulty) as raised:
        read_answers(b"a,a,\n1,0,1\n1,2,x\n1,0\n", "t.csv")
    told = [str(fault) for fault in raised.value.faults]
    assert [fault.split(":")[1] for fault in told] == ["1", "1", "3", "3", "4"]


@given(st.binary(max_size=200))
def test_no_bytes_whatever_break_the_reading(content: bytes) -> None:
    try:
        names, rows = read_answers(content, "t.csv")
    except Faulty:
        return
    statistics(names, rows)


def test_bad_tables_leave_without_a_traceback(tmp_path: Path) -> None:
    path = tmp_path / "bad.csv"
    path.write_text("1,0\n0,1\n", encoding="utf-8")
    faulty = RUNNER.invoke(app, ["items", "--csv", str(path)])
    gone = RUNNER.invoke(app, ["items", "--csv", str(tmp_path / "none.csv")])
    assert (faulty.exit_code, gone.exit_code) == (1, 2)
    assert "Traceback" not in faulty.output + gone.output
