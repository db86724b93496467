"""The fold of actions into the site: what can't be done, what is held, what falls, and that nothing else changes."""

from __future__ import annotations

from typing import Any, get_args

import pytest
from attempts import layout_of, level_of, set_up

from trainer import session
from trainer.order import Step
from trainer.site import (
    AnyAction,
    Brace,
    Event,
    Fit,
    Fix,
    HandOver,
    Job,
    Mark,
    Refused,
    Remove,
    Site,
    Stand,
    act,
    bracketed,
    done,
    fold,
    held,
    missing_before,
    start,
    unready,
)
from trainer.site.actions import Undo
from trainer.terms import Mode


def job_of(name: str, mode: Mode = "practice") -> Job:
    return session.job_of(level_of(name), 0, mode, layout_of(name))


def at(job: Job, *actions: AnyAction) -> Site:
    """The site after ``actions``, every one of which can be done."""
    site = start(job)
    for index, action in enumerate(actions):
        site, _ = do(site, action, index)
    return site


def do(site: Site, action: AnyAction, index: int = 0) -> tuple[Site, Event]:
    result = act(site, index, action)
    assert not isinstance(result, Refused), f"{action!r}: {result.why}"
    return result


def why(site: Site, action: AnyAction) -> str:
    """Why an action is refused; and refusing changes nothing."""
    before = repr(site)
    result = act(site, 0, action)
    assert isinstance(result, Refused), f"{action!r} was done"
    assert repr(site) == before
    return result.why


def stand(job: Job, tag: str, at_place: str = "", across: float = 0.0, along: float = 0.0) -> Stand:
    """Stand ``tag`` in a place of the layout, shifted."""
    place = job.layout.by_tag[at_place or tag]
    (ux, uy), (ax, ay), (bx, by) = place.direction, place.start, place.finish
    dx, dy = along * ux - across * uy, along * uy + across * ux
    return Stand(tag=tag, start=(ax + dx, ay + dy), finish=(bx + dx, by + dy))


SHED, WREN = job_of("shed"), job_of("wren")
"""A shed: gable trusses GT1 and GT2, standard ones between. The wren: a flush L with a broken hip."""


def shed_with(*actions: AnyAction) -> Site:
    return at(SHED, stand(SHED, "ST1"), Brace(kind="solid", tags=("ST1",)), *actions)


IMPOSSIBLE: list[tuple[str, AnyAction, str]] = [
    ("an unknown tag", stand(SHED, "ST1").model_copy(update={"tag": "STT2"}), "Did you mean 'ST2'?"),
    ("a truss already standing", stand(SHED, "ST1", "ST2"), "standing already"),
    ("two trusses in one place", stand(SHED, "ST2", "ST1"), "ST1 stands there already"),
    ("half in another truss", stand(SHED, "ST2", "ST1", across=30), "ST1 stands there already"),
    ("a truss stretched", Stand(tag="ST2", start=(1800, 0), finish=(1800, 3100)), "3000 mm long"),
    ("an end in mid-air", stand(SHED, "ST2", "ST2", along=900), "mid-air"),
    ("beyond the house", stand(SHED, "ST2", "ST2", across=9000), "mid-air"),
    ("taking down what does not stand", Remove(tag="ST2"), "not standing"),
    ("a brace to what does not stand", Brace(kind="batten", tags=("ST1", "ST2")), "ST2 is not standing"),
    ("a brace to nothing", Brace(kind="batten", tags=("ST1",)), "Name two or more"),
    ("a brace to itself", Brace(kind="batten", tags=("ST1", "ST1")), "Name two or more"),
    ("fixing what does not stand", Fix(tag="ST2", end=1, with_="framing anchor"), "not standing"),
    ("an unknown connector", Fix(tag="ST1", end=1, with_="framing ankor"), "Did you mean 'framing anchor'?"),
    ("a crossing where nothing crosses", Fix(tag="ST1", at=(1, 1), with_="framing anchor"), "crosses nothing there"),
    ("a part on nothing", Fit(part="hanger", on="G7", at=100), "no truss 'G7'"),
    ("an unknown part", Fit(part="hangar", on="ST1", at=100), "Did you mean 'hanger'?"),
    ("a bracket nowhere", Fit(part="hanger", on="ST1"), "Say where"),
    ("a bracket past the end", Fit(part="hanger", on="ST1", at=3001), "past the end"),
    ("a mark past the end of a wall", Mark(wall="A", at=9000), "past the end"),
    ("a mark on no wall", Mark(wall="E", at=100), "A, B, C, D"),
]


@pytest.mark.parametrize(("action", "says"), [case[1:] for case in IMPOSSIBLE], ids=[case[0] for case in IMPOSSIBLE])
def test_what_nobody_could_do_is_refused_in_words(action: AnyAction, says: str) -> None:
    assert says in why(shed_with(), action)


def test_what_carries_is_not_taken_down() -> None:
    layout = WREN.layout
    site = at(WREN, *set_up(layout, "TG1"), *set_up(layout, "J1"), *set_up(layout, "J2"))
    assert why(site, Remove(tag="TG1")) == "TG1 carries J1 and J2. Take that down first."
    site = do(do(site, Remove(tag="J1"))[0], Remove(tag="J2"))[0]
    assert "TG1" not in do(site, Remove(tag="TG1"))[0].stood


def test_nothing_is_done_after_the_hand_over() -> None:
    site, _ = do(shed_with(), HandOver())
    for action in (stand(SHED, "ST2"), Remove(tag="ST1"), Undo(), HandOver(), Mark(wall="A", at=1)):
        assert "handed over" in why(site, action)


def test_mistakes_are_accepted() -> None:
    """Impossible is not wrong: what a person could do is done, however wrong."""
    do(shed_with(), stand(SHED, "GT1", "ST2"))
    do(shed_with(), stand(SHED, "ST2", across=100))
    do(start(WREN), stand(WREN, "J1"))
    do(start(WREN), stand(WREN, "S1"))
    do(start(WREN), HandOver())


def test_undo_is_going_back() -> None:
    first = shed_with()
    site, _ = do(first, stand(SHED, "ST2"))
    site, _ = do(site, Brace(kind="batten", tags=("ST1", "ST2")))
    for _ in range(2):
        site, event = do(site, Undo(), 7)
        assert event == Event(7, Undo())
    assert site == first
    assert "nothing to undo" in why(start(SHED), Undo())


def test_there_is_no_undo_in_assessment() -> None:
    job = job_of("shed", "assessment")
    assert "no undo" in why(at(job, stand(job, "ST1")), Undo())


def test_like_trusses_may_change_places() -> None:
    site = at(SHED, stand(SHED, "ST2", "ST1"), stand(SHED, "ST1", "ST2"))
    assert site.at_place == {"ST1": "ST2", "ST2": "ST1"}
    assert all(done(site, Step("stand", tag)) for tag in ("ST1", "ST2"))


def test_a_truss_keeps_its_place_when_stood_a_little_off() -> None:
    site = at(SHED, stand(SHED, "ST2", across=40))
    stood = site.stood["ST2"]
    assert (stood.place, stood.flipped, stood.turned) == ("ST2", False, False)
    assert [(off.along, off.across) for off in stood.off] == [(0, 40), (0, 40)]


def test_a_truss_far_off_gives_way_to_one_on_the_mark() -> None:
    """ST2 stood 400 short of its mark is nearest to ST1's place; ST1, stood right, is given that place back."""
    job = job_of("shed")
    site = at(job, stand(job, "ST2", "ST1", across=-430), stand(job, "ST1"))
    assert site.stood["ST1"].place == "ST1"
    assert site.stood["ST2"].place in (None, "ST2")


def test_coordinates_are_kept_to_half_a_millimetre() -> None:
    site = at(SHED, stand(SHED, "ST1", across=0.3))
    assert site.stood["ST1"].start[0] * 2 == round(site.stood["ST1"].start[0] * 2)


def test_a_truss_with_like_ends_is_never_turned() -> None:
    layout = SHED.layout.by_tag["ST1"]
    site = at(SHED, Stand(tag="ST1", start=layout.finish, finish=layout.start))
    assert (site.stood["ST1"].flipped, site.stood["ST1"].turned) == (True, False)
    assert site.stood["ST1"].own_end(1) == 2


@pytest.mark.parametrize("tag", ["J1", "C1", "T4", "H1"])
def test_a_truss_with_unlike_ends_can_be_turned(tag: str) -> None:
    place = WREN.layout.by_tag[tag]
    site = at(WREN, Stand(tag=tag, start=place.finish, finish=place.start))
    assert site.stood[tag].turned
    assert not at(WREN, stand(WREN, tag)).stood[tag].turned


def test_what_is_solid_holds_and_battens_pass_it_on() -> None:
    site = at(SHED, stand(SHED, "ST1"))
    assert "ST1" not in site.holds
    site, _ = do(site, Brace(kind="solid", tags=("ST1",)))
    assert "ST1" in site.holds
    site, _ = do(site, stand(SHED, "ST2"))
    assert "ST2" not in site.holds
    site, _ = do(site, Brace(kind="batten", tags=("ST1", "ST2")))
    assert "ST2" in site.holds


def test_battens_alone_hold_nothing_until_something_solid_comes() -> None:
    job = job_of("shed")
    site = at(job, stand(job, "ST1"), stand(job, "ST3"))
    fallen = {tag for tag, how in site.holds.items() if how == "put right"}
    assert fallen == {"ST1"}
    after, _ = do(site, Brace(kind="batten", tags=("ST3", "ST1")))
    assert "ST3" not in after.holds, "two bays off"
    beside, _ = do(do(site, stand(job, "ST2"))[0], Brace(kind="batten", tags=("ST1", "ST2")))
    assert beside.holds["ST2"] == "batten"


def test_a_batten_does_not_reach_across_the_house() -> None:
    site = at(WREN, stand(WREN, "TG1"), Brace(kind="solid", tags=("TG1",)), stand(WREN, "TG2"))
    assert "too far" in why(site, Brace(kind="batten", tags=("TG1", "TG2")))


@pytest.mark.parametrize("kind", ["hip", "jack", "creeper"])
def test_what_its_ends_hold_up_is_held_once_both_are_fastened(kind: str) -> None:
    layout = WREN.layout
    first = {"hip": "H1", "jack": "J1", "creeper": "C1"}[kind]
    under = ["TG1"] if kind != "creeper" else ["TG1", layout.by_tag["C1"].carried_by[0]]
    site = at(WREN, *(action for tag in under for action in set_up(layout, tag)), stand(WREN, first))
    site, _ = do(site, Fix(tag=first, end=1, with_="framing anchor"))
    assert first not in site.holds
    site, _ = do(site, Fix(tag=first, end=2, with_="hanger"))
    assert site.holds[first] == "fastened"


def test_fastened_on_a_loose_carrier_is_not_held_until_the_carrier_is() -> None:
    site = at(WREN, *set_up(WREN.layout, "H1"), stand(WREN, "TG1"))
    assert "H1" not in at(WREN, *set_up(WREN.layout, "H1")).holds
    site, _ = do(site, Brace(kind="solid", tags=("TG1",)))
    assert site.holds["TG1"] == "solid"


def test_fastening_a_standard_truss_does_not_hold_it_up() -> None:
    site = at(SHED, stand(SHED, "ST1"), *(Fix(tag="ST1", end=end, with_="framing anchor") for end in (1, 2)))
    assert "ST1" not in site.holds


def test_the_next_stand_in_the_row_lets_the_last_truss_go() -> None:
    site, event = do(shed_with(), stand(SHED, "ST2"))
    assert (event.let_go, event.fell) == (("ST1",), ())
    after, event = do(site, stand(SHED, "ST3"))
    assert (event.let_go, event.fell) == (("ST2",), ())
    assert "ST2" not in site.holds
    assert after.holds["ST2"] == "put right"


def test_a_row_with_nothing_solid_goes_over_and_stands_braced_again() -> None:
    site = at(SHED, stand(SHED, "ST1"))
    after, event = do(site, stand(SHED, "ST2"))
    assert (event.let_go, event.fell) == (("ST1",), ("ST1",))
    assert "ST1" in after.holds
    assert set(after.stood) == {"ST1", "ST2"}
    _, event = do(after, stand(SHED, "ST3"))
    assert (event.let_go, event.fell) == (("ST2",), ())


def test_a_lift_in_another_row_lets_the_last_truss_go() -> None:
    """Trade brief: at every lift, every truss that stands is held, in whatever row or wing (common practice)."""
    _, event = do(at(WREN, stand(WREN, "TG1")), stand(WREN, "G1"))
    assert (event.let_go, event.fell) == (("TG1",), ("TG1",))


def test_held_takes_both_ends_and_the_top() -> None:
    """Trade brief, what *held* is (common practice): one connector an end will do, and the top tied."""
    site = at(SHED, stand(SHED, "ST1"), Brace(kind="solid", tags=("ST1",)))
    assert not held(site, "ST1")
    site, _ = do(site, Fix(tag="ST1", end=1, with_="nails"))
    assert not held(site, "ST1")
    site, _ = do(site, Fix(tag="ST1", end=2, with_="nails"))
    assert held(site, "ST1")


def test_hand_over_lets_go_of_the_last() -> None:
    site = at(WREN, *set_up(WREN.layout, "G1"), *set_up(WREN.layout, "TG1"), stand(WREN, "T1"))
    after, event = do(site, HandOver())
    assert set(event.let_go) == {"T1"}
    assert event.fell == ()
    assert after.handed_over


def test_taking_down_what_held_the_row_lets_it_go() -> None:
    site = shed_with(stand(SHED, "ST2"), Brace(kind="batten", tags=("ST1", "ST2")))
    after, event = do(site, Remove(tag="ST1"))
    assert (event.let_go, event.fell) == (("ST2",), ("ST2",))
    assert "ST1" not in after.stood
    assert "ST2" in after.holds


def test_taking_down_one_of_several_that_hold_lets_nothing_go() -> None:
    site = shed_with(
        stand(SHED, "ST2"),
        Brace(kind="solid", tags=("ST2",)),
        stand(SHED, "ST3"),
        Brace(kind="batten", tags=("ST1", "ST2", "ST3")),
    )
    after, event = do(site, Remove(tag="ST1"))
    assert (event.let_go, event.fell) == ((), ())
    assert all(tag in after.holds for tag in ("ST2", "ST3"))


def test_taking_down_takes_fixings_and_braces_with_it() -> None:
    site = shed_with(Fix(tag="ST1", end=1, with_="framing anchor"))
    site = do(do(site, Remove(tag="ST1"))[0], stand(SHED, "ST1"))[0]
    assert not site.fixed
    assert not held(site, "ST1")
    assert not site.bracing


def test_a_bracket_serves_one_truss_at_its_spot() -> None:
    """A hip and a jack meet the truncated girder at one point; each has its own hanger."""
    layout = layout_of("fantail")
    job = job_of("fantail")
    hip = layout.by_tag["H1"]
    jack = next(m for m in layout.members if m.kind == "jack" and m.finish == hip.finish)
    fits = [action for action in set_up(layout, "H1") if isinstance(action, Fit)]
    site = at(job, *fits)
    assert bracketed(site, hip.tag, 2)
    assert bracketed(site, jack.tag, 2)
    site, _ = do(site, stand(job, jack.tag))
    assert bracketed(site, jack.tag, 2)
    assert not bracketed(site, hip.tag, 2)
    site, _ = do(site, fits[0])
    assert bracketed(site, hip.tag, 2)


@pytest.mark.parametrize(("off", "serves"), [(0, True), (10, True), (10.5, False), (-300, False)])
def test_a_bracket_serves_within_the_tolerance(off: float, serves: bool) -> None:
    fit = next(action for action in set_up(WREN.layout, "J4") if isinstance(action, Fit))
    site = at(WREN, fit.model_copy(update={"at": (fit.at or 0) + off}))
    assert bracketed(site, "J4", 2) == serves


def test_what_is_unready_and_missing() -> None:
    layout = WREN.layout
    site = at(WREN, *set_up(layout, "TG1")[:-1])
    assert unready(site, "TG1") == (Step("fix", "TG1", 2),)
    missing = [edge for edge in missing_before(site, Step("stand", "H1")) if edge.why != "pre-start"]
    assert {edge.first for edge in missing} == {
        Step("fix", "TG1", 2),
        Step("fit", "H1", 2),
        Step("stand", "TG2"),
    }


def test_stages_left_out_count_as_done() -> None:
    fixing = Job(WREN.layout, stages=frozenset({"fix"}))
    site = start(fixing)
    assert set(site.at_place) == set(WREN.layout.by_tag) == set(site.holds)
    _, event = do(site, HandOver())
    assert event.fell == ()
    standing = Job(WREN.layout, stages=frozenset({"stand"}))
    site = at(standing, stand(standing, "TG1"))
    assert unready(site, "TG1") == ()
    _, event = do(site, stand(standing, "T1"))
    assert event.fell == ()
    braced = Job(WREN.layout, stages=frozenset({"stand", "brace"}))
    site = at(braced, stand(braced, "TG1"), Brace(kind="solid", tags=("TG1",)), stand(braced, "J1"))
    assert site.holds["J1"] == "fastened"


def test_an_action_changes_nothing_of_the_site_before_it() -> None:
    site = start(WREN)
    index = 0
    for tag in ("G1", "TG1", "TG2", "H1", "T1", "T4", "J1"):
        for action in set_up(WREN.layout, tag):
            before: dict[str, Any] = {name: repr(getattr(site, name)) for name in Site.__slots__ if name != "job"}
            after, _ = do(site, action, index)
            assert before == {name: repr(getattr(site, name)) for name in before}
            site, index = after, index + 1
    assert site.done == index


def test_the_site_knows_what_every_action_does() -> None:
    """Each kind of action is either done or refused in words; none is unknown to the fold."""
    assert set(fold.DOING) == set(get_args(AnyAction))
