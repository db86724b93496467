"""Names stay apart, a person can be removed, and what stays leads back to nobody."""

from __future__ import annotations

from pathlib import Path

from records_made import NOON, act, chain, ended, house, marked, opening, said, uuid_of

from trainer.records.attempt import Attempt
from trainer.records.keeping import look_over
from trainer.records.keys import new_key
from trainer.records.people import (
    DAY,
    attempts_of,
    erase,
    keep_for,
    let_go,
    name_person,
    names,
    overdue,
    retention_days,
    statistics,
)
from trainer.records.proof import Proofs
from trainer.records.record_file import write_record
from trainer.records.seal import seal
from trainer.records.store import FILE, Store
from trainer.rules import Finding

NAME = "An Invented Person"
CODE = "erase-me-42"


def bytes_of(folder: Path) -> bytes:
    return b"".join(path.read_bytes() for path in folder.iterdir())


def fill(store: Store) -> None:
    store.begin(*said(seed=1, code="stays-1"))
    tip = store.begin(*said(40, seed=2, code=CODE))
    store.add_seal(seal(new_key(), "seat", tip.attempt, tip.head, tip.count, NOON))
    store.begin(*said(3, seed=3, code=CODE, closed=False))
    name_person(store, CODE, NAME)
    name_person(store, "stays-1", "Another Invented Person")


def test_a_name_is_in_no_entry_and_no_file(tmp_path: Path) -> None:
    with Store.open(tmp_path / FILE) as store:
        fill(store)
        assert names(store)[CODE] == NAME
        for made in attempts_of(store, CODE):
            assert NAME.encode() not in write_record(made)
        assert store.rows("SELECT count(*) FROM entries WHERE body LIKE ?", (f"%{NAME}%",)) == [(0,)]
        name_person(store, CODE, "Another name")
        assert names(store)[CODE] == "Another name"


def test_an_erased_person_is_gone_from_every_byte_of_the_file(tmp_path: Path) -> None:
    with Store.open(tmp_path / FILE) as store:
        fill(store)
        assert NAME.encode() in bytes_of(tmp_path)
        assert erase(store, CODE) == 2
        left = bytes_of(tmp_path)
        for trace in (NAME, CODE, uuid_of(2), uuid_of(3)):
            assert trace.encode() not in left, trace
        assert store.ids() == [uuid_of(1)]
        assert list(names(store)) == ["stays-1"]
        assert look_over(store).troubles == ()
        assert statistics(store) == ()
        assert erase(store, CODE) == 0
        assert store.rows("SELECT * FROM erasing") == []


def test_what_was_remarked_of_a_person_goes_with_them(tmp_path: Path) -> None:
    with Store.open(tmp_path / FILE) as store:
        fill(store)
        kept, every = Proofs(tmp_path), [each for id_ in store.ids() for each in store.attempts(id_)]
        remark = f"An invented remark on {CODE}."
        kept.keep([(each.head, ((), (remark if each.code == CODE else "Another.",), (), "", ())) for each in every])
        assert remark.encode() in bytes_of(tmp_path)
        erase(store, CODE)
        assert remark.encode() not in bytes_of(tmp_path)
        assert [looked[1] for looked in kept.known(every).values()] == [("Another.",)]


def test_statistics_that_were_asked_for_lead_back_to_nobody(tmp_path: Path) -> None:
    found = [Finding(rule, 0, "T1", "rework", "", "", "", "", "", "", "") for rule in ("b", "a", "b")]
    told = [opening(5, CODE, "assessment"), house(), act(0, found), marked(NOON, 76, "not yet met")]
    told += [house("emu"), marked(NOON, 100, "met"), house("no-mark"), ended(NOON)]
    with Store.open(tmp_path / FILE) as store:
        store.begin(*told)
        erase(store, CODE, keep_statistics=True)
        assert statistics(store) == (
            ("emu", "assessment", 100, "met", {}),
            ("wren", "assessment", 76, "not yet met", {"a": 1, "b": 2}),
        )
        left = bytes_of(tmp_path)
        for trace in (CODE, uuid_of(5), str(NOON), chain(*told)[-1].hash.decode("latin-1")):
            assert trace.encode("latin-1") not in left


def test_attempts_are_kept_as_long_as_was_set(tmp_path: Path) -> None:
    with Store.open(tmp_path / FILE) as store:
        fill(store)
        later = NOON + 99_000 + 30 * DAY
        assert retention_days(store) is None
        assert overdue(store, later + 1000 * DAY) == ()
        keep_for(store, 30)
        assert retention_days(store) == 30
        assert {each.id for each in overdue(store, later)} == {uuid_of(3)}, "last written to a minute earlier"
        assert {each.id for each in overdue(store, later + 1)} == {uuid_of(1), uuid_of(2), uuid_of(3)}
        let_go(store, overdue(store, later))
        assert set(store.ids()) == {uuid_of(1), uuid_of(2)}
        assert set(names(store)) == {CODE, "stays-1"}
        keep_for(store, None)
        assert retention_days(store) is None


def test_a_broken_attempt_can_be_erased_and_leaves_no_statistics(tmp_path: Path) -> None:
    with Store.open(tmp_path / FILE) as store:
        told = said(seed=4, code=CODE)
        told[-2]["outcome"] = "met"
        entries = list(chain(*told))
        with store.writing() as connection:
            from trainer.records.chain import START
            from trainer.records.store import insert

            insert(connection, uuid_of(4), 0, START, entries)
            connection.execute("DROP TRIGGER entries_never_change")
            connection.execute("UPDATE entries SET body = replace(body, '92', '99')")
        assert isinstance(store.attempts(uuid_of(4))[0], Attempt)
        assert erase(store, CODE, keep_statistics=True) == 1
        assert statistics(store) == ()
