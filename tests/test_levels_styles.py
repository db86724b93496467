"""House styles: what they give, what a level keeps, faults at the right file and line, and levels written whole."""

import json

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from sizes import by_size, some

from trainer.layout import lay_out
from trainer.level import Level, level_schema, parse_level, parse_style, style_schema, write_level
from trainer.level.instructions import ADVICE
from trainer.order import order_of
from trainer.read import Fault, Faulty, read_yaml
from trainer.rehearse import rehearse
from trainer.session import Session, job_of
from trainer.shipped import find_level, level_paths, style_paths, style_texts

SHED = """\
schema: 1
id: robin
style: wide
title: A shed
brief: Four walls.
plates: {outline: [[0, 0], [9000, 0], [9000, 6600], [0, 6600]], width: 90}
roof: {pitch: 20, overhang: 450, heel: 90}
"""
WIDE = """\
schema: 1
id: wide
title: Wide bays
trusses: {spacing: 900, setback: 2400, thickness: 45}
tolerances: {station: 7, plumb: {ratio: 60}}
bracing:
  steel_brace_angle: {least: 40}
tie_down: {net_pressure: 1.1}
fixings: {standard: tie-down strap}
"""


def read(level: str = SHED, wide: str = WIDE) -> Level:
    return parse_level(level, "shed.yaml", {"wide": (wide, "styles/wide.yaml"), "narrow": ("", "styles/narrow.yaml")})


def told(level: str = SHED, wide: str = WIDE) -> list[Fault]:
    with pytest.raises(Faulty) as caught:
        read(level, wide)
    return list(caught.value.faults)


def test_a_level_takes_what_it_does_not_give_from_its_style() -> None:
    level = read()
    assert (level.trusses.spacing, level.trusses.setback, level.trusses.thickness) == (900, 2400, 45)
    assert (level.tolerances.station, level.tolerances.plumb.ratio, level.tolerances.plumb.cap) == (7, 60, 50)
    assert level.bracing.steel_brace_angle.least == 40
    assert level.tie_down.net_pressure == 1.1
    assert level.house().fixings.standard == "tie-down strap"
    assert level.trusses.girder_plies == 2  # neither says


def test_what_the_level_gives_holds_key_by_key() -> None:
    level = read(SHED + "trusses: {setback: 1800}\ntolerances: {plumb: {cap: 20}}\n")
    assert (level.trusses.spacing, level.trusses.setback) == (900, 1800)
    assert (level.tolerances.station, level.tolerances.plumb.ratio, level.tolerances.plumb.cap) == (7, 60, 20)


def test_the_layout_goes_by_the_style() -> None:
    girders = [m for m in lay_out(read().house()).members if m.kind == "truncated_girder"]
    assert {girder.station for girder in girders} == {2400}


def test_a_style_that_is_not_there_is_told_with_a_guess_and_nothing_that_follows_from_it() -> None:
    (fault,) = told(SHED.replace("style: wide", "style: wied"))
    assert (fault.file, fault.line, fault.path) == ("shed.yaml", 3, "style")
    assert "did you mean 'wide'?" in fault.what


def test_a_level_without_trusses_needs_a_style() -> None:
    (fault,) = told(SHED.replace("style: wide\n", ""))
    assert (fault.path, fault.line) == ("trusses", 1)


@pytest.mark.parametrize(
    ("old", "new", "line", "path"),
    [
        ("spacing: 900", "spacing: 90", 4, "trusses.spacing"),
        ("setback: 2400", "setbak: 2400", 4, "trusses.setbak"),
        ("ratio: 60", "ratio: sixty", 5, "tolerances.plumb.ratio"),
        ("least: 40", "least: 70", 7, "bracing.steel_brace_angle"),
        ("title: Wide bays", "title: Wide bays\nroof: {pitch: 20}", 4, "roof"),
        ("tie-down strap", "tiedown strap", 9, "fixings.standard"),
    ],
)
def test_a_fault_in_a_style_is_told_once_at_its_own_file_and_line(old: str, new: str, line: int, path: str) -> None:
    (fault,) = told(wide=WIDE.replace(old, new))
    assert (fault.file, fault.line, fault.path) == ("styles/wide.yaml", line, path)


def test_faults_of_both_files_come_together() -> None:
    faults = told(SHED.replace("pitch: 20", "pitch: 99"), WIDE.replace("900", "90"))
    assert [(fault.file, fault.line) for fault in faults] == [("shed.yaml", 7), ("styles/wide.yaml", 4)]


def test_a_fault_that_comes_of_both_is_the_levels() -> None:
    (fault,) = told(SHED + "bracing:\n  steel_brace_angle: {most: 35}\n")
    assert (fault.file, fault.line, fault.path) == ("shed.yaml", 9, "bracing.steel_brace_angle")


@pytest.mark.parametrize("text", ["", "[", "a: [1", "\0", "- 1\n- 2\n", "x" * 10])
def test_a_style_that_cannot_be_read_is_told_at_its_own_file(text: str) -> None:
    faults = told(wide=text)
    assert {fault.file for fault in faults} == {"styles/wide.yaml"}


@given(st.text(max_size=60))
def test_any_text_for_a_style_gives_a_level_or_faults(text: str) -> None:
    try:
        read(wide=text)
    except Faulty as faulty:
        assert faulty.faults


def test_order_advice_is_what_the_order_of_work_calls_its_habits() -> None:
    layout = lay_out(parse_level(find_level("wren").read_bytes(), "wren").house())
    stages = frozenset({"stand", "brace", "fix"})
    edges = [edge for edges in order_of(layout, stages).into.values() for edge in edges]
    habits = {edge.why for edge in edges if edge.strength == "should"}
    assert habits - {"string first"} == set(ADVICE)  # the string goes with the outermost


@pytest.mark.parametrize("name", ["fantail", "wren"])
def test_what_a_fabricator_does_not_ask_for_is_no_finding(name: str) -> None:
    """With no advice at all, orders that the other levels would mark as habit are right, and rehearsals use them."""
    text = find_level(name).read_text(encoding="utf-8")
    free = parse_level(text + "order_advice: []\n", name)
    strict = parse_level(text, name)
    habits = 0
    for seed in range(by_size(2, 6, 6)):
        diary = rehearse(free, seed)
        done = Session(free, seed).replay(diary.actions)
        assert (done.findings, done.refused) == ((), ())
        habits += len(Session(strict, seed).replay(diary.actions).findings)
    assert habits
    assert job_of(free, 0).advice == frozenset()


@pytest.mark.parametrize("path", style_paths(), ids=lambda path: path.stem)
def test_a_shipped_style_is_sound_named_after_its_file_and_marked_as_invented(path: object) -> None:
    (found,) = [each for each in style_paths() if each == path]
    text = found.read_text(encoding="utf-8")
    assert parse_style(text, str(found)).id == found.stem
    assert "Invented" in text.splitlines()[0]
    assert list(Draft202012Validator(style_schema()).iter_errors(yaml.safe_load(text))) == []


def test_every_shipped_style_is_used() -> None:
    used = {parse_level(path.read_bytes(), str(path), style_texts(path)).style for path in level_paths()}
    assert used - {None} == {path.stem for path in style_paths()}


def test_the_schemas_are_schemas_and_let_a_style_give_the_trusses() -> None:
    for schema in (level_schema(), style_schema()):
        Draft202012Validator.check_schema(schema)
    validator = Draft202012Validator(level_schema())
    assert validator.is_valid(yaml.safe_load(SHED))
    assert validator.is_valid({**yaml.safe_load(SHED), "trusses": {"thickness": 45}})
    alone = {key: value for key, value in yaml.safe_load(SHED).items() if key != "style"}
    assert not validator.is_valid(alone)
    assert not validator.is_valid({**alone, "trusses": {"spacing": 600}})


@pytest.mark.parametrize("path", some(level_paths(), 13), ids=lambda path: path.stem)
def test_a_level_written_out_reads_as_the_same_level_without_its_style(path: object) -> None:
    (found,) = [each for each in level_paths() if each == path]
    level = parse_level(found.read_bytes(), str(found), style_texts(found))
    text = write_level(level)
    again = parse_level(text, "again.yaml")
    assert again == level.model_copy(update={"style": None})
    assert max(map(len, text.splitlines())) <= 120
    # A second reader of YAML sees what ours does.
    assert json.dumps(yaml.safe_load(text), sort_keys=True) == json.dumps(read_yaml(text, "f").data, sort_keys=True)


@given(st.text(min_size=1, max_size=60).filter(lambda text: text.isprintable()), st.floats(5, 60))
def test_any_title_and_pitch_survive_being_written(title: str, pitch: float) -> None:
    level = parse_level(find_level("wren").read_bytes(), "wren")
    odd = level.model_copy(update={"title": title, "roof": level.roof.model_copy(update={"pitch": pitch})})
    assert parse_level(write_level(odd), "f") == odd
