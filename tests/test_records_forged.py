"""Results written by somebody else's program: each is refused in plain words, or seen, and spoils nobody else's."""

from __future__ import annotations

import json
import os
import sqlite3
import stat
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from records_made import (
    CHOICES,
    NOON,
    act,
    acted,
    answered,
    attempt,
    chain,
    ended,
    gap,
    house,
    house_begun,
    marked,
    opened,
    opening,
    paper_begun,
    uuid_of,
)
from test_records_cli import run

from trainer.board.settings import Settings, read_settings
from trainer.level import parse_level
from trainer.read import Faulty, read_yaml, write_table
from trainer.records import keys
from trainer.records.attempt import Attempt
from trainer.records.collect import take_in
from trainer.records.countersign import why_not_signed
from trainer.records.edition import editions
from trainer.records.errors import AlreadyThere, NotRecords, RecordsError
from trainer.records.keys import KeyTrouble, new_key, private_pem, public_hex, public_pem, read_private, read_public
from trainer.records.pack import make_pack, make_ticket
from trainer.records.people import DAY, erase, keep_for, let_go, overdue
from trainer.records.proof import Proof, Proved, prove
from trainer.records.record_file import read_record, write_record
from trainer.records.remarks import remarks, seen_together
from trainer.records.seal import seal
from trainer.records.seat import Seat
from trainer.records.sitting import OpenSitting
from trainer.records.store import FILE, Store
from trainer.records.trust import examine_sitting, trust_and_why
from trainer.rehearse import rehearse
from trainer.report.class_content import class_content
from trainer.shipped import find_level
from trainer.shipped.course import course
from trainer.words import printable

KEY = new_key()
PASSPHRASE = "an invented passphrase"


def recorded(*told: dict[str, Any]) -> bytes:
    """The file of an attempt that its writer linked and numbered rightly, whatever it says."""
    return write_record(Attempt(chain(*told)))


def refused(content: bytes) -> str:
    with pytest.raises(Faulty) as caught:
        read_record(content, "it")
    return str(caught.value)


FOUND = {"rule": "a", "member": "T1", "severity": "rework", "got": "", "want": "", "cause": ""}
FORGED = {
    "a date beyond the calendar": ([opening(), {**ended(NOON), "at": 10**15}], "a time in ms"),
    "a gap since beyond it": ([opening(), {**gap(NOON, NOON, editions()), "since": 10**15}], "a time in ms"),
    "an unknown severity": ([opening(), house(), {**act(0), "found": [{**FOUND, "severity": "dire"}]}], "severity"),
    "a house's name that leaves its folder": ([opening(), {**house(), "level": "../../etc"}], "level's id"),
    "a house's name with signs of a terminal": ([opening(), {**house(), "level": "\x1b[2Jwren"}], "level's id"),
    "a code name that is a formula": ([{**opening(), "code": "=cmd"}], "code name"),
    "a ticket that is a list": ([{**opening(), "ticket": [1]}], "ticket"),
    "a ticket that says nothing": ([{**opening(), "ticket": {"content": 5}}], "ticket"),
    "a ticket of another shape": (
        [{**opening(), "ticket": {"kind": "ticket", "schema": 1, "content": {"nonce": []}, "key": "0" * 64,
          "signature": "0" * 128}}], "ticket"),
    "a number not given": (
        [opening(), paper_begun(NOON, "p", 1),
         {k: v for k, v in answered(NOON, "q", "numeric", "?", 1.0, [0, 1], True, 1).items() if k != "given"}],
        "given"),
    "offered under another name": (
        [opening(), paper_begun(NOON, "p", 1),
         {**answered(NOON, "q", "choice", "?", ["a"], ["a"], True, 1, False, CHOICES), "offered": {"type": {}}}],
        "offered"),
    "an opening that hides as an action": ([{**opening(), "more": {"kind": "act"}}], "hides"),
    "a second opening": ([opening(), opening(2)], "one opening entry"),
    "a mark that hides as an action": (
        [opening(), house(), {**marked(NOON, 100, "met"), "x": {"kind": "act"}}], "hides"),
}  # fmt: skip


@pytest.mark.parametrize("name", FORGED)
def test_a_forged_entry_is_refused_in_plain_words(name: str) -> None:
    told, word = FORGED[name]
    assert word in refused(recorded(*told))


def test_a_forged_file_keeps_nobody_else_out(tmp_path: Path) -> None:
    for n, (told, _word) in enumerate(FORGED.values()):
        (tmp_path / f"{n}.attempt.json").write_bytes(recorded(*told))
    (tmp_path / "big.attempt.json").write_bytes(b" " * 5_000_001)
    (tmp_path / "m.jsonl").write_bytes(b"x" * 6_000_000 + b"\n{\n" + write_record(attempt(seed=7)) + b"\n")
    (tmp_path / "good.attempt.json").write_bytes(write_record(attempt()))
    out, err = run("records", "collect", tmp_path, "--data", tmp_path / "d", leaves=1)
    assert out == "2 new\n" and len(err.splitlines()) >= len(FORGED) + 3
    shown, why = run("verify", tmp_path, "--data", tmp_path / "d", leaves=1)
    assert attempt().id in shown and "hides" in why


def test_sixty_thousand_keys_cost_no_square() -> None:
    many = b",".join(b'"k%d":1' % n for n in range(60_000))
    assert "not known here" in refused(write_record(attempt())[:-1] + b",%b}" % many)
    twice = write_record(attempt())[:-1] + b',"seals":[]}'
    assert "given twice" in refused(twice)


def test_a_person_is_erased_and_nobody_else_is_touched(tmp_path: Path) -> None:
    mine = attempt(code="wren-07")
    theirs = Attempt(chain(*[{**each, "code": "owl-02"} if each["kind"] == "open" else each for each in told_of(mine)]))
    assert mine.id == theirs.id
    with Store.open(tmp_path / FILE) as store:
        (other,) = take_in(store, [mine, theirs])[1:]
        assert (other.fate, other.under) == ("other", "wren-07")
        # An older store may hold both; whoever erases one leaves the other as it was.
        with store.writing() as connection:
            from trainer.records.chain import START
            from trainer.records.store import insert

            insert(connection, theirs.id, 0, START, theirs.entries)
        assert {each.code for each in store.attempts(mine.id)} == {"wren-07", "owl-02"}
        assert erase(store, "owl-02") == 1
        (left,) = store.attempts(mine.id)
        assert write_record(left) == write_record(mine)
        assert [each.fate for each in take_in(store, [mine, theirs])] == ["known", "erased"]


def told_of(made: Attempt) -> list[dict[str, Any]]:
    return [{name: value for name, value in each.body.items() if name != "n"} for each in made.entries]


def test_a_date_of_1970_lets_nobodys_record_go(tmp_path: Path) -> None:
    mine = attempt()
    sealed = Attempt(mine.entries, (seal(KEY, "seat", mine.id, mine.head, mine.count, NOON),))
    old = Attempt(chain(*[{**each, "at": 0} for each in told_of(mine)]))
    tail = Attempt(chain(*[*told_of(mine)[:3], ended(0)]))
    with Store.open(tmp_path / FILE) as store:
        take_in(store, [sealed, old, tail])
        keep_for(store, 30)
        due = overdue(store, NOON + 10 * DAY)
        assert [each.head for each in due] == [old.head], "the other begins like ours, and its last date is no excuse"
        let_go(store, due)
        assert {each.head for each in store.attempts(mine.id)} == {mine.head, tail.head}
        assert store.attempts(mine.id)[0].seals == sealed.seals
        assert [each.fate for each in take_in(store, [sealed, old])] == ["known", "erased"]


@pytest.mark.parametrize("at", [-1, 253_402_300_800_000])
def test_a_clock_that_nothing_can_be_recorded_under_is_refused_in_plain_words(tmp_path: Path, at: int) -> None:
    with Store.open(tmp_path / FILE) as store:
        with pytest.raises(RecordsError, match="Set the clock"):
            OpenSitting.begin(store, PACK, "wren-07", None, uuid_of(1), KEY, lambda: at)
        assert not list(store.openings())


PACK = make_pack(KEY, "Invented", [find_level("thornbill").read_text(encoding="utf-8")], NOON - DAY, 7, minutes=90)


def sat(
    *more: dict[str, Any], nonce: str = "ab", made: int = NOON - 1, breaks: int = 0, seed: int = 1, until: int = 90
) -> Attempt:
    """A sitting of 90 minutes, with what happens on the way."""
    ticket = make_ticket(KEY, PACK, "wren-07", nonce * 16, made, NOON + 300 * DAY, 0, breaks).signed.as_json()
    first = opened(
        NOON, uuid_of(seed), "wren-07", "assessment", editions(), pack=PACK.signed.hash, ticket=ticket, minutes=90
    )
    return Attempt(chain(first, *more, ended(NOON + until * 60_000)))


def test_dates_of_the_future_and_of_before_the_program_are_remarked_on() -> None:
    made = sat()
    assert "later than this machine" in seen_together([made], made.ended - 1)[made.id]
    assert seen_together([made], made.ended) == {}
    old = Attempt(chain(*[{**each, "at": 0} for each in told_of(made)]))
    assert any("before there was such a program" in text for text in remarks(old))
    assert not any("before there was" in text for text in remarks(made))


def stopped(minutes: int) -> dict[str, Any]:
    return gap(NOON + (5 + minutes) * 60_000, NOON + 5 * 60_000, editions())


def test_time_lost_in_stops_is_seen_and_breaks_that_were_granted_are_not() -> None:
    still = "stood still"
    assert not any(still in text for text in remarks(sat(stopped(9))))
    assert any(still in text for text in remarks(sat(stopped(10))))
    assert not any(still in text for text in remarks(sat(stopped(18), breaks=10)))
    days = remarks(sat(stopped(236 * 60), until=237 * 60))
    assert any("stood still for 14160 minutes" in text for text in days)
    assert any("It took 120 minutes. It might take 90." in text for text in remarks(sat(until=120)))


def test_a_hand_of_many_is_one_act_and_many_hands_are_seen() -> None:
    def acts(**more: Any) -> list[dict[str, Any]]:
        return [{**acted(NOON + n, n, {"do": "mark", "wall": "A", "at": n}, []), **more} for n in range(60)]

    def seen(told: list[dict[str, Any]]) -> bool:
        return any("No hand is as quick" in text for text in remarks(Attempt(chain(opening(), house(), *told))))

    assert seen(acts()) and not seen(acts(hand=1))
    turns = [
        {**each, "action": {**each["action"], "do": ("mark", "fit")[n % 2]}} for n, each in enumerate(acts(hand=1))
    ]
    assert seen(turns), "no hand does two things at once"


def test_tickets_used_twice_and_dated_late_are_seen_everywhere(tmp_path: Path) -> None:
    first, second = sat(made=NOON + DAY), sat(stopped(50), seed=2)
    results = tmp_path / "results"
    for made in (first, second):
        results.mkdir(exist_ok=True)
        (results / f"{made.id}.attempt.json").write_bytes(write_record(made))
    data = tmp_path / "d"
    _out, err = run("records", "collect", results, "--data", data)
    listed = run("records", "list", "--data", data)[0]
    verified = run("verify", results, "--data", data, leaves=0)[0]
    pages = tmp_path / "pages"
    run("report", "-o", pages, "--data", data)
    texts = [err, listed, verified, (pages / "class.html").read_text(encoding="utf-8")]
    attempts = [each.read_text(encoding="utf-8") for each in pages.glob("wren-07-*.html")]
    for word in ("used 2 times", "dated after it began", "stood still for 50 minutes"):
        for text in (*texts, "".join(attempts)):
            assert word in " ".join(text.replace("&#39;", "'").split()), word


def built(code: str, seed: int, nonce: str, *, ticket_of: str = "", apart: int = 900) -> Attempt:
    """A right house, built by ``code`` with a ticket that was given to ``ticket_of``."""
    ticket = make_ticket(KEY, PACK, ticket_of or code, nonce * 16, NOON - 1, NOON + DAY).signed.as_json()
    first = opened(
        NOON, uuid_of(seed), code, "assessment", editions(), pack=PACK.signed.hash, ticket=ticket, minutes=90
    )
    ((level, text),) = PACK.houses
    site = PACK.seed(code, 0)
    acts = [
        action.model_dump(by_alias=True, exclude_none=True, mode="json")
        for action in rehearse(parse_level(text, level), site).actions
    ]
    over = NOON + len(acts) * apart
    done = [acted(NOON + n * apart, n, action, []) for n, action in enumerate(acts)]
    begun = house_begun(NOON, level, text, site)
    return Attempt(chain(first, begun, *done, marked(over, 100, "met"), ended(over)))


def forged_class(folder: Path, *made: Attempt) -> tuple[Path, Path]:
    """A folder of results, and the data folder of an assessor whose key is trusted there."""
    results, data = folder / "results", folder / "d"
    results.mkdir()
    for each in made:
        (results / f"{each.code}-{each.head.hex()[:8]}.attempt.json").write_bytes(write_record(each))
    keys.trust_key(public_hex(KEY), data / "assessors", "teacher")
    (folder / "key.pem").write_bytes(private_pem(KEY, PASSPHRASE))
    (folder / "pass").write_text(PASSPHRASE, encoding="utf-8")
    (folder / "codes.csv").write_text("".join(f"{each.code},{each.head_code}\n" for each in made), encoding="utf-8")
    return results, data


def through_all(folder: Path, results: Path, data: Path, *, signs: int = 0) -> tuple[str, str, list[dict[str, Any]]]:
    """What sign and the class report say of results, and what the list has of each once they are collected."""
    run("records", "collect", results, "--data", data)
    listed = json.loads(run("records", "list", "--data", data, "--json")[0])["attempts"]
    signing = ("--codes", folder / "codes.csv", "--key", folder / "key.pem", "--passphrase-file", folder / "pass")
    _out, signed = run("sign", results, *signing, leaves=signs)
    run("report", "-o", folder / "class.html", "--data", data)
    page = (folder / "class.html").read_text(encoding="utf-8").replace("&#39;", "'")
    return " ".join(signed.split()), " ".join(page.split()), listed


def test_another_ones_work_under_a_code_of_ones_own_is_seen(tmp_path: Path) -> None:
    """Each has a ticket of their own; the second's acts are the first's, to the millisecond."""
    results, data = forged_class(tmp_path, built("wren-07", 1, "ab"), built("owl-02", 2, "cd"))
    signed, page, listed = through_all(tmp_path, results, data)
    for said in (signed, page, run("verify", results, "--data", data)[0]):
        assert "were done in wren-07" in said and "One of them is a copy" in said
    assert {each["trust"] for each in listed} == {"supervised"}, "which is the copy, a person finds out"
    other = tmp_path / "others"
    other.mkdir()
    results, data = forged_class(other, built("wren-07", 1, "ab"), built("owl-02", 2, "cd", apart=901))
    signed, page, _listed = through_all(other, results, data)
    assert "a copy" not in signed + page, "the near miss: the same right order at another's own speed"


def test_what_a_forgery_copies_is_said_of_the_forgery_and_not_of_whose_work_it_was(tmp_path: Path) -> None:
    """One has no ticket, and one sits with the other's: the honest one was signed, and nothing is asked of it."""
    bob = built("bob-2", 1, "ab")
    signed = Attempt(bob.entries, (seal(KEY, "assessor", bob.id, bob.head, bob.count, NOON + DAY),))
    entries = [dict(each.body) for each in bob.entries]
    first = {**entries[0], "attempt": uuid_of(9), "code": "eve-9", "at": NOON - 60_000}
    del first["ticket"]
    copied = Attempt(chain(first, *entries[1:]))
    stolen = built("bob-2", 5, "ab", apart=1100)
    results, data = forged_class(tmp_path, signed, copied, stolen)
    run("records", "collect", results, "--data", data)
    listed = {
        each["attempt"]: each for each in json.loads(run("records", "list", "--data", data, "--json")[0])["attempts"]
    }
    assert listed[bob.id]["trust"] == "counter-signed" and listed[bob.id]["remarks"] == []
    assert [house["try"] for house in listed[bob.id]["houses"]] == [1]
    assert "One of them is a copy" in str(listed[copied.id]["remarks"])
    assert "used 2 times" in str(listed[stolen.id]["remarks"])
    verified = run("verify", *results.glob("bob-2-" + bob.head.hex()[:8] + "*"), "--data", data, leaves=0)[0]
    assert "copy" not in verified and "used 2 times" not in verified


def test_mistakes_in_an_attempt_that_does_not_count_are_not_those_of_the_class() -> None:
    said = [opening(1, "ann-1"), house()]
    wrong = {"rule": "heels", "member": "T1", "severity": "rework", "got": "", "want": "", "cause": "", "fix": ""}
    bad = Attempt(chain(*said, {**act(0), "found": [wrong]}, ended(NOON + 99_000)))
    good = Attempt(chain(opening(2, "ann-1"), house(), act(0), marked(NOON + 99_000, 100, "met"), ended(NOON + 99_000)))
    assert class_content([(bad, "self-study"), (good, "counter-signed")], {}).charts[0].rows == ()
    assert class_content([(bad, "self-study")], {}).charts[0].rows, "where nothing better is there, it counts"


def asked(seed: int, code: str, apart: int, right: bool = True, given: str = "a") -> Attempt:
    """Twelve acts on a house, so many ms apart, and a question."""
    acts = [{**act(n), "at": NOON + apart * n} for n in range(12)]
    answer = answered(NOON + 20_000, "q1", "choice", "Why?", [given], ["a"], right, 9)
    told = [opening(seed, code, "assessment"), house(), *acts, marked(NOON + 20_000, 100, "met")]
    return Attempt(chain(*told, paper_begun(NOON + 20_000, "paper", 3), answer, ended(NOON + 21_000)))


def test_what_got_no_mark_and_what_is_a_copy_count_in_no_table_of_the_class_and_it_is_said() -> None:
    """Forged or copied work says nothing of how a question did or how far people have come."""
    ann, bob, eve = asked(1, "ann-1", 700), asked(2, "bob-2", 900), asked(3, "eve-3", 900)
    mal = asked(4, "mal-4", 800)
    forged = Proved(mal.entries, proofs=(Proof(False, "no work"),), hinted=(0,), gone_about=mal.courses)
    liar = asked(5, "lee-5", 1100, given="b")

    def told(*every: tuple[Attempt, str]) -> tuple[str, str]:
        content = class_content(every, {}, course=course())
        return content.papers[0].notes, dict(content.facts).get("Not counted in what is said of all", "")

    honest = (ann, "supervised"), (bob, "supervised")
    assert told(*honest) == ("2 people. Under 10 people: counts only.", "")
    notes, said = told(*honest, (forged, "self-study"), (liar, "self-study"))
    assert notes.startswith("2 people") and "mal-4" in said and "its mark is not proved" in said
    assert "lee-5" in said and "its answers do not come to" in said
    notes, said = told(*honest, (eve, "self-study"))
    assert notes.startswith("2 people") and "eve-3" in said and "bob-2" not in said, "of two the lesser is the copy"
    notes, said = told(*honest, (eve, "supervised"))
    assert notes.startswith("1 person") and "eve-3" in said and "bob-2" in said, "nobody knows whose it is"
    worse = asked(6, "ann-1", 600, right=False, given="b")
    (row,) = class_content([honest[0], (worse, "self-study")], {}).papers[0].rows
    assert row[1] == "1 / 1", "one that anybody can write stands back behind a sitting with a ticket"


def on_a_seat(folder: Path) -> Attempt:
    """A whole sitting with the signature of the seat that it was sat on, whose key lies in ``folder``."""
    seat = Seat.open(folder)
    seat.leave()
    entries = [dict(each.body) for each in built("bob-2", 1, "ab").entries]
    whole = Attempt(chain({**entries[0], "seat": public_hex(seat.key)}, *entries[1:]))
    return Attempt(whole.entries, (seal(seat.key, "seat", whole.id, whole.head, whole.count, NOON + DAY),))


def test_what_was_cut_off_is_said_alike_wherever_one_looks_and_has_no_label(tmp_path: Path) -> None:
    whole = on_a_seat(tmp_path / "seat")
    results, data = forged_class(tmp_path, Attempt(whole.entries[:30], whole.seals))
    texts = [run("verify", results, "--data", data, leaves=1)[0], run("records", "collect", results, "--data", data)[1]]
    texts.append(run("records", "list", "--check", "--data", data)[0])
    for text in texts:
        assert "and not these 30. Some were cut off, or all were written anew." in text
        assert "It was never closed. It may have gone on, or its end was cut off." in text
        assert "supervised" not in text
    assert "DOES NOT HOLD" in texts[0]


def test_a_store_with_an_entry_taken_out_is_said_to_have_lost_some_by_collect_too(tmp_path: Path) -> None:
    whole = on_a_seat(tmp_path / "seat")
    results, data = forged_class(tmp_path, whole)
    run("records", "collect", results, "--data", data)
    with sqlite3.connect(data / FILE) as store:
        for (name,) in store.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
            store.execute(f"DROP TRIGGER {name}")
        store.execute("DELETE FROM entries WHERE n = 30")
    store.close()
    verified = run("verify", data / FILE, "--data", data, leaves=1)[0]
    _out, collected = run("records", "collect", data / FILE, "--data", tmp_path / "other", leaves=1)
    for text in (verified, collected):
        assert f"{whole.count - 31} entries lead back to no opening" in text and "Some were cut off" in text
        assert "supervised" not in text


def test_this_machines_own_seat_is_called_so(tmp_path: Path) -> None:
    whole = on_a_seat(tmp_path / "d")
    results, data = forged_class(tmp_path, whole)
    assert "Signed as the seat by this machine's own seat, all of it." in run("verify", results, "--data", data)[0]
    elsewhere = run("verify", results, "--data", tmp_path / "other")[0]
    assert "Signed as the seat by a key not known here" in elsewhere


def test_no_code_that_fits_is_a_failure_for_scripts_too(tmp_path: Path) -> None:
    results, _data = forged_class(tmp_path, built("bob-2", 1, "ab"))
    (tmp_path / "codes.csv").write_text("bob-2,AAAA-BBBB-CCCC-DDDD\n", encoding="utf-8")
    signing = ("--key", tmp_path / "key.pem", "--passphrase-file", tmp_path / "pass")
    for given in (("--codes", tmp_path / "codes.csv"), ("--code", "AAAA-BBBB-CCCC-DDDD")):
        assert "It was not signed." in run("sign", results, *given, *signing, leaves=1)[1]


def test_a_ticket_given_to_somebody_else_earns_nothing(tmp_path: Path) -> None:
    results, data = forged_class(tmp_path, built("owl-02", 2, "cd", ticket_of="wren-07"))
    signed, _page, (listed,) = through_all(tmp_path, results, data, signs=1)
    assert listed["trust"] == "self-study" and "for something else" in json.dumps(listed)
    assert "for something else" in signed and "It was not signed." in signed
    assert "FAILS" in run("verify", results, "--data", data, leaves=1)[0]


def test_a_ticket_that_was_copied_is_seen_wherever_two_attempts_have_it(tmp_path: Path) -> None:
    results, data = forged_class(tmp_path, built("wren-07", 1, "ab"), built("wren-07", 3, "ab", apart=1100))
    signed, page, listed = through_all(tmp_path, results, data)
    assert "used 2 times" in page and "used 2 times" in signed and "used 2 times" in json.dumps(listed)
    run("report", "-o", tmp_path / "class.csv", "--data", data)
    run("records", "export", "--as", "csv", "-o", tmp_path / "all.csv", "--data", data)
    for table in ("class.csv", "all.csv"):
        assert "used 2 times" in (tmp_path / table).read_text(encoding="utf-8"), table
    alone = tmp_path / "alone"
    alone.mkdir()
    results, _data = forged_class(alone, built("wren-07", 1, "ab"), built("wren-07", 3, "ab", apart=1100))
    one = sorted(results.iterdir())[0]
    code = read_record(one.read_bytes(), "one").attempt.head_code
    signing = ("--key", alone / "key.pem", "--passphrase-file", alone / "pass")
    assert "used 2 times" in run("sign", one, "--code", code, *signing)[1], "the other lies beside it"


def test_two_openings_under_one_id_are_both_kept_and_shown(tmp_path: Path) -> None:
    first, second = built("wren-07", 1, "ab"), built("wren-07", 1, "cd", apart=1100)
    assert first.id == second.id and first.entries[0].hash != second.entries[0].hash
    results, data = forged_class(tmp_path, first, second)
    _signed, page, listed = through_all(tmp_path, results, data)
    assert len(listed) == 2 and page.count("wren-07") >= 2
    assert "has several ends" in run("records", "collect", results, "--data", tmp_path / "again")[1]


@pytest.mark.parametrize("slow", [True, False])
def test_what_was_sent_in_from_a_file_is_seen_everywhere_and_no_ticket_makes_it_supervised(
    tmp_path: Path, slow: bool
) -> None:
    """Slowly, and then the seat says so; or quicker than a hand, whatever the seat says."""
    typed = told_of(built("wren-07", 1, "ab", apart=900 if slow else 1))
    sent = {"kind": "from file", "at": NOON}
    made = Attempt(chain(typed[0], *([sent] if slow else []), *typed[1:]))
    word = "sent in from a file" if slow else "No hand is as quick"
    results, data = forged_class(tmp_path, made)
    collected = run("records", "collect", results, "--data", data)[1]
    table = run("records", "list", "--data", data)[0]
    pages = tmp_path / "pages"
    run("report", "-o", pages, "--data", data)
    texts = [path.read_text(encoding="utf-8").replace("&#39;", "'") for path in sorted(pages.glob("*.html"))]
    assert len(texts) == 2
    for text in (collected, table, run("verify", results, "--data", data)[0], *texts):
        assert word in " ".join(text.split())
    (listed,) = json.loads(run("records", "list", "--data", data, "--json")[0])["attempts"]
    assert listed["trust"] == "self-study" and word in listed["trust_why"]
    signed, _page, _listed = through_all(tmp_path, results, data)
    assert word in signed, "said before whoever signs relies on it"
    run("records", "collect", results, "--data", data)
    (listed,) = json.loads(run("records", "list", "--data", data, "--json")[0])["attempts"]
    assert listed["trust"] == "counter-signed" and word in listed["trust_why"], "and whoever reads the label knows it"


def test_signs_of_a_terminal_are_not_printed(tmp_path: Path) -> None:
    assert printable("a\x1b[2J\u202eb\x9b\u200f\tc\n") == "a[2Jb\tc\n"
    first = {**opening(mode="assessment"), "title": "\x1b]0;mine\x07\u202egnihton"}
    (tmp_path / "a.attempt.json").write_bytes(recorded(first, house(), ended(NOON)))
    run("records", "collect", tmp_path, "--data", tmp_path)
    run("report", uuid_of(1), "-o", tmp_path / "a.html", "--data", tmp_path)
    for text in (run("verify", tmp_path / "a.attempt.json")[0], (tmp_path / "a.html").read_text(encoding="utf-8")):
        assert not {"\x1b", "\x07", "\u202e"} & set(text)


def test_formulas_in_a_table_are_harmless() -> None:
    (row,) = write_table([["=1+1", "+1", "-2", "-cmd", "@x", " =1", "wren", -2.5, None]]).splitlines()
    assert row == "'=1+1,'+1,-2,'-cmd,'@x,' =1,wren,-2.5,None"


def test_aliases_do_not_nest_past_the_depth() -> None:
    deep = "\n".join(["a0: &a0 [x]", *(f"a{n}: &a{n} [*a{n - 1}]" for n in range(1, 400))])
    with pytest.raises(Faulty, match="levels deep"):
        read_yaml(deep, "it")
    assert read_yaml("a: &a [x]\nb: [*a, [*a]]", "it").data == {"a": ["x"], "b": [["x"], [["x"]]]}


def test_settings_of_brackets_are_the_usual_ones(tmp_path: Path) -> None:
    for text in ("[" * 100_000, '{"a":' * 50_000, "\xff", "[]", "{" * 9_000):
        (tmp_path / "settings.json").write_text(text, encoding="latin-1")
        assert read_settings(tmp_path) == Settings()


def test_a_key_with_a_byte_changed_is_no_key_and_spoils_no_other(tmp_path: Path) -> None:
    pem = public_pem(public_hex(KEY))
    for n in range(len(pem)):
        for byte in (pem[n] ^ 1, 0, 255):
            changed = pem[:n] + bytes([byte]) + pem[n + 1 :]
            try:
                assert len(read_public(changed, "k")) == 64
            except KeyTrouble as trouble:
                assert "k: " in str(trouble)
    (tmp_path / "assessors").mkdir()
    (tmp_path / "assessors" / "a.pub.pem").write_bytes(pem[:60] + b"!" + pem[61:])
    (tmp_path / "assessors" / "b.pub.pem").write_bytes(pem)
    (tmp_path / "a.attempt.json").write_bytes(write_record(attempt()))
    with Store.open(tmp_path / FILE):
        pass
    _out, err = run("records", "list", "--data", tmp_path)
    assert "a.pub.pem" in err and "b.pub.pem" not in err


def test_a_passphrase_is_stretched_and_older_keys_still_open(monkeypatch: pytest.MonkeyPatch) -> None:
    from cryptography.hazmat.primitives import serialization as s
    from cryptography.hazmat.primitives.kdf.scrypt import Scrypt

    older = KEY.private_bytes(s.Encoding.PEM, s.PrivateFormat.PKCS8, s.BestAvailableEncryption(PASSPHRASE.encode()))
    assert public_hex(read_private(older, PASSPHRASE, "k")) == public_hex(KEY)
    monkeypatch.setattr(keys, "SCRYPT_N", 2**17)
    pem = private_pem(KEY, PASSPHRASE)
    head, _newline, rest = pem.partition(b"\n")
    # RFC 7914's function, by the library alone: what opens the file is not the passphrase itself.
    stretched = Scrypt(bytes.fromhex(head.split()[-1].decode()), 32, 2**17, 8, 1).derive(PASSPHRASE.encode()).hex()
    assert public_hex(read_private(rest, stretched, "k")) == public_hex(KEY)
    with pytest.raises(KeyTrouble):
        read_private(rest, PASSPHRASE, "k")
    for poor in (" " * 8, "short", "a b c d", "\t" * 20):
        with pytest.raises(KeyTrouble, match="too short"):
            private_pem(KEY, poor)


def test_a_public_half_is_never_replaced(tmp_path: Path) -> None:
    (tmp_path / "pass").write_text(PASSPHRASE, encoding="utf-8")
    words = ("--passphrase-file", tmp_path / "pass", "--data", tmp_path / "d")
    run("key", tmp_path / "a.pem", *words)
    kept = (tmp_path / "a.pub.pem").read_bytes()
    (tmp_path / "a.pem").unlink()
    assert "left as it is" in run("key", tmp_path / "a.pem", *words, leaves=2)[1]
    assert (tmp_path / "a.pub.pem").read_bytes() == kept and not (tmp_path / "a.pem").exists()
    run("key", tmp_path / "other" / "a.pem", *words)
    assert len(list((tmp_path / "d" / "assessors").iterdir())) == 2, "both are trusted, under two names"


@pytest.fixture
def no_umask() -> Iterator[None]:
    before = os.umask(0)
    yield
    os.umask(before)


@pytest.mark.usefixtures("no_umask")
def test_records_and_keys_are_their_owners_alone(tmp_path: Path) -> None:
    seat = Seat.open(tmp_path)
    assert seat.code == seat.code
    files = [path for path in tmp_path.iterdir() if not path.name.endswith(".pub.pem")]
    assert {"records.db", "seat.pem"} <= {path.name for path in files}
    run("records", "backup", tmp_path / "copy.db", "--data", tmp_path)
    if os.name == "posix":
        assert {stat.S_IMODE(path.stat().st_mode) for path in (*files, tmp_path / "copy.db")} == {0o600}
    seat.leave()


def test_first_starts_at_once_all_go_on(tmp_path: Path) -> None:
    codes: list[str] = []
    troubles: list[BaseException] = []

    def start() -> None:
        try:
            seat = Seat.open(tmp_path / "new")
            codes.append(seat.code + public_hex(seat.key))
            seat.leave()
        except (RecordsError, sqlite3.Error) as trouble:
            troubles.append(trouble)

    threads = [threading.Thread(target=start) for _ in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert not troubles and len(codes) == 6 and len(set(codes)) == 1
    assert not [path.name for path in (tmp_path / "new").iterdir() if path.name.startswith(".")]


def test_a_disk_that_fills_while_a_store_is_made_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_given: object) -> None:
        error = sqlite3.OperationalError("database or disk is full")
        error.sqlite_errorcode = sqlite3.SQLITE_FULL
        raise error

    monkeypatch.setattr("trainer.records.store_file.migrate", full)
    with pytest.raises(RecordsError, match="disk is full"):
        Store.open(tmp_path / "d" / FILE)
    assert list((tmp_path / "d").iterdir()) == []
    monkeypatch.undo()
    with Store.open(tmp_path / "d" / FILE) as store:
        assert store.ids() == []


def test_a_later_trainers_store_is_said_to_be_later(tmp_path: Path) -> None:
    with Store.open(tmp_path / FILE) as store, store.writing() as connection:
        connection.execute("INSERT INTO migrations VALUES ('what comes later')")
    for opens in (Store.open, Store.read):
        with pytest.raises(NotRecords, match="a later trainer wrote these records"):
            opens(tmp_path / FILE)
    assert "later trainer" in run("verify", tmp_path / FILE, leaves=1)[1]
    assert "later trainer" in run("records", "list", "--data", tmp_path, leaves=1)[1]


def test_a_key_that_is_there_is_left(tmp_path: Path) -> None:
    path = tmp_path / "a.pem"
    keys.save_key(KEY, None, path)
    with pytest.raises(AlreadyThere):
        keys.save_key(new_key(), None, path)
    assert public_hex(read_private(path.read_bytes(), None, "k")) == public_hex(KEY)


def test_what_a_forger_wrote_of_time_is_held_against_the_pack() -> None:
    from trainer.records.trust import examine_sitting

    first = {**sat().opening, "minutes": 500}
    made = Attempt(chain({k: v for k, v in first.items() if k != "n"}, ended(NOON + 60_000)))
    said = examine_sitting(prove(made), {}, PACK)
    assert any(each.state == "fails" and "another time" in each.text for each in said)


def test_an_easier_house_or_more_time_under_an_honest_ticket_earns_nothing(tmp_path: Path) -> None:
    """The level's text, the time or the practice mark are not those that the ticket was given for."""
    told = told_of(built("wren-07", 1, "ab"))
    begun = told[1]
    easier = begun["text"].replace("A store", "A store shed")
    assert easier != begun["text"]
    longer, practice = {**told[0], "minutes": 900}, {**told[0], "mode": "practice"}
    hinted = [{**each, "hinted": True} if each["kind"] == "act" else each for each in told[2:]]
    for other, first, rest in (
        ({"text": easier}, told[0], told[2:]), ({"practice_mark": 5}, told[0], told[2:]), ({}, longer, told[2:]),
        ({}, practice, told[2:]), ({}, told[0], hinted),
    ):  # fmt: skip
        made = prove(Attempt(chain(first, {**begun, **other}, *rest)))
        label, why = trust_and_why(made, {public_hex(KEY): "teacher"})
        assert label == "self-study", other
        assert "not those that its ticket is for" in why or "a ticket is for an assessment" in why
        assert any(said.state == "fails" for said in examine_sitting(made, {public_hex(KEY): "teacher"}))
        assert why_not_signed(made, {"wren-07": [made.head_code]}, {public_hex(KEY): "teacher"})
    assert trust_and_why(prove(built("wren-07", 1, "ab")), {public_hex(KEY): "teacher"})[0] == "supervised"


def test_acts_stand_in_the_order_of_their_numbers() -> None:
    told = told_of(built("wren-07", 1, "ab"))
    swapped = [*told[:6], told[7], told[6], *told[8:]]
    with pytest.raises(Faulty, match="its number is not its place"):
        read_record(recorded(*swapped), "it")
