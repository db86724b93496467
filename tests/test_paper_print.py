"""Papers on paper: HTML and PDF with plans drawn, the guide apart; and every command's ways to fail."""

from __future__ import annotations

import csv
import io
import json
import re
import zipfile
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from report_made import Page, plain
from typer.testing import CliRunner

from trainer.cli import app
from trainer.words import CAUTION, FORMULAS, INVENTED

RUNNER = CliRunner()
COUNT = 20
WORDS = ("paper", "--level", "wren", "--count", str(COUNT), "--seed", "2")


def run(*words: str, leaves: int = 0) -> tuple[str, str]:
    result = RUNNER.invoke(app, list(words))
    assert result.exit_code == leaves, result.output
    assert "Traceback" not in result.output
    return result.stdout, result.stderr


@cache
def printed(*more: str) -> str:
    """A page of it, printed once."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "paper.html"
        run(*WORDS, *more, "-o", str(path))
        return path.read_text(encoding="utf-8")


def page(*more: str) -> Page:
    return Page(printed(*more))


@cache
def questions() -> list[dict]:
    return json.loads(run(*WORDS, "--answers", "--json")[0])["questions"]


def test_a_page_asks_everything_and_gives_nothing_away() -> None:
    shown = page()
    text = plain(shown.text)
    for question in questions():
        assert plain(question["text"]) in text
        assert plain(question["why"]) not in text
    assert INVENTED in text and plain(CAUTION) in text
    assert shown.tags.count("article") == COUNT and "svg" in shown.tags
    assert shown.fetched == ["data:,"], "it makes no request"
    assert "script" not in shown.tags


def test_the_guide_is_a_page_of_its_own_with_every_reason() -> None:
    text = plain(page("--answers").text)
    for question in questions():
        assert plain(question["why"]) in text
        assert all(plain(step) in text for step in question["working"])
    assert "exact only" in text and "0.05 mm" not in text, "no marker reads a twentieth of a millimetre"


def test_pdfs_have_the_plan_drawn_in_vectors_and_their_own_type(tmp_path: Path) -> None:
    for more, name in (((), "p.pdf"), (("--answers",), "g.pdf")):
        path = tmp_path / name
        run(*WORDS, *more, "-o", str(path))
        content = path.read_bytes()
        assert content.startswith(b"%PDF-") and content.rstrip().endswith(b"%%EOF")
        assert len(re.findall(rb"/Type /Page\b(?!s)", content)) >= 3
        assert b"FontFile" in content and b"/Subtype /Image" not in content


def test_the_same_seed_prints_the_same_page(tmp_path: Path) -> None:
    run(*WORDS, "-o", str(tmp_path / "again.html"))
    assert (tmp_path / "again.html").read_text(encoding="utf-8") == printed()


def test_packages_and_tables_are_written_and_say_what_they_hold(tmp_path: Path) -> None:
    _out, err = run(*WORDS, "-o", str(tmp_path / "p.zip"))
    assert "holds the answers" in err
    with zipfile.ZipFile(tmp_path / "p.zip") as archive:
        assert sum(name.startswith("items/") for name in archive.namelist()) == COUNT
        assert "holds the answers" in archive.read("test.xml").decode("utf-8")
    _out, err = run(*WORDS, "-o", str(tmp_path / "p.csv"))
    rows = table(tmp_path / "p.csv")
    assert f"{len(rows)} written questions of the {COUNT}" in err and "Without answers" in err
    assert len(rows) == sum("level" not in question for question in questions()) > 7


def table(path: Path) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(path.read_text(encoding="utf-8-sig"))))


def test_a_table_gives_no_answer_away_unless_it_is_asked_to(tmp_path: Path) -> None:
    silent, told = tmp_path / "silent.csv", tmp_path / "told.csv"
    run(*WORDS, "-o", str(silent))
    run(*WORDS, "--answers", "-o", str(told))
    assert (
        silent.read_text(encoding="utf-8-sig").splitlines()[0] == told.read_text(encoding="utf-8-sig").splitlines()[0]
    )
    kinds = set()
    for less, more in zip(table(silent), table(told), strict=True):
        assert less["id"] == more["id"]
        assert not any(less[name] for name in ("answer", "tolerance", "why", "safety", "rules"))
        kinds.add(less["kind"])
        if less["kind"] == "put in order":
            assert [less[spot] for spot in "ABC"] != [more[spot] for spot in "ABC"] or less["D"] != more["D"]
        if less["kind"] == "match":
            pairs = [[row[f"with {spot}"] for spot in "ABCDEFGH"] for row in (less, more)]
            assert pairs[0] != pairs[1] and set(pairs[0]) == set(pairs[1])
    assert len(kinds) > 2


def test_every_question_has_its_marks_and_the_paper_its_total() -> None:
    asked, guide = plain(page().text), plain(page("--answers").text)
    marks = [int(n) for n in re.findall(r"Question \d+ · (\d+) marks?", asked)]
    assert len(marks) == COUNT and f"of {sum(marks)} marks" in asked
    assert marks == [int(n) for n in re.findall(r"Question \d+ · (\d+) marks?", guide)]
    assert f"{sum(marks)} marks in all" in guide
    worth = {
        "number": 2,
        "put in order": 2,
        "choose several": 2,
        "choose one": 1,
        "point at it": 1,
        "spot the fault": 1,
    }
    for question, mark in zip(questions(), marks, strict=True):
        assert mark == worth.get(question["kind"], len(question.get("left", ())))


def test_a_page_to_practise_with_is_one_file_that_says_it_holds_the_answers() -> None:
    shown = page("--practise")
    text = plain(shown.text)
    assert all(each == "data:," or each.startswith("#") for each in shown.fetched) and "canvas" not in shown.tags
    assert text.index("holds the answers") < text.index("Question 1")
    assert shown.tags.count("form") == shown.tags.count("fieldset") == COUNT
    asked = [plain(question["text"]) for question in questions()]
    assert sum(each in text for each in asked) <= len(asked) // 4, "it asks others than the paper of its seed"
    assert len(re.findall(r"\bWhy\b", text)) >= COUNT


@pytest.mark.parametrize("words", [("--practise",), ("--practise", "-o", "p.pdf"), ("--practise", "--json")])
def test_a_page_to_practise_with_is_html_alone(words: tuple[str, ...]) -> None:
    _out, err = run(*WORDS, *words, leaves=2)
    assert "-o FILE.html" in err


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--topics", "saftey"), "did you mean 'safety'"), (("--level", "wrenn"), "did you mean"),
        (("--count", "90", "--topics", "clean-up"), "Ask for fewer"), (("-o", "paper.doc"), "must end in"),
        (("--count", "1", "-o", "no-such-folder/paper.html"), "can't be written"),
    ],
)  # fmt: skip
def test_wrong_calls_say_what_to_do(words: tuple[str, ...], said: str) -> None:
    _out, err = run("paper", *words, leaves=2)
    assert said in err


def test_a_house_too_large_to_be_read_on_paper_is_refused_in_plain_words(tmp_path: Path) -> None:
    out = tmp_path / "paper.pdf"
    _said, told = run("paper", "--level", "brolga", "--count", "5", "-o", str(out), leaves=2)
    assert "brolga has 255 trusses" in told and not out.exists()
    run("paper", "--level", "brolga", "--count", "5", "--json")


def test_formulas_stand_on_a_paper_with_sums() -> None:
    assert plain(FORMULAS) in plain(page().text)


def test_places_on_a_page_are_numbered_as_on_their_drawing() -> None:
    lists = re.findall(r'<ol( class="letters")?>\s*<li>([^<]*)', printed())
    assert lists
    assert all(letters == "" for letters, first in lists if first.startswith("the line "))
