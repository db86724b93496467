"""Verandah beams and their posts: in a level, under a layout, in drawings, on the site. Common practice, no source."""

import json
import math
from collections.abc import Iterable
from itertools import pairwise
from typing import Any, Literal
from xml.etree import ElementTree as ET

import pytest
import yaml
from attempts import layout_of, level_of
from hypothesis import given
from hypothesis import strategies as st
from plans import house_like_plan

from trainer.layout import House, LayoutRefused, TrussSpec, lay_out
from trainer.layout.as_json import layout_json
from trainer.layout.posts import on_beam, post_areas, posts
from trainer.layout.shares import loads
from trainer.level import Level, parse_level
from trainer.picture.load_path import down_from_beams, path
from trainer.picture.sheet import layout_sheet
from trainer.picture.svg import to_svg
from trainer.plan import Beam, PlatePlan
from trainer.read import Faulty
from trainer.roof import RoofSpec
from trainer.session import Session, job_of, site_faults
from trainer.shipped.colours import palettes
from trainer.site import Brace, Fix, Stand, post_uplift, pressure, start, uplift
from trainer.site.actions import Check, Report

HUT: dict[str, Any] = {
    "schema": 1, "id": "hut", "title": "A hut", "brief": "Invented.",
    "plates": {"outline": [[0, 0], [9000, 0], [9000, 5000], [0, 5000]], "width": 90},
    "roof": {"pitch": 22.5, "overhang": 450, "heel": 90}, "trusses": {"spacing": 600, "setback": 1800},
}  # fmt: skip
WIDEST = 3600
"""The widest bay between posts: the trade brief."""


def hut(**more: Any) -> Level:
    return parse_level(yaml.safe_dump({**HUT, **more}), "hut.yaml")


def faults(**more: Any) -> list[tuple[str, str]]:
    with pytest.raises(Faulty) as faulty:
        hut(**more)
    return [(fault.path, fault.what) for fault in faulty.value.faults]


def runs(level: Level, wall: str) -> list[float]:
    return [post.run for post in posts(lay_out(level.house())) if post.wall == wall]


# a level's own words


@pytest.mark.parametrize(
    ("beams", "path", "what"),
    [
        (["E"], "beams.E", "is no wall of this house; its walls are A to D"),
        (["a"], "beams.a", "did you mean 'A'"),
        (["A", "A"], "beams[1]", "is named twice"),
        ({"A": [4000, 600]}, "beams.A", "give where it begins first"),
        ({"A": [0, 9001]}, "beams.A", "past the ends of wall A; that is 9000 long"),
        ({"A": [0]}, "beams.A", "has 1 entry; write a list [ ] of 2 entries"),
        ({"A": [0, "x"]}, "beams.A[1]", "write a whole number"),
        (7, "beams", "a list of walls, or from where to where on each"),
    ],
)
def test_a_beam_that_cannot_be_is_told_with_its_place_and_what_to_do(beams: object, path: str, what: str) -> None:
    found = faults(beams=beams)
    assert [where for where, _said in found] == [path]
    assert what in found[0][1]


def test_a_gable_is_no_beam_and_posts_stand_under_beams() -> None:
    assert "is a gable" in dict(faults(gables=["B"], beams=["B"]))["beams.B"]
    told = dict(faults(beams={"A": [0, 4000]}, posts={"A": [0, 5000, 0], "C": [100], "X": [1]}))
    assert "outside the beam on wall A; that runs from 0 to 4000" in told["posts.A[1]"]
    assert "is given twice" in told["posts.A[2]"]
    assert "wall C has no beam" in told["posts.C"]
    assert "is no wall" in told["posts.X"]


def test_every_fault_is_told_at_once() -> None:
    assert len(faults(beams={"E": [0, 1], "A": [9, 1]}, posts={"C": [1]}, gables=["Z"])) == 4


def test_a_list_of_walls_is_beams_over_the_whole_of_each() -> None:
    assert hut(beams=["A"]).house() == hut(beams={"A": [0, 9000]}).house() == hut(beams={"A": None}).house()


def test_what_is_wrong_on_the_site_must_be_of_a_beam_or_a_post_that_is_there() -> None:
    site = {
        "walls": [{"wall": "C", "fault": "bowed beam", "by": 12}],
        "dangers": [
            {"what": "beam propped", "wall": "B"},
            {"what": "post not braced", "at": [3000, 45]},
            {"what": "post not tied down", "at": [45, 45]},
        ],
    }
    level = hut(beams=["A"], site=site)
    told = dict(site_faults(level, lay_out(level.house())))
    assert set(told) == {
        ("site", "walls", 0, "wall"), ("site", "dangers", 0, "wall"), ("site", "dangers", 1, "at"),
    }  # fmt: skip
    assert "beams are on A" in told["site", "dangers", 0, "wall"]
    assert "posts stand at [45, 45]" in told["site", "dangers", 1, "at"]


def test_where_it_is_open_underneath_the_wind_does_not_lift_less() -> None:
    assert faults(tie_down={"net_pressure": 1.0, "open_net_pressure": 0.8})
    assert hut(tie_down={"net_pressure": 1.0}).tie_down.pressure_over_beams == 1.5


# posts


def test_posts_stand_at_both_ends_under_girders_and_in_equal_bays_worked_by_hand() -> None:
    # Truncated girders at 1800 from both ends: 5400 between them, two bays of 2700.
    assert runs(hut(beams=["A"]), "A") == [0, 1800, 4500, 7200, 9000]
    # 600 to 4200 has the girder at 1800; a wall's end at both sides.
    assert runs(hut(beams={"A": [600, 4200]}), "A") == [600, 1800, 4200]
    assert runs(hut(beams={"A": [2100, 5700]}), "A") == [2100, 5700]
    assert runs(hut(beams={"A": [2100, 5710]}), "A") == [2100, 3905, 5710]
    # The end wall carries no girder.
    assert runs(hut(beams=["B"]), "B") == [0, 2500, 5000]
    assert runs(hut(beams=["A"], posts={"A": [8900, 100, 4000]}), "A") == [100, 4000, 8900]


@given(st.integers(0, 400), st.data())
def test_bays_are_equal_and_no_wider_than_they_may_be_and_the_whole_roof_comes_down(seed: int, data: Any) -> None:
    plan = house_like_plan(seed)
    wall = data.draw(st.sampled_from([wall for wall in plan.walls if not wall.gable]))
    beamed = PlatePlan(plan.outline, 90, plan.gables, beams=(Beam(wall.name, 0.0, float(wall.length)),))
    spec = RoofSpec(22.5, 450, 90)
    try:
        layout = lay_out(House(beamed, spec, TrussSpec(600, 1800)))
    except LayoutRefused:
        return
    assert layout.members == lay_out(House(plan, spec, TrussSpec(600, 1800))).members
    here = posts(layout)
    assert (here[0].run, here[-1].run) == (0, wall.length)
    gaps = [b.run - a.run for a, b in pairwise(here)]
    assert min(gaps) > 0 and max(gaps) <= WIDEST + 1
    girders = {
        member.tag for member, _end in on_beam(layout, beamed.beams[0]) if member.kind in ("girder", "truncated_girder")
    }
    assert {tag for post in here for tag in post.under} == girders
    (beam,) = beamed.beams
    borne = sum(loads(layout)[member.tag].ends_m2[end - 1] for member, end in on_beam(layout, beam))
    assert sum(area for _post, area in post_areas(layout, beam)) == pytest.approx(borne)


def test_the_layouts_json_only_gains_by_a_beam() -> None:
    bare, beamed = (layout_json("hut", lay_out(hut(beams=beams).house())) for beams in ([], {"A": [600, 4200]}))
    assert bare["beams"] == []
    assert {key: value for key, value in beamed.items() if key != "beams"} == {
        key: value for key, value in bare.items() if key != "beams"
    }
    (beam,) = beamed["beams"]
    assert (beam["wall"], beam["from"], beam["to"]) == ("A", [600, 0], [4200, 0])
    assert [(post["run"], post["at"], post["wall_end"]) for post in beam["posts"]] == [
        (600, [600, 45], True), (1800, [1800, 45], False), (4200, [4200, 45], True),
    ]  # fmt: skip
    assert beam["posts"][1]["under"] == ["TG1"]
    json.dumps(beamed)


# what holds and what lifts


def test_the_wind_lifts_harder_over_a_beam_and_each_post_has_its_share() -> None:
    level = hut(beams=["A"], tie_down={"net_pressure": 0.6, "open_net_pressure": 1.2})
    job = job_of(level, 0)
    member, end = next((m, e) for m, e in on_beam(job.layout, job.layout.house.plan.beams[0]) if m.kind == "standard")
    assert (pressure(job, member.tag, end), pressure(job, member.tag, 3 - end)) == (1.2, 0.6)
    assert uplift(job, member.tag, end) == pytest.approx(2 * uplift(job, member.tag, 3 - end))
    # In the middle bays a truss each 600 and half the span with its eave, 2.5 + 0.45 m: a post takes 2.7 m of that.
    middle = next(kn for post, kn in post_uplift(job).items() if post.run == 4500)
    assert middle == pytest.approx(1.2 * 2.95 * 2.7, rel=0.12)


def test_the_path_of_load_goes_on_from_the_beam_to_the_ground() -> None:
    site = start(job_of(hut(beams=["A"]), 0))
    lines = list(down_from_beams(site, path(site, "TG1")))
    assert len(lines) == 1 and "its post at 1800 → the ground" in lines[0]


@pytest.mark.parametrize(
    "danger", [{"what": "beam not bolted down", "wall": "A"}, {"what": "post not tied down", "at": [1800, 45]}]
)
def test_the_path_of_load_says_where_it_ends_short_of_the_ground_once_that_was_seen(danger: dict[str, Any]) -> None:
    session = Session(hut(beams=["A"], site={"checks": ["beams and posts"], "dangers": [danger]}), 0)

    def ends_short() -> bool:
        (line,) = down_from_beams(session.site, path(session.site, "TG1"))
        return "not tied down there yet" in line

    assert not ends_short()
    session.do(Check(item="beams and posts"))
    assert ends_short()
    session.do(Report(fault=danger["what"], wall=danger.get("wall"), at=danger.get("at")))
    assert not ends_short()


def test_a_brace_to_a_beam_holds_nothing() -> None:
    level = hut(beams=["A"], lesson={"stages": ["stand", "brace", "fix"]})
    first = next(m for m in lay_out(level.house()).members if m.kind == "standard")
    both: tuple[tuple[Literal["beam"] | None, bool], ...] = ((None, True), ("beam", False))
    for to, held in both:
        session = Session(level, 0)
        session.do(Stand(tag=first.tag, start=first.start, finish=first.finish))
        session.do(Brace(kind="solid", tags=(first.tag,), to=to))
        for end in (1, 2):
            session.do(Fix(tag=first.tag, end=end, with_="framing anchor"))
        assert (first.tag in session.site.holds) is held
        assert ("braced-to-beam" in {finding.rule for finding in session.findings}) is not held


# drawings


def fills(groups: Iterable[ET.Element]) -> set[str]:
    return {str(shape.get("fill")) for group in groups for shape in group if shape.tag.endswith("polygon")}


@pytest.mark.parametrize("name", ["lapwing", "plover", "egret", "curlew"])
def test_beams_and_posts_are_drawn_apart_from_the_plates(name: str) -> None:
    layout = layout_of(name)
    svg = ET.fromstring(to_svg(layout_sheet(layout, level_of(name).title), palettes()["light"]))
    space = "{http://www.w3.org/2000/svg}"
    beams = [group for group in svg.iter(f"{space}g") if group.get("class") == "beams" and group.get("data-of")]
    assert [group.get("data-of") for group in beams] == [beam.wall for beam in layout.house.plan.beams]
    (drawn,) = [group for group in svg.iter(f"{space}g") if group.get("class") == "posts"]
    free = {post.at for post in posts(layout) if not post.wall_end}
    assert len(drawn.findall(f"{space}polygon")) == len(free)
    plates = fills(group for group in svg.iter(f"{space}g") if group.get("class") == "plates")
    assert fills(beams) and not fills(beams) & plates


def test_a_post_stands_under_the_middle_of_its_beam() -> None:
    for name in ("plover", "egret", "curlew"):
        layout = layout_of(name)
        plan = layout.house.plan
        for post in posts(layout):
            wall = plan.by_name[post.wall]
            off = abs((post.at[0] - wall.a[0]) * wall.inward[0] + (post.at[1] - wall.a[1]) * wall.inward[1])
            assert math.isclose(off, plan.plate_width / 2)
