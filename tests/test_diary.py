"""The diary file: what the contract shows is read, what is written comes out the same, every fault has its line."""

from __future__ import annotations

import re
import string

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from trainer.read import Faulty
from trainer.site import Brace, Diary, Fit, Fix, HandOver, Mark, Remove, Stand, parse_diary, write_diary
from trainer.site.actions import Check, Cut, Inspect, Load, Measure, Plumb, Report, String, Unbrace, Undo

CONTRACT = """\
schema: 1
level: wren
seed: 7
actions:
- {do: mark, wall: A, at: 1800}
- {do: mark, on: G1, at: 600}
- {do: fit, part: heavy girder bracket, on: G1, at: 1800}   # before it is lifted
- {do: stand, tag: TG1, from: [1800, 0], to: [1800, 7800]}
- {do: brace, kind: solid, tags: [TG1]}
- {do: brace, kind: batten, tags: [T1, T2]}
- {do: fix, tag: TG1, end: 1, with: tie-down strap, count: 1}
- {do: fix, tag: H1, at: [2400, 2400.5], with: framing anchor}
- {do: remove, tag: T7}
- {do: check, item: edge protection}            # pre-start items of the level
- {do: measure, what: diagonals, wall: A}       # shows a reading, changes nothing
- {do: report, fault: broken web, tag: T7}
- {do: unbrace, kind: batten, tags: [T1, T2]}
- {do: string, from: ST1, to: ST9}
- {do: plumb, tag: ST4}                         # straighten: line and plumb
- {do: cut, tag: T7, where: tail}
- {do: load, what: battens}
- {do: inspect, tag: ST4, accept: true}         # hand-over
- {do: undo}
- {do: hand_over}
"""


def faults(text: str | bytes, level: str | None = None) -> list[str]:
    with pytest.raises(Faulty) as caught:
        parse_diary(text, "attempt.yaml", level)
    return [str(fault) for fault in caught.value.faults]


def test_the_contracts_lines_are_read() -> None:
    diary = parse_diary(CONTRACT, "attempt.yaml", "wren")
    assert (diary.level, diary.seed) == ("wren", 7)
    assert diary.actions == (
        Mark(wall="A", at=1800),
        Mark(on="G1", at=600),
        Fit(part="heavy girder bracket", on="G1", at=1800),
        Stand(tag="TG1", start=(1800, 0), finish=(1800, 7800)),
        Brace(kind="solid", tags=("TG1",)),
        Brace(kind="batten", tags=("T1", "T2")),
        Fix(tag="TG1", end=1, with_="tie-down strap"),
        Fix(tag="H1", at=(2400, 2400.5), with_="framing anchor"),
        Remove(tag="T7"),
        Check(item="edge protection"),
        Measure(what="diagonals", wall="A"),
        Report(fault="broken web", tag="T7"),
        Unbrace(kind="batten", tags=("T1", "T2")),
        String(start="ST1", finish="ST9"),
        Plumb(tag="ST4"),
        Cut(tag="T7", where="tail"),
        Load(what="battens"),
        Inspect(tag="ST4", accept=True),
        Undo(),
        HandOver(),
    )


def test_what_is_written_is_one_line_an_action_and_reads_back_the_same() -> None:
    diary = parse_diary(CONTRACT, "attempt.yaml")
    text = write_diary(diary)
    assert parse_diary(text, "again.yaml") == diary
    assert write_diary(parse_diary(text, "again.yaml")) == text
    lines = text.splitlines()
    assert lines[:4] == ["schema: 1", "level: wren", "seed: 7", "actions:"]
    assert all(re.fullmatch(r"- \{do: .*\}", line) for line in lines[4:])
    assert len(lines) == 4 + len(diary.actions)


WORDS = st.text(string.printable.translate({ord(c): None for c in "\r\n\t\x0b\x0c"}), min_size=1, max_size=20)
LENGTHS = st.integers(-400_000, 400_000).map(lambda twice: twice / 2)


@given(
    st.lists(
        st.one_of(
            st.builds(lambda wall, at: Mark(wall=wall, at=at), WORDS, LENGTHS),
            st.builds(lambda part, on, at: Fit(part=part, on=on, at=at), WORDS, WORDS, st.none() | LENGTHS),
            st.builds(
                lambda tag, a, b: Stand(tag=tag, start=a, finish=b),
                WORDS,
                st.tuples(LENGTHS, LENGTHS),
                st.tuples(LENGTHS, LENGTHS),
            ),
            st.builds(lambda tags: Brace(kind="solid", tags=tags), st.lists(WORDS, min_size=1, max_size=3).map(tuple)),
            st.builds(lambda tag, with_: Fix(tag=tag, end=2, with_=with_, count=3), WORDS, WORDS),
        ),
        max_size=8,
    ),
    st.integers(0, 2**53 - 1),
)
def test_any_diary_reads_back_the_same_also_for_another_reader(actions: list[Mark], seed: int) -> None:
    diary = Diary(level="wren", seed=seed, actions=tuple(actions))
    text = write_diary(diary)
    assert parse_diary(text, "attempt.yaml") == diary
    # PyYAML's own loader as a second reader of the text.
    assert [action["do"] for action in yaml.safe_load(text)["actions"]] == [action.do for action in actions]


def test_every_fault_is_told_with_its_line_and_what_was_perhaps_meant() -> None:
    text = CONTRACT.replace("do: undo", "do: undone").replace("do: hand_over", "do: handover")
    text = text.replace("kind: solid", "kind: solit").replace("at: 600", "at: wide").replace("end: 1", "end: 3")
    text = text.replace("[1800, 7800]", "[1800]").replace("seed: 7", "sed: 7").replace("remove, tag:", "remove, tags:")
    found, last = faults(text), len(text.splitlines())
    assert [fault.split(": ")[0] for fault in found] == [
        f"attempt.yaml:{line}" for line in (3, 6, 8, 9, 11, 13, 13, last - 1, last)
    ]
    told = "\n".join(found)
    for meant in ("'seed'", "'undo'", "'hand_over'", "'solid'", "'tag'"):
        assert f"did you mean {meant}" in told


def test_a_verb_not_built_is_a_fault() -> None:
    """The verbs are a closed set."""
    found = faults("schema: 1\nlevel: wren\nseed: 1\nactions:\n- {do: juggle, tag: T1}\n")
    assert len(found) == 1
    assert found[0].startswith("attempt.yaml:5: actions[0].do: is the text 'juggle'; write one of: ")


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("{do: mark, at: 5}", "give wall: for a plate, or on: for a girder"),
        ("{do: mark, wall: A, on: G1, at: 5}", "give wall: for a plate, or on: for a girder"),
        ("{do: fix, tag: T1, with: hanger}", "give end: 1 or 2"),
        ("{do: fix, tag: T1, end: 1, at: [1, 2], with: hanger}", "give end: 1 or 2"),
        ("{do: stand, tag: T1, from: [0, 0], to: [0, .inf]}", "write a number"),
        ("{do: stand, tag: T1, from: [0, 0], to: [0, .nan]}", "write a number"),
        ("{do: stand, tag: T1, from: [0, 0], to: [0, 1e9]}", "from -200000 to 200000 mm"),
        ("{do: stand, tag: 7, from: [0, 0], to: [0, 9]}", "in quotes"),
        ("{do: brace, kind: solid, tags: []}", "tags"),
        ("{do: brace, kind: steel brace, tags: [T1, T2], every: 3000}", "leave every out with kind: steel brace"),
        ("{do: unbrace, kind: solid, tags: [T1], every: 3000}", "leave every out with kind: solid"),
        ("{do: brace, kind: batten, tags: [T1, T2], every: 2.5}", "actions[0].every"),
        ("{do: brace, kind: batten, tags: [T1, T2], every: 20}", "from 100 to 12000 mm"),
        ("{do: fit, part: outrigger, on: GT1, every: 0, back: 800}", "from 100 to 200000 mm"),
        ("{do: fit, part: outrigger, on: GT1, every: 900, back: -1}", "from 0 to 200000 mm"),
        ("{do: fix, tag: T1, end: true, with: hanger}", "end"),
        ("{do: measure, what: plumb, wall: A}", "plumb wants tag: alone"),
        ("{do: measure, what: level, tag: ST1}", "level wants wall: alone"),
        ("{do: measure, what: plump, tag: ST1}", "did you mean 'plumb'"),
        ("{do: report, fault: bowed wall, tag: T1}", "bowed wall wants wall: alone"),
        ("{do: report, fault: broken wed, tag: T1}", "did you mean 'broken web'"),
        ("{do: inspect, tag: T1, accept: 1}", "true or false"),
    ],
)
def test_values_are_checked(line: str, says: str) -> None:
    found = faults(f"schema: 1\nlevel: wren\nseed: 1\nactions:\n- {line}\n")
    assert found
    assert all(fault.startswith("attempt.yaml:5: ") for fault in found)
    assert says in "\n".join(found)


@pytest.mark.parametrize(
    "text",
    [
        b"\x89PNG\r\n\x1a\n\x00\x00",
        b"\xff\xfe\x00a",
        "",
        "[" * 5000,
        "a: &a [x]\nb: [*a, *a, *a]\n" + "".join(f"c{i}: &c{i} [*a, *a]\n" for i in range(9)),
        "schema: 1\nlevel: wren\nactions:\n" + "- {do: undo}\n" * 90_000,
        CONTRACT[:150],
        "- just\n- a list\n",
        "schema: true\nlevel: wren\nactions: []\n",
        "schema: 2\nlevel: wren\nactions: []\n",
        "schema: 1\nlevel: wren\nactions: {do: undo}\n",
        "schema: 1\nlevel: wren\nseed: -1\nactions: []\n",
    ],
    ids=[
        "binary",
        "not utf-8",
        "empty",
        "deep",
        "aliases",
        "huge",
        "cut short",
        "list",
        "true",
        "2",
        "mapping",
        "seed",
    ],
)
def test_hostile_files_get_faults(text: str | bytes) -> None:
    assert all(fault.startswith("attempt.yaml:") for fault in faults(text))


def test_a_diary_of_another_level_is_told() -> None:
    assert faults(CONTRACT, "fantail") == [
        "attempt.yaml:2: level: is 'wren'; this diary is held against 'fantail', so give it its own level"
    ]
