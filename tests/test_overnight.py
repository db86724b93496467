"""The end of a day: what is left for the night, and what a strong wind does to it (common practice, no source)."""

from __future__ import annotations

from dataclasses import replace

import pytest
from attempts import LEVELS, attempt, layout_of, level_of, right
from sizes import by_size, some

from trainer.rehearse import plant
from trainer.session import Session, job_of
from trainer.site import AnyAction, Brace, Event, Fix, Refused, Site, Stand, act, start
from trainer.site.actions import Plumb

SHED = layout_of("shed-days")
OVER_DAYS = [name for name in LEVELS if level_of(name).site.day is not None]
"""Shipped levels that take more than a day."""


def stand(tag: str) -> Stand:
    return Stand(tag=tag, start=SHED.by_tag[tag].start, finish=SHED.by_tag[tag].finish)


def fixed(tag: str) -> list[AnyAction]:
    return [Fix(tag=tag, end=end, with_="framing anchor") for end in (1, 2)]


def three_in_line(*more: AnyAction) -> list[AnyAction]:
    """A day's three trusses: one solid, two on battens; all fixed at both ends."""
    return [
        *(stand("ST1"), Brace(kind="solid", tags=("ST1",)), *fixed("ST1")),
        *(stand("GT1"), Brace(kind="batten", tags=("ST1", "GT1")), *fixed("GT1")),
        *(stand("ST2"), *fixed("ST2"), Brace(kind="batten", tags=("ST1", "ST2"))),
        *more,
    ]


def morning(wind: str, *more: AnyAction) -> tuple[Site, Event]:
    """The site once the first truss of the next day stands, and the event of standing it."""
    job = job_of(level_of("shed-days"), 0, layout=SHED)
    site = start(replace(job, conditions=replace(job.conditions, wind=wind)))
    for index, action in enumerate([*three_in_line(*more), stand("ST3")]):
        result = act(site, index, action)
        assert not isinstance(result, Refused)
        site, event = result
    return site, event


def test_a_day_ends_after_as_many_trusses_as_the_level_says() -> None:
    session = attempt("shed-days", [*three_in_line(), stand("ST3")])
    nights = [outcome.event.night for outcome in session.outcomes if outcome.event]
    assert [night is not None for night in nights] == [False] * 12 + [True]
    assert (session.site.today, session.site.nights) == (1, 1)
    assert all(night is None for night in [o.event.night for o in attempt("shed", three_in_line()).outcomes if o.event])


def test_a_row_left_unsafe_is_marked_again_each_night() -> None:
    """Each evening is a fresh chance to make it safe: common practice, no source."""
    first, second = attempt("shed-days", three_in_line()), attempt("shed-days", three_in_line())
    second._site = replace(second.site, nights=1)
    found = [f for night in (first, second) for f in night.do(stand("ST3")).findings]
    assert len({f.cause for f in found if f.rule == "row-left-unsafe-overnight"}) == 2


@pytest.mark.parametrize(("wind", "falls"), [("calm", False), ("fresh", False), ("strong", True)])
def test_a_strong_wind_takes_a_row_that_can_rack_and_it_is_put_back_braced(wind: str, falls: bool) -> None:
    after, event = morning(wind)
    assert event.night is not None
    assert [row for row, _tags in event.night.unsafe] == ["W1"]
    assert set(event.fell) == ({"GT1", "ST1", "ST2"} if falls else set())
    assert {"GT1", "ST1", "ST2"} <= set(after.stood) & set(after.holds)


@pytest.mark.parametrize(
    "steadied",
    [
        [Brace(kind="diagonal", tags=("ST1", "ST2"))],
        [Brace(kind="steel brace", tags=("GT1", "ST1", "ST2"))],
        [Brace(kind="solid", tags=("ST2",))],
    ],
)
def test_a_diagonal_a_steel_brace_or_a_second_solid_brace_makes_a_row_safe(steadied: list[AnyAction]) -> None:
    _after, event = morning("strong", *steadied)
    assert event.night is not None
    assert (event.night.unsafe, event.fell) == ((), ())


def test_a_truss_stood_again_is_no_more_of_the_days_work() -> None:
    session = attempt("shed-days", [*three_in_line(), Plumb(tag="ST2")])
    assert session.site.today == 3


def test_what_is_left_loose_at_night_is_let_go() -> None:
    session = attempt("shed-days", [*three_in_line()[:-1], stand("ST3")])
    assert {(f.rule, f.member) for f in session.findings} >= {("stood-before-last-tied", "ST2")}


@pytest.mark.parametrize("level", [*some(OVER_DAYS, 1), "shed-days"])
def test_right_orders_leave_every_night_safe(level: str) -> None:
    few = len(layout_of(level).members) > 100
    for seed in range(by_size(1, 1, 2) if few else by_size(2, 3, 6)):
        session = Session(level_of(level), seed, layout=layout_of(level))
        session.replay(right(level, seed))
        assert (session.findings, session.refused) == ((), ())
        assert session.site.nights == (len(session.site.turns) - 1) // (session.job.conditions.day or 1)


@pytest.mark.parametrize("level", some(OVER_DAYS, 1))
def test_a_row_left_unsafe_overnight_is_found_on_every_house_of_days_and_taught_there(level: str) -> None:
    assert layout_of(level).members[level_of(level).site.day or 0 :], "the house takes more than its first day"
    assert "row-left-unsafe-overnight" in level_of(level).lesson.teaches or level == "bee-eater"
    planted = plant(job_of(level_of(level), 5, layout=layout_of(level)), 5, "row-left-unsafe-overnight")
    session = Session(level_of(level), 5, layout=layout_of(level)).replay(planted.actions)
    found = [(f.rule, f.member, f.event) for f in session.findings]
    assert found[0] == ("row-left-unsafe-overnight", planted.member, planted.event)
    # Each night that it stays so; where the wind took the row, work went on.
    assert {rule for rule, _member, _event in found} <= {"row-left-unsafe-overnight", "worked-on-after-a-fall"}


def test_hints_make_the_rows_safe_before_the_next_day() -> None:
    session = Session(level_of("shed-days"), 0, layout=SHED).replay(three_in_line())
    hints = session.hint()
    assert [hint.step.verb for hint in hints if hint.step.verb in ("secure", "stand")] == ["secure"]
    while hints := session.hint():
        assert not session.do(hints[0].action).findings
    assert session.site.handed_over


def test_two_ends_of_a_row_that_nothing_ties_together_do_not_steady_each_other() -> None:
    far = [stand("ST4"), Brace(kind="solid", tags=("ST4",)), *fixed("ST4")]
    job = job_of(level_of("shed-days"), 0, layout=SHED)
    site = start(replace(job, conditions=replace(job.conditions, day=4)))
    for index, action in enumerate([*three_in_line(*far), stand("ST3")]):
        result = act(site, index, action)
        assert not isinstance(result, Refused)
        site, event = result
    assert event.night is not None
    assert event.night.unsafe == (("W1", ("GT1", "ST1", "ST2")),)


def test_no_night_is_judged_where_the_bracing_counts_as_done() -> None:
    level = level_of("shed-days")
    done = level.model_copy(update={"lesson": level.lesson.model_copy(update={"stages": ("stand", "fix")})})
    unbraced = [action for action in three_in_line() if not isinstance(action, Brace)]
    session = Session(done, 0, layout=SHED).replay([*unbraced, stand("ST3")])
    assert {finding.rule for finding in session.findings} <= {"out-of-order"}
