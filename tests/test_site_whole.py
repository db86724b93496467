"""Pre-start, delivery, straightening, bracing taken off, and the inspection: what the site does with each."""

from __future__ import annotations

from dataclasses import replace

import pytest
from attempts import layout_of, set_up

from trainer.site import (
    AnyAction,
    Brace,
    Conditions,
    Event,
    Fix,
    Flaw,
    HandOver,
    Job,
    Limits,
    Refused,
    Remove,
    Site,
    Stand,
    act,
    height,
    permanently_held,
    shape,
    start,
)
from trainer.site.actions import Check, Cut, Inspect, Load, Measure, Plumb, Report, String, Unbrace
from trainer.site.holding import restrain

LAYOUT = layout_of("wren")
SEEDS = range(40)


def job(*flaws: Flaw, seed: int = 0) -> Job:
    return Job(LAYOUT, seed=seed, conditions=Conditions(flaws=flaws))


def do(site: Site, *actions: AnyAction) -> tuple[Site, Event]:
    for index, action in enumerate(actions):
        result = act(site, index, action)
        assert not isinstance(result, Refused), f"{action!r}: {result.why}"
        site, event = result
    return site, event


def why(site: Site, action: AnyAction) -> str:
    result = act(site, 0, action)
    assert isinstance(result, Refused), f"{action!r} was done"
    return result.why


def stand(tag: str, in_place_of: str = "") -> Stand:
    place = LAYOUT.by_tag[in_place_of or tag]
    return Stand(tag=tag, start=place.start, finish=place.finish)


def reading(site: Site, action: Measure) -> tuple[float, float]:
    _, event = do(site, action)
    assert event.reading
    return event.reading.got, event.reading.want


def test_pre_start_items_are_the_levels() -> None:
    site, _ = do(start(job()), Check(item="edge protection"), Check(item="weather"))
    assert site.checked == {"edge protection", "weather"}
    assert "Did you mean 'lifting plan'?" in why(site, Check(item="lifting plans"))


def test_a_measured_wall_shows_what_is_wrong_with_it_within_a_tapes_error() -> None:
    site = start(
        job(
            Flaw("bowed wall", wall="A", by=25),
            Flaw("plate out of level", wall="B", by=-12),
            Flaw("out of square", wall="C", by=18),
            Flaw("wrong length", wall="D", by=-40),
        )
    )
    for what, wall, true in (("straight", "A", 25), ("straight", "B", 0), ("level", "B", -12), ("level", "A", 0)):
        got, want = reading(site, Measure(what=what, wall=wall))
        assert abs(got - true) <= 1
        assert want == 0
    got, want = reading(site, Measure(what="diagonals", wall="A"))
    assert abs(got - want - 18) <= 1
    got, want = reading(site, Measure(what="length", wall="A"))
    assert want == LAYOUT.house.plan.by_name["A"].length
    assert abs(got - want) <= 1
    got, want = reading(site, Measure(what="length", wall="D"))
    assert abs(got - want + 40) <= 1


def test_measuring_changes_nothing_but_the_count_and_each_reading_has_its_own_error() -> None:
    site, _ = do(start(job(seed=3)), stand("ST1"))
    seen = set()
    for _ in range(6):
        after, event = do(site, Measure(what="plumb", tag="ST1"))
        assert event.reading
        seen.add(event.reading.got)
        assert replace(after, readings=site.readings, before=site.before, done=site.done) == site
        site = after
    assert len(seen) > 1


def test_a_flaw_that_is_reported_is_put_right_and_another_is_not() -> None:
    bowed = Flaw("bowed wall", wall="A", by=25)
    site, event = do(start(job(bowed)), Report(fault="bowed wall", wall="B"))
    assert event.put_right == ()
    assert site.flaws == (bowed,)
    site, event = do(site, Report(fault="bowed wall", wall="A"))
    assert event.put_right == (bowed,)
    assert site.flaws == ()
    assert abs(reading(site, Measure(what="straight", wall="A"))[0]) <= 1


def test_a_missing_truss_cannot_be_stood_until_it_is_reported() -> None:
    site = start(job(Flaw("missing truss", tag="ST3")))
    assert "did not come with the load" in why(site, stand("ST3"))
    site, _ = do(site, Report(fault="missing truss", tag="ST3"), stand("ST3"))
    assert "ST3" in site.stood


def test_swapped_tags_send_the_wrong_truss_up_until_they_are_reported() -> None:
    swapped = Flaw("swapped tag", tag="T1", other="T2")
    site, _ = do(start(job(swapped)), stand("T1"))
    assert (site.stood["T1"].piece, site.stood["T1"].place) == ("T2", "T1")
    assert "Take it down" in why(site, Report(fault="swapped tag", tag="T2"))
    site, _ = do(start(job(swapped)), Report(fault="swapped tag", tag="T2"), stand("T1"))
    assert site.stood["T1"].piece == "T1"


def test_a_standing_truss_is_not_changed_for_another() -> None:
    site, _ = do(start(job(Flaw("broken web", tag="ST1"))), stand("ST1"))
    assert "Take it down" in why(site, Report(fault="broken web", tag="ST1"))
    site, event = do(site, Remove(tag="ST1"), Report(fault="broken web", tag="ST1"))
    assert len(event.put_right) == 1


def test_a_truss_is_as_true_as_its_own_name_and_turn_make_it() -> None:
    """One more action elsewhere changes nothing; stood again, it stands otherwise."""
    site, _ = do(start(job(seed=5)), stand("ST1"))
    later, _ = do(site, Brace(kind="solid", tags=("ST1",)), stand("ST2"), stand("G1"))
    assert shape(later, "ST1") == shape(site, "ST1")
    again, _ = do(site, Remove(tag="ST1"), stand("ST1"))
    assert shape(again, "ST1") != shape(site, "ST1")
    assert shape(do(start(job(seed=6)), stand("ST1"))[0], "ST1") != shape(site, "ST1")


def test_straightening_brings_every_truss_within_the_limits() -> None:
    """Lesser of height/50 and 50, of length/200 and 50: the trade brief's limits and where they are from."""
    loose = 0
    for seed in SEEDS:
        site, _ = do(start(job(seed=seed)), stand("ST1"))
        member = LAYOUT.by_tag["ST1"]
        plumb, bow = min(height(member) / 50, 50), min(member.span / 200, 50)
        loose += abs(shape(site, "ST1").lean) > plumb or abs(shape(site, "ST1").bow) > bow
        site, _ = do(site, Plumb(tag="ST1"))
        assert abs(shape(site, "ST1").lean) <= plumb
        assert abs(shape(site, "ST1").bow) <= bow
    assert len(SEEDS) / 5 < loose < len(SEEDS)


def test_a_low_limit_is_the_lesser_of_ratio_and_cap() -> None:
    limits = Limits(plumb_ratio=50, plumb_cap=50, bow_ratio=200, bow_cap=50)
    assert (limits.plumb(1000), limits.plumb(4000)) == (20, 50)
    assert (limits.bow(7200), limits.bow(12000)) == (36, 50)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_bowed_plate_puts_the_apex_out_and_a_string_shows_and_mends_it(seed: int) -> None:
    bowed = job(Flaw("bowed wall", wall="A", by=80), seed=seed)
    straight = job(seed=seed)
    row = [tag for tag in LAYOUT.rows["W1"] if LAYOUT.by_tag[tag].kind == "standard"]
    first, middle, last = row[0], row[len(row) // 2], row[-1]
    standing = [a for tag in (first, last, middle) for a in (stand(tag), Brace(kind="solid", tags=(tag,)))]
    site, _ = do(start(bowed), *standing)
    assert abs(shape(site, middle).apex) > 20
    sighted, _ = do(start(straight), *standing, Plumb(tag=middle))
    assert abs(shape(sighted, middle).apex) <= Limits().apex
    by_the_plate, _ = do(site, Plumb(tag=middle))
    assert abs(shape(by_the_plate, middle).apex) > 20
    assert "Pull one" in why(site, Measure(what="apex", tag=middle))
    between_crooked_ends, _ = do(site, String(start=first, finish=last), Plumb(tag=middle))
    assert abs(shape(between_crooked_ends, middle).apex) > 20
    strung, _ = do(site, Plumb(tag=first), Plumb(tag=last), String(start=first, finish=last))
    assert abs(reading(strung, Measure(what="apex", tag=middle))[0]) > 15
    lined_up, _ = do(strung, Plumb(tag=middle))
    assert abs(shape(lined_up, middle).apex) <= Limits().apex
    assert abs(reading(lined_up, Measure(what="apex", tag=middle))[0]) <= 3.5


def test_a_string_goes_along_a_row_of_standing_trusses() -> None:
    site, _ = do(start(job()), stand("ST1"), stand("G1"))
    assert "not standing" in why(site, String(start="ST1", finish="ST2"))
    assert "two trusses" in why(site, String(start="ST1", finish="ST1"))
    assert "not in one row" in why(site, String(start="ST1", finish="G1"))


def test_extensions_left_unfixed_end_in_leaning_trusses_and_fixed_ones_do_not() -> None:
    """A failure told in the trade press: five trusses out by up to 350 (Timber Trader News, 11 October 2015)."""
    limit = min(height(LAYOUT.by_tag["T1"]) / 50, 50)
    crossing = next(c for c in LAYOUT.crossings if c.under == "T1" and c.what == "extension")
    built = [a for tag in ("TG1", "T1", crossing.over) for a in set_up(LAYOUT, tag)]
    unfixed, _ = do(start(job()), *built, Plumb(tag="T1"), HandOver())
    assert limit < shape(unfixed, "T1").lean <= 350
    fix = Fix(tag=crossing.over, at=crossing.at, with_="framing anchor")
    fixed, _ = do(start(job()), *built, Plumb(tag="T1"), fix, HandOver())
    assert abs(shape(fixed, "T1").lean) <= limit


def test_taking_off_the_brace_that_held_the_row_lets_it_go() -> None:
    batten = Brace(kind="batten", tags=("ST1", "ST2"))
    site, _ = do(start(job()), stand("ST1"), Brace(kind="solid", tags=("ST1",)), stand("ST2"), batten)
    after, event = do(site, Unbrace(kind="solid", tags=("ST1",)))
    assert (set(event.let_go), set(event.fell)) == ({"ST1", "ST2"}, {"ST1", "ST2"})
    assert "ST1" in after.holds
    after, event = do(site, Unbrace(kind="batten", tags=("ST2", "ST1")))
    assert (event.let_go, event.fell) == (("ST2",), ())
    assert after.ties == {}


def test_taking_off_one_brace_of_two_lets_nothing_go() -> None:
    both = [Brace(kind="solid", tags=("ST1",)), Brace(kind="solid", tags=("ST1",))]
    site, event = do(start(job()), stand("ST1"), *both, Unbrace(kind="solid", tags=("ST1",)))
    assert event.let_go == ()
    assert "ST1" in site.holds


def test_temporary_bracing_may_come_off_once_the_permanent_bracing_that_replaces_it_is_in() -> None:
    batten = Brace(kind="batten", tags=("ST1", "ST2"))
    solid = Brace(kind="solid", tags=("ST1",))
    site, _ = do(start(job()), stand("ST1"), solid, stand("ST2"), batten)
    braced = restrain(site, frozenset({"ST1", "ST2"}))
    assert permanently_held(braced, "ST2")
    after, event = do(braced, Unbrace(kind="batten", tags=("ST1", "ST2")), Unbrace(kind="solid", tags=("ST1",)))
    assert event.let_go == ()
    assert "ST1" in after.holds
    assert "ST2" in after.holds
    taken_down, _ = do(after, Remove(tag="ST2"))
    assert not permanently_held(taken_down, "ST2")


def test_only_bracing_that_is_on_comes_off() -> None:
    site, _ = do(start(job()), stand("ST1"), Brace(kind="solid", tags=("ST1",)))
    assert "no batten on ST1" in why(site, Unbrace(kind="batten", tags=("ST1",)))
    assert "not standing" in why(site, Unbrace(kind="batten", tags=("ST1", "ST2")))


def test_cutting_loading_and_inspecting_are_kept() -> None:
    assert "nothing to load" in why(start(job()), Load(what="battens"))
    site, _ = do(
        start(job()), stand("ST1"), Cut(tag="ST1", where="web"), Cut(tag="T1", where="tail"), Load(what="tiles")
    )
    assert site.cuts == {"ST1": ("web",), "T1": ("tail",)}
    assert site.loads == ("tiles",)
    site, _ = do(site, Inspect(tag="ST1", accept=True), Inspect(tag="ST1", accept=False))
    assert site.inspected == {"ST1": False}
    assert "not standing" in why(site, Inspect(tag="T1", accept=True))
    assert "Did you mean" in why(site, Cut(tag="STT1", where="web"))
