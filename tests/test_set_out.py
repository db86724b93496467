"""Setting out: tapes that err, faces that marks show, and packs in the yard. Common practice, no source."""

import re
from dataclasses import replace
from itertools import pairwise

import pytest
from attempts import LEVELS, layout_of, level_of

from trainer.layout import lay_out
from trainer.layout.marks import centre_run, mark_run, near_side
from trainer.order import Step
from trainer.picture.measures import stations
from trainer.session import Session
from trainer.site import Flaw, HandOver, Mark, dockets, done, known, packs, shows, write_diary
from trainer.site.actions import Check, Measure, Report

SEEDS = range(30)


def session(seed=0, level="wren"):
    return Session(level_of(level), seed, layout=layout_of(level))


def real(attempt, action):
    outcome = attempt.do(action)
    assert outcome.event, outcome.refused
    assert outcome.event.reading.want == action.at
    return outcome.event.reading.got


def bay_by_bay(seed, wall="A", step=600, count=16):
    attempt = session(seed)
    return [
        real(attempt, Mark(wall=wall, at=step * k, measured_from=step * (k - 1) if k > 1 else None)) - step * k
        for k in range(1, count + 1)
    ]


def test_of_two_stations_a_finger_apart_each_wants_its_own_mark():
    """To their near faces, the jack beside a hip stands 10 from it: the hip's mark is none for the jack, though it is
    within the tolerance of both. What is asked for next and what is found wrong have to agree in that.
    """
    attempt = session(1, "scrubwren")
    jack, hip = Step("mark", "J1", 2), Step("mark", "H1", 2)
    attempt.do(Mark(on="TG1", at=1790))
    assert done(attempt.site, hip) and not done(attempt.site, jack)
    attempt.do(Mark(on="TG1", at=1780))
    assert done(attempt.site, hip) and done(attempt.site, jack)


def test_a_running_measure_is_out_by_a_little_once_however_far_it_runs():
    outs = [real(session(seed), Mark(wall="A", at=at)) - at for seed in SEEDS for at in (600, 12000)]
    assert max(map(abs, outs)) <= 1
    assert min(outs) < 0 < max(outs)
    assert len(set(outs)) > 3


def test_bay_by_bay_the_errors_add_up_always_to_one_side():
    for seed in SEEDS:
        outs = bay_by_bay(seed)
        steps = [after - before for before, after in pairwise(outs)]
        assert all(0.5 <= abs(step) <= 2 for step in steps)
        assert len({step > 0 for step in steps}) == 1
        assert abs(outs[-1]) > 5
    assert {bay_by_bay(seed)[-1] > 0 for seed in SEEDS} == {True, False}


def test_hooked_on_the_far_end_it_is_a_running_measure_too():
    length = layout_of("wren").house.plan.by_name["A"].length
    for seed in SEEDS:
        attempt = session(seed)
        assert abs(real(attempt, Mark(wall="A", at=9000, measured_from=length)) - 9000) <= 1
        assert abs(real(attempt, Mark(wall="A", at=600, measured_from=0)) - 600) <= 1


def test_one_more_mark_changes_no_other():
    alone = session(4)
    with_more = session(4)
    real(with_more, Mark(wall="A", at=1200))
    real(with_more, Mark(wall="C", at=600))
    assert real(alone, Mark(wall="A", at=600)) == real(with_more, Mark(wall="A", at=600))


def test_nothing_can_be_measured_from_a_mark_that_is_not_there():
    attempt = session()
    refused = attempt.do(Mark(wall="A", at=1800, measured_from=1200)).refused
    assert refused
    assert "no mark on A at 1200" in refused.why
    assert not attempt.site.set_out


def test_a_diary_keeps_where_a_mark_was_measured_from():
    attempt = session()
    attempt.do(Mark(wall="A", at=600))
    attempt.do(Mark(wall="A", at=1200, measured_from=600))
    (line,) = [line for line in write_diary(attempt.diary()).splitlines() if "from" in line]
    assert re.fullmatch(r"- \{do: mark, wall: A, at: 1200(\.0)?, from: 600(\.0)?\}", line)


def to_near_face(name):
    """The layout of a level's house, set back and marked to the near face."""
    house = level_of(name).house()
    return lay_out(replace(house, trusses=replace(house.trusses, stations_to="near face")))


@pytest.mark.parametrize("name", [name for name in LEVELS if level_of(name).trusses.stations_to == "centre line"])
def test_marks_to_the_near_face_keep_to_one_side_along_a_row(name):
    """The trade brief: marks run to the face nearest the end wall; the full-height trusses of a row all to one side."""
    layout = to_near_face(name)
    for tags in layout.rows.values():
        sides = {near_side(layout, layout.by_tag[tag]) for tag in tags if layout.by_tag[tag].kind == "standard"}
        assert len(sides) <= 1
    for member in layout.members:
        for end in (1, 2) if member.kind != "saddle" else ():
            aside = abs(mark_run(layout, member, end) - centre_run(layout, member, end))
            assert aside <= 0.5 if member.kind == "hip" else aside <= member.width / 2


def test_a_truncated_girder_is_marked_at_its_setback_from_either_end():
    layout = to_near_face("fantail")
    setback = layout.house.trusses.setback
    girders = [m for m in layout.members if m.kind == "truncated_girder"]
    for girder in girders:
        wall = layout.house.plan.by_name[girder.ends[0].bears_on.removeprefix("plate ")]
        run = mark_run(layout, girder, 1)
        assert setback in (run, wall.length - run)
    assert len(girders) == 2


def test_a_tape_starts_at_the_wall_s_own_corner_which_a_shallow_step_sets_back():
    """Worked by hand on a house 12000 x 7200 at 600 centres, its front set back by 450 from x 6300 on.

    Stations are the whole roof's: 1800 in from a corner of the straightened outline. Wall D begins at the step's
    depth, 450 up, so what stands at y 1800 is at 1350 on it, while on wall F, from the other end, it is at 5400.
    Wall C begins at x 6300. The trade brief, layout rule 10: plates stay where they are.
    """
    layout = layout_of("sandpiper")
    on = {wall.name: stations(layout, wall) for wall in layout.house.plan.walls}
    assert on["D"] == [600.0 * k - 450 for k in range(1, 12)]
    assert on["F"] == [600.0 * k for k in range(1, 12)]
    assert on["A"] == [600.0 * k for k in range(1, 11)]
    hip = 12_000.0 - 450 - 6300  # it crosses the plate 450 in from either wall's line
    assert on["C"] == [*(600.0 * k - 6300 for k in range(11, 19)), hip]
    girder = next(m for m in layout.members if m.kind == "truncated_girder" and m.station == 1800 and m.start[0] > 6300)
    assert [mark_run(layout, girder, end) for end in (1, 2)] == [10_200 - 6300, 1800]
    assert girder.start == (10_200, 450)


def test_of_two_readings_of_a_set_back_wall_s_tape_the_one_that_can_be_hooked_on_is_kept():
    """Layout rule 10 says that a set-back wall's tape starts at the step's depth. Two readings, worked on wall D above.

    Kept: the tape is hooked on the plate's own corner, which lies at the step's depth, y 450. The jack at
    the roof's station 1800 is read at 1350. The other: the tape reads 450 at that corner, as if it ran on from the
    corner of the fascia, and shows 1800 itself. Both put the truss at y 1800. The first is kept, since only the plate
    is there to hook on when marks are made; the second wants a tape held at a place in the air. Who takes a number of
    one for the other is out by the whole step. Common practice, no source: a real plate plan says which it shows.
    """
    layout = layout_of("sandpiper")
    wall = layout.house.plan.by_name["D"]
    depth = layout.house.set_back["C"]
    assert (wall.a, wall.along, depth) == ((12_000, 450), (0, 1), 450)
    kept = stations(layout, wall)
    as_on_the_roof = [run + depth for run in kept]
    places = sorted(
        end.at[1] for m in layout.members for end in m.ends if end.wall == "D" and m.start[1] == m.finish[1]
    )
    assert places == [wall.a[1] + run for run in kept] == as_on_the_roof
    assert kept[2] == 1350 and as_on_the_roof[2] == 1800
    # The other reading's number, set off from where the tape is really hooked.
    assert wall.a[1] + as_on_the_roof[2] - places[2] == depth


@pytest.mark.parametrize("name", LEVELS)
def test_every_truss_came_in_one_pack(name):
    layout = layout_of(name)
    came = dockets(session(level=name).job)
    assert sorted(tag for docket in came for tag in docket) == sorted(layout.by_tag)
    assert all(0 < len(docket) <= 12 for docket in came)


def test_packs_that_a_level_gives_lie_so_and_in_that_order():
    given = level_of("frogmouth").site.packs
    attempt = session(level="frogmouth")
    (missing,) = (flaw.tag for flaw in attempt.site.flaws if flaw.what == "missing truss")
    assert given
    assert [pack.tags for pack in packs(attempt.site)] == [
        tuple(tag for tag in pack if tag != missing) for pack in given
    ]
    assert [pack.number for pack in packs(attempt.site)] == list(range(1, len(given) + 1))


def test_a_missing_truss_is_in_no_pack_until_it_is_reported():
    attempt = session(level="currawong")
    missing = next(flaw.tag for flaw in attempt.site.flaws if flaw.what == "missing truss")
    assert missing not in [tag for pack in packs(attempt.site) for tag in pack.tags]
    attempt.do(Report(fault="missing truss", tag=missing))
    assert missing in [tag for pack in packs(attempt.site) for tag in pack.tags]


def test_whatever_is_wrong_comes_to_light_by_looking_and_measuring():
    for name in LEVELS:
        attempt = session(level=name)
        there = [flaw for flaw in attempt.site.flaws if not flaw.after]  # what comes up on the day is felt
        wrong = [flaw for flaw in there if attempt.job.limits.matters(flaw)]
        assert not known(attempt.site)
        seen: list[Flaw] = []
        for item in attempt.job.conditions.checks:
            seen += attempt.do(Check(item=item)).event.seen
        for wall in attempt.job.layout.house.plan.walls:
            for what in ("straight", "level", "length", "diagonals"):
                seen += attempt.do(Measure(what=what, wall=wall.name)).event.seen
        assert set(wrong) == set(seen) & set(wrong) == set(known(attempt.site)) & set(wrong)
        for flaw in wrong:
            assert flaw.in_words.endswith(".")
            if flaw.tag:
                assert flaw.what in shows(attempt.site, flaw.tag)
        assert not attempt.findings
        assert not attempt.do(HandOver()).refused
