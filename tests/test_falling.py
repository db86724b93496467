"""A row that goes over is shown falling from the row as it was judged; an attempt is gone through moment by moment."""

import math

import pygame
import pytest
from attempts import level_of
from board_person import Person

from trainer.board.fall_inset import FallInset
from trainer.picture import fall_zone
from trainer.picture.angled import angled, scene_of
from trainer.picture.compare import differences
from trainer.picture.cut import SectionLine
from trainer.picture.falling import FLAT, down, tipping
from trainer.picture.model import Line, Polygon, Text, View
from trainer.picture.section import along_truss, section
from trainer.picture.solids import Stander
from trainer.picture.space import Turn
from trainer.picture.still_site import StillSite
from trainer.session import Session
from trainer.site import Brace, Event, HandOver, Remove, Stand
from trainer.site.actions import Plumb, Unbrace

ROW = ("ST12", "ST13", "ST14", "ST15", "ST16")


def let_go(*, aside: float = 0.0, held: bool = False, plumbed: bool = True, before: str = "") -> tuple[Session, Event]:
    """A row tied together whose only solid brace comes off; ``held`` has a second one.

    ``before`` is a truss that stands braced beside it.
    """
    session = Session(level_of("wren"), 4)
    for tag in filter(None, [before]):
        member = session.site.layout.by_tag[tag]
        session.do(Stand(tag=tag, start=member.start, finish=member.finish))
        session.do(Brace(kind="solid", tags=(tag,)))
    for number, tag in enumerate(ROW):
        member = session.site.layout.by_tag[tag]
        dx, dy = member.direction
        off = aside if tag == "ST14" else 0.0
        start, finish = ((x - dy * off, y + dx * off) for x, y in (member.start, member.finish))
        session.do(Stand(tag=tag, start=start, finish=finish))
        solid = Brace(kind="solid", tags=(tag,))
        session.do(Brace(kind="batten", tags=ROW[number - 1 : number + 1]) if number else solid)
        if tag != "ST14" or plumbed:
            session.do(Plumb(tag=tag))
    if held:
        session.do(Brace(kind="solid", tags=ROW[-1:]))
    event = session.do(Unbrace(kind="solid", tags=ROW[:1])).event
    assert event is not None
    return session, event


def fallen(session: Session, _event: Event, share: float) -> dict[str, float]:
    return tipping(session.site, share)


def test_a_row_without_its_brace_falls_and_one_with_it_does_not() -> None:
    assert set(fallen(*let_go(), 1.0)) == set(ROW)
    assert fallen(*let_go(held=True), 1.0) == {}


def test_it_falls_like_dominoes_from_the_one_let_go_and_all_the_same_way() -> None:
    session, event = let_go()
    before = dict.fromkeys(ROW, 0.0)
    for step in range(21):
        over = fallen(session, event, step / 20)
        assert all(abs(over[tag]) >= abs(before[tag]) - 1e-9 for tag in ROW), "nothing gets up again"
        before = over
    middle = fallen(session, event, 0.5)
    solids = Stander(session.site.layout).solids(session.site)
    assert [abs(middle[tag]) for tag in ROW] == sorted((abs(middle[tag]) for tag in ROW), reverse=True)
    ways = {round(math.copysign(1, solids[tag].apex[1] - solids[tag].start[1])) for tag in ROW}
    assert len(ways) == 1, "whichever way round they stand"
    # Each lies on the foot of the next, and the last on the plates: at 35 mm thick, 600 apart.
    on_the_next = math.atan(35 / 600)
    assert [FLAT - abs(before[tag]) for tag in ROW] == pytest.approx([on_the_next] * 4 + [0.0])


@pytest.mark.parametrize("share", [0.3, 1.0])
def test_frames_are_the_same_every_time(share: float) -> None:
    assert fallen(*let_go(), share) == fallen(*let_go(), share)


@pytest.mark.parametrize("changed", [{"aside": 130.0}, {"plumbed": False}])
def test_a_truss_that_was_moved_or_left_leaning_falls_from_there(changed: dict[str, float]) -> None:
    frames = []
    for session, _event in (let_go(), let_go(**changed)):  # type: ignore[arg-type]
        frames.append(StillSite(session.site.layout).items(session.site, 1.0, 0.4))
        solids = Stander(session.site.layout).solids(session.site, share=0.4)
        frames.append([solids["ST14"].apex])
    assert frames[0] != frames[2] and frames[1] != frames[3]


def test_every_moment_of_an_attempt_has_the_site_of_that_moment() -> None:
    session, _event = let_go()
    session.do(Remove(tag="ST16"))
    session.undo()
    session.do(Remove(tag="nothing"))
    session.do(Remove(tag="ST15"))
    moments = session.moments
    again = Session(level_of("wren"), 4)
    assert again.first_site == session.first_site
    for outcome, site in moments:
        assert again.do(outcome.action).event is not None
        assert again.site == site
    assert moments[-1][1] is session.site and again.findings != ()


def test_a_roof_as_drawn_has_no_differences_and_each_mistake_is_one() -> None:
    level = level_of("wren")
    lesson = level.lesson.model_copy(update={"stages": ("stand",)})  # others brace and fix, so that nothing falls
    session = Session(level.model_copy(update={"lesson": lesson}), 4)
    places = session.site.layout.by_tag
    for member in places.values():
        start, finish = member.start, member.finish
        if member.tag == "ST3":
            start, finish = ((x + 40.0, y) for x, y in (start, finish))
        if member.tag == "G1":
            start, finish = finish, start
        if member.tag != "C1":
            session.do(Stand(tag=member.tag, start=start, finish=finish))
            session.do(Brace(kind="solid", tags=(member.tag,)))
    session.do(HandOver())
    found = {(one.what, one.place.tag, one.off) for one in differences(session.site)}
    assert found == {("off", "ST3", 40.0), ("turned", "G1", 0.0), ("missing", "C1", 0.0)}


def test_what_fell_lies_on_every_view_with_a_word_and_without_its_bracing() -> None:
    session, _event = let_go()
    site = session.site
    plan = [item for item in StillSite(site.layout).items(site, 0.05) if isinstance(item, Text)]
    scene = scene_of(site, Stander(site.layout).solids(site))
    space = [item for item in angled(scene, Turn(), 0.05) if isinstance(item, Text)]
    across = section(scene, SectionLine((10200.0, 12600.0), (10200.0, 0.0)))
    for words in (plan, space, [item for item in across if isinstance(item, Text)]):
        assert {text.text for text in words} >= {f"{tag} fell" for tag in ROW}
    assert scene.struts == () and session.site.bracing
    # No truss of 1581 mm is drawn higher than the four that lie under it.
    timbers = [
        z for item in across if isinstance(item, Polygon) and item.fill == "timber_shade" for _x, z in item.points
    ]
    assert timbers and max(timbers) < 200


def test_a_truss_that_was_struck_still_stands_under_a_sign_and_says_so() -> None:
    session, _event = let_go(before="G1")
    site = session.site
    assert site.fall is not None and {tag for tag, one in site.fall.lying.items() if one.struck} == {"G1"}
    assert down(site) == set(ROW)
    solids = Stander(site.layout).solids(site)
    assert not solids["G1"].over
    scene = scene_of(site, solids)
    for cut in (along_truss(solids["G1"]), SectionLine((10200.0, 12600.0), (10200.0, 0.0))):
        words = " ".join(item.text for item in section(scene, cut) if isinstance(item, Text))
        assert "G1 struck" in words
    for items in (StillSite(site.layout).items(site, 0.05), angled(scene, Turn(), 0.05)):
        assert "G1 struck" in {item.text for item in items if isinstance(item, Text)}
        assert [item for item in items if isinstance(item, Line) and item.role == "stop"]


def test_what_fell_comes_down_within_the_zone_that_is_lit_on_plan_and_ground() -> None:
    from shapely import unary_union
    from shapely.geometry import Point as Spot
    from shapely.geometry import Polygon as Shape

    session, _event = let_go()
    site = session.site
    solids = Stander(site.layout).solids(site)
    lit = unary_union([Shape(zone) for zone in fall_zone.zones(site)]).buffer(5)
    for tag in down(site):
        inside = [solids[tag].at(run, solids[tag].framed.roof(run)) for run in (0.0, 1500.0, solids[tag].member.span)]
        assert all(lit.contains(Spot(x, y)) for x, y, _z in inside), tag
    shown = [StillSite(site.layout).items(site, 0.05), angled(scene_of(site, solids), Turn(), 0.05)]
    for items in shown:
        assert sum(isinstance(item, Polygon) and item.fill == "zone" for item in items) == 2 * len(ROW)
    assert "Somebody could have stood here." in {item.text for item in shown[0] if isinstance(item, Text)}
    assert not fall_zone.zones(session.first_site)


def test_it_starts_slowly_and_lands_and_then_lies() -> None:
    session, event = let_go()
    first = next(iter(session.site.fall.lying)) if session.site.fall else ""
    over = [abs(fallen(session, event, share / 40)[first]) for share in range(41)]
    assert over[2] - over[0] < (over[8] - over[6]) / 3, "slower at first than later"
    assert max(over) == pytest.approx(over[-1]) and over[0] == 0.0


@pytest.mark.parametrize("still", [False, True])
def test_over_any_view_a_corner_shows_the_fall_in_space_in_two_pictures_where_nothing_moves(still: bool) -> None:
    session, _event = let_go()
    site, stander, ui = session.site, Stander(session.site.layout), Person((800, 600)).app.ui
    ui.look.still = still
    inset = FallInset(lambda: site, stander, lambda: scene_of(site, stander.solids(site)), lambda: 1.0)
    surface = pygame.Surface((700, 600))
    surface.fill("magenta")
    inset.paint(ui, surface, View(0.03, 0.0, 15_000.0))
    left = pygame.mask.from_threshold(surface, (255, 0, 255), (1, 1, 1, 255))
    left.invert()
    boxes = [rect for rect in left.get_bounding_rects() if rect.width > 100]
    assert len(boxes) == (2 if still else 1)
    surface.fill(ui.look["paper"])
    surface.fill("black", (400, 0, 300, 600))
    inset.paint(ui, surface, View(0.04, 0.0, 15_000.0))
    assert pygame.transform.average_color(surface, (400, 0, 300, 600))[:3] == (0, 0, 0), "nothing drawn is covered"
    assert pygame.transform.average_color(surface, (0, 0, 400, 600))[:3] != ui.look["paper"]
    clear = FallInset(lambda: session.first_site, stander, inset._look, lambda: 1.0)
    empty = pygame.Surface((700, 600))
    clear.paint(ui, empty, View(0.03, 0.0, 15_000.0))
    assert pygame.transform.average_color(empty)[:3] == (0, 0, 0)
