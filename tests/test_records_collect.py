"""Many seats in one store: the order of files and how often they come make no difference, and conflicts show."""

from __future__ import annotations

import sqlite3
import tempfile
from pathlib import Path
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from records_made import NOON, act, attempt, chain, ended, house, opening, uuid_of
from sizes import by_size
from test_records_cli import run

from trainer.records.attempt import Attempt
from trainer.records.collect import conflicts, is_here, take_in
from trainer.records.keeping import look_over
from trainer.records.keys import new_key
from trainer.records.people import erase
from trainer.records.proof import FILE as PROOFS
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


def test_a_file_that_is_here_already_is_known_by_its_bytes_and_any_other_byte_shows(tmp_path: Path) -> None:
    made = attempt(6)
    seals = [seal(new_key(), "assessor", made.id, made.head, len(made.entries), NOON + n) for n in range(3)]
    one, two, other = (write_record(Attempt(made.entries, tuple(some))) for some in (seals[:1], seals[:2], seals[2:]))
    known = {made.head}
    with Store.open(tmp_path / FILE) as store:
        assert not is_here(store, one, known), "nothing is here yet"
        take_in(store, [read_record(two, "it").attempt])
        assert is_here(store, one, known) and is_here(store, two, known)
        assert not is_here(store, one, set()), "it was not found to hold by this edition"
        assert not is_here(store, other, known), "its signature is new"
        for at in range(0, len(two), by_size(17, 5, 1)):
            assert not is_here(store, two[:at] + bytes([two[at] ^ 1]) + two[at + 1 :], known), at
        for changed in (two[:-1], two + b" ", b" " + two, two.replace(b'"seals":[', b'"seals":[ '), b"", b'],"head":"'):
            assert not is_here(store, changed, known)
        take_in(store, [Attempt(chain(*(dict(each.body) for each in made.entries[:3]), ended(NOON + 5)))])
        assert not is_here(store, two, known), "there are two ends now: it is read whole"


def test_what_the_disk_has_spoilt_in_the_store_is_no_copy_of_a_file(tmp_path: Path) -> None:
    made = attempt(3)
    with Store.open(tmp_path / FILE) as store:
        take_in(store, [made])
    connection = sqlite3.connect(tmp_path / FILE)
    connection.execute("DROP TRIGGER entries_never_change")
    connection.execute("UPDATE entries SET body = replace(body, 'T1', 'T2') WHERE n = 3")
    connection.commit()
    connection.close()
    with Store.read(tmp_path / FILE) as store:
        assert not is_here(store, write_record(made), {made.head})


def test_collecting_again_says_the_same_and_finds_a_byte_that_was_changed(tmp_path: Path) -> None:
    stick, office = tmp_path / "stick", tmp_path / "office"
    stick.mkdir()
    files = {seed: stick / f"{seed}.attempt.json" for seed in range(3)}
    for seed, path in files.items():
        path.write_bytes(write_record(attempt(2, seed=seed)))
    told = [run("records", "collect", stick, "--data", office) for _time in range(2)]
    assert [out for out, _err in told] == ["3 new\n", "3 here already\n"]
    files[1].write_bytes(files[1].read_bytes().replace(b"T1", b"T2", 1))
    out, err = run("records", "collect", stick, "--data", office, leaves=1)
    assert out == "2 here already\n" and str(files[1]) in err and "It was changed" in err
    run("records", "erase", attempt().code, "--yes", "--data", office)
    out, err = run("records", "collect", stick, "--data", office, leaves=1)
    assert "2 left out, since the person was erased here" in out
    with sqlite3.connect(office / PROOFS) as connection:
        assert connection.execute("SELECT count(*) FROM proofs").fetchone() == (0,), "nothing of the person is kept"


def test_a_seats_whole_folder_is_collected_again_and_again_without_a_trouble(tmp_path: Path) -> None:
    with Store.open(tmp_path / "seat" / FILE) as store:
        take_in(store, [attempt()])
    run("records", "list", "--data", tmp_path / "seat")
    assert (tmp_path / "seat" / PROOFS).exists()
    for said in ("1 new\n", "1 here already\n"):
        assert run("records", "collect", tmp_path / "seat", "--data", tmp_path / "office")[0] == said
    assert run("records", "collect", tmp_path / "seat", "--data", tmp_path / "seat")[0] == "Nothing found.\n"
