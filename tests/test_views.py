"""Plan, angled view, section and a falling row are drawn from the judged state: a change shows in all of them."""

import math
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import pairwise

import pygame
import pytest
from attempts import level_of, right
from shapely.geometry import Point as Spot
from shapely.geometry import Polygon as Shape2

from trainer.board.paint import Brush, colours_of
from trainer.board.section_view import square_across
from trainer.picture.angled import Scene3, angled, scene_of, sketch
from trainer.picture.cut import SectionLine
from trainer.picture.framing import FittedTimber
from trainer.picture.load_path import arrows, in_words, path
from trainer.picture.model import Item, Line, Polygon, Text, View
from trainer.picture.section import along_truss, section
from trainer.picture.solids import Solid, Stander, larger
from trainer.picture.space import Turn
from trainer.picture.still_site import StillSite
from trainer.picture.timbers import RUNS
from trainer.session import Session
from trainer.shipped.colours import palettes
from trainer.site import Brace, Fit, Fix, Restrain, Site, Stand
from trainer.site.actions import Plumb
from trainer.site.shape import shape

LEVEL = "wren"
PIECE = ("paper", "timber_edge", 1.2)
"""How a piece of framing is painted on the plan."""
ROW = ("ST12", "ST13", "ST14", "ST15", "ST16", "ST17")


def built(*, aside: float = 0.0, plumbed: bool = True, braced: bool = True) -> Site:
    """A row of the wing: ST14 moved aside, or left as it leans, or its brace left out."""
    session = Session(level_of(LEVEL), 4)
    for tag in ROW:
        member = session.site.layout.by_tag[tag]
        dx, dy = member.direction
        off = aside if tag == "ST14" else 0.0
        start, finish = ((x - dy * off, y + dx * off) for x, y in (member.start, member.finish))
        session.do(Stand(tag=tag, start=start, finish=finish))
        if tag != "ST14" or braced:
            session.do(Brace(kind="solid", tags=(tag,)))
        if tag != "ST14" or plumbed:
            session.do(Plumb(tag=tag))
    return session.site


def scene(site: Site) -> Scene3:
    solids = Stander(site.layout).solids(site)
    return scene_of(site, solids)


def plan(site: Site) -> list[Item]:
    return StillSite(site.layout).items(site, 1.0)


def from_above_at_an_angle(site: Site) -> list[Item]:
    return angled(scene(site), Turn(30.0, 32.0), 0.1)


def as_a_sketch(site: Site) -> list[Item]:
    return sketch(scene(site), Turn(30.0, 32.0))


def across_the_row(site: Site) -> list[Item]:
    seen = scene(site)
    return section(seen, SectionLine((11034.0, 7000.0), (11034.0, 12400.0)))


def along_the_truss(site: Site) -> list[Item]:
    seen = scene(site)
    place = site.layout.by_tag["ST14"]
    (ax, ay), (bx, by) = place.start, place.finish
    return section(seen, SectionLine((ax - 900, ay), (bx + 900, by)))


VIEWS: list[Callable[[Site], list[Item]]] = [plan, from_above_at_an_angle, as_a_sketch, across_the_row, along_the_truss]


def braces(items: list[Item]) -> Iterator[Item]:
    for item in items:
        if (isinstance(item, Line) and item.role == "brace") or (isinstance(item, Polygon) and item.fill == "brace"):
            yield item


@pytest.mark.parametrize("view", VIEWS)
def test_a_truss_that_is_moved_is_moved_in_every_view(view: Callable[[Site], list[Item]]) -> None:
    assert set(view(built(aside=120.0))) != set(view(built()))


@pytest.mark.parametrize("view", VIEWS)
def test_a_truss_that_leans_leans_in_every_view(view: Callable[[Site], list[Item]]) -> None:
    assert shape(built(plumbed=False), "ST14") != shape(built(), "ST14")
    assert set(view(built(plumbed=False))) != set(view(built()))


@pytest.mark.parametrize("view", VIEWS)
def test_a_brace_that_is_left_out_is_missing_in_every_view(view: Callable[[Site], list[Item]]) -> None:
    assert len(list(braces(view(built(braced=False))))) < len(list(braces(view(built()))))


def one_body(**changed: float) -> Solid:
    site = built()
    solid = Stander(site.layout).solid(site, "ST14")
    return Solid(solid.tag, solid.framed, solid.start, solid.finish, **changed)  # type: ignore[arg-type]


def test_tipped_over_by_a_right_angle_a_truss_lies_flat_and_keeps_its_size() -> None:
    upright, flat = one_body(), one_body(over=math.pi / 2)
    high = upright.framed.high
    assert upright.apex[2] == pytest.approx(high)
    assert flat.apex[2] == pytest.approx(0.0, abs=1e-6)
    assert math.dist(upright.apex[:2], flat.apex[:2]) == pytest.approx(high)
    assert math.dist(flat.at(0, 0), flat.apex) == pytest.approx(math.dist(upright.at(0, 0), upright.apex))


def test_straight_down_the_angled_view_is_the_plan() -> None:
    turn = Turn(0.0, 90.0, (100.0, 200.0))
    assert turn.flat((700.0, 500.0, 999.0)) == pytest.approx((600.0, 300.0))


@pytest.mark.parametrize("yaw", [0.0, 37.0, 90.0, 200.0])
def test_turning_keeps_every_distance(yaw: float) -> None:
    """What is lost on the paper is in the depth: the three numbers are the place itself, turned."""
    turn = Turn(yaw, 41.0, (10.0, 20.0))
    a, b = (0.0, 5.0, 7.0), (300.0, -40.0, 120.0)
    turned = [(*turn.flat(p), turn.depth(p)) for p in (a, b)]
    assert math.dist(*turned) == pytest.approx(math.dist(a, b))


def test_a_lean_shown_larger_keeps_its_side_and_its_order() -> None:
    shown = [larger(out, 8.0) for out in (-350.0, -40.0, -3.0, 0.0, 3.0, 40.0, 60.0, 350.0, 600.0)]
    assert shown == sorted(shown)
    assert larger(3.0, 8.0) == 24.0 and larger(600.0, 8.0) == 600.0 and larger(-5.0, 1.0) == -5.0


def test_a_section_along_a_truss_shows_it_whole_and_plates_under_its_ends() -> None:
    site = built()
    seen = scene(site)
    cut = along_truss(seen.solids["ST14"])
    items = section(seen, cut)
    timbers = [i for i in items if isinstance(i, Polygon) and i.fill == "timber"]
    high = max(z for i in timbers for _x, z in i.points)
    assert high == pytest.approx(seen.solids["ST14"].framed.high)
    plates = [i for i in items if isinstance(i, Polygon) and i.fill == "plate"]
    for end in (seen.solids["ST14"].start, seen.solids["ST14"].finish):
        along = cut.place(end)[0]
        assert any(min(x for x, _z in p.points) - 1 <= along <= max(x for x, _z in p.points) + 1 for p in plates)


def test_a_section_across_cuts_each_truss_of_the_row_as_thick_as_it_is() -> None:
    site = built()
    items = across_the_row(site)
    cuts = [i for i in items if isinstance(i, Polygon) and i.fill == "timber_shade"]
    assert len(cuts) == 2 * len(ROW), "a top chord and a bottom chord each"
    for item in cuts:
        wide = max(x for x, _z in item.points) - min(x for x, _z in item.points)
        assert site.layout.house.trusses.thickness - 1 <= wide <= site.layout.house.trusses.thickness + 60


def test_the_load_of_a_hung_truss_goes_over_its_carriers_to_the_walls() -> None:
    """Common practice, no source: a load comes down wherever its carrier does, and in the end on walls alone."""
    site = built()
    for member in site.layout.members:
        bearings = path(site, member.tag)
        told = {one.tag for one in bearings}
        assert member.tag in told and set(member.carried_by) <= told
        last = [one.bears_on for one in bearings if one.bears_on not in told]
        assert last and all(on.startswith(("plate ", "trimmer ")) for on in last)
        assert len(list(in_words(bearings))) == len(bearings)


def test_the_arrows_of_a_truss_stand_at_its_own_ends() -> None:
    site = built()
    solid = scene(site).solids["ST14"]
    cut = along_truss(solid)
    bearings = path(site, "ST14")
    tips = [item.points[0] for item in arrows(bearings, solid, cut, flipped=False) if isinstance(item, Polygon)]
    ends = [cut.place(end)[0] for end in (solid.start, solid.finish)]
    assert [x for x, _z in tips] == pytest.approx(ends, abs=60)
    assert all(z < 0 for _x, z in tips)


@pytest.mark.parametrize(
    ("wall", "at", "ends"),
    [("A", 3000.0, (-900.0, 8100.0)), ("A", 10_000.0, (-900.0, 12_000.0)), ("B", 9000.0, (14_100.0, 6600.0))],
)
def test_a_line_square_across_runs_from_wall_to_far_wall_and_a_little_on(
    wall: str, at: float, ends: tuple[float, float]
) -> None:
    """Worked by hand on the plate plan of the house, 13 200 wide, 7200 deep, its wing from x 7500 up to y 11 100."""
    plan_ = built().layout.house.plan
    cut = square_across(plan_, plan_.by_name[wall], at)
    along = 1 if wall == "A" else 0
    assert (cut.a[along], cut.b[along]) == pytest.approx(ends)


def test_behind_a_line_across_the_nearest_truss_is_an_outline() -> None:
    site = built()
    seen = scene(site)
    near = section(seen, SectionLine((14_000.0, 9000.0), (6600.0, 9000.0)))
    outlines = [i for i in near if isinstance(i, Polygon) and i.fill is None and i.edge == "faint"]
    assert len(outlines) == len(seen.solids["ST15"].framed.timbers)


def test_what_is_fitted_is_drawn_where_it_sits_and_brackets_as_brackets() -> None:
    session = Session(level_of(LEVEL), 4)
    layout = session.site.layout
    for tag in ("GT1", "TG1"):
        member = layout.by_tag[tag]
        session.do(Stand(tag=tag, start=member.start, finish=member.finish))
        session.do(Brace(kind="solid", tags=(tag,)))
    parts = [part for part in layout.parts if part.on == "GT1" and part.part == "outrigger"]
    before = set(plan(session.site))
    member = layout.by_tag["GT1"]
    wanted = parts[2]
    at = abs(wanted.start[0] - member.start[0]) if member.direction[0] else abs(wanted.start[1] - member.start[1])
    session.do(Fit(part="outrigger", on="GT1", at=at))
    (drawn,) = set(plan(session.site)) - before
    assert isinstance(drawn, Polygon)
    xs, ys = zip(*drawn.points, strict=True)
    middle = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
    assert middle == pytest.approx(
        ((wanted.start[0] + wanted.finish[0]) / 2, (wanted.start[1] + wanted.finish[1]) / 2), abs=1
    )
    before = set(plan(session.site))
    session.do(Fit(part="hanger", on="TG1", at=1800.0))
    (bracket,) = set(plan(session.site)) - before
    assert isinstance(bracket, Line) and bracket.role == "fastener"


def gable_with(every: float, back: float) -> Site:
    """The gable truss of the wing with a set of outriggers, and the truss next to it."""
    session = Session(level_of(LEVEL), 4)
    layout = session.site.layout
    for tag in ("GT1", "ST17"):
        member = layout.by_tag[tag]
        session.do(Stand(tag=tag, start=member.start, finish=member.finish))
    assert session.do(Fit(part="outrigger", on="GT1", every=every, back=back)).refused is None
    return session.site


def outriggers(site: Site) -> list[tuple[float, float, float]]:
    """(place along the gable truss, how far out past it, how far in from it) of each outrigger in space, mm."""
    member = site.layout.by_tag["GT1"]
    (x, y), (ux, uy) = member.start, member.direction
    found = []
    for timber in scene(site).framing:
        if timber.part == "outrigger":
            ends = [
                ((p[0] - x) * ux + (p[1] - y) * uy, (p[0] - x) * -uy + (p[1] - y) * ux) for p in (timber.a, timber.b)
            ]
            assert ends[0][0] == pytest.approx(ends[1][0]), "it lies square to its truss"
            found.append((round(ends[0][0], 3), abs(ends[0][1]), abs(ends[1][1])))
    return sorted(found)


def test_a_right_set_of_outriggers_is_drawn_as_the_layout_has_it() -> None:
    layout = Session(level_of(LEVEL), 4).site.layout
    (x, y) = layout.by_tag["GT1"].start
    parts = [part for part in layout.parts if (part.on, part.part) == ("GT1", "outrigger")]
    back = abs(parts[0].finish[1] - y)
    want = sorted((abs(p.start[0] - x), abs(p.start[1] - y), back) for p in parts)
    assert outriggers(gable_with(layout.house.trusses.spacing, back)) == [pytest.approx(one) for one in want]


@pytest.mark.parametrize(("every", "back"), [(1300.0, 300.0), (900.0, 812.5), (2000.0, 1500.0)])
def test_a_wrong_set_of_outriggers_is_drawn_where_it_was_put(every: float, back: float) -> None:
    """From both plates up each slope: worked here by hand, k times the spacing from either end up to the middle."""
    site = gable_with(every, back)
    span = site.layout.by_tag["GT1"].span
    low = [k * every for k in range(20) if k * every <= span / 2]
    wanted = sorted({*low, *(span - run for run in low)})
    drawn = outriggers(site)
    assert [run for run, _out, _back in drawn] == pytest.approx(wanted)
    assert all(b == pytest.approx(back) for _run, _out, b in drawn)
    pieces = [i for i in plan(site) if isinstance(i, Polygon) and (i.fill, i.edge, i.width) == PIECE]
    assert len(pieces) == len(wanted)


@pytest.mark.parametrize("view", [plan, from_above_at_an_angle, as_a_sketch])
@pytest.mark.parametrize("other", [(1200.0, 600.0), (600.0, 300.0)])
def test_the_spacing_and_the_length_of_outriggers_show_in_every_view(
    view: Callable[[Site], list[Item]], other: tuple[float, float]
) -> None:
    assert view(gable_with(600.0, 600.0)) != view(gable_with(*other))


def test_a_section_behind_the_gable_cuts_what_reaches_so_far() -> None:
    member = Session(level_of(LEVEL), 4).site.layout.by_tag["GT1"]
    (ax, ay), (bx, by) = member.start, member.finish

    def cut(site: Site) -> list[Item]:
        seen = scene(site)
        return section(seen, SectionLine((ax - 300, ay - 400), (bx + 300, by - 400)))

    assert cut(gable_with(600.0, 600.0)) != cut(gable_with(600.0, 300.0))
    assert cut(gable_with(600.0, 600.0)) != cut(gable_with(1200.0, 600.0))


def test_gable_studs_stand_at_their_spacing_and_verge_rafters_come_as_a_pair() -> None:
    session = Session(level_of(LEVEL), 4)
    layout = session.site.layout
    member = layout.by_tag["GT1"]
    session.do(Stand(tag="GT1", start=member.start, finish=member.finish))
    session.do(Fit(part="gable stud", on="GT1", every=1300))
    studs = [timber for timber in scene(session.site).framing if timber.part == "gable stud"]
    wanted = [k * 1300 for k in range(1, 20) if k * 1300 < member.span]
    assert [abs(timber.b[0] - member.start[0]) for timber in studs] == pytest.approx(wanted, abs=1)
    session.do(Fit(part="outrigger", on="GT1", every=600, back=600))
    before = len(scene(session.site).framing)
    session.do(Fit(part="verge rafter", on="GT1"))
    assert len(scene(session.site).framing) == before + 2


def test_an_end_that_is_not_fixed_yet_is_said_and_its_arrow_is_open() -> None:
    session = Session(level_of(LEVEL), 4)
    member = session.site.layout.by_tag["ST14"]
    session.do(Stand(tag="ST14", start=member.start, finish=member.finish))
    session.do(Fix(tag="ST14", end=1, with_="framing anchor"))
    site = session.site
    bearings = path(site, "ST14")
    assert ["not fixed" in line for line in in_words(bearings)] == [False, True]
    solid = scene(site).solids["ST14"]
    heads = [i for i in arrows(bearings, solid, along_truss(solid), flipped=False) if isinstance(i, Polygon)]
    assert [head.fill == "paper" for head in heads] == [False, True]


def drawn_length(items: list[Item], roles: set[str]) -> float:
    lines = [i for i in items if isinstance(i, Line) and i.role in roles]
    return sum(math.dist(a, b) for line in lines for a, b in pairwise(line.points))


def test_every_piece_of_permanent_bracing_is_drawn_on_what_it_crosses() -> None:
    """A piece from truss to truss in the sketch and on the plan; the same lengths, however cut, in the angled view."""
    session = Session(level_of("avocet"), 3)
    pieces = 0
    for action in right("avocet", 3):
        views = (as_a_sketch, plan, from_above_at_an_angle)
        before = [view(session.site) for view in views] if isinstance(action, Restrain) and pieces < 4 else None
        session.do(action)
        if before is not None:
            pieces += 1
            piece = session.site.permanent[-1]
            after = [view(session.site) for view in views]
            for old, new in zip(before[:2], after[:2], strict=True):
                assert sum(isinstance(i, Line) for i in new) - sum(isinstance(i, Line) for i in old) == (
                    len(piece.crosses) - 1
                )
            role = {RUNS["roof brace" if piece.kind == "roof brace" else "tie"][0]}
            sketched, _plan, whole = (
                drawn_length(new, role) - drawn_length(old, role) for old, new in zip(before, after, strict=True)
            )
            assert sketched > 100 and whole == pytest.approx(sketched)
    assert pieces == 4


def framed_gable(*, back: float = 812.5, every: float = 900.0) -> Site:
    """A gable truss with a row behind it, its outriggers as they were fitted, and a girder whose plies are joined."""
    session = Session(level_of(LEVEL), 4)
    for tag in ("GT1", "ST12", "ST13", "G1", "S1"):
        member = session.site.layout.by_tag[tag]
        session.do(Stand(tag=tag, start=member.start, finish=member.finish))
    for fitting in (
        Fit(part="outrigger", on="GT1", every=every, back=back), Fit(part="gable stud", on="GT1", every=600.0),
        Fit(part="verge rafter", on="GT1"), Fit(part="batten", on="S1"), Fit(part="trimmer", on="S1", at=150.0),
        Fit(part="packer", on="ST12", at=1000.0), Fit(part="plies joined", on="G1"),
    ):  # fmt: skip
        assert session.do(fitting).refused is None
    return session.site


PARTS = ("outrigger", "gable stud", "verge rafter", "batten", "trimmer", "packer")


def on_the_line_of(part: str) -> Callable[[Scene3], list[Item]]:
    """A section square across the middle of one of the parts of a kind."""

    def seen(whole: Scene3) -> list[Item]:
        timber = next(b for b in framed() if b.part == part)
        x, y = ((p + q) / 2 for p, q in zip(timber.a[:2], timber.b[:2], strict=True))
        ax, ay = timber.across
        return section(whole, SectionLine((x - ax * 3000, y - ay * 3000), (x + ax * 3000, y + ay * 3000)))

    return seen


def framed() -> tuple[FittedTimber, ...]:
    return scene(framed_gable()).framing


@pytest.mark.parametrize("part", PARTS)
def test_framing_shows_in_the_angled_view_and_the_section(part: str) -> None:
    """What is left out is missing from both; what is fitted is there."""
    whole = scene(framed_gable())
    without = replace(whole, framing=tuple(timber for timber in whole.framing if timber.part != part))
    assert len(without.framing) < len(whole.framing)
    views = (lambda s: angled(s, Turn(30.0, 32.0), 0.1), lambda s: sketch(s, Turn(30.0, 32.0)), on_the_line_of(part))
    for view in views:
        assert set(view(without)) < set(view(whole)) or len(view(without)) < len(view(whole))


def test_the_plies_of_a_girder_and_what_joins_them_show() -> None:
    site = framed_gable()
    whole = scene(site)
    apart = replace(whole, joined=frozenset())
    girder = site.layout.by_tag["G1"]
    x = (girder.start[0] + girder.finish[0]) / 2
    across = SectionLine((x, girder.start[1] - 500), (x, girder.start[1] + 500))
    along = along_truss(whole.solids["G1"])
    cut = [i for i in section(whole, across) if isinstance(i, Polygon) and i.fill == "girder"]
    assert len(cut) % girder.plies == 0 and len(cut) >= 2 * girder.plies
    for line in (across, along):
        assert len(section(whole, line)) > len(section(apart, line))
    turn = Turn(200.0, 20.0)
    assert len(angled(whole, turn, 0.1)) > len(angled(apart, turn, 0.1))


@pytest.mark.parametrize("yaw", range(5, 360, 40))
def test_an_outrigger_is_painted_over_the_gable_truss_that_it_passes(yaw: float) -> None:
    """Over the truss the upper edge of the outrigger is the nearest there is, wherever one looks from above."""
    whole = scene(framed_gable())
    gable, turn = whole.solids["GT1"], Turn(float(yaw), 40.0)
    timber = next(b for b in whole.framing if b.part == "outrigger" and 800 < gable.nearest_run(b.a[:2]) < 2000)
    t = (gable.start[1] - timber.a[1]) / (timber.b[1] - timber.a[1])
    spot = Spot(turn.flat(tuple((1 - t) * p + t * q for p, q in zip(timber.a, timber.b, strict=True))))  # type: ignore[arg-type]
    over = [i for i in angled(whole, turn, 0.1) if isinstance(i, Polygon) and Shape2(i.points).contains(spot)]
    assert over[-1].fill == "paper"


def roof_lines(items: list[Item]) -> list[Line]:
    return [i for i in items if isinstance(i, Line) and i.role == "roof"]


def test_a_line_over_a_recess_shows_the_roof_on_both_sides_of_it() -> None:
    """Worked by hand on the plan of the house: above y 7800 and its eave there is only the wing, right of x 6900."""
    site = Session(level_of(LEVEL), 4).site
    whole = Scene3(site.layout, {}, ())
    only_wing = roof_lines(section(whole, SectionLine((-900.0, 9000.0), (14_100.0, 9000.0))))
    assert [round(x, -2) for line in only_wing for x, _z in (line.points[0], line.points[-1])] == [7800, 14_700]
    slanting = roof_lines(section(whole, SectionLine((-900.0, 6000.0), (8100.0, 12_000.0))))
    assert len(slanting) == 2


def test_what_lies_beyond_the_ends_of_a_line_is_not_in_its_section() -> None:
    site = Session(level_of(LEVEL), 4).site
    whole = Scene3(site.layout, {}, ())
    short = section(whole, SectionLine((3000.0, -300.0), (3000.0, 2000.0)))
    assert {i.text for i in short if isinstance(i, Text) and i.bold} == {"A"}
    assert all(-300 <= x <= 2400 for i in short if isinstance(i, Polygon) for x, _z in i.points)


def test_a_line_across_has_the_height_of_the_roof_over_it() -> None:
    """At 22.5 degrees a span of 7200 rises 3600 tan 22.5 degrees above the heel of 90: 1581."""
    site = Session(level_of(LEVEL), 4).site
    figures = [
        i.text
        for i in section(Scene3(site.layout, {}, ()), SectionLine((4000.0, -900.0), (4000.0, 8100.0)))
        if isinstance(i, Text)
    ]
    assert f"{round(90 + 3600 * math.tan(math.radians(22.5)))}" in figures


def test_a_truss_in_line_with_another_is_not_in_its_section() -> None:
    """C4 and S1 of the house stand on one line, half the house apart."""
    session = Session(level_of(LEVEL), 4)
    for tag in ("ST1", "ST2", "C4", "S1"):
        member = session.site.layout.by_tag[tag]
        session.do(Stand(tag=tag, start=member.start, finish=member.finish))
    seen = scene(session.site)
    first, other = (session.site.layout.by_tag[tag] for tag in ("C4", "S1"))
    assert first.start[1] == other.start[1] and abs(first.finish[0] - other.start[0]) > 3000
    names = [i.text for i in section(seen, along_truss(seen.solids["S1"])) if isinstance(i, Text)]
    assert any(name.startswith("S1") for name in names) and not any(name.startswith("C4") for name in names)


def test_the_load_of_a_saddle_comes_down_where_it_passes_over_others() -> None:
    """What its crossings bear adds up to all that it bears; nothing hangs at its ends."""
    session = Session(level_of(LEVEL), 4)
    for tag in ("ST8", "ST9", "ST10", "ST11", "S1"):
        member = session.site.layout.by_tag[tag]
        session.do(Stand(tag=tag, start=member.start, finish=member.finish))
    site = session.site
    bearings = [b for b in path(site, "S1") if b.tag == "S1"]
    under = {c.under for c in site.layout.crossings if c.over == "S1" and c.bears}
    assert {b.bears_on for b in bearings} == under and all(b.end == 0 for b in bearings)
    assert sum(b.m2 for b in bearings) == pytest.approx(site.job.loads["S1"].direct_m2, abs=0.05)
    solid = scene(site).solids["S1"]
    heads = [i for i in arrows(path(site, "S1"), solid, along_truss(solid), flipped=False) if isinstance(i, Polygon)]
    assert len(heads) == len(under) and all(head.fill == "paper" for head in heads)
    for end in (1, 2):
        session.do(Fix(tag="S1", end=end, with_="framing anchor"))
    assert all(b.fixed for b in path(session.site, "S1") if b.tag == "S1")


@pytest.mark.parametrize("scale", [0.021, 0.0345, 0.05])
def test_the_same_kind_of_truss_is_painted_the_same_wherever_it_falls(scale: float) -> None:
    """Under three px a truss has strokes of one width; a count of its own px across, on a surface as painted."""
    session = Session(level_of(LEVEL), 4)
    row = [member for member in session.site.layout.members if member.kind == "standard" and member.wing == "W1"]
    for member in row:
        session.do(Stand(tag=member.tag, start=member.start, finish=member.finish))
        session.do(Brace(kind="solid", tags=(member.tag,)))
    surface = pygame.Surface((700, 500))
    surface.fill("white")
    colours = colours_of(palettes()["light"])
    items = [item for item in StillSite(session.site.layout).items(session.site, scale) if not isinstance(item, Text)]
    strokes = [item for item in items if isinstance(item, Line) and item.width in {1.0, 3.0} and "timber" in item.role]
    assert len(strokes) >= 2 * len(row)
    view = View(scale, -1000.0, 13_000.0)
    Brush(surface, colours, view).paint(strokes)
    across = set()
    for member in row:
        x, y = view.to_px(((member.start[0] + member.finish[0]) / 2, (member.start[1] + member.finish[1]) / 2))
        across.add(tuple(surface.get_at((round(x) + k, round(y)))[:3] for k in (-2, -1, 0, 1, 2)))
    assert len(across) == 1
