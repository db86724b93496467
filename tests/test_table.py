"""The drawing table: any acts in any order, undo without end, roofs of what is drawn, and the worked homes drawn."""

from __future__ import annotations

import random
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from homes import Home, worked_homes
from shapely import box, unary_union
from shapely.geometry import Polygon
from sizes import by_size
from table_acts import some_act

from trainer.cli.check import checked_level
from trainer.level import Level, parse_level
from trainer.level.dangers import LIES, OF_BEAMS, OF_POSTS, DangerKind
from trainer.plan import roof_parts
from trainer.read import read_yaml, yaml_entry
from trainer.rules import all_rules
from trainer.shipped import level_paths, style_texts
from trainer.table import (
    CannotDraw,
    Close,
    Drawing,
    History,
    Mirror,
    MoveTruss,
    MoveWall,
    Pace,
    PushBay,
    PutCorner,
    PutDanger,
    PutInside,
    SetBeam,
    SetDutch,
    SetKind,
    SetLength,
    SetValue,
    SplitWall,
    Step,
    Study,
    TakeOut,
    Turn,
    drawing_of,
    level_data,
    moved_by_hand,
    new_drawing,
    read_pace,
    study,
)
from trainer.table.form_acts import UseStyle
from trainer.table.teaches import SUGGESTED, teaches

ACTS, A_SHEET = by_size(300, 1200, 10_000), 40
STYLES = style_texts(level_paths()[0])
WREN = "13200 right, 11100 up, 5700 left, 3900 down, 7500 left, close"


def drawn(text: str) -> History:
    """A sheet with an outline as it is paced."""
    return History(new_drawing()).do(read_pace(text))


def corners(text: str) -> tuple[tuple[int, int], ...]:
    return drawn(text).now.corners


# any acts


@pytest.mark.parametrize("seed", range(ACTS // A_SHEET))
def test_no_acts_end_in_an_exception_a_wrong_roof_or_a_lost_undo(seed: int) -> None:
    dice = random.Random(f"table {seed}")
    history = History(drawn("12000 right, 7200 up, close").now if seed % 4 else new_drawing())
    done = [history.now]
    for _ in range(A_SHEET):
        if dice.random() < 0.15:
            back = dice.randrange(1, 4)
            there = history
            for _step in range(back):
                there = there.undo()
            for _step in range(back):
                there = there.redo()
            assert there.now == history.now
        try:
            history = history.do(some_act(dice, history.now))
        except CannotDraw as why:
            assert str(why)
            continue
        done.append(history.now)
        check_study(study(history.now, STYLES))
    check_file(history.now)
    end = history.now
    for before in reversed(done[:-1]):
        history = history.undo()
        assert history.now == before
    assert history.undo() is history
    for after in done[1:]:
        history = history.redo()
        assert history.now == after
    assert history.now == end
    assert history.redo() is history


def check_study(found: Study) -> None:
    """Whatever is drawn: a level or faults that say so, and a roof over just what is drawn."""
    assert all(fault.what for fault in found.faults)
    assert found.sound == (found.layout is not None and not found.faults)
    assert found.faults or found.layout is not None
    if found.house is None:
        return
    assert {*found.house.plan.outline} <= {*found.drawing.corners} or not found.drawing.closed
    if not (found.house.plan.against or found.house.plan.dutch_gables):
        plan, spec = found.house.roof_plan, found.house.roof
        area = with_eaves(plan.outline, spec.overhang) / 1e6
        twice = 0.0
        if len(roof_parts(plan)) > 1:  # a verge's corner over the end of a lower eave counts in both
            twice = sum(not plan.convex(i) for i in range(len(plan.walls))) * spec.overhang**2 / 1e6
        assert area * (1 - 1e-6) <= found.house.solved.plan_area_m2 <= (area + twice) * (1 + 1e-6)


def check_file(drawing: Drawing) -> None:
    """A drawing as a file: ``trainer check`` finds as much wrong with it as the table says, or nothing."""
    text = "".join(f"{line}\n" for key, value in level_data(drawing).items() for line in yaml_entry(key, value))
    _level, layout, faults = checked_level(text.encode("utf-8"), level_paths()[0].with_name("drawn.yaml"))
    found = study(drawing, STYLES)
    if drawing.closed:
        assert len(faults) == len({(fault.where, fault.what) for fault in found.faults})
        assert (layout is None) == (found.layout is None)
    else:
        assert found.faults


def with_eaves(outline: tuple[tuple[int, int], ...], overhang: int) -> float:
    """The area of a plan with a strip of that width round it, corners square: each wall grown by it, put together."""
    grown = [
        box(min(ax, bx) - overhang, min(ay, by) - overhang, max(ax, bx) + overhang, max(ay, by) + overhang)
        for (ax, ay), (bx, by) in pairwise((*outline, outline[0]))
    ]
    return float(unary_union([Polygon(outline), *grown]).area)


# the outline


def test_walls_are_paced_as_they_are_typed() -> None:
    outline = ((0, 0), (13200, 0), (13200, 11100), (7500, 11100), (7500, 7200), (0, 7200))
    assert corners(WREN) == outline
    assert corners("13.2m right 11100up; 5700 l, 3900 d 7500 left close") == outline
    assert corners("13.2 m right 11.1 m up 5700 l, 3900 d 7500 left C") == outline


def test_an_outline_walked_clockwise_is_listed_anticlockwise() -> None:
    assert corners("7200 up, 12000 right, 7200 down, close") == ((0, 0), (12000, 0), (12000, 7200), (0, 7200))


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("12000 rigth", "did you mean 'right'"),
        ("12000", "Which way"),
        ("right", "How far"),
        ("0 right", "no length"),
        ("12000 right %", "can't read"),
        ("12 right", "Did you mean 12000.*12 m right"),
        ("12000 right, 7.2 up", "Did you mean 7200"),
        ("", "Write lengths"),
        ("close", "four corners"),
        ("100 right, 100 up, 400000 right", "off the sheet"),
    ],
)
def test_what_nobody_could_pace_is_refused_in_words(typed: str, said: str) -> None:
    with pytest.raises(CannotDraw, match=said):
        drawn(typed)


def test_a_corner_is_brought_square_and_the_first_one_closes() -> None:
    history = History(new_drawing())
    for at in ((0, 0), (9000, 40), (8990, 6000), (100, 6000), (0, 0)):
        history = history.do(PutCorner(at))
    assert history.now.closed
    assert history.now.corners == ((100, 0), (9000, 0), (9000, 6000), (100, 6000)) or history.now.corners[0] == (0, 0)


def test_a_wall_is_drawn_out_and_its_neighbours_follow() -> None:
    history = drawn(WREN).do(MoveWall("C", 900))
    assert history.now.corners[2:4] == ((13200, 12000), (7500, 12000))
    assert history.do(MoveWall("E", -600)).now.corners[4:] == ((7500, 6600), (0, 6600))


def test_a_wall_is_made_as_long_as_is_typed() -> None:
    assert drawn(WREN).do(SetLength("A", 14_000)).now.corners[1:3] == ((14_000, 0), (14_000, 11_100))
    assert drawn(WREN).do(SetLength("D", 3000)).now.corners[4:] == ((7500, 8100), (0, 8100))
    with pytest.raises(CannotDraw, match="some length"):
        drawn(WREN).do(SetLength("A", 0))


def test_a_wall_drawn_through_the_one_across_still_makes_a_house() -> None:
    history = drawn("12000 right, 7200 up, close").do(SetKind("B", "gable")).do(MoveWall("A", -9000))
    assert history.now.corners == ((12000, 9000), (0, 9000), (0, 7200), (12000, 7200))
    assert [name for name, wall in zip(history.now.names, history.now.walls, strict=True) if wall.gable] == ["D"]


def test_a_bay_in_the_middle_and_one_flush_with_a_corner() -> None:
    house = drawn("12000 right, 7200 up, close")
    assert house.do(PushBay("A", 3000, 6000, 1200)).now.corners == (
        (0, 0), (3000, 0), (3000, -1200), (6000, -1200), (6000, 0), (12000, 0), (12000, 7200), (0, 7200),
    )  # fmt: skip
    flush = house.do(PushBay("A", 6000, 12000, 1200)).now.corners
    assert flush == ((0, 0), (6000, 0), (6000, -1200), (12000, -1200), (12000, 7200), (0, 7200))


def test_a_cut_wall_is_a_fault_at_its_place_until_a_part_is_moved_and_the_roof_shows() -> None:
    cut = drawn("12000 right, 7200 up, close").do(SplitWall("A", 5000))
    found = study(cut.now)
    assert [fault.at for fault in found.faults] == [(5000, 0)]
    assert "cut in two" in found.faults[0].what
    assert study(cut.do(TakeOut("A")).now).sound
    assert found.house is not None
    assert found.layout is None
    moved = study(cut.do(MoveWall("A", 1500)).now)
    assert moved.drawing.corners[:4] == ((0, -1500), (5000, -1500), (5000, 0), (12000, 0))
    assert moved.sound


def test_taking_out_a_step_brings_the_walls_into_line() -> None:
    house = drawn("12000 right, 7200 up, close")
    stepped = house.do(PushBay("A", 6000, 12000, 1200))
    assert len(stepped.do(TakeOut("B")).now.corners) == 4


def test_kinds_and_dangers_follow_their_walls() -> None:
    history = drawn(WREN).do(SetKind("C", "gable")).do(SetBeam("E", (0, 3000)))
    history = history.do(SetValue(("site", "dangers"), [{"what": "missing rail", "wall": "C"}]))
    history = history.do(PushBay("A", 2000, 5000, 900))
    assert level_data(history.now)["gables"] == ["G"]
    assert history.now.at("site", "dangers", 0, "wall") == "G"
    mirrored = history.do(Mirror()).now
    assert mirrored.at("site", "dangers", 0, "wall") == level_data(mirrored)["gables"][0]
    (beam,) = [wall for wall in mirrored.walls if wall.beam]
    assert beam.stretch == (4500, 7500)
    assert history.do(Mirror()).do(Mirror()).now == history.now
    turned = history
    for _ in range(4):
        turned = turned.do(Turn())
    assert turned.now == history.now


def test_a_beam_stays_where_it_is_while_its_wall_grows() -> None:
    history = drawn("12000 right, 7200 up, close").do(SetBeam("A", (3000, 6000), (3000, 6000)))
    wall = history.do(MoveWall("D", 1000)).now.walls[0]
    assert (wall.stretch, wall.posts) == ((4000, 7000), (4000, 7000))


def test_a_truss_moved_by_hand_stands_in_the_layout_block_beside_the_rule() -> None:
    history = drawn("12400 right, 7200 up, close").do(MoveTruss("ST9", 4100.0))
    assert level_data(history.now)["layout"] == [{"truss": "ST9", "station": 4100}]
    assert list(moved_by_hand(history.now)) == [("ST9", 4000.0, 4100.0)]
    found = study(history.now)
    assert found.sound
    assert found.layout is not None
    assert found.layout.by_tag["ST9"].station == 4100.0
    assert study(history.do(MoveTruss("TG1", 2000.0)).now).faults[0].where[0] == "layout"
    assert "layout" not in history.do(MoveTruss("ST9", None)).now.values


def test_what_a_lesson_may_teach_comes_of_its_house_and_its_site() -> None:
    assert {rule for _occurs, rules in SUGGESTED for rule in rules} <= {rule.name for rule in all_rules()}
    plain, wren = (study(drawn(walls).now) for walls in ("12000 right, 7200 up, close", WREN))
    assert plain.level is not None
    assert plain.layout is not None
    assert "off-station" in teaches(plain.level, plain.layout)
    assert "saddle-before-support" not in teaches(plain.level, plain.layout)
    assert wren.level is not None
    assert wren.layout is not None
    assert "saddle-before-support" in teaches(wren.level, wren.layout)


@pytest.mark.parametrize("what", list(LIES))
def test_every_danger_can_be_placed_and_taken_away_again(what: DangerKind) -> None:
    house = drawn(WREN).do(SetKind("E", "beam"))
    at = (7500, 7200) if what in OF_POSTS else (5000, -2500)
    given: dict[str, Any] = {
        "at": {"at": at},
        "wall": {"wall": "E" if what in OF_BEAMS else "B"},
        "tag": {"tag": "ST3"},
    }
    put = PutDanger(what, **given.get(LIES[what], {}), after=3)
    placed = house.do(put)
    assert study(placed.now).sound
    assert placed.do(put).now.at("site", "dangers") is None
    if LIES[what]:
        with pytest.raises(CannotDraw, match="where it lies"):
            house.do(PutDanger(what))


@pytest.mark.parametrize("style", sorted(STYLES))
def test_a_house_style_gives_its_habits_and_none_gives_the_usual_ones_back(style: str) -> None:
    data = read_yaml(*STYLES[style]).data
    assert isinstance(data, dict)
    habits = frozenset(data.get("trusses", {}))
    styled = drawn("12000 right, 7200 up, close").do(UseStyle(style, habits))
    found = study(styled.now, STYLES)
    assert found.level is not None
    assert all(getattr(found.level.trusses, key) == data["trusses"][key] for key in habits)
    assert study(styled.do(UseStyle(None)).now, STYLES).sound


# what is shipped, and the worked homes


@pytest.mark.parametrize("path", level_paths()[::6], ids=lambda path: path.stem)
def test_a_level_goes_on_the_table_and_off_again_unchanged(path: Path) -> None:
    text = path.read_bytes()
    drawing = drawing_of(read_yaml(text, str(path)))
    level = parse_level(text, str(path), STYLES)
    assert Level.model_validate(study(drawing, STYLES).level) == level
    assert study(drawing, STYLES).sound


def as_paced(outline: tuple[tuple[int, int], ...]) -> Pace:
    """An outline as somebody would pace it, the last wall left to be closed."""
    steps = []
    for (ax, ay), (bx, by) in pairwise(outline):
        way = ("right" if bx > ax else "left") if ay == by else ("up" if by > ay else "down")
        steps.append(Step(abs(bx - ax) + abs(by - ay), way))
    return Pace(tuple(steps))


def by_script(home: Home) -> Drawing:
    """Draw a home: its first corner, its walls as they are paced, then what each of them is."""
    plan = home.plan
    history = History(new_drawing()).do(PutCorner(plan.outline[0])).do(as_paced(plan.outline)).do(Close())
    for wall in sorted(plan.gables):
        history = history.do(SetKind(wall, "gable"))
    for wall in sorted(plan.against):
        history = history.do(SetKind(wall, "against"))
    for beam in plan.beams:
        history = history.do(SetBeam(beam.wall, (int(beam.low), int(beam.high))))
    for dutch in plan.dutch_gables:
        history = history.do(SetKind(dutch.wall, "dutch gable"))
        if history.now.walls[history.now.index(dutch.wall)].dutch != (dutch.at, dutch.verge):
            history = history.do(SetDutch(dutch.wall, int(dutch.at), int(dutch.verge)))
    for inside in plan.internal_walls:
        history = history.do(PutInside(inside))
    for key, value in (("spacing", home.spacing), ("setback", home.setback)):
        if history.now.at("trusses", key) != value:
            history = history.do(SetValue(("trusses", key), value))
    return history.now


@pytest.mark.parametrize("home", list(worked_homes()), ids=lambda home: home.name)
def test_the_worked_homes_drawn_by_script_equal_their_files(home: Home) -> None:
    found = study(by_script(home))
    assert found.level is not None, found.faults
    assert found.level.house().plan == home.plan
    assert found.sound
