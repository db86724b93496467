"""Papers on paper: HTML and PDF with plans drawn, the guide apart; and every command's ways to fail."""

from __future__ import annotations

import json
import re
import zipfile
from pathlib import Path

import pytest
from report_made import Page, plain
from typer.testing import CliRunner

from trainer.cli import app
from trainer.words import CAUTION, INVENTED

RUNNER = CliRunner()
WORDS = ("paper", "--level", "wren", "--count", "40", "--seed", "2")


def run(*words: str, leaves: int = 0) -> tuple[str, str]:
    result = RUNNER.invoke(app, list(words))
    assert result.exit_code == leaves, result.output
    assert "Traceback" not in result.output
    return result.stdout, result.stderr


def page(folder: Path, *more: str) -> Page:
    path = folder / "paper.html"
    run(*WORDS, *more, "-o", str(path))
    return Page(path.read_text(encoding="utf-8"))


def questions() -> list[dict]:
    return json.loads(run(*WORDS, "--answers", "--json")[0])["questions"]


def test_a_page_asks_everything_and_gives_nothing_away(tmp_path: Path) -> None:
    shown = page(tmp_path)
    text = plain(shown.text)
    for question in questions():
        assert plain(question["text"]) in text
        assert plain(question["why"]) not in text
    assert INVENTED in text and plain(CAUTION) in text
    assert shown.tags.count("article") == 40 and "svg" in shown.tags
    assert shown.fetched == ["data:,"], "it makes no request"
    assert "script" not in shown.tags


def test_the_guide_is_a_page_of_its_own_with_every_reason(tmp_path: Path) -> None:
    text = plain(page(tmp_path, "--answers").text)
    for question in questions():
        assert plain(question["why"]) in text
        assert all(plain(step) in text for step in question["working"])


def test_pdfs_have_the_plan_drawn_in_vectors_and_their_own_type(tmp_path: Path) -> None:
    for more, name in (((), "p.pdf"), (("--answers",), "g.pdf")):
        path = tmp_path / name
        run(*WORDS, *more, "-o", str(path))
        content = path.read_bytes()
        assert content.startswith(b"%PDF-") and content.rstrip().endswith(b"%%EOF")
        assert len(re.findall(rb"/Type /Page\b(?!s)", content)) >= 4
        assert b"FontFile" in content and b"/Subtype /Image" not in content


def test_the_same_seed_prints_the_same_page(tmp_path: Path) -> None:
    one, other = tmp_path / "a.html", tmp_path / "b.html"
    for path in (one, other):
        run(*WORDS, "-o", str(path))
    assert one.read_bytes() == other.read_bytes()


def test_packages_and_tables_are_written(tmp_path: Path) -> None:
    run(*WORDS, "-o", str(tmp_path / "p.zip"))
    run(*WORDS, "-o", str(tmp_path / "p.csv"))
    with zipfile.ZipFile(tmp_path / "p.zip") as archive:
        assert sum(name.startswith("items/") for name in archive.namelist()) == 40
    rows = (tmp_path / "p.csv").read_text(encoding="utf-8-sig").splitlines()
    assert rows[0].startswith("id,kind,topic") and len(rows) > 15


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--topics", "saftey"), "did you mean 'safety'"), (("--level", "wrenn"), "did you mean"),
        (("--count", "90", "--topics", "clean-up"), "Ask for fewer"), (("-o", "paper.doc"), "must end in"),
        (("-o", "no-such-folder/paper.html"), "can't be written"),
    ],
)  # fmt: skip
def test_wrong_calls_say_what_to_do(words: tuple[str, ...], said: str) -> None:
    _out, err = run("paper", *words, leaves=2)
    assert said in err
