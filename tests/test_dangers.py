"""Dangers thought out as a carpenter would see them: each is found at its moment, and as bad as it is.

The cases are written by hand from the trade brief (common practice, no source, unless a case names one). What is
wanted is the member, the moment and the severity; a rule's name only where a case gives one. Nothing may be found
before, and with ``only`` nothing after; what else is wrong with a case by the way, such as a habit, is its ``aside``.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from case_diaries import Diary, cases_in
from sizes import some

CASES = cases_in("dangers")


def said(finding: dict[str, Any]) -> str:
    return f"{finding['event']} {finding['severity']} {finding['rule']} {finding['member']}: {finding['what']}"


def is_it(finding: dict[str, Any], wanted: dict[str, Any]) -> bool:
    members = wanted.get("member", finding["member"])
    return (
        finding["severity"] == wanted["severity"]
        and finding["member"] in ([members] if isinstance(members, str) else members)
        and finding["rule"] == wanted.get("rule", finding["rule"])
    )


@pytest.mark.parametrize("case", [pytest.param(case, id=name) for name, case in some(CASES, 60)])
def test_danger(case: dict[str, Any], tmp_path: Path) -> None:
    diary = Diary(case, tmp_path)
    judged = diary.judged(tmp_path)
    found = judged["findings"]
    log = "\n".join([case["says"], *map(said, found), *(f"refused {r}" for r in judged["refused"])])
    moments = [(diary.moment(wanted["at"]), wanted) for wanted in case["finds"]]
    for moment, wanted in moments:
        assert any(f["event"] == moment and is_it(f, wanted) for f in found), (
            f"not found at {moment} {diary.actions[moment]}: {wanted}\n{log}"
        )
    first, aside = min(moment for moment, _ in moments), case.get("aside", [])
    early = [f for f in found if f["event"] < first and f["rule"] not in aside]
    assert not early, f"found before anything was wrong\n{log}"
    if case.get("only"):
        assert len(found) == len(moments), f"more was found than was wrong\n{log}"
    if "outcome" in case:
        assert judged["outcome"] == case["outcome"], log


def test_there_are_enough() -> None:
    assert len(CASES) >= 200
    assert len({case["danger"] for _, case in CASES}) >= 30
    assert len({name for name, _ in CASES}) == len(CASES)
