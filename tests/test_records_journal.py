"""The journal in a session: written before it is shown, resumed where it stopped, judged again to the same mark."""

from __future__ import annotations

import itertools
from collections.abc import Callable
from pathlib import Path

import pytest
from attempts import level_of, right
from records_made import NOON, chain, house_begun, marked, opening, uuid_of
from sizes import some

from trainer.read import Faulty
from trainer.records.attempt import Attempt
from trainer.records.chain import link
from trainer.records.edition import editions
from trainer.records.errors import Busy
from trainer.records.journal import Journal
from trainer.records.judging import judge_again, mark_of, moved_on
from trainer.records.keys import new_key
from trainer.records.record_file import read_record, write_record
from trainer.records.store import FILE, Store
from trainer.records.verify import examine_marks
from trainer.rehearse import rehearse
from trainer.shipped import find_level
from trainer.site import HandOver, Stand
from trainer.site.actions import Undo
from trainer.terms import Mode

SEAT = new_key()
MISTAKES = (None, "end-for-end", "tie-down-missing", "carried-before-carrier", "truss-missing")


def clock() -> Callable[[], int]:
    ticks = itertools.count(NOON, 1500)
    return lambda: next(ticks)


def text_of(level: str) -> str:
    return find_level(level).read_text(encoding="utf-8")


def begun(store: Store, seed: int = 1, mode: Mode = "practice") -> Journal:
    return Journal.begin(store, uuid_of(seed), "wren-07", mode, clock())


@pytest.mark.parametrize("mistake", some(MISTAKES, 2))
def test_judged_again_an_attempt_comes_to_the_same_mark(mistake: str | None, tmp_path: Path) -> None:
    diary = rehearse(level_of("wren"), 3, mistake)
    with Store.open(tmp_path / FILE) as store:
        journal = begun(store, mode="assessment")
        session = journal.house(text_of("wren"), diary.seed, "wren.yaml").replay(diary.actions)
        journal.mark(session)
        code = journal.finish(SEAT).head_code
        made = store.attempts(uuid_of(1))[0]
    assert made.head_code == code
    assert made.closed
    got = mark_of(session)
    assert (got.score < 100) == (mistake is not None)
    (judged,) = judge_again(read_record(write_record(made), "it").attempt)
    assert judged.same
    assert judged.then == judged.now == (got.score, got.outcome)
    assert not moved_on(made)
    assert [each.state for each in examine_marks(made)] == ["holds"]
    recorded = [found["rule"] for act in made.houses[0].acts for found in act["found"]]
    assert recorded == [finding.rule for finding in session.findings]


def test_hints_are_in_the_record_and_judged_again_they_cost_the_same(tmp_path: Path) -> None:
    diary = rehearse(level_of("wren"), 3)
    text = text_of("wren").replace("lesson:\n", "lesson:\n  hint_cost: 2\n")
    with Store.open(tmp_path / FILE) as store:
        journal = begun(store)
        session = journal.house(text, diary.seed, "wren.yaml")
        for number, action in enumerate(diary.actions):
            if number in (4, 9):
                session.take_hint()
            session.do(action)
        journal.mark(session)
        journal.finish(SEAT)
        made = store.attempts(uuid_of(1))[0]
    (judged,) = judge_again(read_record(write_record(made), "it").attempt)
    assert judged.same
    assert judged.then == (96, "met")
    assert [number for number, act in enumerate(made.houses[0].acts) if act.get("hinted")] == [4, 9]


def test_a_mark_that_its_actions_do_not_come_to_shows(tmp_path: Path) -> None:
    diary = rehearse(level_of("wren"), 3, "end-for-end")
    with Store.open(tmp_path / FILE) as store:
        journal = begun(store)
        journal.mark(journal.house(text_of("wren"), diary.seed, "wren.yaml").replay(diary.actions))
        made = journal.attempt()
    better = [dict(entry.body) for entry in made.entries]
    better[-1] |= {"score": 100, "outcome": "met"}
    anew = Attempt(link(bytes(32), better))
    assert anew.fault is None
    assert [each.state for each in examine_marks(anew)] == ["fails"]
    hidden = [{**body, "found": []} if body["kind"] == "act" else body for body in better]
    assert [each.state for each in examine_marks(Attempt(link(bytes(32), hidden)))] == ["fails"]
    older = [{**better[0], "editions": {**editions(), "rules": "older"}}, *better[1:]]
    (said,) = examine_marks(Attempt(link(bytes(32), older)))
    assert said.state == "unknown"
    assert "The mark was 100 (met) and would now be" in said.text


def test_an_action_is_on_the_disk_before_its_findings_are_returned(tmp_path: Path) -> None:
    path = tmp_path / FILE
    diary = rehearse(level_of("wren"), 1)
    with Store.open(path) as store:
        journal = begun(store)
        session = journal.house(text_of("wren"), diary.seed, "wren.yaml")
        for done, action in enumerate(diary.actions[:20], 1):
            session.do(action)
            with Store.read(path) as other:
                assert len(other.attempts(uuid_of(1))[0].houses[0].acts) == done


def test_what_can_not_be_written_was_not_done(tmp_path: Path) -> None:
    path = tmp_path / FILE
    first, second, *_rest = right("wren", 1)
    with Store.open(path, patience=20) as store, Store.open(path) as other:
        journal = begun(store)
        session = journal.house(text_of("wren"), 1, "wren.yaml")
        session.do(first)
        before = session.site
        with other.writing(), pytest.raises(Busy):
            session.do(second)
        assert session.site is before
        assert len(session.outcomes) == 1
        session.do(second)
        assert [act["index"] for act in journal.attempt().houses[0].acts] == [0, 1]


@pytest.mark.parametrize("stopped", some([0, 1, 57, 200], 2))
def test_an_attempt_goes_on_where_it_stopped(stopped: int, tmp_path: Path) -> None:
    path = tmp_path / FILE
    diary = rehearse(level_of("wren"), 5)
    with Store.open(path) as store:
        begun(store).house(text_of("wren"), diary.seed, "wren.yaml").replay(diary.actions[:stopped])
    with Store.open(path) as store:
        (left,) = store.unfinished("wren-07")
        later = NOON + 10**7
        journal, session = Journal.resume(store, left, lambda: later)
        assert session is not None
        assert len(session.outcomes) == stopped
        session.replay(diary.actions[stopped:])
        journal.mark(session)
        journal.finish(SEAT)
        made = journal.attempt()
    assert made.gaps == ((left.ended, later),)
    assert [act["index"] for act in made.houses[0].acts] == list(range(len(diary.actions)))
    assert made.houses[0].mark == {**(made.houses[0].mark or {}), "score": 100, "outcome": "met"}
    assert judge_again(made)[0].same


def test_between_houses_there_is_nothing_to_stand_in(tmp_path: Path) -> None:
    with Store.open(tmp_path / FILE) as store:
        journal = begun(store)
        again, session = Journal.resume(store, journal.attempt(), clock())
        assert session is None
        one = again.house(text_of("wren"), 1, "wren.yaml")
        one.do(HandOver())
        again.mark(one)
        again, session = Journal.resume(store, again.attempt(), clock())
        assert session is None
        two = again.house(text_of("lorikeet"), 2, "lorikeet.yaml")
        two.replay(right("lorikeet", 2))
        again.mark(two)
        again.finish(SEAT)
        made = again.attempt()
    assert [(house.level, house.open) for house in made.houses] == [("wren", False), ("lorikeet", False)]
    assert [judged.same for judged in judge_again(made)] == [True, True]
    assert len(made.gaps) == 2


def test_refusals_and_undos_are_in_the_journal_and_judged_again(tmp_path: Path) -> None:
    actions = right("wren", 5)
    for mode in ("practice", "assessment"):
        with Store.open(tmp_path / f"{mode}.db") as store:
            journal = begun(store, mode=mode)
            session = journal.house(text_of("wren"), 5, "wren.yaml")
            session.replay([Stand(tag="XX9", start=(0, 0), finish=(1, 1)), *actions[:30], Undo(), *actions[29:]])
            journal.mark(session)
            made = journal.attempt()
        assert [act["action"]["do"] for act in made.houses[0].acts].count("undo") == 1
        refused = [act["index"] for act in made.houses[0].acts if "refused" in act]
        assert refused[0] == 0
        assert (31 in refused) == (mode == "assessment"), "an assessment takes nothing back"
        assert judge_again(made)[0].same


def test_what_is_not_understood_any_more_is_said(tmp_path: Path) -> None:
    strange = {"kind": "act", "at": NOON, "index": 0, "action": {"do": "juggle"}, "found": []}
    for level_text, act, why in (
        (text_of("wren"), strange, "does not know"),
        ("schema: 9", None, "schema"),
        (text_of("wren").replace("overhang: 600", "overhang: 9999"), None, "overhang"),
    ):
        told = [opening(), house_begun(NOON, "wren", level_text, 1), *([act] if act else [])]
        made = Attempt(chain(*told, marked(NOON, 90, "met")))
        assert made.fault is None
        (judged,) = judge_again(made)
        assert judged.now is None
        assert why in judged.trouble
        assert examine_marks(made)[0].state == "unknown"


def test_a_faulty_level_begins_no_house(tmp_path: Path) -> None:
    with Store.open(tmp_path / FILE) as store:
        journal = begun(store)
        with pytest.raises(Faulty):
            journal.house("schema: 1", 1, "bad.yaml")
        assert len(journal.attempt().entries) == 1


def test_editions_are_the_same_each_time_and_tell_the_two_apart() -> None:
    assert editions() == editions()
    assert set(editions()) == {"trainer", "layout", "rules"}
    assert editions()["layout"] != editions()["rules"]


def test_an_edition_moves_with_the_code_that_decides(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    import shutil

    import trainer
    from trainer.records import edition

    package = tmp_path / "trainer"
    shutil.copytree(Path(trainer.__file__).parent, package, ignore=shutil.ignore_patterns("__pycache__", "levels"))
    monkeypatch.setattr(trainer, "__file__", str(package / "__init__.py"))

    def now() -> tuple[str, str]:
        edition.editions.cache_clear()
        told = edition.editions()
        return told["layout"], told["rules"]

    before = now()
    score = package / "score.py"
    score.write_bytes(score.read_bytes().replace(b"\n", b"\r\n"))
    assert now() == before, "ends of lines are no edition"
    score.write_bytes(score.read_bytes() + b"X = 1\r\n")
    assert now()[0] == before[0]
    assert now()[1] != before[1]
    (package / "roof" / "more.py").write_text("", encoding="utf-8")
    assert now()[0] != before[0]
    monkeypatch.undo()
    edition.editions.cache_clear()
