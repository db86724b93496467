"""The level file: what it gives, its ranges, its defaults, and its faults."""

from __future__ import annotations

import dataclasses
import io
import re
from typing import get_args

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from trainer.layout import lay_out
from trainer.layout.model import FixingSpec, House, TrussSpec
from trainer.level import Level, Weights, parse_level
from trainer.level.model import TrussSettings
from trainer.plan import PlatePlan
from trainer.read import Fault, Faulty
from trainer.roof.model import RoofSpec
from trainer.shipped import NoSuchLevel, art_path, find_level
from trainer.terms import Stage

CONTRACT = """\
schema: 1
id: wren
title: Broken hip and valley
brief: A wing 4.8 m wide runs off the back of the house, flush with its right-hand end.
plates: {outline: [[0,0],[12600,0],[12600,11400],[7800,11400],[7800,7800],[0,7800]], width: 90}
gables: [C]                                  # every other wall is an eave
internal_walls: [[[0,3900],[6000,3900]]]     # optional, never carry a truss
roof: {pitch: 22.5, overhang: 600, heel: 90, cover: sheet}
trusses: {spacing: 600, setback: 1800, thickness: 35}      # also girder_plies, stations_to, smallest_saddle
tolerances: {station: 10}                    # plumb, bow and the rest have defaults
lesson: {stages: [stand, brace], teaches: [off-station], practice_mark: 80, hints: true}
"""
SHORT = """\
schema: 1
id: robin
title: A shed
brief: Four walls.
plates: {outline: [[0, 0], [6000, 0], [6000, 4800], [0, 4800]], width: 90}
roof: {pitch: 20, overhang: 450, heel: 90}
trusses: {spacing: 600, setback: 1800}
"""


def told(text: str | bytes) -> list[Fault]:
    with pytest.raises(Faulty) as caught:
        parse_level(text, "robin.yaml")
    return list(caught.value.faults)


def with_value(path: str, value: object) -> str:
    """The short level with one value put in or replaced."""
    data = yaml.safe_load(SHORT)
    *way, last = path.split(".")
    inner = data
    for key in way:
        inner = inner.setdefault(key, {})
    inner[last] = value
    return yaml.safe_dump(data, sort_keys=False)


def test_the_contracts_example_is_read_whole() -> None:
    level = parse_level(CONTRACT, "wren.yaml")
    assert level.house() == House(
        PlatePlan(
            ((0, 0), (12600, 0), (12600, 11400), (7800, 11400), (7800, 7800), (0, 7800)),
            90, frozenset("C"), (((0, 3900), (6000, 3900)),),
        ),
        RoofSpec(22.5, 600, 90, 600),
        TrussSpec(spacing=600, setback=1800, thickness=35),
    )  # fmt: skip
    assert (level.id, level.roof.cover, level.tolerances.station) == ("wren", "sheet", 10)
    assert level.lesson.stages == ("stand", "brace")
    assert level.lesson.teaches == ("off-station",)


def test_a_first_level_is_ten_lines_and_the_rest_has_defaults() -> None:
    level = parse_level(SHORT, "robin.yaml")
    assert SHORT.count("\n") <= 10
    assert level.house().trusses == TrussSpec()
    assert level.lesson.stages == get_args(Stage)
    # The trade brief's limits: L/200 and H/50, each no more than 50 mm.
    assert (level.tolerances.bow.ratio, level.tolerances.plumb.ratio) == (200, 50)
    assert (level.tolerances.bow.cap, level.tolerances.plumb.cap) == (50, 50)


def test_truss_settings_reach_the_layout_under_the_same_names() -> None:
    assert set(TrussSettings.model_fields) == {field.name for field in dataclasses.fields(TrussSpec)}
    given_trusses = {
        "spacing": 900, "setback": 2400, "thickness": 45, "girder_plies": 3, "stations_to": "near face",
        "smallest_saddle": 500, "outrigger_depth": 70, "gable_stands": "flush", "saddle_overrun": 200,
    }  # fmt: skip
    assert parse_level(with_value("trusses", given_trusses), "f").house().trusses == TrussSpec(**given_trusses)


def test_fixings_reach_the_layout_under_the_same_names() -> None:
    assert parse_level(SHORT, "f").house().fixings == FixingSpec()
    given_fixings = {"standard": "tie-down strap", "saddle": "tie-down strap", "hung": "heavy girder bracket"}
    assert parse_level(with_value("fixings", given_fixings), "f").house().fixings == FixingSpec(**given_fixings)


def test_the_layout_fastens_ends_as_the_level_says() -> None:
    text = find_level("wren").read_text(encoding="utf-8")
    text += "fixings: {standard: tie-down strap, hung: heavy girder bracket}\n"
    ends = [
        (m.kind, end.on_plate, end.fixing) for m in lay_out(parse_level(text, "f").house()).members for end in m.ends
    ]
    assert {fixing for kind, on_plate, fixing in ends if kind == "standard" and on_plate} == {"tie-down strap"}
    assert {fixing for kind, on_plate, fixing in ends if kind == "standard" and not on_plate} == {
        "heavy girder bracket"
    }
    assert {fixing for kind, on_plate, fixing in ends if kind == "jack" and on_plate} == {"framing anchor"}


def test_weights_are_those_of_the_contract_unless_the_level_gives_its_own() -> None:
    assert Weights().by_severity() == {"stop-work": 25, "rework": 8, "tolerance": 3, "habit": 1}
    level = parse_level(with_value("lesson.weights", {"stop-work": 40}), "f")
    assert level.lesson.weights.by_severity() == {"stop-work": 40, "rework": 8, "tolerance": 3, "habit": 1}


# Ranges from the design's "Numbers"; unit as the fault must say it.
RANGES = [
    ("roof.pitch", 5, 60, "degrees"),
    ("roof.overhang", 0, 1500, "mm"),
    ("roof.heel", 0, 600, "mm"),
    ("plates.width", 45, 300, "mm"),
    ("trusses.spacing", 300, 1200, "mm"),
    ("trusses.setback", 300, 3600, "mm"),
    ("trusses.thickness", 30, 60, "mm"),
    ("tolerances.station", 1, 50, "mm"),
]


@pytest.mark.parametrize(("path", "least", "most", "unit"), RANGES)
def test_ranges(path: str, least: int, most: int, unit: str) -> None:
    for good in (least, most):
        parse_level(with_value(path, good), "f")
    for bad in (
        least - 1,
        most + 1,
        float("nan"),
        float("inf"),
        -float("inf"),
        True,
        str(least),
        None,
        [least],
        10**30,
    ):
        (fault,) = told(with_value(path, bad))
        assert fault.path == path
        assert f"from {least} to {most} {unit}" in fault.what


@pytest.mark.parametrize(("path", "least", "most", "unit"), [row for row in RANGES if row[0] != "roof.pitch"])
def test_lengths_are_whole_millimetres(path: str, least: int, most: int, unit: str) -> None:
    (fault,) = told(with_value(path, least + 0.5))
    assert "whole number" in fault.what


@pytest.mark.parametrize("count", [500, 502])
def test_at_most_500_corners(count: int) -> None:
    steps = [[0, 100_000]]
    for i in range(count // 2 - 1):
        steps += [[200 * i, 100 * i], [200 * i + 200, 100 * i]]
    outline = [*steps, [steps[-1][0], 100_000]]
    outline = [*outline[1:], outline[0]]
    assert len(outline) == count
    text = with_value("plates.outline", outline)
    if count <= 500:
        parse_level(text, "f")
    else:
        (fault,) = told(text)
        assert "has 502 entries; write a list of 4 to 500 corners" in fault.what


def test_coordinates_stay_within_200_metres() -> None:
    (fault,) = told(with_value("plates.outline", [[0, 0], [200_001, 0], [200_001, 4800], [0, 4800]]))[:1]
    assert fault.path == "plates.outline[1][0]"


@pytest.mark.parametrize(
    ("old", "new", "line", "path", "says"),
    [
        ("title:", "titel:", 3, "titel", "did you mean 'title'?"),
        ("pitch: 20", "pich: 20", 6, "roof.pich", "did you mean 'pitch'?"),
        ("schema: 1", "schema: 2", 1, "schema", "write 1"),
        ("id: robin", "id: Robin Redbreast", 2, "id", "small letters, digits and hyphens"),
        ("id: robin", "id: 7", 2, "id", "in quotes"),
        ("title: A shed", "title:", 3, "title", "left empty"),
        ("title: A shed", "title: ''", 3, "title", "of 1 to 80 characters"),
        ("title: A shed", "title: no\ntitle: yes", 4, "title", "twice"),
        ("heel: 90", "heel: 90, cover: tin", 6, "roof.cover", "one of: sheet, tile"),
        ("setback: 1800", "setback: 1.8", 7, "trusses.setback", "whole number from 300 to 3600 mm"),
        ("setback: 1800", "setback: 1800 mm", 7, "trusses.setback", "without quotes or unit"),
        ("1800}", "1800, stations_to: near fcae}", 7, "trusses.stations_to", "did you mean 'near face'?"),
        ("[6000, 4800]", "[6000, 4801]", 5, "plates.outline[2]", "at an angle"),
        ("[6000, 4800], [0, 4800]", "[6000, 4800], [0, 4800], [0, 0]", 5, "plates.outline[4]", "first corner again"),
        ("width: 90}", "width: 90}\ngables: [E]", 6, "gables[0]", "its walls are A to D"),
        ("width: 90}", "width: 90}\ngables: [A, B]", 6, "gables[0]", "both gables"),
        ("width: 90}", "width: 90}\ngables: B", 6, "gables", "write a list"),
        ("90}\n", "90}\ninternal_walls:\n- [[0, 0], [9, 1], [7000, 1]]\n", 7, "internal_walls[0][2]", "outside"),
        ("1800}", "1800}\nlesson: {hints: no}", 8, "lesson.hints", "true or false"),
        ("1800}", "1800}\nlesson: {stages: [brace, stand, brace]}", 8, "lesson.stages", "twice"),
        ("1800}", "1800}\nlesson: {stages: [brce]}", 8, "lesson.stages[0]", "did you mean 'brace'?"),
        ("1800}", "1800}\nlesson: {weights: {stopwork: 1}}", 8, "lesson.weights.stopwork", "did you mean 'stop-work'?"),
        ("1800}", "1800}\nfixings: {girder: tiedown strap}", 8, "fixings.girder", "did you mean 'tie-down strap'?"),
        ("1800}", "1800}\nbracing: {steel_brace_angle: {least: 70}}", 8, "bracing.steel_brace_angle", "swap"),
    ],
)  # fmt: skip
def test_one_slip_gives_one_fault_at_its_line(old: str, new: str, line: int, path: str, says: str) -> None:
    faults = told(SHORT.replace(old, new, 1))
    found = [fault for fault in faults if fault.path == path]
    assert [fault.line for fault in found] == [line]
    assert says in found[0].what
    # A mistyped key that must be there is missed too, under its right name.
    assert all(fault in found or fault.what.startswith("is missing") for fault in faults)


def test_every_fault_at_once_the_plans_too() -> None:
    text = SHORT.replace("pitch: 20", "pitch: 200").replace("[6000, 4800]", "[6000, 4900]").replace("id:", "idd:")
    assert [(fault.line, fault.path) for fault in told(text)] == [
        (1, "id"), (2, "idd"), (5, "plates.outline[2]"), (6, "roof.pitch"),
    ]  # fmt: skip


@pytest.mark.parametrize("cut", range(0, len(CONTRACT), 7))
def test_a_file_cut_short_is_faulty_and_never_breaks(cut: int) -> None:
    whole = cut >= CONTRACT.index("35}") + 3  # from there on it lacks nothing that must be there
    told(CONTRACT[:cut] + ("\nmore: [" if whole else ""))


def test_a_huge_outline_is_refused_without_being_looked_through() -> None:
    corners = ", ".join(f"[{i}, {i % 7}]" for i in range(30_000))
    faults = told(SHORT.replace("[6000, 4800]", corners))
    assert any("500 corners" in fault.what for fault in faults)


pieces = st.sampled_from(
    [
        "[",
        "]",
        "{",
        "}",
        ":",
        ",",
        "\n",
        " ",
        "-",
        "'",
        '"',
        "&a",
        "*a",
        "no",
        ".nan",
        "1e9",
        "null",
        "\t",
        "#",
        "é",
        "\u2028",
        "gables",
        "A",
    ]
)
edits = st.lists(st.tuples(st.floats(0, 1), st.integers(0, 12), pieces | st.text(max_size=4)), min_size=1, max_size=4)


@given(st.sampled_from([CONTRACT, SHORT]), edits)
def test_a_spoilt_level_is_read_or_faulty_at_lines_that_exist(text: str, spoils: list[tuple[float, int, str]]) -> None:
    for place, length, piece in spoils:
        at = int(place * len(text))
        text = text[:at] + piece + text[at + length :]
    try:
        parse_level(text, "f.yaml").house()
    except Faulty as faulty:
        lines = len(list(io.StringIO(text, newline=None)))
        assert faulty.faults
        for fault in faulty.faults:
            assert 1 <= fault.line <= max(lines, 1)
            assert re.fullmatch(r"f\.yaml:\d+: \S.*: \S.*", str(fault), re.DOTALL)
            assert "\n" not in str(fault)


values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5) | st.dates(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=6,
)


@given(st.dictionaries(st.sampled_from(sorted(Level.model_json_schema()["properties"])), values))
def test_values_of_any_type_are_read_or_faulty(data: dict[str, object]) -> None:
    base = yaml.safe_load(SHORT)
    text = yaml.safe_dump({**base, **data}, allow_unicode=True)
    try:
        parse_level(text, "f.yaml").house()
    except Faulty as faulty:
        assert {re.split(r"[.\[]", fault.path)[0] for fault in faulty.faults} <= {*data, "file"}


@given(st.binary(max_size=300))
def test_bytes_of_any_kind_are_faulty(garbage: bytes) -> None:
    assert told(garbage)


def test_a_level_is_found_by_id_or_by_path() -> None:
    assert find_level("wren").name == "wren.yaml"
    assert find_level(str(find_level("wren"))) == find_level("wren")
    assert art_path("palette.yaml").parent.name == "art"


@pytest.mark.parametrize("name", ["wern", "", "x" * 5000, "no/such.yaml", "\0", "levels"])
def test_a_level_that_is_not_there_is_said_to_be(name: str) -> None:
    with pytest.raises(NoSuchLevel, match=r"did you mean 'wren'\?|shipped levels: avocet"):
        find_level(name)
