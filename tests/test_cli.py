"""The command line: what it prints, where, and how it leaves."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from typer.testing import CliRunner

import trainer.board
from trainer.cli import app
from trainer.shipped import find_level

RUNNER = CliRunner()
SHED = Path(__file__).parent / "cases" / "levels" / "shed.yaml"


def run(*words: str, leaves: int = 0) -> tuple[str, str]:
    """What a command printed, to standard output and to standard error."""
    result = RUNNER.invoke(app, list(words))
    assert result.exit_code == leaves, result.output
    assert "Traceback" not in result.output
    return result.stdout, result.stderr


def refused_level(folder: Path) -> Path:
    """A legal plan that can't be laid out: two parts overlap a third at both its corners."""
    path = folder / "overlap.yaml"
    corners = (
        "[0,0],[9000,0],[9000,-7000],[18000,-7000],[18000,2000],[12000,2000],[12000,5000],"
        "[18000,5000],[18000,14000],[9000,14000],[9000,7000],[0,7000]"
    )
    path.write_text(
        "schema: 1\nid: overlap\ntitle: Three parts that overlap\nbrief: Invented.\n"
        f"plates: {{outline: [{corners}], width: 90}}\n"
        "roof: {pitch: 22.5, overhang: 600, heel: 90}\ntrusses: {spacing: 600, setback: 1800}\n",
        encoding="utf-8",
    )
    return path


FINDING_FIELDS = {
    "rule", "event", "member", "severity", "got", "want", "what", "why", "fix", "safety", "source",
}  # fmt: skip
"""As the contract has them."""


@pytest.mark.parametrize("undone", [True, False])
def test_what_was_found_and_undone_is_said_by_grade(undone: bool, tmp_path: Path) -> None:
    """Where the second truss was lifted, the first, which nothing holds, went over; where it was not, nothing did."""
    diary = tmp_path / "diary.yaml"
    stands = [f"{{do: stand, tag: {tag}, from: [{x}, 0], to: [{x}, 3000]}}" for tag, x in (("ST1", 900), ("ST4", 3600))]
    lines = "".join(f"- {line}\n" for line in ([*stands, "{do: undo}"] if undone else stands[:1]))
    diary.write_text(f"schema: 1\nlevel: shed\nactions:\n{lines}", encoding="utf-8")
    out, _err = run("grade", str(SHED), str(diary))
    assert ("row-with-nothing-solid, ST1" in out and "Nothing is left open." in out) is undone
    assert ("Nothing was found." in out) is not undone


def test_grade_json_holds_the_contract(tmp_path: Path) -> None:
    diary = tmp_path / "diary.yaml"
    run("rehearse", "wren", "--seed", "1", "--mistake", "off-station", "-o", str(diary))
    out, err = run("grade", "wren", str(diary), "--json")
    document = json.loads(out)
    assert err == ""
    assert set(document) == {"level", "score", "outcome", "findings", "refused", "hints", "hint_depths", "skills_shown"}
    assert document["hints"] == []
    assert document["findings"]
    for finding in document["findings"]:
        assert set(finding) == FINDING_FIELDS
    # A hint with the first and one with the third action, and last something that nobody could do.
    text = diary.read_text(encoding="utf-8")
    head, actions = text.split("actions:", 1)
    diary.write_text(f"{head}hints: [0, 2]\nactions:{actions}- {{do: remove, tag: ST1}}\n", encoding="utf-8")
    hinted = json.loads(run("grade", "wren", str(diary), "--json")[0])
    assert hinted["hints"] == [0, 2]
    assert hinted["hint_depths"] == [1, 1]
    assert [set(refused) for refused in hinted["refused"]] == [{"event", "why"}]
    assert (hinted["findings"], hinted["score"]) == (document["findings"], document["score"]), "hints are free here"
    assert "before actions 1, 3" in run("grade", "wren", str(diary))[0]


@pytest.mark.parametrize("command", ["roof", "layout"])
def test_a_path_does_as_well_as_an_id(command: str) -> None:
    assert run(command, str(find_level("wren")), "--json") == run(command, "wren", "--json")


def test_a_refused_layout_still_has_a_roof(tmp_path: Path) -> None:
    level = str(refused_level(tmp_path))
    out, err = run("layout", level, "--json", leaves=1)
    assert out == ""
    assert "overlap at a corner" in err
    assert re.search(r"\(\d+, \d+\)", err), "the place is told"
    assert json.loads(run("roof", level, "--json")[0])["roof"]["valleys"]
    run("draw", level, "-o", str(tmp_path / "overlap.svg"), leaves=1)
    assert not (tmp_path / "overlap.svg").exists()


@pytest.mark.parametrize("command", ["roof", "layout"])
def test_faults_go_to_standard_error_all_at_once(command: str, tmp_path: Path) -> None:
    level = tmp_path / "bad.yaml"
    text = (
        find_level("wren")
        .read_text(encoding="utf-8")
        .replace("pitch: 22.5", "pich: 22.5")
        .replace("id: wren", "id: 7 7")
    )
    level.write_text(text, encoding="utf-8")
    out, err = run(command, str(level), "--json", leaves=1)
    assert out == ""
    lines = err.splitlines()
    assert len(lines) >= 2
    assert all(re.match(rf"{re.escape(str(level))}:\d+: \S+: ", line) for line in lines)
    assert any("did you mean 'pitch'" in line for line in lines)


@pytest.mark.parametrize("words", [("roof",), ("layout",), ("draw", "-o", "x.svg")])
def test_a_level_that_is_not_there_is_a_wrong_call(words: tuple[str, ...]) -> None:
    out, err = run(words[0], "wern", *words[1:], leaves=2)
    assert out == ""
    assert "did you mean 'wren'" in err


def test_wrong_calls_leave_with_two(tmp_path: Path) -> None:
    run("rof", leaves=2)
    run("roof", "wren", "--jsn", leaves=2)
    run("draw", "wren", leaves=2)
    assert ".svg" in run("draw", "wren", "-o", str(tmp_path / "wren.gif"), leaves=2)[1]
    assert "did you mean 'light'" in run("draw", "wren", "-o", str(tmp_path / "w.svg"), "--theme", "lite", leaves=2)[1]
    run("draw", "wren", "-o", str(tmp_path / "nowhere" / "wren.svg"), leaves=2)
    run("layout", str(tmp_path), leaves=2)


@pytest.mark.parametrize("theme", ["light", "dark", "contrast"])
def test_draw_writes_the_same_sheet_as_svg_and_png(theme: str, tmp_path: Path) -> None:
    for name in ("wren.svg", "wren.png"):
        out, err = run("draw", "wren", "-o", str(tmp_path / name), "--theme", theme)
        assert out == ""
        assert name in err
    assert (tmp_path / "wren.png").read_bytes().startswith(b"\x89PNG")
    import pygame

    png = pygame.image.load(tmp_path / "wren.png")
    root = ET.fromstring(_text(tmp_path / "wren.svg"))
    width, height = map(float, root.attrib["viewBox"].split()[2:])
    assert (root.attrib["width"], root.attrib["height"]) == tuple(f"{round(mm / 50, 2):g}mm" for mm in (width, height))
    assert png.get_width() / png.get_height() == pytest.approx(width / height, rel=0.01)
    assert len({tuple(png.get_at((x, png.get_height() // 2))) for x in range(png.get_width())}) > 4, "it is not blank"


def _text(path: Path) -> str:
    return path.read_text(encoding="utf-8")


def _python(*words: str, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run Python as a person would, without a screen."""
    inherited = {name: value for name, value in os.environ.items() if name not in {"DISPLAY", "WAYLAND_DISPLAY"}}
    inherited.pop("SDL_VIDEODRIVER", None)
    return subprocess.run(
        [sys.executable, *words],
        env=inherited | environment,
        capture_output=True,
        encoding="utf-8",
        check=False,
        timeout=120,
    )


def test_without_a_screen_it_says_so_and_what_to_use_instead(monkeypatch: pytest.MonkeyPatch) -> None:
    def no_screen(**_given: object) -> None:
        raise trainer.board.NoDisplay("There is no screen here.")

    monkeypatch.setattr(trainer.board, "run", no_screen)
    out, _err = run()
    assert "no screen" in out
    assert re.findall(r"^  trainer (\w+)", out, re.MULTILINE) == ["rehearse", "grade"]
    if sys.platform == "linux":  # the only system on which a screen can be taken away from outside
        done = _python("-m", "trainer")
        assert (done.returncode, done.stderr) == (0, "")
        assert "no screen" in done.stdout
        assert done.stdout.endswith(out.split("\n", 1)[1])


def test_help_starts_without_the_heavy_libraries() -> None:
    heavy = ("pygame", "shapely", "numpy", "pydantic", "yaml")
    script = f"import sys, trainer.cli; print([m for m in {heavy} if m in sys.modules])"
    assert _python("-c", script).stdout.strip() == "[]"


def test_text_goes_out_as_utf_8_also_where_the_system_has_another_code_page() -> None:
    done = _python("-m", "trainer", "layout", "wren", PYTHONIOENCODING="cp1252", PYTHONUTF8="0")
    assert done.returncode == 0
    assert "22.5°" in done.stdout
