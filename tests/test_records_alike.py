"""Whose work is too like another's: copies are seen though changed, and honest people at the same house are not."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from attempts import level_of
from records_made import NOON, acted, chain, ended, house_begun, opening
from sizes import by_size
from test_records_cli import run

from trainer.records.alike import course_of, same_order
from trainer.records.attempt import Attempt
from trainer.records.clock import now
from trainer.records.record_file import write_record
from trainer.records.remarks import copies
from trainer.rehearse import rehearse
from trainer.rehearse.playing import actions_of
from trainer.rehearse.sequence import tidy_sequence
from trainer.rules import Finding
from trainer.session import job_of

Action = dict[str, Any]
HOUSES = by_size(("pardalote",), ("pardalote", "fantail"), ("pardalote", "thornbill", "fantail", "wren", "lorikeet"))
ORDERS = by_size(8, 12, 40)


def as_lines(actions: Any) -> list[Action]:
    return [each.model_dump(mode="json", by_alias=True, exclude_none=True) for each in actions]


@cache
def right(house: str, seed: int) -> list[Action]:
    return as_lines(rehearse(level_of(house), seed).actions)


@cache
def tidy(house: str, seed: int) -> list[Action]:
    """As tidily as a film shows it: what two careful people would come nearest to."""
    job = job_of(level_of(house), 7)
    return as_lines(actions_of(job, tidy_sequence(job.layout, job.order, seed), seed))


def sat(
    code: str, seed: int, actions: list[Action], apart: int = 900, wrong: dict[int, str] | None = None,
    mode: str = "assessment", began: int = NOON,
) -> Attempt:  # fmt: skip
    """What ``code`` did, an act each ``apart`` ms; ``wrong`` are acts with the rule that each broke."""
    found = {
        n: [Finding(rule, n, "T1", "rework", "", "", "", "", "", "", "")] for n, rule in (wrong or {}).items()
    }  # fmt: skip
    acts = [acted(began + n * apart, n, action, found.get(n, [])) for n, action in enumerate(actions)]
    first = {**opening(seed, code, mode), "at": began}
    done = began + len(acts) * apart
    return Attempt(chain(first, house_begun(began, "pardalote", "invented", 1), *acts, ended(done)))


def seen(*attempts: Attempt) -> dict[str, str]:
    found = copies(attempts)
    return {each.code: found[each.id] for each in attempts if each.id in found}


def changed(actions: list[Action], *places: int) -> list[Action]:
    return [{**each, "at": 1234} if n in places else each for n, each in enumerate(actions)]


@pytest.mark.parametrize("house", HOUSES)
def test_right_orders_and_the_tidiest_ones_are_each_ones_own(house: str) -> None:
    made = [*(right(house, seed) for seed in range(ORDERS)), *(tidy(house, seed) for seed in range(ORDERS))]
    once = list({json.dumps(each): each for each in made}.values())
    courses = {
        str(n): [course_of(house, 0, [{"at": n + k * (900 + n), "action": a, "found": []} for k, a in enumerate(each)])]
        for n, each in enumerate(once)
    }
    assert len(once) > ORDERS
    assert same_order(courses) == set()


def test_one_act_changed_hides_no_copy() -> None:
    whole = right("pardalote", 1)
    first = sat("wren-07", 1, whole)
    for other in (whole, changed(whole, 50), whole[:-1], [*whole[:40], whole[40], *whole[40:]]):
        found = seen(first, sat("owl-02", 2, other, apart=1700))
        assert set(found) == {"wren-07", "owl-02"}
        assert "in the same order as in owl-02" in found["wren-07"]
        assert "Ask both how they came to that." in found["owl-02"]
    assert seen(first, sat("owl-02", 2, right("pardalote", 2))) == {}, "another right order"
    assert seen(first, sat("wren-07", 2, whole, apart=1700)) == {}, "the same person, once more"


def test_marks_shuffled_and_neighbours_that_changed_places_hide_no_copy() -> None:
    whole = right("pardalote", 1)
    marks = [n for n, each in enumerate(whole) if each["do"] == "mark"]
    shuffled = list(whole)
    for n, other in zip(marks, marks[::-1], strict=True):
        shuffled[n] = whole[other]
    for n in (len(whole) - 50, len(whole) - 30, len(whole) - 10):
        shuffled[n], shuffled[n + 1] = shuffled[n + 1], shuffled[n]
    assert sum(one != other for one, other in zip(whole, shuffled, strict=True)) > 10
    found = seen(sat("wren-07", 1, whole), sat("owl-02", 2, shuffled, apart=1700))
    assert set(found) == {"wren-07", "owl-02"}


def test_a_copy_with_the_times_is_seen_though_half_of_it_was_changed() -> None:
    whole = right("pardalote", 1)
    half = changed(whole, *range(0, len(whole), 3))
    found = seen(sat("wren-07", 1, whole), sat("owl-02", 2, half))
    assert all("to the millisecond. One of them is a copy." in text for text in found.values()) and len(found) == 2
    assert len(seen(sat("wren-07", 1, whole), sat("owl-02", 2, whole[:30]))) == 2, "and the beginning of one, too"
    assert seen(sat("wren-07", 1, whole), sat("owl-02", 2, whole[:30], apart=901)) == {}


def test_the_same_mistakes_at_the_same_places_are_seen_at_fewer_acts_in_common() -> None:
    whole = right("pardalote", 1)
    other = changed(whole, 30, 45, 60)
    wrong = {20: "a", 25: "b", 50: "c"}
    found = seen(sat("wren-07", 1, whole, wrong=wrong), sat("owl-02", 2, other, 1700, wrong))
    assert len(found) == 2 and "the same mistakes at the same places as wren-07" in found["owl-02"]
    elsewhere = {21: "a", 26: "b", 51: "c"}
    assert seen(sat("wren-07", 1, whole, wrong=wrong), sat("owl-02", 2, other, 1700, elsewhere)) == {}
    one_kind = dict.fromkeys(range(20, 44), "a")
    assert seen(sat("wren-07", 1, whole, wrong=one_kind), sat("owl-02", 2, other, 1700, one_kind)) == {}


def test_setting_out_alone_and_practice_have_one_order_for_all() -> None:
    marks = [{"do": "mark", "wall": "A", "at": n} for n in range(80)]
    assert seen(sat("wren-07", 1, marks), sat("owl-02", 2, marks, 1700)) == {}
    whole = right("pardalote", 1)
    hinted = [sat(code, n, whole, 900 + n, mode="practice") for n, code in enumerate(("wren-07", "owl-02"))]
    assert seen(*hinted) == {}
    assert len(seen(*[sat(code, n, whole, mode="practice") for n, code in enumerate(("wren-07", "owl-02"))])) == 2


def test_of_many_alike_the_first_few_are_named() -> None:
    found = seen(*(sat(f"emu-{n}", n, right("pardalote", 1), 900 + n) for n in range(6)))
    assert "and 2 more" in found["emu-0"] and "emu-1" in found["emu-0"] and len(found) == 6


def test_copies_and_dates_of_the_future_are_seen_wherever_one_looks(tmp_path: Path) -> None:
    whole = right("pardalote", 1)
    late = now() + 10**9
    made = [sat("wren-07", 1, whole, began=late), sat("owl-02", 2, changed(whole, 50), 1700, began=late)]
    folder, data = tmp_path / "results", tmp_path / "d"
    folder.mkdir()
    for each in made:
        (folder / f"{each.code}.attempt.json").write_bytes(write_record(each))
    _out, collected = run("records", "collect", folder, "--data", data)
    listed = run("records", "list", "--code", "owl-02", "--data", data)[0]
    verified = run("verify", folder / "owl-02.attempt.json", "--data", data, leaves=0)[0]
    texts = [collected, listed, verified]
    run("report", made[1].id[:8], "-o", tmp_path / "one.html", "--data", data)
    texts.append((tmp_path / "one.html").read_text(encoding="utf-8"))
    run("records", "export", "--as", "csv", "--code", "owl-02", "-o", tmp_path / "all.csv", "--data", data)
    texts.append((tmp_path / "all.csv").read_text(encoding="utf-8"))
    for n, text in enumerate(texts):
        words = " ".join(text.replace("&#39;", "'").split())
        assert "in the same order as in wren-07" in words, n
        assert "later than this machine's clock shows" in words, n
