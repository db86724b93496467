"""Reading YAML: values, lines, faults and limits."""

from __future__ import annotations

import io
import json
import re
from typing import Annotated, Literal

import pytest
import yaml
from hypothesis import assume, example, given
from hypothesis import strategies as st
from pydantic import BaseModel, ConfigDict, Field

from trainer.read import SIZE_LIMIT, Fault, Faulty, did_you_mean, read_yaml, validate, yaml_text

keys = st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"]), max_size=12)
texts = keys
scalars = (
    st.none()
    | st.booleans()
    | st.integers(-(10**17), 10**17)
    | st.floats(allow_nan=False, allow_infinity=False)
    | texts
)
data = st.recursive(
    scalars, lambda inner: st.lists(inner, max_size=4) | st.dictionaries(keys, inner, max_size=4), max_leaves=20
)


@pytest.fixture(params=["libyaml", "pure"])
def loader(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    if request.param == "pure":
        monkeypatch.setattr(yaml_text, "_Loader", yaml.SafeLoader)
    return str(request.param)


def faults_of(text: str | bytes) -> list[Fault]:
    with pytest.raises(Faulty) as caught:
        document = read_yaml(text, "f.yaml")
        raise Faulty(document.faults)
    return list(caught.value.faults)


def only_fault(text: str | bytes) -> Fault:
    faults = faults_of(text)
    assert len(faults) == 1
    return faults[0]


@given(data)
def test_reads_json_as_a_json_reader_does(value: object) -> None:
    # YAML 1.2 is a superset of JSON (YAML 1.2.2, chapter 1), so the json library is a second opinion.
    assert json.dumps(read_yaml(json.dumps(value, ensure_ascii=False), "f").data) == json.dumps(value)


@given(data)
def test_reads_what_another_yaml_writer_writes(value: object) -> None:
    # Older YAML, which that writer follows, takes 1e5 without a point for text and leaves it bare.
    assume(not re.search(r"[0-9][eE][-+]?[0-9]", json.dumps(value)))
    assert read_yaml(yaml.safe_dump(value, allow_unicode=True, sort_keys=False), "f").data == value


def test_core_schema_values_of_the_standard(loader: str) -> None:
    # After YAML 1.2.2, example 10.9, the decimal ones; from memory of the standard.
    text = "null: null\nb: [ true, True, false, FALSE ]\ni: [ 0, -19 ]\nf: [ 0., -0.0, .5, +12e03, -2E+05 ]\n"
    assert read_yaml(text, "f").data == {
        "null": None, "b": [True, True, False, False], "i": [0, -19], "f": [0.0, -0.0, 0.5, 12000.0, -200000.0],
    }  # fmt: skip


@pytest.mark.parametrize(
    "word",
    ["no", "on", "off", "yes", "N", "y", "12:30", "0777", "0x1F", "1_800", "2024-01-01", ".nan", ".inf", "1e999"],
)
def test_words_that_older_yaml_would_turn_into_something_else_stay_text(loader: str, word: str) -> None:
    assert read_yaml(f"on: {word}\n", "f").data == {"on": word}


def test_a_very_long_number_does_not_slow_or_break_the_reader(loader: str) -> None:
    assert read_yaml("9" * 300, "f").data == float("9" * 300)
    assert read_yaml("9" * 5000, "f").data == "9" * 5000


@given(
    st.recursive(
        st.integers(0, 10**9),
        lambda inner: (
            st.lists(inner, min_size=1, max_size=3)
            | st.dictionaries(st.sampled_from("abcdef"), inner, min_size=1, max_size=3)
        ),
        max_leaves=15,
    )
)
def test_every_number_is_on_the_line_it_is_said_to_be(value: object) -> None:
    text = yaml.safe_dump(value, default_flow_style=False)
    document = read_yaml(text, "f")
    lines = text.splitlines()

    def look(piece: object, where: tuple[str | int, ...]) -> None:
        if isinstance(piece, dict | list):
            for part, inner in piece.items() if isinstance(piece, dict) else enumerate(piece):
                look(inner, (*where, part))
        else:
            assert str(piece) in lines[document.line_of(where) - 1]

    look(document.data, ())


def test_line_of_a_missing_piece_is_that_of_what_is_round_it() -> None:
    document = read_yaml("a: 1\nb:\n  c: 2\n", "f")
    assert document.line_of(("b", "d", "e")) == 2
    assert document.line_of(("b", "c")) == 3


def test_bytes_are_read_as_utf8_with_or_without_a_mark() -> None:
    assert read_yaml("a: Größe\n".encode("utf-8-sig"), "f").data == {"a": "Größe"}


def test_key_given_twice(loader: str) -> None:
    fault = only_fault("a: 1\nb: {c: 1,\n  c: 2}\n")
    assert (fault.line, fault.path) == (3, "b.c")
    assert "twice" in fault.what
    assert "line 2" in fault.what


def test_several_keys_given_twice_are_all_told(loader: str) -> None:
    assert [fault.line for fault in faults_of("a: 1\na: 2\nb: 1\nb: 2\na: 3\n")] == [2, 4, 5]


@pytest.mark.parametrize(
    ("text", "line", "says"),
    [
        (b"a: 1\nb: \xff\xfe\n", 2, "UTF-8"),
        ("a: 1\n".encode("utf-16"), 1, "UTF-8"),
        ("a: 1\nb: \x00\n", 2, "not text"),
        ("a: 1\nb: \x1b[31m\n", 2, "not text"),
        ('a: 1\nb: "\\x1b[31m"\n', 2, "can't be shown"),
        ("a: \ud800\n", 1, "not text"),
        ("", 1, "empty"),
        ("\n  \n", 1, "empty"),
        ("a: 1\n---\nb: 2\n", 2, "second document"),
        ("a: [1, 2\nb: 3\n", 2, "close the bracket"),
        ("a: {b: 1\n", 1, "clos"),
        ("a:\n\t- 1\n", 2, "tabs"),
        ("a: 'it\n", 1, "short"),
        ("a: b: c\n", 1, "colon"),
        ("a: *b\n", 1, "write the value out"),
        ("a: &b [*b]\n", 1, "write the value out"),
        ("? [1]\n: 2\n", 1, "keys are single words"),
        ("a: !!python/object:os.system 1\n", 1, "tag"),
        ("a: " + "[" * 40 + "]" * 40, 1, "levels deep"),
        ("[" * 400_000, 1, "deep"),
        ("{a: " * 200_000, 1, "deep"),
        ("- " * 400_000, 1, "deep"),
        ("a: " + "x" * SIZE_LIMIT, 1, "1 MB"),
        (b"\xff" * (SIZE_LIMIT + 1), 1, "1 MB"),
    ],
    ids=lambda value: ascii(value)[:20],
)  # fmt: skip
def test_unreadable_text_is_told_with_its_line(loader: str, text: str | bytes, line: int, says: str) -> None:
    fault = only_fault(text)
    assert says in fault.what
    # Where a quote or bracket is never closed, the end of the file is as good a place as its beginning.
    assert fault.line == line


def test_alias_bomb_is_refused(loader: str) -> None:
    bomb = "a0: &a0 [1, 1, 1, 1, 1, 1, 1, 1, 1, 1]\n"
    bomb += "".join(f"a{i}: &a{i} [{', '.join([f'*a{i - 1}'] * 10)}]\n" for i in range(1, 12))
    assert "over 100,000 values" in only_fault(bomb).what


def test_modest_aliases_are_read(loader: str) -> None:
    assert read_yaml("a: &p [0, 1]\nb: [*p, *p]\n", "f").data == {"a": [0, 1], "b": [[0, 1], [0, 1]]}


@given(st.binary(max_size=200) | st.text(max_size=200) | st.text("[]{}:,-?&*!|>'\"%@`#\t\n ab1~", max_size=80))
@example(b"\xef\xbb\xbf")
@example("\u2028\x85a: [")
@example("a: !<tag:x> &a\r\r\n - *a")
def test_whatever_the_text_it_is_read_or_faulty_at_a_line_that_exists(text: str | bytes) -> None:
    try:
        faults = read_yaml(text, "f").faults
    except Faulty as faulty:
        faults = faulty.faults
        assert faults
    shown = text.decode("utf-8", "replace") if isinstance(text, bytes) else text
    lines = len(list(io.StringIO(shown, newline=None)))
    assert all(1 <= fault.line <= max(lines, 1) for fault in faults)


class Tool(BaseModel):
    model_config = ConfigDict(extra="forbid")
    do: Literal["saw"] = "saw"
    length: Annotated[int, Field(ge=100, le=900, json_schema_extra={"x-unit": "mm"})]


class Nail(BaseModel):
    model_config = ConfigDict(extra="forbid")
    do: Literal["nail"] = "nail"
    count: int | None = None


class Box(BaseModel):
    model_config = ConfigDict(extra="forbid")
    name: str = "box"
    full: bool = False
    at: tuple[int, int] = (0, 0)
    lid: Literal["flat", "round"] = "flat"
    tools: list[Annotated[Tool | Nail, Field(discriminator="do")]] = []


@pytest.mark.parametrize(
    ("text", "path", "says"),
    [
        ("nam: a", "nam", "did you mean 'name'?"),
        ("colour: red", "colour", "known here: name, full, at, lid, tools"),
        ("name: 7", "name", "is 7; write text, in quotes"),
        ("name: null", "name", "left empty"),
        ("full: no", "full", "the text 'no'; write true or false"),
        ("full: 1", "full", "is 1; write true or false"),
        ("at: [1, true]", "at[1]", "is true; write a whole number"),
        ("at: [1, 2.5]", "at[1]", "is 2.5; write a whole number"),
        ("at: [1]", "at", "has 1 entry; write a list [ ] of 2 entries"),
        ("at: [1, 2, 3]", "at", "has 3 entries; write a list"),
        ("at: 5", "at", "is 5; write a list"),
        ("lid: falt", "lid", "did you mean 'flat'? (one of: flat, round)"),
        ("lid: 3", "lid", "write one of: flat, round"),
        ("tools: [{do: swa}]", "tools[0].do", "did you mean 'saw'?"),
        ("tools: [{length: 100}]", "tools[0].do", "missing"),
        ("tools: [{do: saw}]", "tools[0].length", "is missing; add it: a whole number from 100 to 900 mm"),
        ("tools: [{do: saw, length: 90}]", "tools[0].length", "is 90; write a whole number from 100 to 900 mm"),
        ("tools: [{do: saw, length: 900mm}]", "tools[0].length", "without quotes or unit"),
        ("tools: [{do: nail, cuont: 3}]", "tools[0].cuont", "did you mean 'count'?"),
        ("tools: [{do: nail, count: x}]", "tools[0].count", "write a whole number"),
        ("- 1", "file", "is a list; write keys with values"),
        ("7", "file", "is 7; write keys with values"),
    ],
)  # fmt: skip
def test_a_fault_says_what_is_wrong_and_what_to_do(text: str, path: str, says: str) -> None:
    with pytest.raises(Faulty) as caught:
        validate(Box, read_yaml(text, "f.yaml"))
    (fault,) = caught.value.faults
    assert fault.path == path
    assert says in fault.what
    assert str(fault) == f"f.yaml:1: {path}: {fault.what}"


def test_every_fault_at_once_in_order_of_lines() -> None:
    text = "tools:\n- {do: saw, length: 1}\n- {do: axe}\nfull: maybe\nnaem: x\nlid: flat\nlid: round\n"
    with pytest.raises(Faulty) as caught:
        validate(Box, read_yaml(text, "f"), also=[(("at",), "is not there")])
    assert [(fault.line, fault.path) for fault in caught.value.faults] == [
        (1, "at"), (2, "tools[0].length"), (3, "tools[1].do"), (4, "full"), (5, "naem"), (7, "lid"),
    ]  # fmt: skip


def test_a_flood_of_faults_is_cut_and_said_to_be() -> None:
    with pytest.raises(Faulty) as caught:
        validate(Box, read_yaml("".join(f"k{i}: 1\n" for i in range(5000)), "f"))
    assert len(caught.value.faults) == 201
    assert any("4800 more" in fault.what for fault in caught.value.faults)


def test_a_flood_of_keys_given_twice_is_cut_too(loader: str) -> None:
    assert len(faults_of("a: 1\n" * 5000)) == 201


def test_good_data_comes_back_as_the_model() -> None:
    box = validate(Box, read_yaml("at: [1, 2]\ntools: [{do: nail, count: 3}]", "f"))
    assert box == Box(at=(1, 2), tools=[Nail(count=3)])


def test_a_guess_is_made_only_where_one_is_near() -> None:
    assert did_you_mean("Over-Hang", ["pitch", "overhang"]) == "did you mean 'overhang'?"
    assert did_you_mean("colour", ["pitch", "overhang"]) == ""
    assert did_you_mean("overhang" * 100_000, ["overhang"]) == ""


def test_a_list_is_not_called_short_because_an_entry_is_faulty() -> None:
    class Row(BaseModel):
        places: Annotated[tuple[int, ...], Field(min_length=2)]

    with pytest.raises(Faulty) as caught:
        validate(Row, read_yaml("places: [1, x]", "f"))
    assert [fault.path for fault in caught.value.faults] == ["places[1]"]
