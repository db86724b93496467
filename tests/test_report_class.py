"""The report of a class: every number counted a second time from what was put in."""

from __future__ import annotations

import csv
import re
from pathlib import Path

import pytest
import records_made
from attempts import level_of
from records_made import NOON, answered, chain, ended, house_begun, marked, opening, paper_begun
from report_made import Page, built, mistaken, plain
from typer.testing import CliRunner

from trainer.cli import app
from trainer.picture.chart import Bar, bars
from trainer.picture.lettering import text_box
from trainer.picture.model import Polygon, Text
from trainer.records.attempt import Attempt
from trainer.records.collect import take_in
from trainer.records.store import FILE, Store
from trainer.rehearse import rehearse
from trainer.report.class_content import as_table, class_content
from trainer.rules import all_rules
from trainer.shipped import find_level, level_paths
from trainer.site import HandOver
from trainer.terms import SEVERITY_NAMES
from trainer.words import CAUTION

RUNNER = CliRunner()
TEN = [
    "1111110110", "1011011101", "1111011001", "0010001000", "0000010010",
    "1110111111", "1101110111", "1111111101", "0101111101", "1101101110",
]  # fmt: skip
"""K. Wuensch, East Carolina University, KR20.txt: ten students, ten items."""


def run(*words: object, leaves: int = 0) -> str:
    result = RUNNER.invoke(app, [str(word) for word in words])
    assert result.exit_code == leaves, result.output
    return result.stderr


@pytest.fixture(scope="module")
def office(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Four people: two with a truss off its station, one who left a house in the middle, one with nothing wrong."""
    folder = tmp_path_factory.mktemp("office")
    mistaken(folder, "emu-01", "pardalote", None)
    mistaken(folder, "owl-02", "pardalote", "off-station", seconds=11)
    mistaken(folder, "owl-02", "pardalote", "off-station", seconds=11)
    mistaken(folder, "wren-03", "pardalote", "off-station", seconds=9)
    mistaken(folder, "wren-03", "wren", "tie-down-missing", seconds=9)
    built(folder, "crow-04", "pardalote", rehearse(level_of("pardalote"), 1).actions[:9], finish=False, seconds=8)
    return folder


def marks(folder: Path) -> dict[tuple[str, str], int | str]:
    """The mark of each person's last go at each house, from the records."""
    with Store.read(folder / FILE) as store:
        houses = [(each.code, house) for id_ in store.ids() for each in store.attempts(id_) for house in each.houses]
    return {(code, house.level): house.mark["score"] if house.mark else "" for code, house in houses}


def page(folder: Path, tmp: Path) -> Page:
    run("report", "-o", tmp / "c.html", "--data", folder)
    return Page((tmp / "c.html").read_text(encoding="utf-8"))


def test_who_is_where_and_what_goes_wrong(office: Path, tmp_path: Path) -> None:
    shown = page(office, tmp_path)
    mark = marks(office)["owl-02", "pardalote"]
    assert f"owl-02 {mark}, practice mark met (try 2) –" in shown.text
    assert "crow-04 going on –" in shown.text
    (off,) = [rule for rule in all_rules() if rule.name == "off-station"]
    assert f"A truss off its mark {SEVERITY_NAMES[off.severity]} 2 3 " in shown.text
    assert "A truss off its mark: 2 of 4" in shown.text
    assert "off-station" not in shown.text, "people read titles, not the names of rules"
    assert "Not handed over yet: crow-04." in shown.text
    assert plain(CAUTION) in shown.text


def test_a_roof_with_something_missing_is_not_yet_met_and_says_so_before_its_mark(tmp_path: Path) -> None:
    mistaken(tmp_path, "wren-09", "pardalote", "tie-down-missing")
    shown = page(tmp_path, tmp_path)
    mark = marks(tmp_path)["wren-09", "pardalote"]
    assert f"wren-09 practice mark not yet met, 1 thing missing, {mark}" in shown.text
    run("report", "-o", tmp_path / "c.csv", "--data", tmp_path)
    (row,) = csv.DictReader((tmp_path / "c.csv").open(encoding="utf-8", newline=""))
    assert (row["last_outcome"], row["missing"]) == ("not yet met", "1")


def test_suggestions_name_the_rule_and_houses_that_teach_it(office: Path, tmp_path: Path) -> None:
    shown = page(office, tmp_path)
    ((first, more),) = re.findall(
        r"A truss off its mark: it happened to 2 of 4.*?Build ('[^']+') in the next lesson(; then [^.]+)?\.",
        shown.text,
    )
    lessons = {level.title: level.lesson for level in (level_of(path.stem) for path in level_paths())}
    for house in re.findall("'([^']+)'", first + more):
        lesson = lessons[house]
        assert "off-station" in lesson.teaches
        assert not lesson.unseen, "a house kept for assessment is not given away"


def test_the_time_is_shared_out_without_a_second_lost(office: Path) -> None:
    with Store.read(office / FILE) as store:
        attempts = [(each, "self-study") for id_ in store.ids() for each in store.attempts(id_)]
    told = class_content(attempts, {})
    minutes = sum(each.minutes for each in told.tried)
    by_hand = sum(house.acts[-1]["at"] - house.began for attempt, _t in attempts for house in attempt.houses)
    assert minutes == pytest.approx(by_hand / 60_000)
    stages = told.charts[1]
    assert sum(int(row[2].removesuffix(" %")) for row in stages.rows) == pytest.approx(100, abs=3)


def test_the_table_has_a_row_for_each_person_and_house(office: Path, tmp_path: Path) -> None:
    run("report", "-o", tmp_path / "c.csv", "--data", office)
    rows = list(csv.DictReader((tmp_path / "c.csv").open(encoding="utf-8", newline="")))
    assert [(row["code"], row["level"], row["attempts"], row["last_score"]) for row in rows] == [
        (code, level, "2" if code == "owl-02" else "1", str(mark))
        for (code, level), mark in sorted(marks(office).items())
    ]
    assert marks(office)["emu-01", "pardalote"] == 100
    assert marks(office)["wren-03", "pardalote"] < 100
    assert {row["trust"] for row in rows} == {"self-study"}


def test_a_page_prints_without_scripts_and_makes_no_request(office: Path, tmp_path: Path) -> None:
    shown = page(office, tmp_path)
    assert "script" not in shown.tags
    assert shown.fetched == ["data:,"]
    run("report", "-o", tmp_path / "c.pdf", "--data", office)
    content = (tmp_path / "c.pdf").read_bytes()
    assert content.startswith(b"%PDF-")
    assert b"/Subtype /Image" not in content


def sat(n: int, row: str, late: int = 0) -> Attempt:
    """One student's paper, as a record."""
    answers = [
        answered(NOON, f"q{i}", "choice", f"Question {i}?", ["a"], ["a" if right == "1" else "b"], right == "1", 9)
        for i, right in enumerate(row)
    ]
    opened = {**opening(n + 100 * late, f"student-{n}", "assessment"), "at": NOON + late}
    return Attempt(chain(opened, paper_begun(NOON, "paper", 3), *answers, ended(NOON)))


def test_item_statistics_are_the_published_ones() -> None:
    every = [(sat(n, row), "self-study") for n, row in enumerate(TEN)]
    # A person who sat it twice counts with the later one; a paper left in the middle is another set of questions.
    every += [(sat(0, "0000000000", -1), "self-study"), (sat(40, "111"), "self-study")]
    first, other = class_content(every, {}).papers
    name, notes, rows, few = first.name, first.notes, first.rows, other.notes
    assert other.head == ("Question", "Right"), "no column is empty from top to bottom"
    assert name == "paper, seed 3"
    assert notes == "10 people. 10 to 29 people: an early look, with 95 % intervals."
    assert few == "1 person. Under 10 people: counts only."
    assert [row[1] for row in rows] == [f"{sum(int(row[i]) for row in TEN)} / 10" for i in range(10)]
    assert rows[0][2].startswith("0.70 (")
    assert first.head == ("Question", "Right", "Share right"), "10 people are too few for D and r"
    assert rows[0][0] == "Question 0?", "and not its id"
    hundred = [(sat(n, TEN[n % 10]), "self-study") for n in range(100)]
    (paper,) = class_content(hundred, {}).papers
    notes, rows = paper.notes, paper.rows
    assert "KR-20 0.70, SEM 1.33." in notes
    assert rows[0][4] == "0.71", "published: 0.7059 against the rest"


def test_a_hard_question_and_a_clean_class_are_told() -> None:
    told = class_content([(sat(n, row), "self-study") for n, row in enumerate(TEN)], {})
    shares = [sum(int(row[i]) for row in TEN) / 10 for i in range(10)]
    assert sum("Few got this right" in text for text in told.suggestions) == sum(share < 0.5 for share in shares)
    assert class_content([], {}).suggestions == ()
    assert class_content([], {}).where == ()


def test_a_bar_is_as_long_as_its_value_and_bears_it() -> None:
    picture = bars([Bar("one", 2, "2 of 4"), Bar("other", 1, "1 of 4"), Bar("none", 0, "0 of 4")], "t")
    shapes = [item for item in picture.items() if isinstance(item, Polygon)]
    long, short = (max(x for x, _y in s.points) - min(x for x, _y in s.points) for s in shapes)
    assert long == pytest.approx(2 * short)
    texts = [item.text for item in picture.items() if isinstance(item, Text)]
    assert texts == ["one", "2 of 4", "other", "1 of 4", "none", "0 of 4"]
    assert picture.words == "one: 2 of 4; other: 1 of 4; none: 0 of 4"


def test_a_house_that_took_no_time_has_no_bar(tmp_path: Path) -> None:
    made = built(tmp_path, "emu-01", "pardalote", [HandOver()], seconds=0)
    chart = next(each for each in class_content([(made, "self-study")], {}).charts if "Time for each" in each.title)
    assert "0 min" in {item.text for item in chart.picture.items() if isinstance(item, Text)}
    assert not any(isinstance(item, Polygon) for item in chart.picture.items())


def test_no_label_of_a_chart_is_cut() -> None:
    rows = [Bar("Roof braces all one way", 3, "3 of 20"), Bar("Let go half fixed", 20, "20 of 20"), Bar("W", 0.1, "0")]
    picture = bars(rows, "t")
    left, low, right, top = picture.box
    for item in picture.items():
        if isinstance(item, Text):
            x0, y0, x1, y1 = text_box(item)
            assert left <= x0 <= x1 <= right and low <= y0 <= y1 <= top, item.text


def test_attempts_that_do_not_hold_are_left_out_and_said(tmp_path: Path) -> None:
    mistaken(tmp_path, "emu-01", "pardalote", None)
    text = find_level("pardalote").read_text(encoding="utf-8")
    good = chain(opening(9, "bad-09"), house_begun(NOON, "pardalote", text, 1))
    with Store.open(tmp_path / FILE) as store:
        take_in(store, [Attempt((*good[:1], type(good[1])({**good[1].body, "seed": 2}, good[1].hash)))])
    err = run("report", "-o", tmp_path / "c.html", "--data", tmp_path)
    assert "1 attempt does not hold" in err
    assert "1 code name, 1 attempt" in err


def test_a_house_is_called_by_its_title(tmp_path: Path) -> None:
    mistaken(tmp_path, "emu-01", "pardalote", "off-station")
    run("report", "-o", tmp_path / "c.html", "--data", tmp_path)
    run("report", "-o", tmp_path / "c.csv", "--data", tmp_path)
    page = (tmp_path / "c.html").read_text(encoding="utf-8").replace("&#39;", "'")
    assert "<th>A small gable</th>" in page and "Build '" in page
    assert "Pardalote" not in page
    assert "emu-01,pardalote," in (tmp_path / "c.csv").read_text(encoding="utf-8"), "programs have its id"


def test_the_last_and_the_best_are_of_the_best_trust_alone() -> None:
    def tried(seed: int, score: int, at: int) -> Attempt:
        begun, mark = records_made.house("wren", at), marked(at + 1, score, "met")
        return Attempt(chain(opening(seed), begun, mark, ended(at + 2)))

    signed, later = tried(1, 70, NOON), tried(2, 100, NOON + 9_000)
    told = class_content([(signed, "counter-signed"), (later, "self-study")], {})
    (each,) = told.tried
    assert (each.best, each.trust, each.attempts, each.of) == (70, "counter-signed", 2, signed)
    ((_code, (cell,)),) = told.where
    assert cell.startswith("counter-signed: 70") and "(of 2 tries); not counted: self-study: 100" in cell
    (row,) = csv.DictReader(as_table(told).splitlines())
    assert (row["last_score"], row["best_score"], row["trust"]) == ("70", "70", "counter-signed")
    assert row["apart"].startswith("self-study: 100")
    alike = class_content([(signed, "supervised"), (later, "supervised")], {}).tried[0]
    assert (alike.best, alike.of, alike.apart) == (100, later, ())
