"""What a teacher fixes by hand: right where it makes a right layout, refused with its place where it does not."""

from dataclasses import replace
from pathlib import Path

import pytest
from attempts import layout_of, level_of
from plans import TURNS, turned

from trainer.cli.check import checked_level
from trainer.layout import Change, House, Layout, LayoutRefused, lay_out, loads
from trainer.level import parse_level, write_level
from trainer.rehearse import rehearse
from trainer.session import Session
from trainer.shipped import find_level

SAME = 0.5
MOVED = 40
"""How far a truss is moved by hand, mm."""


def with_changes(house: str, *changes: Change) -> House:
    return replace(level_of(house).house(), changes=changes)


def reasons(house: str, *changes: Change) -> list[tuple[int | None, str]]:
    with pytest.raises(LayoutRefused) as refused:
        lay_out(with_changes(house, *changes))
    return [(reason.change, reason.why) for reason in refused.value.reasons]


def places(layout: Layout, mirror: float | None = None) -> set[tuple[object, ...]]:
    """Each truss by kind, centre line and roof line, over the mirror line where one is given."""
    found = set()
    for member in layout.members:
        points = [(mirror - x if mirror else x, y) for x, y in (member.start, member.finish)]
        found.add((member.kind, frozenset(points), round(max(z for _run, z in member.top), 3)))
    return found


def test_the_closing_bay_at_the_other_end_is_the_mirrored_houses_layout() -> None:
    """Mirrored plans give mirrored layouts, except which end takes the closing bay: moved by hand, it is the same."""
    plan = level_of("treecreeper").house().plan
    width = max(x for x, _y in plan.outline)
    mirrored = turned(plan, TURNS["mirrored across"], (width, 0))
    other = lay_out(replace(level_of("treecreeper").house(), plan=mirrored))
    plain = layout_of("treecreeper")
    assert places(plain) != places(other, width)
    wanted = sorted(width - m.start[0] for m in other.members if m.kind == "standard")
    own = sorted((m for m in plain.members if m.kind == "standard"), key=lambda m: m.start[0])
    moves = []
    for member, x in zip(own, wanted, strict=True):
        from_first = abs(member.station - member.start[0]) <= SAME
        if abs(member.start[0] - x) > SAME:
            moves.append(Change(member.tag, x if from_first else width - x))
    assert moves
    assert places(lay_out(with_changes("treecreeper", *moves))) == places(other, width)


def test_a_moved_truss_keeps_its_tag_and_takes_what_hangs_and_crosses_with_it() -> None:
    """On this house the closing bay is over the opening: its truss hangs on the girder and lies under saddles."""
    plain = layout_of("oriole")
    own = [m for m in plain.members if m.kind == "standard" and m.wing == "W1"]
    last = max(own, key=lambda m: m.start[0])
    layout = lay_out(with_changes("oriole", Change(last.tag, last.station + MOVED)))
    moved = layout.by_tag[last.tag]
    assert moved.start[0] == last.start[0] - MOVED
    assert moved.top == last.top
    assert [end.bears_on for end in moved.ends] == [end.bears_on for end in last.ends]
    assert "G1" in moved.carried_by
    assert [m.tag for m in layout.members] == [m.tag for m in plain.members]
    over = [crossing for crossing in layout.crossings if crossing.under == last.tag and crossing.what == "saddle"]
    assert over
    assert all(crossing.at[0] == moved.start[0] for crossing in over)
    on_plates = [(m.tag, i) for m in layout.members for i, end in enumerate(m.ends) if end.on_plate]
    borne = sum(loads(layout)[tag].ends_m2[i] for tag, i in on_plates)
    assert borne == pytest.approx(layout.roof.plan_area_m2, rel=1e-6)


def test_a_fixing_by_hand_is_what_the_rules_then_want() -> None:
    layout = lay_out(with_changes("pardalote", Change("ST3", fixings=("tie-down strap", None))))
    assert [end.fixing for end in layout.by_tag["ST3"].ends] == ["tie-down strap", "framing anchor"]
    level = level_of("pardalote").model_copy(update={"layout": ()})
    diary = rehearse(level, 1)
    found = Session(level, 1, layout=layout).replay(diary.actions).findings
    assert ("tie-down-missing", "ST3") in {(finding.rule, finding.member) for finding in found}


@pytest.mark.parametrize(
    ("change", "why"),
    [
        (Change("ST2", 4900.0), "pass its neighbour"),
        (Change("ST2", 3900.0), "more than the spacing"),
        (Change("ST2", 3625.0), "inside each other"),
        (Change("ST1", 3400.0), "another height"),
        (Change("TG1", 1900.0), "Only standard and truncated"),
        (Change("ST99", 1900.0), "no truss of that tag"),
        (Change("ST5", fixings=("hanger", None)), "does not fit"),
    ],
)
def test_what_is_no_right_layout_is_refused_with_the_change_and_the_reason(change: Change, why: str) -> None:
    found = reasons("wren", change)
    assert all(index == 0 for index, _ in found)
    assert any(why in told for _, told in found)


def test_every_impossible_change_is_told_at_once() -> None:
    assert [i for i, _ in reasons("wren", Change("ST98", 1.0), Change("ST1", None), Change("TG1", 1.0))] == [0, 2]


def test_a_level_file_has_it_with_faults_at_their_line() -> None:
    text = find_level("wren").read_text(encoding="utf-8")
    good = text + "layout:\n  - {truss: ST3, from: tie-down strap}\n"
    level = parse_level(good, "wren.yaml")
    assert lay_out(level.house()).by_tag["ST3"].ends[0].fixing == "tie-down strap"
    assert parse_level(write_level(level), "again.yaml") == level
    line = len(text.splitlines()) + 2
    wrong = {
        "{truss: ST99, station: 4000}": f"wren.yaml:{line}: layout[0]: can't be done to ST99",
        "{truss: ST3}": f"wren.yaml:{line}: layout[0]: changes nothing about ST3",
        "{truss: ST3, station: 100000000}": f"wren.yaml:{line}: layout[0].station: ",
        "{truss: ST3, form: tie-down strap}": f"wren.yaml:{line}: layout[0].form: ",
    }
    for entry, told in wrong.items():
        _level, layout, faults = checked_level(f"{text}layout:\n  - {entry}\n".encode(), Path("wren.yaml"))
        assert layout is None
        assert any(str(fault).startswith(told) for fault in faults), [str(fault) for fault in faults]
    twice = f"{text}layout: [{{truss: ST3, station: 1}}, {{truss: ST3, from: hanger}}]\n"
    _level, _layout, faults = checked_level(twice.encode(), Path("wren.yaml"))
    assert "changes ST3 twice" in str(faults[0])
