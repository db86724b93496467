"""The order of the houses: the lines of ``path.txt``, levels beside it, and a level that says its own place."""

from pathlib import Path

import pytest
from typer.testing import CliRunner

from trainer import shipped
from trainer.board.library import Library
from trainer.cli import app
from trainer.shipped import PATH_FILE, find_level, level_paths

HOUSE = """\
schema: 1
id: {name}
title: My first house
brief: An invented hipped house, 10.8 by 7.2 metres.
plates: {{outline: [[0, 0], [10800, 0], [10800, 7200], [0, 7200]], width: 90}}
gables: [B]
roof: {{pitch: 22.5, overhang: 600, heel: 90}}
trusses: {{spacing: 600, setback: 1800}}
"""


@pytest.fixture
def levels(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A course of four houses as the wheel carries it; two are on the path."""
    monkeypatch.setattr(shipped, "_HERE", tmp_path)
    folder = tmp_path / "levels"
    folder.mkdir()
    for name in ("corella", "galah", "quail", "tern"):
        (folder / f"{name}.yaml").write_text(HOUSE.format(name=name), encoding="utf-8")
    (folder / PATH_FILE).write_text("# invented\ntern  # the first\n\ngalah\n", encoding="utf-8")
    return folder


def read() -> list[str]:
    """The houses in the order in which the board shows them."""
    library = Library(level_paths())
    while library.read_next():
        pass
    return [entry.id for entry in library.entries]


@pytest.mark.usefixtures("levels")
def test_a_level_off_the_path_comes_after_all_that_are_on_it_by_its_id() -> None:
    assert [path.stem for path in level_paths()] == ["tern", "galah", "corella", "quail"]
    assert read() == ["tern", "galah", "corella", "quail"]
    assert find_level("quail") == level_paths()[-1]


def test_a_line_of_a_level_that_is_not_there_leaves_no_gap(levels: Path) -> None:
    (levels / "tern.yaml").unlink()
    assert read() == ["galah", "corella", "quail"]


def test_without_a_path_levels_come_by_their_ids(levels: Path) -> None:
    (levels / PATH_FILE).unlink()
    assert read() == ["corella", "galah", "quail", "tern"]


@pytest.mark.parametrize(
    ("place", "order"), [(1, ["quail", "tern", "galah", "corella"]), (2, ["tern", "quail", "galah", "corella"])]
)
def test_a_level_may_say_its_place_itself_and_needs_no_line(levels: Path, place: int, order: list[str]) -> None:
    text = HOUSE.format(name="quail") + f"lesson: {{place: {place}}}\n"
    (levels / "quail.yaml").write_text(text, encoding="utf-8")
    assert read() == order


def test_a_level_off_the_path_is_no_fault(levels: Path) -> None:
    checked = CliRunner().invoke(app, ["check", str(levels)])
    assert checked.exit_code == 0, checked.stderr
    assert len(checked.stdout.splitlines()) == 4
