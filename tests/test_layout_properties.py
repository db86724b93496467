"""What any right layout obeys, over generated plans, mirrored, turned and shifted.

The generator and every check here are written apart from the layout room. The rules are common practice,
no source; geometry is checked with shapely and with closed forms.
"""

import itertools
import math
from functools import cache

import pytest
from houses import grown_house
from layout_checks import CHECKS, HABITS
from plans import turned
from sizes import by_size

from trainer.layout import House, LayoutRefused, TrussSpec, lay_out
from trainer.roof import RoofSpec

PITCH, HEEL, OVERHANG = 22.5, 50, 600
SEEDS = range(by_size(40, 250, 400))
MILLIMETRE = 1.0


def spec_for(seed):
    spacing, setback = HABITS[seed % 4]
    return TrussSpec(spacing, setback)


def lay(plan, seed):
    return lay_out(House(plan, RoofSpec(PITCH, OVERHANG, HEEL), spec_for(seed)))


@cache
def unmoved(seed):
    """The layout of a generated plan, none where it is refused."""
    try:
        return lay(grown_house(seed), seed)
    except LayoutRefused:
        return None


@pytest.fixture(scope="module")
def laid_out():
    """(seed, layout) of every generated plan that is not refused."""
    found = []
    for seed in SEEDS:
        try:
            found.append((seed, lay(grown_house(seed, gables=seed % 3 > 0), seed)))
        except LayoutRefused:
            continue
    return found


def test_few_plans_are_refused_and_each_with_a_place_and_a_reason():
    refused = 0
    for seed in SEEDS:
        plan = grown_house(seed)
        try:
            lay(plan, seed)
        except LayoutRefused as no:
            refused += 1
            assert all(reason.place and reason.why for reason in no.reasons)
            xs, ys = zip(*plan.outline, strict=True)
            assert all(min(xs) <= r.at[0] <= max(xs) and min(ys) <= r.at[1] <= max(ys) for r in no.reasons)
    assert refused <= len(SEEDS) * 2 / 100


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.__name__)
def test_generated_layouts_obey(laid_out, check):
    for seed, layout in laid_out:
        assert list(check(layout)) == [], seed


def test_one_girder_an_opening_two_hips_a_hip_end_and_at_most_one_truncated_girder(laid_out):
    for seed, layout in laid_out:
        edges = []
        bodies = [body for wing in layout.wings for body in wing.bodies]
        for a, b in itertools.combinations(bodies, 2):
            for axis in (0, 1):
                touch = a[axis] == b[axis + 2] or a[axis + 2] == b[axis]
                low, high = max(a[1 - axis], b[1 - axis]), min(a[3 - axis], b[3 - axis])
                if touch and high > low:
                    edges.append((axis, a[axis] if a[axis] == b[axis + 2] else a[axis + 2], low, high))
        # Edges end to end on one line are one opening, over several bodies.
        going_on = sum((axis, line, high) in {e[:3] for e in edges} for axis, line, _low, high in edges)
        assert layout.counts.get("girder", 0) == len(edges) - going_on, seed
        ends = {}
        for member in layout.members:
            if member.kind in ("hip", "jack", "creeper"):
                ends.setdefault(member.row, []).append(member)
        for members in ends.values():
            hips = sum(m.kind == "hip" for m in members)
            assert hips == 2 or (hips == 1 and overlap_at_a_corner(layout)), seed
            carriers = {tag for m in members for tag in m.carried_by if layout.by_tag[tag].kind == "truncated_girder"}
            assert len(carriers) <= 1, seed


def overlap_at_a_corner(layout):
    """Whether each of two wings has a corner strictly inside the other: there one hip of an end is cut away."""

    def inside(a, b):
        corners = itertools.product((a[0], a[2]), (a[1], a[3]))
        return any(b[0] < x < b[2] and b[1] < y < b[3] for x, y in corners)

    return any(inside(a.rect, b.rect) and inside(b.rect, a.rect) for a, b in itertools.combinations(layout.wings, 2))


def test_extensions_that_come_to_one_point_are_fixed_to_each_other_there_in_one_piece(laid_out):
    """Trade brief, Geometry 4 and 5: they are fixed there to each other, also where no full-height truss stands."""
    stubs = 0
    for seed, layout in laid_out:
        tips = {}
        for member in layout.members:
            run = member.top[-1][0]
            if member.kind in ("hip", "jack") and run > member.span + MILLIMETRE:
                tip = tuple(round(a + run * d) for a, d in zip(member.start, member.direction, strict=True))
                tips.setdefault(tip, set()).add(member.tag)
        for tip, meeting in tips.items():
            here = [c for c in layout.crossings if c.what == "extension" and math.dist(c.at, tip) <= MILLIMETRE]
            joined, left = {min(meeting)}, len(meeting) + 1
            while left:
                left -= 1
                joined |= {tag for c in here if {c.over, c.under} & joined for tag in (c.over, c.under)}
            assert len(meeting) == 1 or meeting <= joined, (seed, tip, meeting)
            stubs += any(not c.bears for c in here)
    assert stubs


@pytest.mark.parametrize(
    "turn",
    [lambda x, y: (-x, y), lambda x, y: (-y, x), lambda x, y: (x, y)],
    ids=["mirrored", "turned", "only shifted"],
)
def test_a_moved_plan_gives_a_moved_layout(turn):
    compared = 0
    for seed in SEEDS:
        plan = grown_house(seed)
        moved = turned(plan, turn, shift=(1234, -777))
        if (before := unmoved(seed)) is None:
            with pytest.raises(LayoutRefused):
                lay(moved, seed)
            continue
        after = lay(moved, seed)
        spans = [wing.span for wing in before.wings]
        square = any(wing.rect[2] - wing.rect[0] == wing.rect[3] - wing.rect[1] for wing in before.wings)
        if square or len(set(spans)) < len(spans):
            continue  # which of equal wings runs through, and a square's ridge, turn with the axes
        compared += 1
        # Counted from its other end, a row may close with a truss more or less.
        rows = sum(len(wing.bodies) for wing in before.wings)
        assert abs(before.counts.get("standard", 0) - after.counts.get("standard", 0)) <= rows, seed
        assert places(before, lambda p: tuple(map(sum, zip(turn(*p), (1234, -777), strict=True)))) == places(after), (
            seed
        )
    assert compared > len(SEEDS) / 2


def places(layout, move=lambda p: p):
    """Kind, ends and tails of all trusses whose stations don't depend on which end takes the closing bay."""
    return {
        (
            member.kind,
            frozenset(tuple(round(2 * c) for c in move(end.at)) for end in member.ends),
            tuple(sorted(end.tail for end in member.ends)),
        )
        for member in layout.members
        if member.kind != "standard"
    }
