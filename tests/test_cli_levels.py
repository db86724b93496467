"""What the command line prints of each shipped level: the contracts of ``--json``, and the same in words."""

from __future__ import annotations

import json
import math
import re
from functools import cache
from typing import Any

import pytest
from sizes import some
from typer.testing import CliRunner

from trainer.cli import app
from trainer.shipped import find_level, level_paths
from trainer.words import CAUTION

LEVELS = some([path.stem for path in level_paths()], 8, 26)
TAG_LETTERS = {
    "girder": "G", "truncated_girder": "TG", "hip": "H", "truncated": "T", "jack": "J", "creeper": "C", "gable": "GT",
    "saddle": "S", "standard": "ST", "half": "HF",
}  # fmt: skip
"""As the contract has them."""


def run(*words: str) -> tuple[str, str]:
    """What a command printed, to standard output and to standard error."""
    result = CliRunner().invoke(app, list(words))
    assert result.exit_code == 0, result.output
    return result.stdout, result.stderr


@cache
def document(what: str, level: str) -> Any:
    """What a command prints of a level as JSON, alone on standard output."""
    # Those kept for assessment are laid out by their files alone.
    out, err = run(what, str(find_level(level)), "--json")
    assert err == ""
    return json.loads(out)


@pytest.mark.parametrize("level", LEVELS)
def test_roof_json_holds_the_contract(level: str) -> None:
    assert list(document("roof", level)) == ["level", "roof"]
    assert document("roof", level)["level"] == level
    roof = document("roof", level)["roof"]
    assert {"faces", "ridges", "hips", "valleys", "plan_area_m2", "area_m2"} <= set(roof)
    # The trade brief: roof area is plan area, eaves included, over the cosine of the pitch.
    pitch = float(re.search(r"pitch: *([0-9.]+)", find_level(level).read_text(encoding="utf-8"))[1])  # type: ignore[index]
    assert roof["area_m2"] == pytest.approx(roof["plan_area_m2"] / math.cos(math.radians(pitch)))
    for crease in (*roof["ridges"], *roof["hips"], *roof["valleys"]):
        assert [len(corner) for corner in crease] == [3, 3]


@pytest.mark.parametrize("level", LEVELS)
def test_layout_json_holds_the_contract(level: str) -> None:
    laid = document("layout", level)
    assert {"level", "roof", "wings", "members", "parts", "counts"} <= set(laid)
    assert laid["roof"] == document("roof", level)["roof"]
    for wing in laid["wings"]:
        assert {"id", "rect", "axis", "span"} <= set(wing)
    for member in laid["members"]:
        keys = {"tag", "kind", "wing", "station", "plies", "from", "to", "top", "ends", "carried_by", "tributary_m2"}
        assert keys <= set(member)
        assert re.fullmatch(TAG_LETTERS[member["kind"]] + r"\d+", member["tag"])
        for number in (*member["from"], *member["to"], member["station"]):
            assert number * 2 == round(number * 2), "plan places are given to 0.5 mm"
        for end in member["ends"]:
            assert {"bears_on", "tail", "fixing"} <= set(end)
    kinds = [member["kind"] for member in laid["members"]]
    assert laid["counts"] == {kind: kinds.count(kind) for kind in kinds}


@pytest.mark.parametrize("level", LEVELS)
def test_the_table_names_every_truss_once_and_the_cautions(level: str) -> None:
    out, _err = run("layout", str(find_level(level)))
    tags = [member["tag"] for member in document("layout", level)["members"]]
    rows = [line.split("  ")[0] for line in out.splitlines()]
    assert sorted(row for row in rows if row in tags) == sorted(tags)
    assert CAUTION in out


def test_the_table_measures_both_walls_of_a_truss_from_one_end_of_the_house() -> None:
    out, _err = run("layout", "thornbill")
    first = next(line for line in out.splitlines() if line.startswith("ST1"))
    assert "plate A at 900," in first and "plate C at 900," in first


@pytest.mark.parametrize("level", LEVELS)
def test_the_roof_in_words_tells_the_lengths_of_its_lines(level: str) -> None:
    out, _err = run("roof", str(find_level(level)))
    roof = document("roof", level)["roof"]
    assert f"{roof['area_m2']:.2f} m2" in out
    for name in ("ridge", "hip", "valley"):
        lines = [line for line in out.splitlines() if line.split(" ")[0] == name]
        true = sorted(math.dist(a, b) for a, b in roof[f"{name}s"])
        assert sorted(int(line.split()[-1]) for line in lines) == pytest.approx(true, abs=0.51)
