"""A whole class on one stick, by commands: few acts, two passphrases, and the same numbers wherever they are told."""

from __future__ import annotations

import csv
import json
import re
import shutil
from pathlib import Path
from typing import Any

import pytest
from records_made import Clock
from report_made import Page
from sizes import by_size
from test_records_cli import run

from trainer.cli.questions import the_bank
from trainer.level import parse_level
from trainer.quiz.judge import right_answer
from trainer.records.attempt import Attempt
from trainer.records.chain import START, link
from trainer.records.record_file import file_name, read_record, write_record
from trainer.records.seat import new_id, seat_key
from trainer.records.sitting import OpenSitting
from trainer.records.stick import RESULTS
from trainer.records.store import FILE, Store
from trainer.records.waiting import handed_out
from trainer.rehearse import rehearse
from trainer.site import HandOver
from trainer.site.diary import write_diary

HOUSES = by_size(("pardalote", "thornbill"), *[("pardalote", "thornbill", "fantail")] * 2)
LAST = len(HOUSES) - 1
CLASS = by_size(5, 8, 16)
ASKED = 4


class Class:
    """An assessor's folder and a stick, and the seats that it goes to."""

    def __init__(self, folder: Path) -> None:
        self.office, self.stick, self.data = folder / "office", folder / "stick", folder / "data"
        self.codes = [f"learner-{n:02}" for n in range(CLASS)]
        self.acts = self.passphrases = 0
        self.written: dict[str, str] = {}
        self.office.mkdir()
        (self.office / "pass").write_text("an invented passphrase\n", encoding="utf-8")
        self.run("key", self.office / "a.pem", "--passphrase-file", self.office / "pass", "--data", self.data)
        self.acts = 0

    def run(self, *words: object, leaves: int = 0) -> tuple[str, str]:
        self.acts += 1
        return run(*words, leaves=leaves)

    def signing(self) -> tuple[object, ...]:
        self.passphrases += 1
        return ("--key", self.office / "a.pem", "--passphrase-file", self.office / "pass")

    def hand_out(self) -> None:
        names = self.office / "names.csv"
        rows = [f"{code},{15 if n == 1 else ''},{10 if n == 2 else ''}" for n, code in enumerate(self.codes)]
        names.write_text("code,extra,breaks\n" + "\n".join(rows), encoding="utf-8")
        self.run("class", self.stick, *HOUSES, "--codes", names, "--minutes", 60, "--questions", ASKED, *self.signing())

    def sit(self, n: int, data: Path) -> None:
        """One candidate: the second stops on the way, the third runs out of time, the fourth makes a mistake."""
        code = self.codes[n]
        packs, tickets = handed_out(self.stick)
        ticket = next(each for each in tickets if each.content.code == code)
        pack, clock, seat = packs[ticket.content.pack], Clock(), seat_key(data)
        clock.now = ticket.content.made + 1000
        bank = the_bank()
        with Store.open(data / FILE) as store:
            sitting = OpenSitting.begin(store, pack, code, ticket, new_id(), seat, clock, bank)
            for number, _house in enumerate(HOUSES):
                assert sitting.session is not None
                mistake = "taken-down-again" if n == 3 and number == 1 else None
                level, seed = sitting.session.level, sitting.session.job.seed
                for action in rehearse(level, seed, mistake).actions:
                    clock.now += 3000
                    if n == 2 and number == LAST and isinstance(action, HandOver):
                        break
                    sitting.do(action)
                if n == 1 and number == 0:
                    clock.now += 120_000
                    (left,) = store.unfinished(code)
                    sitting = OpenSitting.resume(store, pack, left, seat, clock, bank)
                if n == 2 and number == LAST:
                    clock.now += 61 * 60_000
                    break
                sitting.next()
            right = 0
            while n != 2 and sitting.asked is not None:
                clock.now += 5000
                answer = right_answer(sitting.asked)
                if right == 3 and n % 2:  # one of them given up
                    break
                sitting.answer(answer, 5000)
                right += 1
            made = sitting.finish(seat)
        self.written[code] = made.head_code
        (self.stick / RESULTS / file_name(made)).write_bytes(write_record(made))

    def take_back(self) -> None:
        table = self.office / "codes.csv"
        table.write_text("\n".join(f"{code},{head.lower()}" for code, head in self.written.items()), encoding="utf-8")
        self.run("sign", self.stick, "--codes", table, *self.signing())
        self.run("records", "collect", self.stick, "--data", self.data)


@pytest.fixture(scope="module")
def sat(tmp_path_factory: pytest.TempPathFactory) -> Class:
    of = Class(tmp_path_factory.mktemp("class"))
    of.hand_out()
    for n in range(CLASS - 1):  # the last one never comes
        of.sit(n, of.office / f"seat-{n}")
    of.take_back()
    return of


def rows_of(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_a_class_takes_few_acts_and_two_passphrases(sat: Class) -> None:
    assert sat.acts <= 12 and sat.passphrases == 2
    listed = run("class", sat.stick, "--data", sat.data)[0]
    assert listed.count("ticket given, result missing") == 1 and listed.count("counter-signed") == CLASS - 1
    assert not any(head in listed for head in sat.written.values())
    assert re.search(rf"{sat.codes[-1]} .*missing", listed)


def test_every_number_is_the_same_wherever_it_is_told(sat: Class, tmp_path: Path) -> None:
    rows = the_same_wherever_told(sat.data, tmp_path)
    assert len(rows) == CLASS - 1 and {row["trust"] for row in rows} == {"counter-signed"}
    judged = run("verify", sat.stick, "--data", sat.data)[0]
    assert judged.count("comes to the same mark") == len(HOUSES) * (CLASS - 1)


def the_same_wherever_told(folder: Path, tmp_path: Path) -> list[dict[str, Any]]:
    """Hold list, table, lines, xAPI, class and attempt reports of a data folder to each other; return the list."""
    data = ("--data", folder)
    rows: list[dict[str, Any]] = json.loads(run("records", "list", *data, "--json")[0])["attempts"]
    run("records", "export", "-o", tmp_path / "t.csv", "--as", "csv", *data)
    run("records", "export", "-o", tmp_path / "t.jsonl", "--as", "lines", *data)
    run("records", "export", "-o", tmp_path / "t.xapi", "--as", "xapi", *data)
    run("report", "-o", tmp_path / "pages", *data)
    table, by_class = rows_of(tmp_path / "t.csv"), rows_of(tmp_path / "pages" / "class.csv")
    lines = {
        line["entries"][0]["body"]["attempt"]: line
        for line in map(json.loads, (tmp_path / "t.jsonl").read_text(encoding="utf-8").splitlines())
    }
    said = json.loads((tmp_path / "t.xapi").read_text(encoding="utf-8"))
    page = Page((tmp_path / "pages" / "class.html").read_text(encoding="utf-8")).text
    for row in rows:
        mine = [each for each in table if each["attempt"] == row["attempt"]]
        ours = [each for each in by_class if each["code"] == row["code"]]
        pages = list((tmp_path / "pages").glob(f"{row['code']}-*.html"))
        assert len(pages) == 1
        grades = row["grades"]
        same_houses(row, mine, ours, [each for each in said if each["context"]["registration"] == row["attempt"]])
        same_grades(grades, mine, ours)
        book = lines[row["attempt"]]["gradebook"]
        assert {name: book[name] for name in grades} == grades
        closing = next(
            each["result"]["extensions"] for each in said
            if each["context"]["registration"] == row["attempt"] and "gradebook" in str(each.get("result"))
        )  # fmt: skip
        assert {k: v for k, v in grades.items() if v is not None}.items() <= next(iter(closing.values())).items()
        own = Page(pages[0].read_text(encoding="utf-8")).text
        used = f"{grades['used_minutes']:.1f} of {grades['allowed_minutes']} min"
        questions = [] if grades["quiz_total"] is None else [f"{grades['quiz_right']} of {grades['quiz_total']}"]
        if grades["sums_total"] and grades["judged_total"]:
            judged = f"Judgement: {grades['judged_right']} of {grades['judged_total']} right."
            questions.append(f"{judged} Sums: {grades['sums_right']} of {grades['sums_total']} right.")
        for word in (used, *questions):
            assert word in own and word in page, word
    return rows


def same_houses(row: Any, mine: list[dict[str, str]], ours: list[dict[str, str]], said: list[Any]) -> None:
    scores = {each["level"]: each["score"] for each in row["houses"]}
    assert {each["level"]: int(each["score"]) if each["score"] else None for each in mine} == scores
    assert {each["level"]: int(each["last_score"]) if each["last_score"] else None for each in ours} == scores
    sent = {
        each["object"]["id"].rsplit("/", 1)[1]: each["result"]["score"]["raw"]
        for each in said if each["verb"]["id"].rsplit("/", 1)[1] in ("passed", "failed")
    }  # fmt: skip
    assert sent == {level: score for level, score in scores.items() if score is not None}


def same_grades(grades: dict[str, Any], mine: list[dict[str, str]], ours: list[dict[str, str]]) -> None:
    apart = ("judged_right", "judged_total", "sums_right", "sums_total")
    for name in (
        "quiz_right",
        "quiz_total",
        "allowed_minutes",
        "extra_minutes",
        "break_minutes",
        "used_minutes",
        *apart,
    ):
        want = "" if grades[name] is None else f"{grades[name]:g}"
        told = {f"{float(each[name]):g}" if each[name] else "" for each in (*mine, *ours)}
        assert told == {want}, name
    assert {each["time_up"] for each in (*mine, *ours)} == {"yes" if grades["time_up"] else "no"}


def test_what_was_granted_and_what_ran_out_are_told(sat: Class) -> None:
    rows = {row["code"]: row for row in json.loads(run("records", "list", "--data", sat.data, "--json")[0])["attempts"]}
    second, third, fourth = (rows[sat.codes[n]] for n in (1, 2, 3))
    assert second["grades"]["allowed_minutes"] == 75 and second["grades"]["extra_minutes"] == 15
    assert third["grades"]["time_up"] and third["houses"][LAST]["score"] is None, "what was not handed over has no mark"
    assert third["grades"]["break_minutes"] == 10
    assert fourth["houses"][1]["score"] < 100
    assert {row["houses"][0]["try"] for row in rows.values()} == {1}


def test_a_table_of_codes_signs_only_what_it_names(sat: Class, tmp_path: Path) -> None:
    table = tmp_path / "codes.csv"
    table.write_text(f"code,closing\n{sat.codes[0]},1111-2222-3333-4444\nnobody,2222\n", encoding="utf-8")
    before = {path: path.read_bytes() for path in (sat.stick / RESULTS).iterdir()}
    _out, err = run("sign", sat.stick, "--codes", table, *sat.signing(), leaves=1)
    assert "not the one of this result" in err and "No result of nobody" in err and "no code in the table" in err
    assert {path: path.read_bytes() for path in before} == before
    for bad, word in (("a b,1", "code name"), ("", "empty")):
        table.write_text(bad, encoding="utf-8")
        assert word in run("sign", sat.stick, "--codes", table, *sat.signing(), leaves=1)[1]
    names = tmp_path / "names.csv"
    names.write_text("a b\nwren-07\nwren-07\nowl,x\n", encoding="utf-8")
    words = ("class", tmp_path / "other", "pardalote", "--codes", names)
    err = run(*words, *sat.signing(), leaves=1)[1]
    assert len(err.splitlines()) == 3 and not (tmp_path / "other").exists()


def test_each_of_a_class_builds_a_new_house_and_the_report_says_so(tmp_path: Path) -> None:
    made = Class(tmp_path)
    names = made.office / "names.csv"
    names.write_text("owl-1,,,text 150\nowl-2\n", encoding="utf-8")
    asked = ("--new-house", "gable", "--difficulty", 2, "--codes", names)
    _out, said = made.run("class", made.stick, *asked, *made.signing())
    assert "a new house for each" in said
    packs, _tickets = handed_out(made.stick)
    texts = [text for pack in packs.values() for _level, text in pack.houses]
    assert len(set(texts)) == 2
    for code in ("owl-1", "owl-2"):
        if code == "owl-2":
            made.run("report", made.stick, "-o", tmp_path / "part.html", "--data", made.data)
            page = (tmp_path / "part.html").read_text(encoding="utf-8")
            row = page[page.index("Ticket given, result missing") :][:200]
            assert "owl-2" in row and "owl-1" not in row
            made.run("report", made.stick, "-o", tmp_path / "part.csv", "--data", made.data)
            last = (tmp_path / "part.csv").read_text(encoding="utf-8").splitlines()[-1]
            assert last.startswith("owl-2,,0,") and "result missing" in last
        pack = next(packs[each.content.pack] for each in handed_out(made.stick)[1] if each.content.code == code)
        ((level, text),) = pack.houses
        diary = write_diary(rehearse(parse_level(text, level), pack.seed(code, 0)))
        run("sit", made.stick, "--code", code, "--data", tmp_path / code, typed=diary)
    out, _said = made.run("verify", made.stick, "--data", made.data)
    assert "FAILS" not in out and "Worth a look" in out
    made.run("report", made.stick, "-o", tmp_path / "class.html", "--data", made.data)
    page = (tmp_path / "class.html").read_text(encoding="utf-8")
    assert "The houses differed: each candidate built a new one." in page and "text 150" in page
    assert "result missing" not in page
    made.run("class", tmp_path / "other", "--new-house", "zigzag", "--codes", names, *made.signing(), leaves=2)


def test_answers_to_questions_of_ones_own_are_neither_signed_nor_said_to_hold(sat: Class, tmp_path: Path) -> None:
    stick, codes = tmp_path / "stick", tmp_path / "codes.csv"
    shutil.copytree(sat.stick, stick)
    file = next((stick / RESULTS).glob(f"{sat.codes[0]}-*"))
    bodies = [entry.body for entry in read_record(file.read_bytes(), "it").attempt.entries]
    told = [{**body, "question": "q-own"} if body["kind"] == "answer" else body for body in bodies]
    made = Attempt(link(START, told))
    file.write_bytes(write_record(made))
    codes.write_text(f"{made.code},{made.head_code}\n", encoding="utf-8")
    _out, err = sat.run("sign", file, "--codes", codes, *sat.signing(), leaves=1)
    assert "questions that the pack does not ask" in err and "It was not signed." in err
    assert "FAILS" in sat.run("verify", file, "--data", sat.data, leaves=1)[0]
