"""The precedence graph, held against the trade brief's "Order of work" (common practice, no source)."""

from __future__ import annotations

from functools import cache
from graphlib import TopologicalSorter

import pytest
from attempts import LEVELS, SHIPPED, layout_of

from trainer.layout import Layout, Member
from trainer.order import Edge, Order, Step, order_of
from trainer.terms import STAGES

ALL = frozenset(STAGES)
FASTENED = ("hip", "jack", "creeper", "saddle")
"""Kinds that their fixings hold up; the others tip over until they are braced."""


@cache
def order(level: str) -> Order:
    return order_of(layout_of(level), ALL)


def edges(of: Order) -> list[Edge]:
    return [edge for found in of.into.values() for edge in found]


def stands_first(of: Order, first: str, then: str, strength: str) -> bool:
    """Whether one truss is to be stood before another, by one edge of this strength."""
    into = of.into[Step("stand", then)]
    return any(edge.first == Step("stand", first) and edge.strength == strength for edge in into)


def of_kind(layout: Layout, kind: str, row: str = "") -> list[Member]:
    return [m for m in layout.members if m.kind == kind and row in ("", m.row)]


@pytest.mark.parametrize("level", LEVELS)
def test_the_graph_has_no_circle_and_ends_with_the_hand_over(level: str) -> None:
    found = order(level)
    sorter = TopologicalSorter({step: [edge.first for edge in into] for step, into in found.into.items()})
    steps = list(sorter.static_order())  # the library raises on a circle
    assert set(steps) == set(found.steps)
    assert steps[-1].verb == "hand_over"
    assert [step for step in found.steps if not found.out_of[step]] == [steps[-1]]


@pytest.mark.parametrize("level", LEVELS)
def test_both_ways_of_reading_the_graph_agree(level: str) -> None:
    found = order(level)
    assert {edge for into in found.into.values() for edge in into} == {
        edge for out in found.out_of.values() for edge in out
    }
    assert all(edge.then == step for step, into in found.into.items() for edge in into)
    assert all(edge.first == step for step, out in found.out_of.items() for edge in out)


@pytest.mark.parametrize("level", LEVELS)
def test_a_carrier_is_stood_braced_bracketed_and_fixed_before_what_it_carries(level: str) -> None:
    layout, found = layout_of(level), order(level)
    for member in layout.members:
        must = {edge.first for edge in found.into[Step("stand", member.tag)] if edge.strength == "must"}
        wanted = set()
        for carrier in (layout.by_tag[tag] for tag in member.carried_by):
            wanted |= {Step("stand", carrier.tag), Step("fix", carrier.tag, 1), Step("fix", carrier.tag, 2)}
            if carrier.kind not in FASTENED:
                wanted.add(Step("tie", carrier.tag))
                # "saddles only over trusses that are straight, braced and fixed"
                wanted |= {Step("plumb", carrier.tag)} if member.kind == "saddle" else set()
            if carrier.plies > 1:
                wanted.add(Step("join", carrier.tag))
        if member.kind == "saddle":
            names = {end.bears_on for end in member.ends}
            wanted |= {Step("trim", member.tag, i) for i, part in enumerate(layout.parts) if part.name in names}
            wanted.add(Step("seat", member.tag))
        else:
            hung = [i for i, end in enumerate(member.ends, 1) if not end.bears_on.startswith("plate ")]
            wanted |= {Step("fit", member.tag, end) for end in hung}
        assert must == wanted


@pytest.mark.parametrize("level", LEVELS)
def test_good_habit_never_reaches_into_another_wing(level: str) -> None:
    layout = layout_of(level)
    habits = [edge for edge in edges(order(level)) if edge.strength == "should"]
    assert habits or layout.at_wall
    for edge in habits:
        assert (edge.first.verb, edge.then.verb) in (("stand", "stand"), ("string", "stand"))
        assert layout.by_tag[edge.first.tag].wing == layout.by_tag[edge.then.tag].wing


@pytest.mark.parametrize("level", [name for name in SHIPPED if name not in ("pardalote", "robin")])
def test_habits_of_a_wing_with_hip_ends(level: str) -> None:
    """Both truncated girders, then hips; truncated, then jacks and creepers; hip ends before the middle."""
    layout, found = layout_of(level), order(level)
    girders = of_kind(layout, "truncated_girder", "W1")
    assert len(girders) == 2
    for hip in of_kind(layout, "hip"):
        if hip.row.startswith("W1 "):
            assert all(stands_first(found, girder.tag, hip.tag, "should") for girder in girders)
    for standard in of_kind(layout, "standard", "W1"):
        for member in layout.members:
            if member.row.startswith("W1 hip end") or (member.kind == "truncated" and member.row == "W1"):
                assert stands_first(found, member.tag, standard.tag, "should")
    along = 0 if girders[0].start[0] == girders[0].finish[0] else 1  # trusses run straight across the row
    middle = (girders[0].start[along] + girders[1].start[along]) / 2
    for truncated in of_kind(layout, "truncated", "W1"):
        for carried in layout.members:
            if carried.kind in ("jack", "creeper") and carried.row.startswith("W1 "):
                same_end = (truncated.start[along] < middle) == (carried.finish[along] < middle)
                assert stands_first(found, truncated.tag, carried.tag, "should") == same_end


def test_a_girder_goes_first_in_its_own_wing_only() -> None:
    layout, found = layout_of("wren"), order("wren")
    (girder,) = of_kind(layout, "girder")
    for member in layout.members:
        habit = member.kind != "girder" and member.wing == girder.wing
        assert stands_first(found, girder.tag, member.tag, "should") == habit


def test_at_gables_the_outermost_full_height_trusses_go_first() -> None:
    layout, found = layout_of("pardalote"), order("pardalote")
    standards = sorted(of_kind(layout, "standard"), key=lambda m: m.station)
    outermost = {standards[0].tag, standards[-1].tag}
    for member in standards[1:-1]:
        assert {e.first.tag for e in found.into[Step("stand", member.tag)] if e.strength == "should"} == outermost
    assert not any(e.strength == "should" for tag in outermost for e in found.into[Step("stand", tag)])
    for gable in of_kind(layout, "gable"):
        first = min(standards, key=lambda m: abs(m.start[0] - gable.start[0]))
        assert {e.first.tag for e in found.into[Step("stand", gable.tag)] if e.strength == "should"} == {first.tag}


def test_stages_that_count_as_done_leave_no_steps() -> None:
    layout = layout_of("wren")
    found = order_of(layout, frozenset({"stand"}))
    assert {step.verb for step in found.steps} == {"stand", "string", "plumb", "hand_over"}
    assert stands_first(found, "G1", "TG2", "must")
    assert {edge.first for edge in edges(found)} <= set(found.steps)


def test_what_meets_at_one_place_shares_one_mark() -> None:
    """The hip and the jack at the setback meet the truncated girder at one point (trade brief, rule 4)."""
    layout, found = layout_of("fantail"), order("fantail")
    marks = [step for step in found.steps if step.verb == "mark"]
    places = [(layout.by_tag[s.tag].ends[s.end - 1].bears_on, layout.by_tag[s.tag].ends[s.end - 1].at) for s in marks]
    assert len(places) == len(set(places))
    hip, girder = layout.by_tag["H1"], layout.by_tag["H1"].carried_by[0]
    jack = next(m for m in layout.members if m.kind == "jack" and m.finish == hip.finish)
    for tag in (hip.tag, jack.tag):
        ends = [found_mark(layout, edge) for edge in found.into[Step("stand", tag)] if edge.first.verb == "mark"]
        assert (girder, hip.finish) in ends


def found_mark(layout: Layout, edge: Edge) -> tuple[str, tuple[float, float]]:
    end = layout.by_tag[edge.first.tag].ends[edge.first.end - 1]
    return end.bears_on, end.at
