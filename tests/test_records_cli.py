"""The records from the command line: an assessor's path, many seats, and what is said when something is wrong."""

from __future__ import annotations

import csv
import io
import json
import shutil
import sqlite3
import sys
from pathlib import Path

import pytest
from records_made import act, attempt, chain, ended, house, opening, said, uuid_of
from report_made import mistaken
from sizes import FULL, by_size
from typer.main import get_command
from typer.testing import CliRunner
from xapi_check import faults_of

from trainer.cli import app
from trainer.level import parse_level
from trainer.records.attempt import Attempt
from trainer.records.record_file import read_record, write_record
from trainer.records.store import FILE, Store
from trainer.rehearse import rehearse
from trainer.shipped import find_level
from trainer.site import write_diary

RUNNER = CliRunner()
LEVELS = ("pardalote", "fantail", "wagtail", "wren", "lorikeet") if FULL else ("pardalote", "fantail")
SEATS = by_size(3, 6, 30)
ALL = SEATS * len(LEVELS)
SAYS_NOTHING = ("competent", "licensed", "qualified to")


def run(*words: object, leaves: int = 0, typed: str = "") -> tuple[str, str]:
    """What a command printed, to standard output and to standard error."""
    result = RUNNER.invoke(app, [str(word) for word in words], input=typed)
    assert result.exit_code == leaves, result.output
    assert "Traceback" not in result.output
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result.stdout, result.stderr


@pytest.fixture
def office(tmp_path: Path) -> Path:
    """An assessor's folder, with a key whose passphrase is in a file."""
    folder = tmp_path / "office"
    folder.mkdir()
    (folder / "pass").write_text("an invented passphrase\n", encoding="utf-8")
    run("key", folder / "assessor.pem", "--passphrase-file", folder / "pass", "--data", folder / "data")
    return folder


def signing(office: Path) -> tuple[object, ...]:
    return ("--key", office / "assessor.pem", "--passphrase-file", office / "pass")


def a_pack(office: Path, *more: object, levels: tuple[str, ...] = ("pardalote",)) -> Path:
    path = office / "pack.json"
    run("pack", *levels, "-o", path, "--title", "Invented", "--seed", 7, *more, *signing(office))
    return path


def diary(level: str, seed: int = 1, mistake: str | None = None) -> str:
    model = parse_level(find_level(level).read_bytes(), level)
    return write_diary(rehearse(model, seed, mistake))


def result_of(folder: Path) -> Path:
    (path,) = folder.glob("*.attempt.json")
    return path


def test_the_assessors_path(office: Path, tmp_path: Path) -> None:
    pack = a_pack(office, "--minutes", 90, levels=("pardalote", "fantail"))
    ticket, stick, seat = office / "t.json", tmp_path / "stick", tmp_path / "seat"
    stick.mkdir()
    (seat / "assessors").mkdir(parents=True)
    shutil.copy(office / "assessor.pub.pem", seat / "assessors")
    run("ticket", pack, "--code", "wren-07", "-o", ticket, "--extra-minutes", 10, *signing(office))
    typed = diary("pardalote") + diary("fantail", mistake="taken-down-again")
    sit = ("sit", pack, "--code", "wren-07", "--ticket", ticket, "--data", seat, "-o", stick)
    code, heard = run(*sit, typed=typed)
    assert "signed by assessor" in heard
    assert "100 minutes left" in heard
    assert "taken-down-again" not in heard, "silent on mistakes"
    result = result_of(stick)

    trusting = ("--assessor", office / "assessor.pub.pem")
    out, _err = run("verify", result, *trusting, "--pack", pack, "--code", code.strip())
    assert "self-study" in out and "sent in from a file" in out, "it was: a ticket does not make that supervised"
    assert "FAILS" not in out
    assert "2 of 2 houses" in out
    assert "fantail: judged again, it comes to the same mark, 92 (met)" in out
    assert "who sat at the machine" in out

    run("sign", result, "--code", "1111-2222-3333-4444", *signing(office), leaves=1)
    run("sign", result, "--code", code.strip().lower().replace("-", " "), *signing(office))
    told = json.loads(run("verify", result, *trusting, "--json")[0])
    assert told["holds"] is True
    assert told["attempts"][0]["trust"] == "counter-signed"

    run("sit", pack, "--code", "wren-07", "--ticket", ticket, "--data", seat, leaves=1)


def test_a_sitting_stopped_in_the_middle_goes_on(office: Path, tmp_path: Path) -> None:
    pack, data = a_pack(office), tmp_path / "seat"
    lines = diary("pardalote").splitlines(keepends=True)
    sit = ("sit", pack, "--code", "emu-3", "--data", data)
    out, err = run(*sit, typed="".join(lines[:20]))
    assert out == ""
    assert "Stopped in house 1 of 1" in err
    assert "knows no assessor" in err
    assert "never closed" in run("records", "list", "--data", data)[0]
    out, err = run(*sit, typed="".join(lines[20:]))
    assert "You began before" in err
    assert len(out.strip()) == 19
    (shown,) = json.loads(run("records", "list", "--data", data, "--json")[0])["attempts"]
    assert shown["houses"] == [{**shown["houses"][0], "level": "pardalote", "score": 100, "outcome": "met"}]
    assert shown["trust"] == "self-study"
    assert "Stopped at" in run("records", "show", shown["attempt"][:6], "--data", data)[0]


def test_what_is_typed_wrong_is_said_and_asked_again(office: Path, tmp_path: Path) -> None:
    typed = "{do: stnd, tag: ST1}\ndo: stand, tag: XX9, from: [0, 0], to: [1, 1]\n{do: [}\n\n# a comment\n"
    _out, err = run("sit", a_pack(office), "--code", "emu-3", "--data", tmp_path, typed=typed)
    assert "did you mean 'stand'" in err
    assert "Nobody could do that" in err
    assert err.count("Not understood") == 2
    (made,) = json.loads(run("records", "list", "--data", tmp_path, "--json")[0])["attempts"]
    shown, _err = run("records", "show", made["attempt"], "--data", tmp_path)
    assert "1 action" in shown, "what could be understood is recorded, also where nobody could do it"


def test_a_seat_sits_only_packs_of_assessors_it_knows(office: Path, tmp_path: Path) -> None:
    pack = a_pack(office)
    run("key", tmp_path / "other.pem", "--passphrase-file", office / "pass", "--data", office / "data")
    _out, err = run("sit", pack, "--code", "a", "--assessor", tmp_path / "other.pub.pem", "--data", tmp_path, leaves=1)
    assert "not signed by an assessor that this seat knows" in err
    assert not (tmp_path / FILE).exists()


def test_a_class_is_collected_in_any_order_and_exported(office: Path, tmp_path: Path) -> None:
    """Invented codes over the same levels, each seat with a store of its own."""
    sticks = [tmp_path / "stick-1", tmp_path / "stick-2"]
    for stick in sticks:
        stick.mkdir()
    packs = {}
    for level in LEVELS:
        run("pack", level, "-o", office / f"{level}.json", "--seed", 3, *signing(office))
        packs[level] = office / f"{level}.json"
    for number in range(SEATS):
        seat, stick = tmp_path / f"seat-{number}", sticks[number % 2]
        for level in LEVELS:
            mistake = "taken-down-again" if (number + len(level)) % 3 == 0 and level != "pardalote" else None
            typed = diary(level, number, mistake)
            run("sit", packs[level], "--code", f"learner-{number:02}", "--data", seat, "-o", stick, typed=typed)
    shutil.copy(tmp_path / "seat-0" / FILE, sticks[1] / "whole.db")

    first, second = tmp_path / "first", tmp_path / "second"
    out, _err = run("records", "collect", sticks[0], sticks[1], "--data", first)
    assert out.startswith(f"{ALL} new; {len(LEVELS)} here already")
    assert run("records", "collect", sticks[0], "--data", second)[0]
    run("records", "collect", sticks[1], sticks[0], sticks[1], "--data", second)
    run("records", "export", "-o", tmp_path / "a.jsonl", "--as", "lines", "--data", first)
    run("records", "export", "-o", tmp_path / "b.jsonl", "--as", "lines", "--data", second)
    assert sorted((tmp_path / "a.jsonl").read_bytes().splitlines()) == sorted(
        (tmp_path / "b.jsonl").read_bytes().splitlines()
    )
    assert run("records", "collect", tmp_path / "a.jsonl", "--data", second)[0] == f"{ALL} here already\n"

    run("records", "export", "-o", tmp_path / "class.csv", "--as", "csv", "--data", first)
    rows = list(csv.DictReader(io.StringIO((tmp_path / "class.csv").read_text(encoding="utf-8"), newline="")))
    assert len(rows) == ALL
    assert {row["level"] for row in rows} == set(LEVELS)
    assert {row["outcome"] for row in rows} == {"met"}
    assert len({row["score"] for row in rows}) > 1
    run("records", "export", "-o", tmp_path / "x.json", "--as", "xapi", "--data", first, "--home", "https://c.invalid")
    told = json.loads((tmp_path / "x.json").read_text(encoding="utf-8"))
    assert not [fault for each in told for fault in faults_of(each)]
    assert {each["actor"]["account"]["homePage"] for each in told} == {"https://c.invalid/"}
    (tmp_path / "files").mkdir()
    run("records", "export", "-o", tmp_path / "files", "--code", "learner-01", "--data", first)
    assert len(list((tmp_path / "files").iterdir())) == len(LEVELS)

    out, _err = run("regrade", "--data", first, "--processes", 2)
    assert out == f"Judged again: houses {ALL}, attempts {ALL}. Would change: 0.\n"
    assert run("verify", first / FILE)[0].count("FAILS") == 0
    for kind in ("html", "pdf", "csv"):
        assert f"{SEATS} code names, {ALL} attempts" in run("report", "-o", tmp_path / f"c.{kind}", "--data", first)[1]
    assert len((tmp_path / "c.csv").read_text(encoding="utf-8").splitlines()) == ALL + 1
    assert (tmp_path / "c.html").read_text(encoding="utf-8").count("<th>learner-") == SEATS
    assert (
        f"Removed learner-02 with {len(LEVELS)} attempts"
        in run("records", "erase", "learner-02", "--yes", "--data", first)[1]
    )
    out, _err = run("records", "collect", *sticks, "--data", first)
    assert f"{len(LEVELS)} left out, since the person was erased here" in out


FOUND_NO_MORE = {"rule": "saddle-unfinished", "member": "S1", "severity": "habit", "got": "a", "want": "b", "cause": ""}
"""A finding of a rule that there never was."""


def filled(folder: Path, *seeds: int, code: str = "wren-07") -> Path:
    with Store.open(folder / FILE) as store:
        for seed in seeds:
            store.begin(*said(seed=seed, code=code))
    return folder


@pytest.mark.parametrize("few", [0, 100], ids=["in several processes", "in one"])
def test_collecting_names_what_does_not_hold_and_takes_the_rest(
    few: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys.modules["trainer.cli.records.move"], "FEW", few)
    stick = tmp_path / "stick"
    (stick / "deep").mkdir(parents=True)
    (stick / "good.attempt.json").write_bytes(write_record(attempt()))
    (stick / "deep" / "bad.attempt.json").write_bytes(
        write_record(attempt(seed=2)).replace(b'"score":92', b'"score":97')
    )
    (stick / "cut.attempt.json").write_bytes(write_record(attempt(seed=3))[:-9])
    (stick / "no.db").write_bytes(b"no store at all")
    (stick / "holiday.jpg").write_bytes(b"not ours")
    out, err = run("records", "collect", stick, "--data", tmp_path / "d", leaves=1)
    assert out == "1 new\n"
    assert len(err.splitlines()) == 4 and "can't be judged again" in err.splitlines()[0]
    for name in ("bad.attempt.json", "cut.attempt.json", "no.db"):
        assert name in err
    run("records", "collect", tmp_path / "nowhere", "--data", tmp_path / "d", leaves=2)


def test_conflicts_are_shown_and_both_kept(tmp_path: Path) -> None:
    other = Attempt(chain(opening(), house(), act(0, tag="T9")))
    for name, made in (("a", attempt()), ("b", other)):
        (tmp_path / f"{name}.attempt.json").write_bytes(write_record(made))
    out, err = run("records", "collect", tmp_path, "--data", tmp_path)
    assert out == "1 new; 1 in conflict\n"
    assert attempt().head_code in err
    assert other.head_code in err
    out, _err = run("records", "list", "--data", tmp_path)
    assert out.count("conflict") == 2


def test_names_are_shown_here_and_nowhere_else(tmp_path: Path) -> None:
    data = filled(tmp_path, 1, 2)
    run("records", "name", "wren-07", "An Invented Person", "--data", data)
    assert "An Invented Person" in run("records", "list", "--data", data)[0]
    for form in ("csv", "lines", "xapi"):
        run("records", "export", "-o", tmp_path / form, "--as", form, "--data", data)
        assert b"Invented Person" not in (tmp_path / form).read_bytes()
    run("records", "name", "no good", "x", "--data", data, leaves=2)


def test_what_is_stored_is_said(tmp_path: Path) -> None:
    out, _err = run("records", "what", "--data", tmp_path)
    assert str(tmp_path) in out
    assert "code name" in out
    assert "until somebody erases it" in out
    filled(tmp_path, 1)
    run("records", "keep", 365, "--data", tmp_path)
    assert "365 days" in run("records", "what", "--data", tmp_path)[0]


def test_keeping_shows_what_is_due_and_erases_only_when_told(tmp_path: Path) -> None:
    data = filled(tmp_path, 1, 2)
    assert "until somebody erases them" in run("records", "keep", "--data", data)[0]
    out, _err = run("records", "keep", 1, "--data", data)  # the invented attempts are of 2025
    assert out.count("Due: ") == 2
    assert len(json.loads(run("records", "list", "--data", data, "--json")[0])["attempts"]) == 2
    _out, err = run("records", "keep", "--erase-due", "--data", data)
    assert "Erased 2 attempts" in err
    assert run("records", "list", "--data", data)[0] == "Nothing is recorded yet.\n"
    assert "until" in run("records", "keep", "--forever", "--data", data)[0]
    run("records", "keep", 5, "--forever", "--data", data, leaves=2)


def test_erasing_asks_first(tmp_path: Path) -> None:
    data = filled(tmp_path, 1, 2)
    run("records", "erase", "wren-07", "--data", data, leaves=1, typed="n\n")
    assert len(json.loads(run("records", "list", "--data", data, "--json")[0])["attempts"]) == 2
    run("records", "erase", "wren-07", "--keep-statistics", "--data", data, typed="y\n")
    assert run("records", "list", "--data", data)[0] == "Nothing is recorded yet.\n"
    run("records", "erase", "wren-07", "--yes", "--data", data, leaves=2)


def test_a_backup_is_looked_over(tmp_path: Path) -> None:
    data = filled(tmp_path / "d", 1, 2)
    _out, err = run("records", "backup", tmp_path / "b.db", "--data", data)
    assert "2 attempts, 18 entries" in err
    out, _err = run("verify", tmp_path / "b.db")
    assert "The store is sound: 2 attempts, 18 entries" in out
    run("records", "backup", tmp_path / "b.db", "--data", data, leaves=2)
    other = sqlite3.connect(data / FILE)
    other.execute("DROP TRIGGER entries_never_change")
    other.execute("UPDATE entries SET body = replace(body, '92', '97')")
    other.commit()
    other.close()
    _out, err = run("records", "backup", tmp_path / "c.db", "--data", data, leaves=1)
    assert err.count("entry 7") == 2
    out, _err = run("verify", data / FILE, leaves=1)
    assert "FAILS" in out
    assert run("records", "list", "--check", "--data", data)[0].count("DOES NOT HOLD") == 2
    assert "Does not hold from entry 7" in run("records", "show", uuid_of(1)[:8], "--data", data)[0]
    _out, err = run("records", "export", "-o", tmp_path / "x.csv", "--as", "csv", "--data", data)
    assert "2 attempts do not hold" in err


def test_a_store_is_held_against_the_pack_that_was_sat(office: Path, tmp_path: Path) -> None:
    seat = tmp_path / "seat"
    one = a_pack(office, levels=("pardalote",))
    run("sit", one, "--code", "emu-3", "--data", seat, typed=diary("pardalote"))
    run("sit", one, "--code", "owl-4", "--data", seat, typed=diary("pardalote"))
    other = tmp_path / "other.json"
    run("pack", "fantail", "-o", other, "--title", "Another one", "--seed", 8, *signing(office))
    out, _err = run("verify", seat / FILE, "--pack", one)
    assert out.count("It is a sitting of the pack 'Invented': 1 of 1 house") == 2
    # Attempts of other packs are no fault, but it is said that none is of this one.
    out, _err = run("verify", seat / FILE, "--pack", other)
    assert "No attempt in it is a sitting of the pack 'Another one'." in out
    assert "FAILS" not in out
    _out, err = run("verify", seat / FILE, "--code", "0000-0000-0000-0000", leaves=2)
    assert "not the store" in err


def test_a_damaged_store_is_left_alone_and_what_holds_is_saved(tmp_path: Path) -> None:
    data = filled(tmp_path / "d", 1, 2, 3)
    path = data / FILE
    content = bytearray(path.read_bytes())
    content[0:16] = b"x" * 16
    path.write_bytes(content)
    for words in (("records", "list"), ("records", "keep"), ("regrade",)):
        _out, err = run(*words, "--data", data, leaves=1)
        assert "left exactly as it is" in err
        assert "save-what-holds" in err
    _out, err = run("records", "save-what-holds", path, "-o", tmp_path / "saved.db")
    assert "27 entries; 3 attempts to their close" in err
    assert path.read_bytes() == content
    run("records", "save-what-holds", tmp_path / "nowhere", "-o", tmp_path / "y.db", leaves=2)


def test_a_list_names_in_short_what_a_roof_was_handed_over_without(tmp_path: Path) -> None:
    mistaken(tmp_path, "wren-07", "pardalote", "roof-brace-missing")
    (shown,) = json.loads(run("records", "list", "--data", tmp_path, "--json")[0])["attempts"]
    (mark,) = shown["houses"]
    assert mark["outcome"] == "not yet met" and mark["missing"] == ["roof-brace-missing (ST5)"]
    assert "not yet met: roof-brace-missing (ST5)" in run("records", "list", "--data", tmp_path)[0]


def test_regrading_shows_before_it_keeps_and_the_record_never_changes(tmp_path: Path) -> None:
    text = find_level("pardalote").read_text(encoding="utf-8")
    told = [
        opening(),
        {**house("pardalote"), "text": text},
        {"kind": "mark", "at": 5, "score": 40, "outcome": "not yet met"},
    ]
    with Store.open(tmp_path / FILE) as store:
        store.begin(*told, ended(6))
        before = write_record(store.attempts(uuid_of(1))[0])
    out, _err = run("regrade", "--data", tmp_path)
    assert "Would change: 1." in out
    assert "40 not yet met" in out
    assert "100 unfinished" in out
    assert "(now" not in run("records", "list", "--data", tmp_path)[0]
    _out, err = run("regrade", "--keep", "--data", tmp_path)
    assert "Kept 1 mark" in err
    assert "pardalote 40 not yet met (now 100)" in run("records", "list", "--data", tmp_path)[0]
    assert "100 of 100. Not finished" in run("records", "show", uuid_of(1)[:8], "--data", tmp_path)[0]
    with Store.read(tmp_path / FILE) as store:
        assert write_record(store.attempts(uuid_of(1))[0]) == before


def test_regrading_says_what_has_changed_and_why(tmp_path: Path) -> None:
    over = {"kind": "act", "at": 4, "index": 0, "action": {"do": "hand_over"}, "found": [FOUND_NO_MORE]}
    mark = {"kind": "mark", "at": 5, "score": 99, "outcome": "met"}
    with Store.open(tmp_path / FILE) as store:
        text = find_level("pardalote").read_text(encoding="utf-8")
        store.begin(opening(), {**house("pardalote"), "text": text}, over, mark, ended(6))
    out, _err = run("regrade", "--data", tmp_path)
    what = next(line for line in out.splitlines() if "pardalote: found now: " in line)
    assert "truss-missing 9x" in what
    assert what.endswith("found no more: saddle-unfinished")
    assert "\n  truss-missing (rework): " in out
    assert "No fault any more, or another rule's: saddle-unfinished." in out


def test_wrong_calls_are_told_plainly(office: Path, tmp_path: Path) -> None:
    pack = a_pack(office)
    for words in (
        ("records", "list", "--data", tmp_path / "none"),
        ("records", "show", "zz", "--data", filled(tmp_path, 1)),
        ("records", "export", "-o", office / "pass" / "x.csv", "--as", "csv", "--data", tmp_path),
        ("key", office / "key.txt", "--passphrase-file", office / "pass"),
        ("key", office / "assessor.pem", "--passphrase-file", office / "pass"),
        ("sit", tmp_path / "no.json", "--code", "a", "--data", tmp_path),
        ("sit", pack, "--code", "An Invented Person", "--data", tmp_path),
        ("verify", tmp_path / "no.attempt.json"),
        ("pack", "wern", "-o", tmp_path / "p.json", *signing(office)),
        ("ticket", pack, "--code", "a b", "-o", tmp_path / "t", *signing(office)),
    ):
        out, err = run(*words, leaves=2)
        assert out == ""
        assert err.strip()
    (office / "wrong").write_text("another passphrase", encoding="utf-8")
    wrong = ("--key", office / "assessor.pem", "--passphrase-file", office / "wrong")
    assert "does not open this key" in run("ticket", pack, "--code", "a", "-o", office / "t", *wrong, leaves=1)[1]
    assert "no JSON" in run("sit", office / "pass", "--code", "a", "--data", tmp_path, leaves=1)[1]
    (tmp_path / "open.attempt.json").write_bytes(write_record(attempt(closed=False)))
    refused = ("sign", tmp_path / "open.attempt.json", "--code", "x", *signing(office))
    assert "never closed" in run(*refused, leaves=1)[1]


def test_the_folder_may_stand_before_the_command_as_after_it(tmp_path: Path) -> None:
    for words in (("--data", tmp_path, "records", "list"), ("records", "list", "--data", tmp_path)):
        assert str(tmp_path / FILE) in run(*words, leaves=2)[1]
    (tmp_path / "passphrase").write_text("an invented passphrase", encoding="utf-8")
    run("--data", tmp_path, "key", tmp_path / "k.pem", "--passphrase-file", tmp_path / "passphrase")
    assert list((tmp_path / "assessors").iterdir())


def test_a_file_that_fails_leaves_with_one(tmp_path: Path) -> None:
    path = tmp_path / "a.attempt.json"
    path.write_bytes(write_record(attempt()))
    assert "'pardalote'" not in run("verify", path, "--code", "0000-0000-0000-0000", leaves=1)[0]
    pretty = json.dumps(json.loads(path.read_bytes()), indent=1)
    path.write_text(pretty, encoding="utf-8")
    assert "set the file's text out anew" in run("verify", path)[0]
    path.write_text(pretty.replace('"score": 92', '"score": 93'), encoding="utf-8")
    assert "entries[7]" in run("verify", path, leaves=1)[1]


def test_a_cluster_that_is_not_there_is_told_plainly(tmp_path: Path) -> None:
    filled(tmp_path, 1)
    _out, err = run("regrade", "--scheduler", "tcp://127.0.0.1:1", "--data", tmp_path, leaves=2)
    assert "cluster" in err


GROUP = dict(getattr(get_command(app), "commands"))["records"]  # noqa: B009 - its type isn't public


@pytest.mark.parametrize("name", sorted(GROUP.commands))
def test_every_command_of_the_records_has_help(name: str) -> None:
    command = GROUP.commands[name]
    assert command.help.strip().split("\n\n")[0].endswith(".")
    assert not command.get_short_help_str(limit=60).endswith("...")
    assert all(getattr(each, "help", None) for each in command.params)


def test_nothing_here_claims_what_a_record_can_not_show(office: Path, tmp_path: Path) -> None:
    path = tmp_path / "a.attempt.json"
    path.write_bytes(write_record(attempt()))
    said_ = run("verify", path)[0] + run("records", "what", "--data", tmp_path)[0]
    assert not [word for word in SAYS_NOTHING if word in said_.lower()]
    assert read_record(path.read_bytes(), "it").untouched
