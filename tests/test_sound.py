"""Sound but unusual ways to build, which are not marked down at all: read from the trade brief, written by hand.

Common practice, no source: "more than one order is right", and "asking is never wrong".
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from case_diaries import Diary, cases_in
from sizes import some

CASES = cases_in("sound")


@pytest.mark.parametrize("case", [pytest.param(case, id=name) for name, case in some(CASES, 20)])
def test_sound(case: dict[str, Any], tmp_path: Path) -> None:
    judged = Diary(case, tmp_path).judged(tmp_path)
    found = [f"{f['event']} {f['severity']} {f['rule']} {f['member']}: {f['what']}" for f in judged["findings"]]
    assert not found, "\n".join([case["says"], *found])
    assert judged["outcome"] == case.get("outcome", "met")
    assert judged["score"] == 100


def test_there_are_enough() -> None:
    assert len(CASES) >= 50
    assert len({name for name, _ in CASES}) == len(CASES)
