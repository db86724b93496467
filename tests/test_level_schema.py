"""The JSON Schema of level files, held by a second reader: the jsonschema library."""

from __future__ import annotations

import copy
import json

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from trainer.level import level_schema, parse_level
from trainer.read import Faulty, read_yaml
from trainer.shipped import find_level, level_paths

SCHEMA = level_schema()
VALIDATOR = Draft202012Validator(SCHEMA)
WREN = yaml.safe_load(find_level("wren").read_text(encoding="utf-8"))
WREN |= {
    "tolerances": {"station": 10, "plumb": {"ratio": 50}},
    "tie_down": {"net_pressure": 0.8, "capacity": {"tie-down strap": 9.0}},
    "lesson": {
        "stages": ["stand", "brace"], "teaches": ["off-station"], "hints": True, "weights": {"stop-work": 30},
    },
}  # fmt: skip


def faulty(data: object) -> bool:
    try:
        parse_level(json.dumps(data), "f")
    except Faulty:
        return True
    return False


def test_the_schema_is_a_schema_of_its_edition() -> None:
    assert SCHEMA["$schema"] == Draft202012Validator.META_SCHEMA["$id"]
    Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("path", level_paths(), ids=lambda path: path.stem)
def test_shipped_levels_pass(path: object) -> None:
    text = find_level(getattr(path, "stem", "")).read_text(encoding="utf-8")
    assert list(VALIDATOR.iter_errors(read_yaml(text, "f").data)) == []


def test_keys_are_explained_to_the_person_typing_them() -> None:
    blocks = [SCHEMA, *(block for block in SCHEMA["$defs"].values() if "properties" in block)]
    unexplained = [
        key
        for block in blocks
        for key, prop in block["properties"].items()
        if "description" not in prop
        and "description" not in SCHEMA["$defs"].get(prop.get("$ref", "").split("/")[-1], {})
    ]
    # The kinds of truss and the names of connectors and severities explain themselves.
    kinds = ["standard", "girder", "truncated_girder", "truncated", "hip", "jack", "creeper", "gable"]
    connectors = ["framing anchor", "tie-down strap", "hanger", "heavy girder bracket"]
    assert set(unexplained) <= {*kinds, *connectors, "least", "most", "stop-work", "rework", "tolerance", "habit"}


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (["schema"], 2),
        (["schema"], True),
        (["id"], "No Spaces"),
        (["title"], ""),
        (["plates", "outline"], [[0, 0], [1, 0], [1, 1]]),
        (["plates", "outline", 0], [0]),
        (["plates", "outline", 0], [0, 0, 0]),
        (["plates", "outline", 0, 0], 0.5),
        (["plates", "width"], 30),
        (["plates", "depth"], 30),
        (["gables"], "C"),
        (["roof", "pitch"], 61),
        (["roof", "cover"], "straw"),
        (["trusses", "spacing"], "600"),
        (["tolerances", "station"], 0),
        (["lesson", "stages"], []),
        (["lesson", "stages"], ["stand", "stand"]),
        (["lesson", "stages"], ["lunch"]),
        (["lesson", "hints"], "no"),
        (["lesson", "weights", "stop-work"], 101),
        (["colour"], "red"),
    ],
)
def test_the_schema_finds_what_the_checker_finds(path: list[str | int], value: object) -> None:
    data = copy.deepcopy(WREN)
    inner = data
    for part in path[:-1]:
        inner = inner[part]
    inner[path[-1]] = value
    assert not VALIDATOR.is_valid(data)
    assert faulty(data)


@pytest.mark.parametrize("key", ["schema", "id", "title", "brief", "plates", "roof", "trusses"])
def test_both_ask_for_what_must_be_there(key: str) -> None:
    data = {name: value for name, value in WREN.items() if name != key}
    assert not VALIDATOR.is_valid(data)
    assert faulty(data)


def places(data: object, where: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    """The way to every piece of the data."""
    inner = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    return (
        [where, *(place for part, piece in inner for place in places(piece, (*where, part)))] if where or inner else []
    )


words = st.sampled_from(["", "no", "sheet", "C", "brace"])
values = st.recursive(
    st.none() | st.booleans() | st.integers(-300_000, 300_000) | st.floats(0, 100) | words,
    lambda inner: st.lists(inner, max_size=3),
    max_leaves=4,
)


@given(st.sampled_from([place for place in places(WREN) if place]), values)
def test_the_checker_lets_nothing_pass_that_the_schema_does_not(place: tuple[str | int, ...], value: object) -> None:
    data = copy.deepcopy(WREN)
    inner = data
    for part in place[:-1]:
        inner = inner[part]
    inner[place[-1]] = value
    if not VALIDATOR.is_valid(data):
        assert faulty(data)


@given(
    st.integers(5, 60) | st.floats(5, 60),
    st.integers(300, 1200),
    st.integers(1, 50),
)
def test_both_let_sound_values_pass(pitch: float, spacing: int, station: int) -> None:
    data = copy.deepcopy(WREN)
    data["roof"]["pitch"], data["trusses"]["spacing"], data["tolerances"]["station"] = pitch, spacing, station
    assert VALIDATOR.is_valid(data)
    assert not faulty(data)
