"""Many seats in one store: the order of files and how often they come make no difference, and conflicts show."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from records_made import NOON, act, attempt, chain, ended, house, opening, uuid_of
from sizes import by_size

from trainer.records.attempt import Attempt
from trainer.records.collect import conflicts, take_in
from trainer.records.keeping import look_over
from trainer.records.keys import new_key
from trainer.records.people import erase
from trainer.records.record_file import read_record, write_record
from trainer.records.seal import seal
from trainer.records.store import FILE, Store

KEY = new_key()


def branches(seed: int) -> list[Attempt]:
    """One attempt as it may come from different places: cut at several lengths, gone on in two ways, signed or not."""
    found = []
    for tag in ("T1", "T2"):
        told: list[dict[str, Any]] = [opening(seed), house(), act(0), act(1, tag=tag), act(2), ended(NOON)]
        for length in (2, 4, 6):
            entries = chain(*told[:length])
            found.append(Attempt(entries))
            found.append(Attempt(entries, (seal(KEY, "seat", uuid_of(seed), entries[-1].hash, length, NOON),)))
    return found


FILES = [each for seed in range(3) for each in branches(seed)]


def state(store: Store) -> list[Any]:
    """All that a store holds, in an order of its own."""
    entries = store.rows("SELECT hash, attempt, n, previous, body FROM entries ORDER BY hash")
    return [*entries, *store.rows("SELECT attempt, body FROM seals ORDER BY body")]


def collected(*batches: list[Attempt]) -> list[Any]:
    with tempfile.TemporaryDirectory() as folder, Store.open(Path(folder) / FILE) as store:
        for batch in batches:
            take_in(store, batch)
        assert look_over(store).troubles == ()
        ends = [[each.head for each in ends] for ends in conflicts(store)]
        return [state(store), ends]


@settings(max_examples=by_size(12, 40, 40))
@given(st.lists(st.sampled_from(FILES), max_size=8), st.randoms(use_true_random=False))
def test_order_makes_no_difference(files: list[Attempt], chance: Any) -> None:
    shuffled = files.copy()
    chance.shuffle(shuffled)
    assert collected(files) == collected(*([each] for each in shuffled))


@settings(max_examples=by_size(12, 40, 40))
@given(st.lists(st.sampled_from(FILES), max_size=6))
def test_what_comes_twice_is_there_once(files: list[Attempt]) -> None:
    assert collected(files) == collected(files, files[::-1], files)


@settings(max_examples=by_size(8, 20, 20))
@given(*[st.lists(st.sampled_from(FILES), max_size=5)] * 2)
def test_a_store_of_stores_is_the_store_of_all(ours: list[Attempt], theirs: list[Attempt]) -> None:
    with tempfile.TemporaryDirectory() as folder, Store.open(Path(folder) / FILE) as store:
        take_in(store, theirs)
        through = [each for id_ in store.ids() for each in store.attempts(id_)]
    assert collected(ours, through) == collected(theirs, ours)


def test_fates_are_told(tmp_path: Path) -> None:
    one, cut = attempt(), attempt(3, closed=False)
    other = Attempt(chain(opening(), house(), act(0, tag="T9")))
    with Store.open(tmp_path / FILE) as store:
        assert [each.fate for each in take_in(store, [cut, cut, one, cut, one])] == [
            "new", "known", "longer", "known", "known",
        ]  # fmt: skip
        assert conflicts(store) == ()
        signed = Attempt(one.entries, (seal(KEY, "seat", one.id, one.head, len(one.entries), NOON),))
        assert [each.fate for each in take_in(store, [signed, signed, one])] == ["signed", "known", "known"]
        assert [each.fate for each in take_in(store, [other, other, one])] == ["conflict", "known", "known"]
        ((ours, theirs),) = conflicts(store)
        assert (ours.head, theirs.head) == (one.head, other.head), "both are kept, the longer first"
        assert erase(store, one.code) == 1
        assert [each.fate for each in take_in(store, [one, attempt(seed=2)])] == ["erased", "new"]
        assert store.ids() == [uuid_of(2)], "an old stick does not bring a person back"


def test_another_opening_of_the_same_person_is_a_conflict_and_of_another_is_left_out(tmp_path: Path) -> None:
    with Store.open(tmp_path / FILE) as store:
        take_in(store, [attempt(), attempt(mode="assessment")])
        assert len(conflicts(store)) == 1
        assert [each.fate for each in take_in(store, [attempt(code="emu-3")])] == ["other"]


def test_a_file_goes_through_the_store_unchanged(tmp_path: Path) -> None:
    made = attempt(30)
    content = write_record(Attempt(made.entries, (seal(KEY, "seat", made.id, made.head, 34, NOON),)))
    with Store.open(tmp_path / FILE) as store:
        take_in(store, [read_record(content, "it").attempt])
        assert write_record(store.attempts(made.id)[0]) == content
