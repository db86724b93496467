"""The store: on the disk before it is acknowledged, only ever added to, plain words when it can't be."""

from __future__ import annotations

import os
import sqlite3
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest
from records_made import EDITIONS, NOON, act, attempt, chain, ended, gap, house, opening, said, uuid_of

from trainer.records.attempt import Attempt
from trainer.records.collect import take_in
from trainer.records.errors import Busy, Damaged, DiskFull, Elsewhere, Gone, NotRecords, NotWritten, ReadOnly
from trainer.records.keeping import look_over
from trainer.records.keys import new_key
from trainer.records.people import erase
from trainer.records.seal import seal
from trainer.records.store import FILE, Store, Tip


def recorded(path: Path, acts: int = 5, seed: int = 1, closed: bool = True) -> None:
    with Store.open(path) as store:
        store.begin(*said(acts, seed, closed))


def test_what_was_written_is_there_for_another_program(tmp_path: Path) -> None:
    path = tmp_path / "deep" / "folder" / FILE
    with Store.open(path) as store:
        tip = store.begin(opening(), house())
        for index in range(3):
            tip = store.append(tip, act(index))
            with Store.read(path) as other:
                (seen,) = other.attempts(uuid_of(1))
                assert seen.head == tip.head
                assert len(seen.entries) == tip.count == index + 3
                assert seen.fault is None


def test_an_attempt_reads_back_as_it_was_said(tmp_path: Path) -> None:
    path = tmp_path / FILE
    recorded(path)
    with Store.read(path) as store:
        (seen,) = store.attempts(uuid_of(1))
    assert seen.entries == attempt().entries
    assert (seen.code, seen.mode, seen.began, seen.closed) == ("wren-07", "practice", NOON, True)
    (told,) = seen.houses
    assert (told.level, told.seed, len(told.acts)) == ("wren", 7, 5)
    assert told.text.startswith("schema: 1")
    assert told.mark is not None
    assert told.mark["score"] == 92


def test_the_disk_is_asked_to_keep_each_entry(tmp_path: Path) -> None:
    with Store.open(tmp_path / FILE) as store:
        assert store.rows("PRAGMA journal_mode") == [("wal",)]
        assert store.rows("PRAGMA synchronous") == [(2,)], "FULL"


@pytest.mark.parametrize(
    "change", ["UPDATE entries SET body = '{}'", "DELETE FROM entries", "DELETE FROM entries WHERE n = 2"]
)
def test_the_file_itself_refuses_to_change_or_drop_an_entry(change: str, tmp_path: Path) -> None:
    path = tmp_path / FILE
    recorded(path)
    other = sqlite3.connect(path)
    with pytest.raises(sqlite3.IntegrityError, match="only ever added"):
        other.execute(change)
    other.close()


def test_a_faulty_entry_is_a_fault_of_the_program_and_is_not_kept(tmp_path: Path) -> None:
    with Store.open(tmp_path / FILE) as store:
        tip = store.begin(opening(), house())
        for wrong in ({"kind": "act", "at": 1}, {"kind": "close", "at": -1}, {"kind": "close", "at": 1.5}, {"at": 1}):
            with pytest.raises(ValueError, match=":"):
                store.append(tip, wrong)
        assert len(store.attempts(tip.attempt)[0].entries) == 2


def test_an_attempt_goes_on_in_one_window_only(tmp_path: Path) -> None:
    path = tmp_path / FILE
    with Store.open(path) as here, Store.open(path) as there:
        tip = here.begin(opening(), house())
        went_on = there.append(tip, act(0))
        with pytest.raises(Elsewhere, match="another window"):
            here.append(tip, act(0, tag="T2"))
        with pytest.raises(Elsewhere):
            here.begin(opening())
        assert here.append(went_on, act(1)).count == 4
        assert here.attempts(tip.attempt)[0].fault is None


def test_an_attempt_erased_meanwhile_does_not_come_back(tmp_path: Path) -> None:
    path = tmp_path / FILE
    with Store.open(path) as here, Store.open(path) as there:
        tip = here.begin(opening(), house())
        assert erase(there, "wren-07") == 1
        with pytest.raises(Gone, match="erased"):
            here.append(tip, act(0))
        assert here.ids() == []


def test_a_window_that_waits_too_long_is_told_so_and_nothing_is_done(tmp_path: Path) -> None:
    path = tmp_path / FILE
    with Store.open(path) as here, Store.open(path, patience=30) as there:
        tip = here.begin(opening(), house())
        with here.writing(), pytest.raises(Busy, match="another window is writing"):
            there.append(tip, act(0))
        assert there.append(tip, act(0)).count == 3


def test_what_goes_wrong_inside_a_change_undoes_all_of_it(tmp_path: Path) -> None:
    with Store.open(tmp_path / FILE) as store:
        with pytest.raises(RuntimeError), store.writing() as connection:
            connection.execute("INSERT INTO people VALUES ('a', 'b')")
            raise RuntimeError
        assert store.rows("SELECT * FROM people") == []


def test_a_full_disk_loses_nothing_that_was_acknowledged(tmp_path: Path) -> None:
    path = tmp_path / FILE
    with Store.open(path) as store:
        tip = store.begin(opening(), house())
        # SQLite itself says "full" when a file reaches its page limit, as it does when the disk ends.
        pages = store.rows("PRAGMA page_count")[0][0]
        store.rows(f"PRAGMA max_page_count = {pages + 4}")
        with pytest.raises(DiskFull, match=r"disk is full.*not recorded and not done"):
            for index in range(10_000):
                tip = store.append(tip, act(index))
        assert tip.count > 3
        assert store.attempts(tip.attempt)[0].head == tip.head
        store.rows("PRAGMA max_page_count = 1000000")
        assert store.append(tip, act(tip.count - 2)).count == tip.count + 1, "it goes on once there is room"
    with Store.read(path) as again:
        assert look_over(again).troubles == ()


AS_SOMEBODY_ELSE = """
import os, sys
from pathlib import Path
from trainer.records.errors import RecordsError
from trainer.records.store import Store
sys.path.insert(0, sys.argv[2])
from records_made import act, opening
path = Path(sys.argv[1])
if hasattr(os, "geteuid") and os.geteuid() == 0:
    os.setuid(65534)  # nothing is shut to root
try:
    with Store.open(path) as store:
        store.begin(opening(5))
except RecordsError as error:
    print(type(error).__name__, error)
with Store.read(path) as store:
    print(*(len(store.attempts(id_)[0].entries) for id_ in store.ids()))
"""


def test_a_shut_folder_is_told_plainly_and_can_still_be_read() -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        recorded(folder / FILE)
        (folder / FILE).chmod(0o444)
        if os.name == "posix":
            folder.chmod(0o555)
        words = [sys.executable, "-c", AS_SOMEBODY_ELSE, str(folder / FILE), str(Path(__file__).parent)]
        done = subprocess.run(words, capture_output=True, encoding="utf-8", check=False, timeout=60)
        folder.chmod(0o755)
        (folder / FILE).chmod(0o644)
    assert done.stderr == ""
    first, second = done.stdout.splitlines()
    assert first.startswith("ReadOnly")
    assert "can't be written to" in first
    assert second == "9"


def test_a_folder_that_can_not_be_is_told_plainly(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    with pytest.raises(NotWritten, match="file"):
        Store.open(tmp_path / "file" / FILE)
    with pytest.raises(NotRecords, match="no records here yet"):
        Store.read(tmp_path / FILE)
    with pytest.raises((NotWritten, ReadOnly)):
        Store.open(tmp_path)


def test_another_programs_data_are_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "other.db"
    other = sqlite3.connect(path)
    other.execute("CREATE TABLE things (name TEXT)")
    other.close()
    before = path.read_bytes()
    for opened in (Store.open, Store.read):
        with pytest.raises(NotRecords, match="another program"):
            opened(path)
    assert path.read_bytes() == before
    text = tmp_path / "notes.db"
    text.write_text("not a store at all, but somebody's notes", encoding="utf-8")
    with pytest.raises(Damaged, match="left exactly as it is"):
        Store.open(text)
    assert text.read_text(encoding="utf-8").startswith("not a store")


def test_records_of_a_later_trainer_are_left_alone(tmp_path: Path) -> None:
    path = tmp_path / FILE
    recorded(path)
    later = sqlite3.connect(path)
    later.execute("INSERT INTO migrations VALUES ('a step of next year')")
    later.commit()
    later.close()
    with pytest.raises(NotRecords, match=r"later trainer.*next year"):
        Store.open(path)


def test_a_step_of_migration_is_all_or_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from trainer.records import migrations

    path = tmp_path / FILE
    recorded(path)
    broken = (*migrations.MIGRATIONS, ("a bad step", ("CREATE TABLE half (x)", "CREATE TABLE half (x)")))
    monkeypatch.setattr(migrations, "MIGRATIONS", broken)
    with pytest.raises(sqlite3.OperationalError):
        Store.open(path)
    monkeypatch.undo()
    with Store.open(path) as store:
        assert store.rows("SELECT name FROM sqlite_master WHERE name = 'half'") == []
        assert len(store.ids()) == 1


def test_unfinished_attempts_are_offered_the_latest_first(tmp_path: Path) -> None:
    with Store.open(tmp_path / FILE) as store:
        store.begin(*said(seed=1, closed=True))
        store.begin(*said(2, seed=2, closed=False))
        store.begin(*said(6, seed=3, closed=False))
        store.begin(*said(9, seed=4, closed=False, code="emu-3"))
        assert [each.id for each in store.unfinished("wren-07")] == [uuid_of(3), uuid_of(2)]
        assert [each.id for each in store.unfinished()] == [uuid_of(4), uuid_of(3), uuid_of(2)]
        latest = store.unfinished("wren-07")[0]
        tip = store.append(store.tip(latest), gap(NOON + 50_000, latest.ended, EDITIONS), ended(NOON + 60_000))
        assert store.attempts(tip.attempt)[0].gaps == ((latest.ended, NOON + 50_000),)
        assert [each.id for each in store.unfinished("wren-07")] == [uuid_of(2)]


def test_signatures_are_kept_once_and_read_back(tmp_path: Path) -> None:
    with Store.open(tmp_path / FILE) as store:
        tip = store.begin(*said())
        signed = seal(new_key(), "seat", tip.attempt, tip.head, tip.count, NOON)
        store.add_seal(signed)
        store.add_seal(signed)
        assert store.attempts(tip.attempt)[0].seals == (signed,)


WRITER = """
import sys
from pathlib import Path
sys.path.insert(0, sys.argv[3])
from records_made import act, house, opening
from trainer.records.store import Store
with Store.open(Path(sys.argv[1]), patience=60_000) as store:
    tip = store.begin(opening(int(sys.argv[2])), house())
    for index in range(40):
        tip = store.append(tip, act(index))
"""


def test_several_programs_write_at_once_and_spoil_nothing(tmp_path: Path) -> None:
    path = tmp_path / FILE
    words = [sys.executable, "-c", WRITER, str(path)]
    seats = [
        subprocess.Popen([*words, str(seed), str(Path(__file__).parent)], stderr=subprocess.PIPE) for seed in range(4)
    ]
    for seat in seats:
        _out, told = seat.communicate(timeout=120)
        assert (seat.returncode, told) == (0, b"")
    with Store.read(path) as store:
        assert sorted(store.ids()) == sorted(uuid_of(seed) for seed in range(4))
        assert {len(store.attempts(id_)[0].entries) for id_ in store.ids()} == {42}
        assert look_over(store).troubles == ()


def test_a_tip_that_never_was_is_refused(tmp_path: Path) -> None:
    with Store.open(tmp_path / FILE) as store, pytest.raises(Gone):
        store.append(Tip(uuid_of(9), 3, bytes(32)), act(0))


def test_outlines_tell_what_whole_attempts_tell(tmp_path: Path) -> None:
    with Store.open(tmp_path / FILE) as store:
        tip = store.begin(*said(seed=1))
        store.add_seal(seal(new_key(), "seat", tip.attempt, tip.head, tip.count, NOON))
        store.begin(*said(seed=2, closed=False))
        take_in(store, [attempt(seed=3), attempt(7, seed=3)])  # two ends, both closed
        take_in(store, [attempt(seed=4), Attempt(chain(*said(9, seed=4, closed=False)))])  # one of them not
        whole = [each for id_ in store.ids() for each in store.attempts(id_)]
        outlined = list(store.outlines())
        for one, other in zip(outlined, whole, strict=True):
            for name in ("id", "code", "mode", "began", "ended", "closed", "head", "count", "seals", "gaps"):
                assert getattr(one, name) == getattr(other, name), name
            assert [(h.level, h.mark, h.open) for h in one.houses] == [(h.level, h.mark, h.open) for h in other.houses]
        assert [len(one.entries) < len(other.entries) for one, other in zip(outlined, whole, strict=True)].count(
            True
        ) == 1
