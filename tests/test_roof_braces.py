"""Roof braces of one slope: both ways, within the angles, over every truss, whatever the row's length.

What is wanted is worked out from plane trigonometry: a brace at the angle a to the trusses runs half the span times
tan a along the row. That a long row takes a V, a shorter one a cross, is common practice, no source.
"""

import math

import pytest
from attempts import LEVELS, layout_of, level_of
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.layout.bracing import bracing_plan
from trainer.layout.roof_braces import Slope, legs
from trainer.layout.row_lines import row_lines

LEAST, MOST = 30.0, 60.0


def slope(half, gaps, bearing=lambda _foot: "plate"):
    tops = [0.0]
    for gap in gaps:
        tops.append(tops[-1] + gap)
    return Slope(tuple(tops), half, LEAST, MOST, bearing)


ROWS = st.builds(
    slope, st.integers(1200, 6000), st.lists(st.sampled_from((450.0, 600.0, 900.0)), min_size=1, max_size=60)
)


@settings(deadline=None)
@given(ROWS)
def test_every_brace_lies_within_the_angles_and_every_truss_is_crossed(row):
    found = legs(row)
    for leg in found:
        assert LEAST - 0.1 <= math.degrees(math.atan(abs(leg.foot - leg.top) / row.half)) <= MOST + 0.1
        assert leg.top in row.tops
    for top in row.tops:
        assert any(min(leg.foot, leg.top) - 1 <= top <= max(leg.foot, leg.top) + 1 for leg in found)


@settings(deadline=None)
@given(ROWS)
def test_they_run_both_ways_and_a_v_from_twice_what_one_needs(row):
    found = legs(row)
    assert {leg.top > leg.foot for leg in found} == {True, False}
    one = row.half * math.tan(math.radians(LEAST))
    length = row.tops[-1] - row.tops[0]
    if length >= 2 * one + 2:
        assert len(found) % 2 == 0
        for first, second in zip(found[::2], found[1::2], strict=True):
            assert first.foot == second.foot and first.top < first.foot < second.top
    elif length < 2 * one - 2:
        assert len(found) == 2 and found[0].top < found[0].foot and found[1].top > found[1].foot


def test_where_there_is_no_bearing_one_way_there_is_no_brace_that_way():
    """Half the span 3000: at 30° a brace runs 1732 along, so from the top at 1800 it would end at 68."""
    row = slope(3000, [600.0] * 3, lambda foot: "plate" if foot > 100 else "")
    assert [leg.top for leg in legs(row)] == [0.0]


def test_a_foot_that_can_be_tied_down_only_far_off_is_left_on_the_girder():
    """Half the span 3180: at 60° a brace runs 5508 along, so from a V's middle of 4200 its foot moves 1308 at most."""
    row = slope(3180, [600.0] * 14, lambda foot: "girder" if abs(foot - 4200) < 1400 else "plate")
    assert [(leg.foot, leg.top) for leg in legs(row)] == [(4200.0, 0.0), (4200.0, 8400.0)]


@pytest.mark.parametrize("name", LEVELS)
def test_every_shipped_row_that_is_long_enough_is_braced_both_ways_on_each_slope(name):
    layout, level = layout_of(name), level_of(name)
    if "roof brace" not in level.bracing.permanent:
        return
    plan = [piece for piece in bracing_plan(layout, level.bracing.spec()) if piece.kind == "roof brace"]
    for lines in row_lines(layout):
        full = lines.of_kind("standard", "girder")
        if len(full) < 2:
            continue
        length = lines.u(full[-1]) - lines.u(full[0])
        for eave in (lines.low, lines.high):
            own = [p for p in plan if p.row == lines.row and p.start[1 - lines.along] == eave]
            rises = {p.finish[lines.along] > p.start[lines.along] for p in own}
            assert own and {want.tag for p in own for want in p.wants} == {m.tag for m in full}
            assert len(rises) == 2 or length < 0.58 * lines.half


@pytest.mark.parametrize("name", LEVELS)
def test_every_brace_has_its_foot_under_the_roof_of_its_own_row(name):
    """A plate may go on past the face of a gable over a lower roof: what is tied down there is under the other roof."""
    layout, level = layout_of(name), level_of(name)
    rows = {lines.row: lines for lines in row_lines(layout)}
    rects = {wing.id: wing.rect for wing in layout.wings}
    for piece in bracing_plan(layout, level.bracing.spec()):
        if piece.kind == "roof brace":
            lines = rows[piece.row]
            rect = rects[lines.members[0].wing]
            for end in (piece.start, piece.finish):
                assert rect[lines.along] <= end[lines.along] <= rect[lines.along + 2], piece.name
