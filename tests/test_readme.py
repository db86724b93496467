"""The README can't drift: its blocks are what CI runs, its commands exist, its level is one."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest
from typer.main import get_command
from typer.testing import CliRunner

from trainer.cli import app
from trainer.words import CAUTION

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
COMMANDS = sorted(dict(getattr(get_command(app), "commands")))  # noqa: B009 - its type isn't public


def blocks(language: str) -> list[str]:
    """The README's blocks in one language."""
    return re.findall(rf"^```{language}\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_an_example_that_ci_runs(command: str) -> None:
    assert re.search(rf"^trainer {command}\b.*# ", "\n".join(blocks("sh")), re.MULTILINE)


def test_the_examples_name_no_command_that_is_not_there() -> None:
    named = set(re.findall(r"\btrainer ([a-z]+)\b", "\n".join([*blocks("sh"), *blocks("bat")])))
    assert named <= set(COMMANDS)


def test_every_setup_command_has_its_windows_form() -> None:
    setup = [block.strip() for block in blocks("sh") if "venv" in block]
    windows = [block.strip() for block in blocks("bat")]
    assert len(setup) == len(windows) == 2
    for here, there in zip(setup, windows, strict=True):
        as_windows = here.replace("python3 -m", "py -m").replace(".venv/bin/", ".venv\\Scripts\\").replace("'", "")
        assert as_windows == there


def test_ci_runs_the_blocks_of_the_readme() -> None:
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    assert "README.md" in script
    assert "```sh" in script


def test_it_opens_with_the_job_and_the_cautions() -> None:
    opening = README[: README.index("## ")]
    said = " ".join(opening.replace("> ", "").split())
    for sentence in CAUTION.split(". ")[1:3]:
        assert sentence.rstrip(".") in said
    assert "practice aid" in said.lower()


def test_its_level_is_a_level_of_ten_lines_at_most_and_passes_the_check(tmp_path: Path) -> None:
    (text,) = blocks("yaml")
    assert text.count("\n") <= 10
    file = tmp_path / "my-house.yaml"
    file.write_text(text, encoding="utf-8")
    told = CliRunner().invoke(app, ["check", str(file)])
    assert (told.exit_code, told.stderr) == (0, "1 file checked, no faults.\n")


def test_the_contributor_guide_names_every_room() -> None:
    rooms = {path.stem for path in (ROOT / "trainer").iterdir() if path.stem[0] not in "._" and path.stem != "shipped"}
    missing = {room for room in rooms if f"`{room}`" not in DEVELOPERS}
    assert not missing


def test_every_dependency_says_why_it_is_there() -> None:
    text = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    project = tomllib.loads(text)["project"]
    extras = project["optional-dependencies"]
    for need in (*project["dependencies"], *extras["test"], *extras["reference"]):
        line = next(line for line in text.splitlines() if line.strip().startswith(f'"{need}"'))
        assert re.search(r"#\s*\w+", line), need


def test_it_names_every_command_that_prints_json() -> None:
    (said,) = re.findall(r"With `--json`, (.*?)\nprint", README, re.DOTALL)
    commands = getattr(get_command(app), "commands")  # noqa: B009 - its type isn't public
    leaves = [
        (name if command is group else f"{group_name} {name}", command)
        for group_name, group in commands.items()
        for name, command in getattr(group, "commands", {group_name: group}).items()
    ]
    takes = {name for name, command in leaves if any("--json" in param.opts for param in command.params)}
    assert set(re.findall(r"`([a-z ]+)`", said)) == takes
