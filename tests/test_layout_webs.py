"""The timbers of a truss, held to statics and to its own outline (patterns themselves: common practice, no source)."""

from __future__ import annotations

import itertools
import math

import pytest
from attempts import SHIPPED, layout_of
from homes import home_plan
from shapely.geometry import Polygon
from shapely.ops import unary_union

from trainer.layout import House, Layout, Member, TrussSpec, lay_out
from trainer.layout.webs import WEB, Frame, webs
from trainer.picture.outlines import outlines_of
from trainer.plan import PlatePlan
from trainer.roof import RoofSpec
from trainer.site import same_both_ways

STIFF = ("one post", "post and struts", "W", "double W", "triple W", "flat top", "stepped top", "half")
STEPPED = (12, 75, 103, 140, 144, 170, 213)
"""Drawn homes with trusses that step down."""


def frames(layout: Layout) -> list[tuple[Member, Frame]]:
    return [(member, webs(member, layout.house)) for member in layout.members]


@pytest.mark.parametrize("level", (*SHIPPED, "sandpiper", "swallow", "two-fronts"))
def test_webs_make_stiff_frames_with_nothing_to_spare(level: str) -> None:
    """J. C. Maxwell, "On the calculation of the equilibrium and stiffness of frames" (1864): 2j - 3 bars."""
    stiff = [(member, frame) for member, frame in frames(layout_of(level)) if frame.pattern in STIFF]
    for member, frame in stiff:
        assert bars_and_joints(member, frame) == 0, f"{member.tag} {frame.pattern}"
    assert len(stiff) > 5


def bars_and_joints(member: Member, frame: Frame) -> int:
    """How many bars a frame has beyond 2j - 3.

    A bend of the top chord very near a web's end is one joint with it, and one where no web finds room between the
    chords is no joint: there they are plated to each other.
    """
    heels = [
        run for run in (frame.first, frame.last) if all(run != pytest.approx(w.low[0], abs=40) for w in frame.webs)
    ]
    low = {round(web.low[0], 1) for web in frame.webs}
    high = {round(web.high[0], 1) for web in frame.webs}
    least = frame.bottom + frame.bottom_depth + 150
    bends = {round(run, 1) for run, z in frame.top if frame.first < run < frame.last and z > least}
    if member.kind not in ("hip", "jack", "creeper"):
        high |= {bend for bend in bends if all(abs(bend - run) > WEB for run in high)}
    joints = len(heels) + len(low) + len(high)
    bottom, top = len(low) + len(heels) - 1, len(high) + len(heels) - 1
    return bottom + top + len(frame.webs) - (2 * joints - 3)


@pytest.mark.parametrize("level", (*SHIPPED, "sandpiper", "swallow", "two-fronts"))
def test_every_timber_lies_inside_its_truss(level: str) -> None:
    for member, frame in frames(layout_of(level)):
        outlines = outlines_of(frame)
        top = unary_union([Polygon(outline) for outline in outlines.top_chords])
        bottom = Polygon(outlines.bottom_chord)
        assert bottom.bounds[1] == pytest.approx(frame.bottom)
        for web, outline in zip(frame.webs, outlines.webs, strict=True):
            shape = Polygon(outline)
            assert shape.is_valid and shape.area > 0, member.tag
            assert shape.intersection(top).area < 1 > shape.intersection(bottom).area
            assert shape.distance(top) < 30 > shape.distance(bottom)
            assert web.length > 0
        roof = Polygon([*member.top, (member.top[-1][0], -1e4), (member.top[0][0], -1e4)])
        everything = unary_union([top, bottom, *map(Polygon, outlines.webs)])
        assert everything.difference(roof.buffer(0.1)).area < 1


@pytest.mark.parametrize("level", SHIPPED)
def test_a_truss_that_may_be_turned_looks_the_same_from_both_sides(level: str) -> None:
    for member, frame in frames(layout_of(level)):
        if same_both_ways(member) and frame.pattern != "uprights":
            there = {(round(w.low[0]), round(w.high[0])) for w in frame.webs}
            turned = {(round(member.span - w.low[0]), round(member.span - w.high[0])) for w in frame.webs}
            assert (
                len(there ^ turned) == 0 or max(min(abs(a - c) + abs(b - d) for c, d in turned) for a, b in there) <= 2
            ), member.tag


def test_a_flat_top_lies_below_the_roof_by_what_passes_over_it() -> None:
    """Trade brief, Geometry: "depth ÷ cos(pitch)"; 90 deep at 25 degrees is 99.3."""
    layout = layout_of("fantail")
    member = next(m for m in layout.members if m.kind == "truncated")
    frame = webs(member, layout.house)
    assert max(z for _, z in member.top) - max(z for _, z in frame.top) == pytest.approx(99.3, abs=0.1)


def test_wider_trusses_have_more_webs() -> None:
    """Common practice, no source."""
    by_span: dict[float, int] = {}
    for level in SHIPPED:
        for member, frame in frames(layout_of(level)):
            if member.kind == "standard":
                by_span[member.span] = len(frame.webs)
    counts = [count for _, count in sorted(by_span.items())]
    assert counts == sorted(counts)
    assert len(set(counts)) > 1


def test_a_stepped_truncated_girder_is_lower_under_each_of_its_flats():
    """Ridges that run the same way step into it: each flat lies a chord's plumb depth under the roof."""
    outline = ((0, 0), (9600, 0), (9600, 2400), (12600, 2400), (12600, 18000), (0, 18000))
    house = House(PlatePlan(outline, 90), RoofSpec(22.5, 450, 90), TrussSpec())
    girder = next(m for m in lay_out(house).members if m.kind == "truncated_girder" and m.start[1] == 4200)
    frame = webs(girder, house)
    levels = {round(z) for (_a, z), (_b, w) in itertools.pairwise(frame.top) if abs(z - w) < 0.01}
    lower = 90 / math.cos(math.radians(22.5))
    slope = math.tan(math.radians(22.5))
    assert levels == {round(90 + 4200 * slope - lower), round(90 + 1800 * slope - lower)}
    assert all(web.low[1] < web.high[1] for web in frame.webs)


def test_stepped_tops_are_stiff_frames_with_nothing_to_spare() -> None:
    """The same count for tops that bend more than twice, on homes drawn by seed."""
    checked = 0
    for seed in STEPPED:
        house = House(home_plan(seed), RoofSpec(22.5, 450, 90, straight_fascia=600), TrussSpec())
        for member, frame in frames(lay_out(house)):
            assert all(Polygon(outline).area > 0 for outline in outlines_of(frame).webs)
            if frame.pattern == "stepped top":
                assert bars_and_joints(member, frame) == 0, (seed, member.tag)
                checked += 1
    assert checked > 30


def test_a_web_stands_over_a_plate_that_is_set_back_under_a_straight_fascia() -> None:
    """Trade brief, layout rule 10: "a web over that bearing (a separate design, …)"; common practice, no source."""
    layout = layout_of("sandpiper")
    back = {p.wall for plates in layout.house.straightened.plates.values() for p in plates if p.depth}
    set_back = [
        (member, run)
        for member in layout.members
        for end, run in zip(member.ends, (0.0, member.span), strict=True)
        if end.bears_on.removeprefix("plate ") in back and member.kind in ("standard", "truncated", "creeper")
    ]
    assert len(set_back) > 6
    for member, run in set_back:
        upright = [w for w in webs(member, layout.house).webs if w.low[0] == w.high[0] and abs(w.low[0] - run) < 45]
        assert len(upright) == 1, member.tag
        others = [
            m for m in layout.members if m.kind == member.kind and m.row == member.row and (m, run) not in set_back
        ]
        assert all(other.like != member.like for other in others)
