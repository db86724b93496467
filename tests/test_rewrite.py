"""A level file written by hand and changed: what was not changed stays byte for byte, and it reads as was wanted."""

from pathlib import Path
from typing import Any

import pytest

from trainer.read import read_yaml, rewrite_yaml
from trainer.shipped import level_paths
from trainer.table import MoveWall, SetValue, data_over, drawing_of

HAND = """\
# my own remark
schema: 1   # always
id: heron2
title: 'Two wings'

plates:
  # measured by hand
  outline: [[0, 0], [9000, 0], [9000, 6000], [0, 6000]]   # four corners
  width: 90 # mm
gables: [B]

# of the roof
roof:
    pitch: 22.5
    overhang: 600   # to the gutter
job_sheet:
  - First.
  - "Second: one."

# the end
"""


def changed(**values: Any) -> dict[str, Any]:
    data: Any = read_yaml(HAND, "f").data
    return {**data, **values}


def lines(text: str) -> list[str]:
    return text.split("\n")


@pytest.mark.parametrize("text", [HAND, HAND.replace("\n", "\r\n"), "\ufeff" + HAND, HAND.rstrip("\n")])
def test_one_size_changes_within_its_line_and_its_remark_stays(text: str) -> None:
    new = rewrite_yaml(text, changed(roof={"pitch": 25, "overhang": 450}))
    want = text.replace("pitch: 22.5", "pitch: 25").replace("overhang: 600", "overhang: 450")
    assert new == want


def test_what_is_not_changed_is_not_written() -> None:
    assert rewrite_yaml(HAND, changed()) is HAND


def test_corners_change_and_the_lines_around_them_stay() -> None:
    outline = [[0, 0], [9900, 0], [9900, 6000], [0, 6000]]
    new = rewrite_yaml(HAND, changed(plates={"outline": outline, "width": 90}))
    assert [line for line in lines(HAND) if "outline" not in line] == [
        line for line in lines(new) if "outline" not in line
    ]
    assert "  # measured by hand\n" in new
    assert "# four corners" in new


def test_a_key_goes_with_its_lines_and_one_comes_after_the_one_before_it() -> None:
    data = changed()
    del data["gables"]
    wanted = {}
    for key, value in data.items():
        wanted[key] = value
        if key == "plates":
            wanted["beams"] = ["A"]
    new = rewrite_yaml(HAND, wanted)
    assert new == HAND.replace("gables: [B]\n", "beams: [A]\n")


def test_a_list_over_lines_is_written_anew_alone() -> None:
    new = rewrite_yaml(HAND, changed(job_sheet=["Only one."]))
    assert new == HAND.replace('  - First.\n  - "Second: one."\n', "").replace(
        "job_sheet:\n", 'job_sheet: ["Only one."]\n'
    )


def test_what_others_repeat_is_still_right_though_written_anew() -> None:
    text = "a: &one [1, 2]\nb: *one\nc: 3\n"
    new = rewrite_yaml(text, {"a": [9], "b": [1, 2], "c": 3})
    assert read_yaml(new, "f").data == {"a": [9], "b": [1, 2], "c": 3}


@pytest.mark.parametrize("path", level_paths(), ids=lambda path: path.stem)
def test_of_each_shipped_level_only_the_lines_that_are_changed_change(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    document = read_yaml(text, "f")
    data: Any = document.data
    before = drawing_of(document)
    assert rewrite_yaml(text, data_over(data, before, before)) == text
    now = SetValue(("roof", "pitch"), 24.75).on(MoveWall("A", 100).on(before))
    want = data_over(data, before, now)
    new = rewrite_yaml(text, want)
    assert read_yaml(new, "f").data == want
    gone = [line for line in lines(text) if line not in lines(new)]
    own = (" outline:", "[", "roof:", " pitch:", "beams:", "posts:", "  ")
    assert gone
    assert all(line.startswith(own) or "outline" in line for line in gone), gone
