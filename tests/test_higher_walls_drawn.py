"""The higher wall beside a lower roof, its ledger and its ties, in every drawing."""

import pytest
from attempts import layout_of, level_of, right

from trainer.picture import higher_walls
from trainer.picture.angled import angled, scene_of
from trainer.picture.elevation import elevation
from trainer.picture.house import grown, plates
from trainer.picture.model import Line, Polygon, flat
from trainer.picture.section import along_truss, section
from trainer.picture.solids import Stander
from trainer.picture.space import Turn
from trainer.picture.still_site import StillSite
from trainer.picture.struts import struts
from trainer.roof import distance
from trainer.session import Session

HOUSES = ("martin", "swallow", "woodswallow")


def built(name):
    return Session(level_of(name), 3, layout=layout_of(name)).replay(right(name, 3)).site


@pytest.mark.parametrize("name", HOUSES)
def test_on_the_plan_it_stands_outside_its_face_and_the_eave_stops_there(name):
    layout = layout_of(name)
    plan = layout.house.plan
    (wall,) = higher_walls.higher_walls(plan)
    face = wall.a[1]
    shapes = {group.of: [i for i in flat(group) if isinstance(i, Polygon)] for group in plates(plan).items}
    assert {y for _x, y in shapes[wall.name][0].points} == {face, face + higher_walls.THICK}
    assert max(y for _x, y in grown(plan, 450)) == face
    assert max(y for _x, y in grown(plan, 450, past_walls=True)) == face + 450


@pytest.mark.parametrize("name", ["swallow", "woodswallow"])
def test_a_ledger_runs_past_all_that_hangs_on_it(name):
    layout = layout_of(name)
    ((wall, (low, high)),) = higher_walls.ledgers(layout).items()
    length = layout.house.plan.by_name[wall].length
    hung = [length - end.at[0] for m in layout.members for end in m.ends if end.on_ledger]
    assert 0 <= low < min(hung) <= max(hung) < high <= length


def _timber(item):
    return isinstance(item, Polygon) and (item.fill or "").split(" ")[0] in {"timber", "hip_timber", "girder"}


@pytest.mark.parametrize("name", HOUSES)
def test_in_space_it_goes_on_above_the_roof_behind_it_and_is_no_more_than_an_outline_before_it(name):
    site = built(name)
    scene = scene_of(site, Stander(site.layout).solids(site))
    behind, before = angled(scene, Turn(0.0, 30.0), 0.1), angled(scene, Turn(180.0, 30.0), 0.1)
    fills = [item for item in behind if isinstance(item, Polygon) and item.fill == "shadow"]
    house = [i for i in behind if (isinstance(i, Polygon) and i.fill in {"plate", "shadow"}) or _timber(i)]
    assert fills[0] is house[0], "it lies under all that stands before it"
    assert max(y for _x, y in fills[0].points) > max(y for i in house[1:] for _x, y in i.points)
    assert not [item for item in before if isinstance(item, Polygon) and item.fill == "shadow"]
    assert any(isinstance(item, Line) and item.dash == (8.0, 5.0) for item in before)


def test_a_section_along_a_half_truss_shows_wall_ledger_and_no_roof_past_the_face():
    site = built("swallow")
    solids = Stander(site.layout).solids(site)
    cut = along_truss(solids["HF4"])
    items = section(scene_of(site, solids), cut)
    face = cut.place((4200.0, 3000.0))[0]
    walls = [i for i in items if isinstance(i, Polygon) and i.fill == "shadow"]
    assert {round(x, 3) for x, _z in walls[0].points} == {round(face, 3), round(face + higher_walls.THICK, 3)}
    ledger = higher_walls.ledger_end(face, -1.0, 0.0)
    assert any(
        isinstance(i, Polygon)
        and [tuple(map(round, p)) for p in i.points] == [tuple(map(round, p)) for p in ledger.points]
        for i in items
    )
    roof = [i for i in items if isinstance(i, Line) and i.role == "roof"]
    assert max(x for line in roof for x, _z in line.points) <= face + 1


@pytest.mark.parametrize("name", HOUSES)
def test_each_top_at_the_wall_has_a_tie_that_reaches_it(name):
    site = built(name)
    ties = [s for s in struts(site, Stander(site.layout).solids(site)) if s.run == "wall tie"]
    assert {tag for tie in ties for tag in tie.of} == set(site.layout.at_wall)
    (wall,) = higher_walls.higher_walls(site.layout.house.plan)
    assert all(tie.b[1] > wall.a[1] >= tie.a[1] - 30 for tie in ties)
    assert len(StillSite(site.layout).items(site, 0.1)) > len(ties)


def test_a_half_truss_from_the_side_has_its_post_and_ledger_at_the_wall():
    layout = layout_of("swallow")
    for tag in ("HF1", "HF4", "TG1"):
        framed = Stander(layout).framed(layout.by_tag[tag])
        items, _box = elevation(framed, mirrored=False)
        assert max(web.high[0] for web in framed.frame.webs) > 2900, "an upright at the wall"
        assert any(isinstance(i, Polygon) and i.fill == "plate" and max(x for x, _z in i.points) == 3000 for i in items)


def test_the_roof_runs_on_level_past_a_gable_beside_a_higher_wall():
    """From the one eave alone, in closed form: the higher wall is no eave, and the verge is as high as the roof is."""
    plan = layout_of("woodswallow").house.plan
    for y in (300.0, 1800.0, 2700.0, 2925.0):
        assert [distance(plan, x, y) for x in (-400.0, -1.0, 1000.0, 8300.0)] == [y] * 4
