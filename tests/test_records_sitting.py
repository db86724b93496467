"""Packs, tickets and sittings: silent, against the clock, resumed after a crash, signed at the close."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
import rfc8785
from records_made import BY_HAND, NOON, Clock, attempt, chain, uuid_of

from trainer.level import parse_level
from trainer.read import Faulty
from trainer.records.attempt import Attempt
from trainer.records.collect import take_in
from trainer.records.keeping import save_what_holds
from trainer.records.keys import new_key, public_hex
from trainer.records.pack import MINUTE, AssessmentPack, Ticket, make_pack, make_ticket, read_pack, read_ticket
from trainer.records.people import attempts_of, erase
from trainer.records.proof import prove
from trainer.records.seal import seal
from trainer.records.signed import write_signed
from trainer.records.sitting import NotForYou, OpenSitting, TimeUp, sittings_of
from trainer.records.store import FILE, Store
from trainer.records.trust import examine_sitting, trust_and_why, trust_of
from trainer.records.verify import examine, examine_marks
from trainer.rehearse import rehearse
from trainer.shipped import find_level
from trainer.site import HandOver

ASSESSOR, SEAT = new_key(), new_key()
TRUSTED = {public_hex(ASSESSOR): "the assessor"}
LEVELS = [find_level(name).read_text(encoding="utf-8") for name in ("pardalote", "wren")]
DAY = 24 * 60 * MINUTE


def a_pack(**more: Any) -> AssessmentPack:
    return make_pack(ASSESSOR, "An invented assessment", LEVELS, NOON - DAY, 77, **more)


def a_ticket(pack: AssessmentPack, code: str = "wren-07", **more: Any) -> Ticket:
    return make_ticket(ASSESSOR, pack, code, "ab" * 16, NOON - 1, NOON + DAY, **more)


def sit(store: Store, pack: AssessmentPack, clock: Clock, ticket: Ticket | None = None, seed: int = 1) -> OpenSitting:
    return OpenSitting.begin(store, pack, "wren-07", ticket, uuid_of(seed), SEAT, clock)


def build(sitting: OpenSitting, mistake: str | None = None, upto: int | None = None) -> None:
    assert sitting.session is not None
    done = len(sitting.session.outcomes)
    for action in rehearse(sitting.session.level, sitting.session.job.seed, mistake).actions[done:upto]:
        assert sitting.do(action).refused is None


def test_a_sitting_from_ticket_to_counter_signature(tmp_path: Path) -> None:
    pack, clock = a_pack(minutes=60, practice_mark=90), Clock(BY_HAND)
    with Store.open(tmp_path / FILE) as store:
        sitting = sit(store, pack, clock, a_ticket(pack))
        assert sitting.place == (1, 2)
        build(sitting)
        clock.now += 10 * MINUTE
        assert sitting.next() is not None
        assert sitting.place == (2, 2)
        build(sitting, "taken-down-again")
        assert sitting.next() is None
        made = sitting.finish(SEAT)
        assert trust_of(prove(made), TRUSTED) == "supervised"
        store.add_seal(seal(ASSESSOR, "assessor", made.id, made.head, len(made.entries), clock()))
        (made,) = store.attempts(made.id)
    assert [house.mark and house.mark["outcome"] for house in made.houses] == ["met", "met"]
    assert trust_of(prove(made), TRUSTED) == "counter-signed"
    said = [*examine(made, TRUSTED | {public_hex(SEAT): "seat 4"}), *examine_marks(made)]
    said += examine_sitting(made, TRUSTED, pack)
    assert all(each.state == "holds" for each in said)
    assert any("'An invented assessment': 2 of 2 houses" in each.text for each in said)


def test_the_assessors_practice_mark_counts_then_and_when_judged_again(tmp_path: Path) -> None:
    clock = Clock()
    outcomes = {}
    for number, to_meet in enumerate((0, 100, None)):
        with Store.open(tmp_path / f"{to_meet}.db") as store:
            sitting = sit(store, a_pack(practice_mark=to_meet), clock, seed=number)
            build(sitting, "spacing-too-wide")
            sitting.next()
            made = store.attempts(uuid_of(number))[0]
            assert made.houses[0].mark is not None
            outcomes[to_meet] = made.houses[0].mark["outcome"]
            assert examine_marks(made)[0].state == "holds"
    assert outcomes[0] == "met"
    assert outcomes[100] == "not yet met"


def test_a_sitting_is_silent(tmp_path: Path) -> None:
    with Store.open(tmp_path / FILE) as store:
        sitting = sit(store, a_pack(), Clock())
        assert sitting.session is not None
        assert sitting.session.hint() == ()
        handed = sitting.do(HandOver())
        assert handed.refused is None, "however much is missing"
        assert handed.findings == ()
        assert sitting.session.findings, "they are on record"
        assert sitting.do(HandOver()).refused is not None, "only what nobody could do is told"


def test_the_time_is_the_packs_with_the_tickets_and_without_the_gap(tmp_path: Path) -> None:
    pack, clock = a_pack(minutes=30), Clock()
    path = tmp_path / FILE
    with Store.open(path) as store:
        sitting = sit(store, pack, clock, a_ticket(pack, extra=10))
        assert sitting.left() == 40 * MINUTE
        clock.now += 15 * MINUTE
        build(sitting, upto=5)
        assert sitting.left() == 25 * MINUTE
    clock.now += 500 * MINUTE  # the plug was pulled
    with Store.open(path) as store:
        (begun,) = sittings_of(store, pack, "wren-07")
        again = OpenSitting.resume(store, pack, begun, SEAT, clock)
        assert again.left() == 25 * MINUTE
        assert again.session is not None
        assert len(again.session.outcomes) == 5
        clock.now += 25 * MINUTE - 1
        build(again, upto=6)
        clock.now += 1
        assert again.left() == 0
        with pytest.raises(TimeUp, match="time is up"):
            build(again)
        made = again.finish(SEAT)
        assert sittings_of(store, pack, "wren-07") == ()
    assert [len(house.acts) for house in made.houses] == [6]
    assert made.houses[0].mark is not None
    assert made.houses[0].mark["outcome"] == "unfinished"
    assert {each.state for each in examine_sitting(made, TRUSTED, pack)} == {"holds"}
    assert any("left for 500.0 minutes" in each.text for each in examine(made, TRUSTED))


@pytest.mark.parametrize("stop", ["after the first house", "after the last", "in the first"])
def test_a_sitting_goes_on_wherever_it_stopped(stop: str, tmp_path: Path) -> None:
    pack, clock = a_pack(), Clock()
    path = tmp_path / FILE
    with Store.open(path) as store:
        sitting = sit(store, pack, clock)
        build(sitting, upto=20 if stop == "in the first" else None)
        if stop == "after the last":
            sitting.next()
            build(sitting)
        if stop != "in the first":
            assert sitting.session is not None
            sitting._journal.mark(sitting.session)  # and then the plug is pulled
    with Store.open(path) as store:
        again = OpenSitting.resume(store, pack, sittings_of(store, pack, "wren-07")[0], SEAT, clock)
        while again.session is not None:
            build(again)
            again.next()
        made = again.finish(SEAT)
    assert [house.mark and house.mark["score"] for house in made.houses] == [100, 100]
    assert {each.state for each in examine_marks(made)} == {"holds"}
    assert [each.state for each in examine_sitting(made, TRUSTED, pack)] == ["unknown", "holds"], "there was no ticket"


def test_a_stop_in_the_middle_at_the_same_seat_takes_nothing_away(tmp_path: Path) -> None:
    pack, clock = a_pack(), Clock(BY_HAND)
    made = stopped_and_gone_on(tmp_path / FILE, tmp_path / FILE, pack, clock, SEAT)
    assert trust_of(prove(made), TRUSTED) == "supervised"
    older = without_seat(made)
    assert trust_of(prove(older), TRUSTED) == "supervised", "older records do not say where they went on"


@pytest.mark.parametrize(
    ("key", "why"), [(new_key(), "came in a file"), (SEAT, "came in a file")], ids=["another seat", "the same key"]
)
def test_what_was_cut_and_brought_in_is_not_supervised_when_it_is_gone_on_with(
    key: Any, why: str, tmp_path: Path
) -> None:
    pack, clock = a_pack(), Clock(BY_HAND)
    made = stopped_and_gone_on(tmp_path / FILE, tmp_path / "other.db", pack, clock, key)
    trust, because = trust_and_why(prove(made), TRUSTED)
    assert trust == "self-study" and why in because
    assert any(each.state == "noticed" and why in each.text for each in examine(made, TRUSTED))


def test_a_sitting_gone_on_with_or_closed_by_another_seat_is_named(tmp_path: Path) -> None:
    pack, clock, other = a_pack(), Clock(BY_HAND), new_key()
    made = stopped_and_gone_on(tmp_path / FILE, tmp_path / FILE, pack, clock, other)
    assert trust_and_why(prove(made), TRUSTED) == ("self-study", "It was begun on one seat and went on on another.")
    older = without_seat(made, other)
    assert trust_and_why(prove(older), TRUSTED) == ("self-study", "It was begun on one seat and closed on another.")
    bare = Attempt(made.entries)
    assert any("did not sign it" in each.text for each in examine(bare, TRUSTED) if each.state == "unknown")
    signed = seal(ASSESSOR, "assessor", made.id, made.head, len(made.entries), clock())
    trust, because = trust_and_why(prove(Attempt(made.entries, (*made.seals, signed))), TRUSTED)
    assert trust == "counter-signed" and "on another" in because


def stopped_and_gone_on(first: Path, then: Path, pack: AssessmentPack, clock: Clock, seat: Any) -> Attempt:
    """A sitting that is begun in one store, stops after 20 acts and is closed in another, or in the same one."""
    with Store.open(first) as store:
        build(sit(store, pack, clock, a_ticket(pack)), upto=20)
        left = store.unfinished()
    with Store.open(then) as store:
        take_in(store, left)
        again = OpenSitting.resume(store, pack, sittings_of(store, pack, "wren-07")[0], seat, clock)
        while again.session is not None:
            build(again)
            again.next()
        return again.finish(seat)


def without_seat(made: Attempt, key: Any = SEAT) -> Attempt:
    """The same as an older trainer recorded it."""
    told = [{name: value for name, value in each.body.items() if name not in ("n", "seat")} for each in made.entries]
    told[0]["seat"] = made.opening["seat"]
    older = Attempt(chain(*told))
    return Attempt(older.entries, (seal(key, "seat", older.id, older.head, len(older.entries), NOON),))


def test_the_close_and_the_seats_signature_are_written_at_once(tmp_path: Path) -> None:
    with Store.open(tmp_path / FILE) as store:
        sitting = sit(store, a_pack(), Clock())
        with pytest.raises(AttributeError):
            sitting.finish(None)  # type: ignore[arg-type]
        assert not store.attempts(uuid_of(1))[0].closed


def test_that_an_open_sitting_came_in_a_file_is_saved_with_it_and_erased_with_it(tmp_path: Path) -> None:
    open_, closed = attempt(closed=False), attempt(seed=2)
    with Store.open(tmp_path / FILE) as store:
        take_in(store, [open_, closed])
        assert store.came_in_a_file(open_.id) and not store.came_in_a_file(closed.id)
        save_what_holds(store.path, tmp_path / "saved.db")
        with Store.open(tmp_path / "saved.db") as saved:
            assert saved.came_in_a_file(open_.id) and not saved.came_in_a_file(closed.id)
        erase(store, open_.code)
        assert not store.came_in_a_file(open_.id)


def test_no_limit_is_no_limit(tmp_path: Path) -> None:
    clock = Clock()
    with Store.open(tmp_path / FILE) as store:
        sitting = sit(store, a_pack(), clock)
        clock.now += 10_000 * MINUTE
        assert sitting.left() is None
        build(sitting, upto=1)


def test_a_ticket_is_for_one_candidate_one_pack_one_time(tmp_path: Path) -> None:
    pack, other, clock = a_pack(), a_pack(minutes=5), Clock()
    with Store.open(tmp_path / FILE) as store:
        for ticket in (a_ticket(pack, "emu-3"), a_ticket(other)):
            with pytest.raises(NotForYou, match="another pack or code name"):
                sit(store, pack, clock, ticket)
        clock.now += 2 * DAY
        with pytest.raises(NotForYou, match="run out"):
            sit(store, pack, clock, a_ticket(pack))
        clock.now = NOON
        assert store.ids() == []
        sit(store, pack, clock, a_ticket(pack))
        with pytest.raises(NotForYou, match="used here already"):
            sit(store, pack, clock, a_ticket(pack), seed=2)


def test_seeds_are_the_same_for_all_or_each_candidates_own() -> None:
    same, own = a_pack(), a_pack(seeds="by code")
    assert same.seed("a", 0) == same.seed("b", 0) != same.seed("a", 1)
    assert own.seed("a", 0) != own.seed("b", 0)
    assert own.seed("a", 0) == own.seed("a", 0)
    assert 0 <= own.seed("a", 0) < 2**53


def test_packs_and_tickets_read_back_and_any_byte_that_changes_shows() -> None:
    pack = a_pack(minutes=30)
    ticket = a_ticket(pack, extra=15)
    assert read_pack(write_signed(pack.signed), "p").signed == pack.signed
    assert read_ticket(write_signed(ticket.signed), "t").content.extra_minutes == 15
    content = write_signed(ticket.signed)
    for at in range(len(content)):
        changed = bytearray(content)
        changed[at] ^= 1
        with pytest.raises(Faulty):
            read_ticket(bytes(changed), "t")


def test_faulty_packs_are_refused_in_words() -> None:
    good = json.loads(write_signed(a_pack().signed))
    for change, says in (
        ({"kind": "ticket"}, "'kind' should be: assessment pack"),
        ({"content": {**good["content"], "minutes": 0}}, "'minutes' should be a whole number"),
        ({"content": {**good["content"], "minutes": 5}}, "changed after it was signed"),
        ({"content": []}, "'content' should be a set of keys"),
    ):
        with pytest.raises(Faulty, match=says):
            read_pack(rfc8785.dumps({**good, **change}), "p")
    for content in (b"", b"\xff", b"[" * 100_000, b"[]", b'{"content":' + b"9" * 20 + b"}", b" " * 20_000_001):
        with pytest.raises(Faulty, match=r"^p:1: "):
            read_pack(content, "p")
    with pytest.raises(Faulty, match="pitch"):
        make_pack(ASSESSOR, "x", [LEVELS[0].replace("pitch:", "pich:")], NOON, 1)


def test_an_attempt_that_was_no_sitting_is_self_study() -> None:
    assert trust_of(prove(attempt()), TRUSTED) == "self-study"
    assert examine_sitting(attempt(), TRUSTED) == ()


def test_what_a_sitting_was_not_shows(tmp_path: Path) -> None:
    pack, clock = a_pack(), Clock()
    with Store.open(tmp_path / FILE) as store:
        sitting = sit(store, pack, clock)
        build(sitting)
        made = sitting.finish(SEAT)
        assert trust_of(prove(made), TRUSTED) == "self-study"
        assert [each.state for each in examine_sitting(made, TRUSTED, pack)] == ["unknown", "holds"]
        assert [each.state for each in examine_sitting(made, TRUSTED, a_pack(minutes=9))][1] == "fails"
        stranger = new_key()
        theirs = make_pack(stranger, "An invented assessment", LEVELS, NOON - DAY, 77)
        ticket = make_ticket(stranger, theirs, "wren-07", "cd" * 16, NOON, NOON + DAY)
        other = sit(store, theirs, clock, ticket, seed=2).finish(SEAT)
        assert trust_of(prove(other), TRUSTED) == "self-study", "anybody can sign; it counts who"
        assert examine_sitting(other, TRUSTED)[0].state == "unknown"
        assert len(attempts_of(store, "wren-07")) == 2
        take_in(store, [made, other])
        assert len(attempts_of(store, "wren-07")) == 2
    from trainer.records.chain import link

    bodies = [dict(entry.body) for entry in made.entries]
    easier = [{**body, "seed": 1} if body["kind"] == "house" else body for body in bodies]
    assert examine_sitting(Attempt(link(bytes(32), easier)), TRUSTED, pack)[1].state == "fails"
    forged = [{**bodies[0], "ticket": a_ticket(pack, "emu-3").signed.as_json()}, *bodies[1:]]
    assert examine_sitting(Attempt(link(bytes(32), forged)), TRUSTED)[0].state == "fails"
    spoilt = [{**bodies[0], "ticket": {"kind": 7}}, *bodies[1:]]
    assert examine_sitting(Attempt(link(bytes(32), spoilt)), TRUSTED)[0].state == "fails"


def test_the_levels_of_a_pack_are_levels() -> None:
    assert [parse_level(text, "x").id for _level, text in a_pack().houses] == ["pardalote", "wren"]
