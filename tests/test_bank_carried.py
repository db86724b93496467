"""Written questions carried between bank file, spreadsheet and QTI, and a teacher's own beside the bank."""

from __future__ import annotations

import zipfile
from pathlib import Path

import pytest
import yaml
from qti_check import package_faults
from typer.testing import CliRunner

from trainer.cli import app
from trainer.quiz.bank import Question, parse_bank
from trainer.quiz.write_bank import write_bank
from trainer.read import yaml_entry
from trainer.shipped import bank_paths

RUN = CliRunner()
OWN = (
    "id,kind,topic,difficulty,serves,text,A,B,C,answer,why,source\n"
    "own-wagon,choose one,clean-up,1,clean-up,Who parks the blue wagon beside the gate?,The gatekeeper,"
    "The wagon's own driver,A passing stranger,B,One person drives it and knows where it goes.,invented\n"
)


def whole_bank() -> list[Question]:
    return [q for path in bank_paths() for q in parse_bank(path.read_bytes(), str(path))]


def test_a_bank_file_written_reads_as_the_same_questions() -> None:
    bank = whole_bank()
    again = parse_bank(write_bank(bank), "again.yaml")
    assert [q.model_dump() for q in again] == [q.model_dump() for q in bank]


def test_bank_to_spreadsheet_and_back_changes_nothing(tmp_path: Path) -> None:
    sheet, again, last = tmp_path / "bank.csv", tmp_path / "bank.yaml", tmp_path / "last.csv"
    for call in (["bank", "-o", sheet], ["bank", sheet, "-o", again], ["bank", again, "-o", last]):
        assert RUN.invoke(app, list(map(str, call))).exit_code == 0
    assert sheet.read_bytes() == last.read_bytes()
    assert sheet.read_bytes().startswith(b"\xef\xbb\xbf"), "a spreadsheet knows UTF-8 by its mark"


def test_the_bank_goes_out_as_a_sound_qti_package(tmp_path: Path) -> None:
    out = tmp_path / "bank.zip"
    assert RUN.invoke(app, ["bank", "-o", str(out), "--topics", "saddles"]).exit_code == 0
    count = sum(q.topic == "saddles" for q in whole_bank())
    with zipfile.ZipFile(out) as package:
        assert sum(name.startswith("items/") for name in package.namelist()) == count
    assert package_faults(out.read_bytes()) == []


def test_own_questions_come_on_a_paper_beside_the_banks(tmp_path: Path) -> None:
    own = tmp_path / "own.csv"
    own.write_text(OWN, encoding="utf-8")
    done = RUN.invoke(app, ["paper", "--topics", "clean-up", "--count", "14", "--questions", str(own)])
    assert done.exit_code == 0
    assert "blue wagon" in done.output
    refused = RUN.invoke(app, ["paper", "--topics", "clean-up", "--count", "14"])
    assert refused.exit_code == 2, "the bank alone has no fourteenth written question on it"


def test_every_fault_of_every_row_is_told_and_nothing_is_written(tmp_path: Path) -> None:
    bad, out = tmp_path / "bad.csv", tmp_path / "out.yaml"
    row = OWN.splitlines()[1]
    bad.write_text(
        OWN + row.replace("own-wagon", "own-two").replace(",B,One", ",F,One") + "\n"
        + row.replace("own-wagon", "own-three").replace("clean-up,1", "clean up,9") + "\n",
        encoding="utf-8",
    )  # fmt: skip
    done = RUN.invoke(app, ["bank", str(bad), "-o", str(out)])
    assert done.exit_code == 1
    told = done.output
    assert f"{bad}:3" in told and "has answer F" in told
    assert f"{bad}:4" in told and "clean-up" in told and "9" in told
    assert not out.exists()


def test_a_repeat_of_a_shipped_question_is_told(tmp_path: Path) -> None:
    own = tmp_path / "own.yaml"
    own.write_text(write_bank(whole_bank()[:1]), encoding="utf-8")
    done = RUN.invoke(app, ["paper", "--questions", str(own)])
    assert done.exit_code == 1
    assert "has the id of the question at" in done.output


@pytest.mark.parametrize(
    "value",
    [
        "plain words", "Yes", "no", "2026-11-25", "1e3", "a: b", "ends in colon:", "# not a remark", "it's so",
        'say "so"', "tab\tbed", "two\nlines", "back\\slash", " leads", "", "~", "0x1F", "- dash", "[x]", "null",
        "word " * 40 + "end", ["a, b", "c"], {"on": "off"}, 1.0, 1.5, True, None,
    ],
)  # fmt: skip
def test_what_is_written_reads_as_it_was(value: object) -> None:
    """PyYAML, a general library, reads it back."""
    assert yaml.safe_load("\n".join(yaml_entry("key", value))) == {"key": value}
