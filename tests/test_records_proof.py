"""No mark without its work: results written by somebody else's program, each sound by its chain and its signatures."""

from __future__ import annotations

import csv
import json
import sqlite3
from pathlib import Path
from typing import Any

import pytest
from attempts import level_of
from records_made import NOON, acted, attempt, chain, ended, house_begun, marked, opened, uuid_of
from report_made import mistaken
from typer.testing import CliRunner

from trainer.cli import app
from trainer.records.attempt import Attempt
from trainer.records.collect import take_in
from trainer.records.edition import editions
from trainer.records.keys import new_key, public_hex, public_pem
from trainer.records.pack import AssessmentPack, make_pack, make_ticket
from trainer.records.proof import prove
from trainer.records.record_file import file_name, write_record
from trainer.records.remarks import tickets_used_twice
from trainer.records.store import FILE, Store
from trainer.records.trust import trust_and_why, trust_of
from trainer.rehearse import rehearse
from trainer.shipped import find_level

ASSESSOR = new_key()
TRUSTED = {public_hex(ASSESSOR): "the assessor"}
HOUSE = "thornbill"
TEXT = find_level(HOUSE).read_text(encoding="utf-8")
DAY = 86_400_000
OTHERS = {"trainer": "0.0.1", "layout": "0" * 16, "rules": "0" * 16}


@pytest.fixture(scope="module")
def pack() -> AssessmentPack:
    return make_pack(ASSESSOR, "An invented assessment", [TEXT], NOON - DAY, 77)


def forged(
    pack: AssessmentPack,
    *acts: dict[str, Any],
    score: int = 100,
    edition: dict[str, str] | None = None,
    seed: int = 1,
    apart: int = 1,
) -> Attempt:
    """A result with a right ticket and a mark, and whatever acts its writer liked, so many ms ``apart``."""
    ticket = make_ticket(ASSESSOR, pack, "wren-07", "ab" * 16, NOON - 1, NOON + DAY)
    opening = opened(
        NOON, uuid_of(seed), "wren-07", "assessment", edition or editions(), pack=pack.signed.hash,
        ticket=ticket.signed.as_json(),
    )  # fmt: skip
    done = [acted(NOON + n * apart, n, action, []) for n, action in enumerate(acts)]
    begun, over = house_begun(NOON, HOUSE, TEXT, pack.seed("wren-07", 0)), NOON + 9000 + len(acts) * apart
    return Attempt(chain(opening, begun, *done, marked(over, score, "met"), ended(over)))


def right_acts(seed: int) -> list[dict[str, Any]]:
    actions = rehearse(level_of(HOUSE), seed).actions
    return [action.model_dump(by_alias=True, exclude_none=True, mode="json") for action in actions]


def test_a_mark_with_no_work_behind_it_is_no_mark(pack: AssessmentPack) -> None:
    made = forged(pack)
    assert made.fault is None, "its chain holds"
    proved = prove(made)
    assert proved.houses[0].mark is None
    label, why = trust_and_why(proved, TRUSTED)
    assert label == "self-study" and "what its actions come to" in why


def test_an_act_that_no_trainer_knows_is_no_work(pack: AssessmentPack) -> None:
    made = forged(pack, {"do": "conjure", "tag": "T1"})
    proved = prove(made)
    assert made.fault is None and proved.houses[0].mark is None and trust_of(proved, TRUSTED) == "self-study"


def test_a_better_mark_than_the_work_is_no_mark(pack: AssessmentPack) -> None:
    acts = right_acts(pack.seed("wren-07", 0))
    whole = [*acts] if acts[-1]["do"] == "hand_over" else [*acts, {"do": "hand_over"}]
    assert prove(forged(pack, *whole)).houses[0].mark is not None, "the near miss: right work, right mark"
    assert trust_of(prove(forged(pack, *whole, apart=1000)), TRUSTED) == "supervised"
    label, why = trust_and_why(prove(forged(pack, *whole)), TRUSTED)
    assert label == "self-study" and "No hand is as quick" in why, "the same, an act a millisecond"
    assert prove(forged(pack, *whole, score=99)).houses[0].mark is None


def test_an_edition_not_ours_leaves_the_mark_as_recorded_and_earns_no_label(pack: AssessmentPack) -> None:
    made = prove(forged(pack, {"do": "conjure", "tag": "T1"}, edition=OTHERS))
    assert made.houses[0].mark is not None, "it is shown as recorded"
    label, why = trust_and_why(made, TRUSTED)
    assert label == "self-study" and "can't be judged again" in why


def test_acts_quicker_than_a_hand_and_a_ticket_used_twice_are_remarked_on(pack: AssessmentPack) -> None:
    acts = right_acts(pack.seed("wren-07", 0))
    assert len(acts) > 45
    quick, other = prove(forged(pack, *acts)), prove(forged(pack, *acts[:5], seed=2))
    assert any("No hand is as quick" in text for text in quick.remarks), "an act a millisecond"
    assert not any("No hand" in text for text in other.remarks)
    assert tickets_used_twice([quick]) == tickets_used_twice([quick, quick]) == {}
    assert set(tickets_used_twice([quick, other])) == {quick.id, other.id}


def run(*words: object, leaves: int = 0) -> str:
    result = CliRunner().invoke(app, [str(word) for word in words])
    assert result.exit_code == leaves, result.output
    return result.output


def test_list_table_and_class_show_no_mark_and_say_why(pack: AssessmentPack, tmp_path: Path) -> None:
    made = forged(pack)
    results = tmp_path / "results"
    results.mkdir()
    (results / file_name(made)).write_bytes(write_record(made))
    key = tmp_path / "assessor.pub.pem"
    key.write_bytes(public_pem(public_hex(ASSESSOR)))
    with Store.open(tmp_path / FILE):
        pass
    run("records", "collect", results, "--data", tmp_path)
    for _again in range(2):  # judged, and then as it was kept
        (row,) = json.loads(run("records", "list", "--data", tmp_path, "--assessor", key, "--json"))["attempts"]
        assert row["houses"][0]["score"] is None and row["trust"] == "self-study"
        assert "what its actions come to" in row["trust_why"]
    run("records", "export", "-o", tmp_path / "t.csv", "--as", "csv", "--data", tmp_path, "--assessor", key)
    (line,) = csv.DictReader((tmp_path / "t.csv").open(encoding="utf-8"))
    assert (line["score"], line["outcome"], line["trust"]) == ("", "", "self-study") and line["trust_why"]
    run("report", "-o", tmp_path / "c.csv", "--data", tmp_path, "--assessor", key)
    assert "supervised" not in (tmp_path / "c.csv").read_text(encoding="utf-8")
    assert "FAILS" in run("verify", results / file_name(made), "--assessor", key, leaves=1)


def test_it_is_not_signed_either(pack: AssessmentPack, tmp_path: Path) -> None:
    made = forged(pack)
    file, key, words = tmp_path / file_name(made), tmp_path / "assessor.pem", tmp_path / "words"
    file.write_bytes(write_record(made))
    words.write_text("an invented passphrase\n", encoding="utf-8")
    run("key", key, "--passphrase-file", words)
    said = run("sign", file, "--code", made.head_code, "--key", key, "--passphrase-file", words, leaves=1)
    assert "was not signed" in said and file.read_bytes() == write_record(made)


def test_one_id_under_two_code_names_is_left_out(tmp_path: Path) -> None:
    mine, other = attempt(code="wren-07"), attempt(code="owl-02")
    assert mine.id == other.id
    with Store.open(tmp_path / FILE) as store:
        assert [each.fate for each in take_in(store, [mine, other, mine])] == ["new", "other", "known"]
        assert [each.code for each in store.attempts(mine.id)] == ["wren-07"]


def test_a_bad_line_does_not_lose_the_lines_after_it(tmp_path: Path) -> None:
    lines = [write_record(attempt(seed=1)), b"{", write_record(attempt(seed=2))]
    (tmp_path / "r.jsonl").write_bytes(b"\n".join(lines))
    with Store.open(tmp_path / FILE):
        pass
    said = run("records", "collect", tmp_path / "r.jsonl", "--data", tmp_path, leaves=1)
    assert "2 new" in said and "attempt 2" in said


def test_an_assessment_shows_nothing_before_its_close(pack: AssessmentPack, tmp_path: Path) -> None:
    made = forged(pack, {"do": "hand_over"}, score=25)
    open_one = Attempt(made.entries[:-1])
    with Store.open(tmp_path / FILE) as store:
        take_in(store, [open_one])
    assert "not marked" in run("records", "show", made.id[:8], "--data", tmp_path)
    (row,) = json.loads(run("records", "list", "--data", tmp_path, "--json"))["attempts"]
    assert row["houses"][0]["score"] is None
    said = run("report", made.id[:8], "-o", tmp_path / "a.html", "--data", tmp_path, leaves=1)
    assert "not closed yet" in said


def test_one_attempt_that_was_changed_in_the_store_does_not_keep_the_others_from_being_listed(tmp_path: Path) -> None:
    for code in ("emu-01", "owl-02"):
        mistaken(tmp_path, code, HOUSE, None)
    connection = sqlite3.connect(tmp_path / FILE)
    connection.execute("DROP TRIGGER entries_never_change")
    hash_, body = connection.execute("SELECT hash, body FROM entries WHERE n = 2 LIMIT 1").fetchone()
    assert '"index":0' in body
    connection.execute("UPDATE entries SET body = ? WHERE hash = ?", (body.replace('"index":0', '"index":7'), hash_))
    connection.commit()
    connection.close()
    rows = json.loads(run("records", "list", "--data", tmp_path, "--json"))["attempts"]
    assert sorted(bool(row["fault"]) for row in rows) == [False, True]
    assert [row["houses"][0]["score"] for row in rows if not row["fault"]] == [100]
