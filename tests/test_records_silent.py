"""Of an assessment nothing is said before its close, by whichever command and on whichever screen it is asked for."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from records_made import BY_HAND, NOON, Clock, uuid_of
from test_records_cli import run

from trainer.records.answers import history
from trainer.records.attempt import Attempt
from trainer.records.keys import new_key
from trainer.records.pack import make_pack, make_ticket
from trainer.records.practice import times_of
from trainer.records.progress import progress
from trainer.records.sitting import OpenSitting
from trainer.records.store import FILE, Store
from trainer.records.verify import examine_marks
from trainer.rehearse import rehearse
from trainer.rules import title_of
from trainer.shipped import find_level
from trainer.shipped.course import course

MISTAKE = "taken-down-again"
KEY = new_key()
TEXTS = [find_level(name).read_text(encoding="utf-8") for name in ("thornbill", "wren")]


@pytest.fixture(scope="module")
def seat(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A data folder: of two houses to be sat the first is handed over, with a mistake in it, and marked."""
    folder, clock = tmp_path_factory.mktemp("seat"), Clock(BY_HAND)
    pack = make_pack(KEY, "Invented", TEXTS, NOON - 9, 7)
    ticket = make_ticket(KEY, pack, "wren-07", "ab" * 16, NOON - 1, NOON + 10**9)
    with Store.open(folder / FILE) as store:
        sitting = OpenSitting.begin(store, pack, "wren-07", ticket, uuid_of(1), KEY, clock)
        assert sitting.session is not None
        for action in rehearse(sitting.session.level, sitting.session.job.seed, MISTAKE).actions:
            sitting.do(action)
        sitting.next()
        (left,) = store.unfinished()
    found = {fact["rule"] for act in left.houses[0].acts for fact in act["found"]}
    assert MISTAKE in found and left.houses[0].mark is not None, "there is something that could be let slip"
    return folder


def lets_slip(text: str) -> bool:
    """Whether it names the mistake, or has a mark of 100 or a little less."""
    return MISTAKE in text or title_of(MISTAKE) in text or bool(re.search(r"\b(?:9\d|100)\b(?! ?%)", text))


@pytest.mark.parametrize("form", ["files", "lines", "csv", "xapi"])
def test_an_export_leaves_an_open_assessment_out_and_says_so(form: str, seat: Path, tmp_path: Path) -> None:
    said = "".join(run("records", "export", "-o", tmp_path / "out", "--as", form, "--data", seat))
    assert "1 assessment is not closed yet and was left out" in said
    for path in (path for path in tmp_path.rglob("*") if path.is_file()):
        assert not lets_slip(path.read_text(encoding="utf-8")) and "wren-07" not in path.read_text(encoding="utf-8")


def test_a_report_on_the_class_says_only_that_it_goes_on(seat: Path, tmp_path: Path) -> None:
    run("report", "-o", tmp_path / "class.csv", "--data", seat)
    first = (tmp_path / "class.csv").read_text(encoding="utf-8").splitlines()[1]
    assert first.startswith("wren-07,thornbill,1,,,,") and not lets_slip(first)
    run("report", "-o", tmp_path / "class.html", "--data", seat)
    page = (tmp_path / "class.html").read_text(encoding="utf-8")
    assert "going on" in page and title_of(MISTAKE) not in page


@pytest.mark.parametrize("words", [("records", "list"), ("records", "show", uuid_of(1)[:8]), ("regrade",), ("verify",)])
def test_no_list_and_no_look_says_how_it_goes(words: tuple[str, ...], seat: Path) -> None:
    given = [seat / FILE] if words == ("verify",) else []
    assert not lets_slip(
        re.sub(r"[0-9a-f]{8}(-[0-9a-f]{4})*|\d\d:\d\d", "", "".join(run(*words, *given, "--data", seat)))
    )


def test_what_comes_next_does_not_follow_from_it_before_the_close(seat: Path) -> None:
    def follows(store: Store) -> list[bool]:
        told = (progress(store.outlines(), "wren-07"), history(store, "wren-07"), times_of(store, "wren-07", course()))
        return [bool(each) for each in told]

    with Store.open(seat / FILE) as store:
        assert follows(store) == [False, False, False]


def test_once_it_is_closed_all_of_it_is_said(seat: Path, tmp_path: Path) -> None:
    with Store.read(seat / FILE) as store:
        (left,) = store.unfinished()
    with Store.open(tmp_path / FILE) as store:
        told = [dict(each.body) for each in left.entries]
        tip = store.begin(*told)
        store.append(tip, {"kind": "close", "at": NOON + 10**6})
        made = store.attempts(left.id)[0]
        assert made.veiled is made and progress(store.outlines(), "wren-07") and history(store, "wren-07")
    assert "same mark" in examine_marks(made)[0].text
    run("records", "export", "-o", tmp_path / "out", "--as", "lines", "--data", tmp_path)
    assert MISTAKE in (tmp_path / "out").read_text(encoding="utf-8")


def test_a_mark_that_its_acts_do_not_come_to_still_fails_before_the_close(seat: Path) -> None:
    with Store.read(seat / FILE) as store:
        (left,) = store.unfinished()
    assert [each.state for each in examine_marks(left)] == ["holds", "holds"]
    body = {**next(each.body for each in left.entries if each.body["kind"] == "mark"), "score": 3}
    changed = tuple(type(each)(body, each.hash) if each.body["kind"] == "mark" else each for each in left.entries)
    said = examine_marks(Attempt(changed))[0]
    assert said.state == "fails" and "3" not in said.text.replace("thornbill", "")
