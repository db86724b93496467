"""Dangers of the day on levels and in diaries: each on two houses at least, quick to do, told plainly where wrong."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace
from typing import get_args

import pytest
from attempts import LEVELS, actions_of, attempt, layout_of, level_of

from trainer.layout import lay_out
from trainer.level import parse_level
from trainer.level.dangers import DangerKind
from trainer.picture.dangers import in_space, on_plan, spots, words_on_plan
from trainer.picture.model import Item, Text
from trainer.picture.space import Turn
from trainer.read import Faulty
from trainer.session import Session, job_of, lift_sheet, site_faults
from trainer.shipped import find_level
from trainer.site import Flaw, Site, Stand, come_up, parse_diary, plans, write_diary
from trainer.site.actions import Check, Measure, Stop
from trainer.site.lifting import mass

ACTS = 12
"""Acts that the look round, the lift plan, a stop and the last word may cost on one house."""


def found(site: str):
    """The first shipped house with a site block of its own."""
    return parse_level(find_level("pardalote").read_text(encoding="utf-8") + site + "\n", "pardalote.yaml")


def test_each_danger_is_on_two_houses_at_least() -> None:
    kinds = Counter(kind for name in LEVELS for kind in {danger.what for danger in level_of(name).site.dangers})
    assert set(kinds) == set(get_args(DangerKind))
    assert min(kinds.values()) >= 2, kinds


@pytest.mark.parametrize("name", LEVELS)
def test_all_of_it_is_a_dozen_acts_at_most(name: str) -> None:
    """Kinds of truss that are lifted the same way are planned in one go."""
    job, site = job_of(level_of(name), 0, layout=layout_of(name)), level_of(name).site
    if not (site.dangers or site.lifting or site.loading):
        return
    alike = {plans(job, kind)[0].model_copy(update={"kind": "standard"}) for kind in job.lifts if site.lifting}
    assert len(site.checks) + len(site.dangers) + len(alike) + site.loading <= ACTS


@pytest.mark.parametrize(
    ("entry", "says"),
    [
        ("{what: service line}", "wants at: "),
        ("{what: servce line, at: [0, 0]}", "service line"),
        ("{what: missing rail, at: [0, 0]}", "wants wall: alone"),
        ("{what: gust forecast, wall: A}", "lies nowhere"),
        ("{what: gust at noon}", "does not say when"),
        ("{what: open stair void, at: [0, 0], after: 3}", "takes no after"),
        ("{what: missing rail, wall: A, clear: 3000}", "only a service line takes"),
    ],
)
def test_what_a_danger_gets_wrong_is_told(entry: str, says: str) -> None:
    with pytest.raises(Faulty, match=says):
        found(f"site: {{dangers: [{entry}]}}")


def test_dangers_where_the_house_has_no_such_place_are_told() -> None:
    level = found(
        "site: {dangers: [{what: missing rail, wall: Q}, {what: sling at the apex, tag: ST99}, "
        "{what: gust at noon, after: 9}], checks: [method statement]}"
    )
    told = dict(site_faults(level, lay_out(level.house())))
    assert set(told) >= {
        ("site", "dangers", 0, "wall"),
        ("site", "dangers", 1, "tag"),
        ("site", "dangers", 2, "after"),
        ("site", "dangers", 0),
    }
    assert "add 'edge protection'" in told["site", "dangers", 0]


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("{do: report, fault: service line, wall: A}", "wants at: "),
        ("{do: report, fault: gust forecast, tag: ST1}", "lies nowhere"),
        ("{do: report, fault: bowed wall, wall: A, at: [0, 0]}", "takes no at"),
        ("{do: measure, what: clearance, wall: A}", "wants at: "),
        ("{do: plan, kind: standard, by: crane, people: 2}", "give slung"),
        ("{do: plan, kind: standard, by: hand, people: 2, slung: apex}", "leave slung"),
        ("{do: plan, kind: standart, by: hand, people: 2}", "standard"),
        ("{do: load, what: packs, pattern: both slops}", "both slopes"),
    ],
)
def test_what_a_diary_gets_wrong_is_told(line: str, says: str) -> None:
    with pytest.raises(Faulty, match=says):
        parse_diary(f"schema: 1\nlevel: pardalote\nactions:\n- {line}\n", "diary.yaml")


def test_a_diary_of_the_new_verbs_comes_out_the_same_once_read() -> None:
    text = (
        "schema: 1\nlevel: pardalote\nseed: 0\nactions:\n"
        "- {do: measure, what: clearance, at: [4200, -1800]}\n"
        "- {do: report, fault: service line, at: [4200, -1800]}\n"
        "- {do: plan, kind: standard, by: crane, people: 2, slung: panel points}\n"
        "- {do: stop}\n"
        "- {do: load, what: packs, pattern: both slopes}\n"
    )
    assert write_diary(parse_diary(text, "diary.yaml")) == text


def test_a_kind_of_truss_that_the_house_lacks_is_refused_in_plain_words() -> None:
    (refused,) = attempt("pardalote", actions_of([{"do": "plan", "kind": "hip", "by": "hand", "people": 2}])).refused
    assert refused[1].startswith("There is no kind of truss 'hip' on this job.")


def test_old_names_of_places_are_still_looked_at() -> None:
    old = ("falls inside", "lifting plan", "power lines", "studs under girders", "plates")
    assert attempt("pardalote", [Check(item=item) for item in old]).refused == ()


def test_a_look_shows_a_danger_and_leaves_it_there() -> None:
    """Ticking alone does not pass a danger."""
    session = Session(found("site: {dangers: [{what: open stair void, at: [3000, 2400]}]}"), 0)
    for item in session.job.conditions.checks:
        seen = session.do(Check(item=item)).event.seen
        assert [flaw.what for flaw in seen] == (["open stair void"] if item == "edge protection" else [])
    found_then = session.do(Stand(tag="ST1", start=(900, 0), finish=(900, 4800))).findings
    assert "stair-void-open" in {finding.rule for finding in found_then}


def test_clearance_is_read_where_the_line_is_and_there_is_room_elsewhere() -> None:
    session = Session(found("site: {dangers: [{what: service line, at: [3000, -1500], clear: 2100}]}"), 0)
    near, far = (
        session.do(Measure(what="clearance", at=at)).event.reading for at in ((3400.0, -1200.0), (9000.0, 6000.0))
    )
    assert (near.got, near.want) == (2100, 3000)
    assert far.got > far.want


def test_hints_secure_the_row_then_stop_before_the_next_lift() -> None:
    session = Session(found("site: {dangers: [{what: gust at noon, after: 3}]}"), 0)
    lifted, stopped = 0, False
    while hints := session.hint():
        if lifted == 3 and not stopped:
            assert not [hint for hint in hints if isinstance(hint.action, Stand)]
        action = hints[0].action
        outcome = session.do(action)
        assert not outcome.findings
        lifted += isinstance(action, Stand)
        if isinstance(action, Stop):
            assert lifted == 3
            assert set(session.site.stood) == set(session.site.holds)
            stopped = True
    assert stopped and session.site.handed_over


def test_a_gust_is_felt_when_it_comes_and_undone_with_its_lift() -> None:
    session = Session(found("site: {dangers: [{what: gust at noon, after: 1}]}"), 0)
    felt = session.do(Stand(tag="ST1", start=(900, 0), finish=(900, 4800))).event.seen
    assert [flaw.in_words for flaw in felt] == ["The wind gets up. A strong gust goes through the row."]
    session.undo()
    assert come_up(session.site) == ()


def test_the_mass_of_a_truss_is_that_of_its_timber() -> None:
    """By hand for a span of 3000 at 20 degrees: (90 (3600 / cos 20 + 3000) + 70 × 543.06) × 35 × 550 kg/m³."""
    layout = layout_of("shed")
    truss = layout.by_tag["ST1"]
    chords = 90 * (3600 / math.cos(math.radians(20)) + 3000)
    post = 90 + 1500 * math.tan(math.radians(20)) - 45 / math.cos(math.radians(20)) - 45
    assert mass(truss, layout.house, 550) == pytest.approx((chords + 70 * post) * 35 * 550e-9)


def test_a_plan_by_the_level_s_limits_is_right_on_either_side_of_them() -> None:
    job = job_of(found("site: {lifting: {by_hand_span: 4800, spread_over: 4800}}"), 0)
    assert plans(job, "standard")[0].by == "hand"
    assert "panel points" in {plan.slung for plan in plans(job, "standard")}
    job = job_of(found("site: {lifting: {by_hand_span: 4799, spread_over: 4799}}"), 0)
    assert {(plan.by, plan.slung) for plan in plans(job, "standard")} == {("crane", "spread slings")}


def test_the_job_sheet_says_what_the_lift_plan_goes_by() -> None:
    assert list(lift_sheet(job_of(found("site: {wind: calm}"), 0))) == []
    job = job_of(found("site: {lifting: {by_hand: 45}}"), 0)
    said = list(lift_sheet(job))
    assert "no more than 45 kg and 4800 mm long" in said[1]
    assert f"7 standard trusses, up to {job.lifts['standard'].mass:.0f} kg and 4800 mm long." in said


PLACED = (
    Flaw("service line", at=(4000, -700), clear=2000),
    Flaw("open stair void", at=(2000, 1500)),
    Flaw("missing rail", wall="A"),
    Flaw("missing platform", at=(1000, 800)),
    Flaw("people in the exclusion zone", at=(3000, 2000)),
    Flaw("wall not braced", wall="C"),
    Flaw("pack on a lintel", wall="D"),
    Flaw("pack on a half-braced row", at=(2000, 2000), after=1),
    Flaw("gust at noon", after=1),
)


@pytest.mark.parametrize("flaw", PLACED, ids=lambda flaw: flaw.what)
def test_what_lies_somewhere_is_drawn_in_plan_and_in_space_until_it_is_put_right(flaw: Flaw) -> None:
    def drawn(site: Site) -> tuple[list[Item], list[Item]]:
        return [*on_plan(site, above=False), *on_plan(site, above=True), *words_on_plan(site)], in_space(site, Turn())

    stand = Stand(tag="ST1", start=(900, 0), finish=(900, 3000))
    site = attempt("shed-pre-start", [stand], (flaw,)).site
    for items in drawn(site):
        assert [item for item in items if not isinstance(item, Text)]
        assert [item.text for item in items if isinstance(item, Text)] == [spot.word for spot in spots(site)] != []
    assert drawn(replace(site, put_right=frozenset({flaw}))) == ([], [])


def test_no_danger_of_the_day_is_drawn_before_it_comes() -> None:
    site = attempt("shed-pre-start", [], PLACED).site
    assert {spot.flaw.what for spot in spots(site)} == {flaw.what for flaw in PLACED if not flaw.after}
    named = {spot.flaw.what: spot.item for spot in spots(site)}
    assert named["missing rail"] == "edge protection"
    assert named["service line"] == "", "this level's own list has no place that shows it"


def test_each_shape_is_another() -> None:
    """Nothing depends on colour or on words alone."""
    shapes = set()
    for flaw in PLACED:
        site = attempt("shed-pre-start", [Stand(tag="ST1", start=(900, 0), finish=(900, 3000))], (flaw,)).site
        items = [item for item in in_space(site, Turn()) if not isinstance(item, Text)]
        shapes.add(tuple((type(item), len(item.points), getattr(item, "dash", ())) for item in items))
    assert len(shapes) >= len(PLACED) - 1, "the two packs are alike"
