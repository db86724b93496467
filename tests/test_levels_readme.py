"""The page for teachers can't drift: its level, its style and its pieces are sound, and its commands are there."""

import re
from pathlib import Path
from typing import get_args

import pytest
from typer.main import get_command
from typer.testing import CliRunner

from trainer.cli import app
from trainer.cli.check import checked_level
from trainer.layout import lay_out
from trainer.level import parse_level, parse_style
from trainer.level.as_found import TrussFault, WallFault
from trainer.level.dangers import LATE, LIES, DangerKind
from trainer.level.difficulty import FAULT, OPENING, STAGE
from trainer.shipped import find_level, level_paths
from trainer.site import LOOKED_AT, MEASURED

PAGE = (level_paths()[0].parent / "README.md").read_text(encoding="utf-8")
COMMANDS = set(dict(getattr(get_command(app), "commands")))  # noqa: B009 - its type isn't public
HOST = "treecreeper"
"""A house on which the pieces that are no whole level are tried."""


def blocks(language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)


LEVEL, SITE, DANGERS, LESSON, STYLE, LAYOUT = blocks("yaml")


def test_its_level_has_ten_lines_at_most_and_all_its_commands_do_what_they_say(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert LEVEL.count("\n") <= 10
    (tmp_path / "my-house.yaml").write_text(LEVEL, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    for line in "".join(blocks("sh")).splitlines():
        words = line.partition("#")[0].split()
        assert words[0] == "trainer"
        told = CliRunner().invoke(app, words[1:])
        assert told.exit_code == 0, (line, told.output)
        if words[1] == "grade":
            assert "100" in told.stdout
    assert {"my-house.png", "right.yaml", "new.yaml"} <= {path.name for path in tmp_path.iterdir()}


def test_it_names_no_command_that_is_not_there() -> None:
    assert set(re.findall(r"\btrainer ([a-z]+)\b", PAGE)) <= COMMANDS


def test_it_says_rightly_how_each_fault_is_found() -> None:
    told = dict(re.findall(r"^\| ([a-z, ]+) \| ((?:measures|checks) `.*)\|$", PAGE, re.MULTILINE))
    shows = {fault: looks(said) for faults, said in told.items() for fault in faults.split(", ")}
    faults = (*get_args(WallFault), *get_args(TrussFault))
    wanted = {**LOOKED_AT, **{fault: (reading,) for fault, reading in MEASURED.items()}}
    assert shows == {fault: set(wanted[fault]) for fault in faults}


def test_it_says_rightly_where_each_danger_lies_and_what_shows_it() -> None:
    rows = dict(re.findall(r"^\| ([a-z -]+) \| ((?:`at:`|`wall:`|`tag:`|`after:`|nowhere).*) \|$", PAGE, re.MULTILINE))
    assert set(rows) == set(get_args(DangerKind))
    for danger, row in rows.items():
        lies, shown, _righted = row.split(" | ")
        keys = {LIES[danger]} - {""} | ({"after"} if danger in LATE else set())
        assert set(re.findall(r"`(\w+):`", lies)) == keys, danger
        fault = "wall not braced" if danger == "unbraced wall" else danger
        assert looks(shown) == set(LOOKED_AT.get(fault, ())), danger


def looks(said: str) -> set[str]:
    """What is checked or measured, of "checks `this` or `that`, or measures `clearance` at it"."""
    return {each for each in re.findall(r"`([^`]+)`", said) if each != "clearance"}


def with_piece(piece: str) -> bytes:
    """The host with one block instead of its own."""
    key = piece.partition(":")[0]
    text = re.sub(rf"^{key}:.*?(?=^\w|\Z)", "", find_level(HOST).read_text(encoding="utf-8"), flags=re.DOTALL | re.M)
    return (text + piece).encode()


@pytest.mark.parametrize("piece", [SITE, DANGERS, LESSON, LAYOUT])
def test_each_piece_of_a_level_is_sound(piece: str) -> None:
    level, layout, faults = checked_level(with_piece(piece), find_level(HOST))
    assert (faults, level is None, layout is None) == ((), False, False)


def test_a_truss_fixed_by_hand_stands_as_the_page_says() -> None:
    level, layout, _faults = checked_level(with_piece(LAYOUT), find_level(HOST))
    assert level and layout
    plain = lay_out(level.model_copy(update={"layout": ()}).house())
    assert layout.by_tag["ST9"].station == 3500 != plain.by_tag["ST9"].station
    assert layout.by_tag["ST1"].ends[0].fixing == "tie-down strap" != plain.by_tag["ST1"].ends[0].fixing


def test_its_style_serves_its_level() -> None:
    style = parse_style(STYLE, "our-yard.yaml")
    text = re.sub(r"^trusses:.*\n", "", LEVEL, flags=re.M) + "style: our-yard\n"
    level = parse_level(text, "my-house.yaml", {style.id: (STYLE, "our-yard.yaml")})
    assert level.trusses.spacing == style.trusses.spacing == 900
    assert lay_out(level.house()).members


def test_it_tells_how_difficulty_is_measured() -> None:
    assert f"an opening {OPENING}, a stage {STAGE}, a planted fault {FAULT}" in PAGE
