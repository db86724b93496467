"""``trainer check`` and ``trainer schema``, as a person or an editor calls them."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from typer.testing import CliRunner

from trainer.cli import app
from trainer.layout import lay_out
from trainer.level import level_schema, parse_level, style_schema
from trainer.shipped import bank_paths, course_path, find_level, level_paths, style_paths

SHED = """\
schema: 1
id: robin
title: A shed
brief: Four walls.
plates: {outline: [[0, 0], [6000, 0], [6000, 4800], [0, 4800]], width: 90}
roof: {pitch: 20, overhang: 450, heel: 90}
trusses: {spacing: 600, setback: 1800}
"""


def run(*args: object) -> tuple[int, list[str], str]:
    """Exit code, lines on standard output, and what was said on standard error."""
    result = CliRunner().invoke(app, [str(arg) for arg in args])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result.exit_code, result.stdout.splitlines(), result.stderr


@pytest.fixture
def shed(tmp_path: Path) -> Path:
    path = tmp_path / "robin.yaml"
    path.write_text(SHED, encoding="utf-8")
    return path


def test_the_shipped_levels_are_sound_and_can_be_laid_out() -> None:
    code, out, err = run("check", find_level("wren").parent)
    assert code == 0
    assert [Path(line.split(": ")[0]) for line in out] == sorted(level_paths())
    files = len(level_paths()) + len(style_paths()) + len(bank_paths()) + 1  # and the course
    assert f"{files} files checked, no faults" in err


def test_of_a_sound_level_it_says_how_hard_it_is_and_what_it_teaches() -> None:
    level = parse_level(find_level("wren").read_bytes(), "wren")
    trusses = len(lay_out(level.house()).members)
    code, (line,), _ = run("check", "wren")
    assert code == 0
    assert f"of 10 ({trusses} trusses, 1 opening, 6 stages, no planted faults)" in line
    assert all(said in line for said in (*level.lesson.ideas, *level.lesson.teaches))


def test_two_levels_cannot_have_one_place_on_the_path(shed: Path) -> None:
    shed.write_text(SHED + "lesson: {place: 3}\n", encoding="utf-8")
    other = shed.with_name("other.yaml")
    other.write_text(SHED.replace("robin", "other") + "lesson:\n  place: 3\n", encoding="utf-8")
    code, out, _ = run("check", shed.parent)
    assert code == 1
    (fault,) = [line for line in out if "already" in line]
    assert fault.startswith(f"{shed}:8: lesson.place: is the place of {other} already")


def test_a_path_beside_the_levels_names_each_of_them_once(shed: Path) -> None:
    path = shed.with_name("path.txt")
    path.write_text("# in order\nrobin\n\nrobbin # a slip\nrobin\n", encoding="utf-8")
    code, out, _ = run("check", shed.parent)
    assert code == 1
    assert [line for line in out if line.startswith(str(path))] == [
        f"{path}:4: path: no level here is called 'robbin'; did you mean 'robin'?",
        f"{path}:5: path: has 'robin' twice; keep one of the lines",
    ]
    path.write_text("robin\n", encoding="utf-8")
    assert run("check", shed.parent)[0] == 0


def test_a_bank_beside_the_levels_is_checked_with_them(shed: Path) -> None:
    bank = shed.parent / "bank"
    bank.mkdir()
    (bank / "one.yaml").write_text("schema: 1\nquestions: []\n", encoding="utf-8")
    code, out, err = run("check", shed.parent)
    assert code == 1
    assert any(line.startswith(f"{bank / 'one.yaml'}:2: questions: ") for line in out)
    assert "2 files checked" in err


def test_a_lone_file_of_a_bank_is_not_asked_for_the_whole_of_it() -> None:
    file = bank_paths()[0]
    assert run("check", file)[:2] == (0, [])


def test_a_sound_file_and_an_id() -> None:
    assert run("check", "wren")[0] == 0


def test_a_course_beside_the_levels_is_checked_with_them(shed: Path) -> None:
    course = shed.parent / "course"
    course.mkdir()
    text = course_path().read_text(encoding="utf-8")
    (course / "course.yaml").write_text(text.replace("watch: thornbill", "watch: thornbil", 1), encoding="utf-8")
    code, out, _err = run("check", shed.parent)
    assert code == 1
    assert any(line.startswith(f"{course / 'course.yaml'}:") and "thornbill" in line for line in out)


def test_every_fault_of_every_file_is_a_line_with_its_place(shed: Path) -> None:
    shed.write_text(SHED.replace("pitch: 20", "pitch: 99").replace("heel", "heal"), encoding="utf-8")
    other = shed.with_name("other.yml")
    other.write_text("schema: 1\nid: x\n", encoding="utf-8")
    shed.with_name("notes.txt").write_text("no level", encoding="utf-8")
    code, out, err = run("check", shed.parent)
    assert code == 1
    assert "2 files checked, 8 faults" in err
    places = [re.fullmatch(r"(.+):(\d+): (\S+): (.+)", line) for line in out]
    assert [(Path(p[1]).name, int(p[2]), p[3]) for p in places if p] == [
        ("other.yml", 1, "brief"), ("other.yml", 1, "plates"), ("other.yml", 1, "roof"), ("other.yml", 1, "title"),
        ("other.yml", 1, "trusses"),
        ("robin.yaml", 6, "roof.heal"), ("robin.yaml", 6, "roof.heel"), ("robin.yaml", 6, "roof.pitch"),
    ]  # fmt: skip


def test_a_plan_that_cannot_be_laid_out_is_a_fault_at_its_outline(shed: Path) -> None:
    # Two parts overlap a third at both corners of one end: what is left of it there lies along neither side.
    outline = [
        [0, 0], [9000, 0], [9000, -7000], [18000, -7000], [18000, 2000], [12000, 2000],
        [12000, 5000], [18000, 5000], [18000, 14000], [9000, 14000], [9000, 7000], [0, 7000],
    ]  # fmt: skip
    shed.write_text(re.sub(r"outline: .*\]\]", f"outline: {outline}", SHED), encoding="utf-8")
    code, out, _ = run("check", shed)
    assert code == 1
    assert out
    assert all(f"{shed}:5: plates.outline: can't be laid out at " in line for line in out)
    assert any("[6000, 3500]" in line for line in out), out


def test_a_rule_that_a_level_teaches_must_exist(shed: Path) -> None:
    shed.write_text(SHED + "lesson:\n  teaches:\n  - off-station\n  - truss-mising\n", encoding="utf-8")
    code, out, _ = run("check", shed)
    assert (code, len(out)) == (1, 1)
    assert f"{shed}:11: lesson.teaches[1]: " in out[0]
    assert "did you mean 'truss-missing'?" in out[0]


@pytest.mark.parametrize(
    "text",
    [
        b"", b"\x00\x01\x02", "schema: 1".encode("utf-16"), b"\x89PNG\r\n\x1a\n" + bytes(range(256)),
        SHED.encode()[:-30], b"[" * 900_000, b"a: " * 300_000, b"x" * 3_000_000,
        b"a: &a [x]\nb: &b [*a, *a]\n" + b"".join(b"c%d: &b [*b, *b]\n" % i for i in range(40)),
        b"- 1\n" * 240_000, b"".join(b"k%d: 1\n" % i for i in range(90_000)), b'"' + b"\\" * 900_001,
        b"plates: {outline: [" + b"[0, 0], " * 100_000 + b"[0, 0]]}",
        b"&a " * 300_000, b"? " * 400_000, b"!" * 900_000, b"%YAML 1.1\n" * 1000, b"--- " * 200_000,
    ],
    ids=lambda text: ascii(text[:12]),
)  # fmt: skip
def test_hostile_files_get_faults_and_never_a_traceback(shed: Path, text: bytes) -> None:
    shed.write_bytes(text)
    code, out, err = run("check", shed)
    assert code == 1
    assert out
    assert all(line.startswith(f"{shed}:") for line in out)
    assert max(map(len, out)) < len(str(shed)) + 400
    assert "1 file checked" in err


@pytest.mark.parametrize("name", ["no-such.yaml", "wern", "x" * 5000, "nul\0"])
def test_a_file_that_is_not_there_is_a_wrong_call(name: str) -> None:
    code, out, err = run("check", name)
    assert (code, out) == (2, [])
    assert name[:3] in err


def test_a_folder_without_levels_is_a_wrong_call(tmp_path: Path) -> None:
    (tmp_path / "folder.yaml").mkdir()
    code, out, err = run("check", tmp_path)
    assert (code, out) == (2, [])
    assert "no level file" in err


def test_check_wants_a_path() -> None:
    assert run("check")[0] == 2


def test_schema_goes_to_standard_output_alone() -> None:
    code, out, err = run("schema")
    assert (code, err) == (0, "")
    assert json.loads("\n".join(out)) == level_schema()
    assert json.loads("\n".join(run("schema", "--style")[1])) == style_schema()
