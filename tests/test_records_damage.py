"""Damaged stores are told, never written to, and what holds is saved; backups are looked over before they count."""

from __future__ import annotations

import random
import shutil
import sqlite3
from pathlib import Path

import pytest
from records_made import NOON, act, house, opening, said, uuid_of
from sizes import by_size

from trainer.records.errors import AlreadyThere, Damaged, RecordsError
from trainer.records.keeping import back_up, look_over, save_what_holds
from trainer.records.keys import new_key
from trainer.records.people import name_person, names
from trainer.records.seal import seal
from trainer.records.store import FILE, Store

MANY = by_size(8, 30, 400)


@pytest.fixture(scope="module")
def sound(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A store of 20 attempts, one of them signed, all of it in the main file."""
    path = tmp_path_factory.mktemp("sound") / FILE
    with Store.open(path) as store:
        for seed in range(20):
            told = said(30, seed)
            told[1]["text"] += "# a long level file\n" * 500  # more than a page of the file
            tip = store.begin(*told)
        store.add_seal(seal(new_key(), "seat", tip.attempt, tip.head, tip.count, NOON))
    return path


def everything(path: Path) -> set[bytes]:
    with Store.read(path) as store:
        return {row[0] for row in store.rows("SELECT hash FROM entries")}


def test_a_sound_store_has_no_troubles(sound: Path) -> None:
    with Store.read(sound) as store:
        health = look_over(store)
    assert (health.attempts, health.entries, health.troubles) == (20, 20 * 34, ())


@pytest.mark.parametrize("seed", range(MANY))
def test_damage_is_seen_or_harmless_and_the_file_stays_as_it_is(seed: int, sound: Path, tmp_path: Path) -> None:
    chance = random.Random(seed)
    whole = sound.read_bytes()
    path, saved = tmp_path / FILE, tmp_path / "saved.db"
    spoilt = bytearray(whole)
    at = chance.randrange(0 if seed % 5 == 0 else 4096, len(whole) - 64)
    spoilt[at : at + 64] = chance.randbytes(64)
    path.write_bytes(spoilt)

    seen = _troubles(path)
    assert path.read_bytes() == spoilt, "looking changes nothing"
    done = save_what_holds(path, saved)
    assert path.read_bytes() == spoilt, "saving changes nothing"
    kept = everything(saved)
    assert kept <= everything(sound), "nothing is made up"
    assert len(kept) == done.entries
    with Store.read(saved) as store:
        assert look_over(store).troubles == ()
    assert len(kept) >= 18 * 34, "two spoilt pages, of two attempts, at most"
    if len(kept) < 20 * 34:
        assert seen, "what was lost was told"


def _troubles(path: Path) -> list[str]:
    try:
        with Store.read(path) as store:
            return list(look_over(store).troubles)
    except RecordsError as error:
        return [str(error)]


@pytest.mark.parametrize("length", [1, 15, 100, 5000, 20_000])
def test_a_store_cut_short_is_damaged_and_not_begun_anew(length: int, sound: Path, tmp_path: Path) -> None:
    path = tmp_path / FILE
    path.write_bytes(sound.read_bytes()[:length])
    for opened in (Store.open, Store.read):
        with pytest.raises(Damaged, match="left exactly as it is"):
            opened(path)
    assert path.read_bytes() == sound.read_bytes()[:length]
    assert {each.name: each.stat().st_size for each in tmp_path.iterdir()}.get(f"{FILE}-wal", 0) == 0, "no log is begun"


def test_an_emptied_store_is_not_begun_anew_while_its_log_holds_something(tmp_path: Path) -> None:
    path = tmp_path / FILE
    with Store.open(path) as store:
        store.begin(opening(), house())
        log = tmp_path / (FILE + "-wal")
        other = tmp_path / "copy"
        other.mkdir()
        shutil.copy(log, other / log.name)
    (other / FILE).write_bytes(b"")
    before = (other / log.name).read_bytes()
    with pytest.raises(Damaged, match="main part is empty"):
        Store.open(other / FILE)
    assert (other / log.name).read_bytes() == before


def test_text_that_is_none_any_more_breaks_its_own_attempt_only(sound: Path, tmp_path: Path) -> None:
    path = tmp_path / FILE
    spoilt = bytearray(sound.read_bytes())
    place = spoilt.find(b'"do":"stand"')
    spoilt[place + 1] = 0xFF
    path.write_bytes(spoilt)
    with Store.read(path) as store:
        faults = [attempt.fault for id_ in store.ids() for attempt in store.attempts(id_)]
        assert sum(fault is not None for fault in faults) == 1
        assert len(look_over(store).troubles) == 1
    done = save_what_holds(path, tmp_path / "saved.db")
    assert (done.whole, done.cut) == (19, 1)
    assert done.lost > 0


def test_what_is_still_in_the_log_is_saved_too(tmp_path: Path) -> None:
    path = tmp_path / FILE
    with Store.open(path) as store:
        tip = store.begin(opening(), house())
        for index in range(10):
            tip = store.append(tip, act(index))
        done = save_what_holds(path, tmp_path / "saved.db")
    assert (done.entries, done.lost) == (12, 0)


def test_saving_over_a_file_is_refused(sound: Path, tmp_path: Path) -> None:
    there = tmp_path / "there.db"
    there.write_text("somebody's", encoding="utf-8")
    with pytest.raises(AlreadyThere):
        save_what_holds(sound, there)
    with Store.read(sound) as store, pytest.raises(AlreadyThere):
        back_up(store, there)
    assert there.read_text(encoding="utf-8") == "somebody's"
    assert len(list(tmp_path.iterdir())) == 1


def test_a_backup_is_one_file_with_everything_in_it(tmp_path: Path) -> None:
    path, copy = tmp_path / FILE, tmp_path / "backup.db"
    with Store.open(path) as store:
        for seed in range(3):
            tip = store.begin(*said(seed=seed))
        name_person(store, "wren-07", "An invented name")
        still = store.begin(opening(9), house())
        health = back_up(store, copy)
        assert (health.attempts, health.troubles) == (4, ())
        store.append(still, act(0))  # it goes on
    assert [each.name for each in tmp_path.iterdir() if "backup" in each.name] == ["backup.db"]
    with Store.read(copy) as store:
        assert store.attempts(tip.attempt)[0].head == tip.head
        assert len(store.attempts(still.attempt)[0].entries) == 2
        assert names(store) == {"wren-07": "An invented name"}
    with Store.open(copy) as store:
        assert store.append(still, act(0)).count == 3, "it can stand in for the store"


def test_a_backup_of_a_spoilt_store_says_so(sound: Path, tmp_path: Path) -> None:
    path = tmp_path / FILE
    shutil.copy(sound, path)
    other = sqlite3.connect(path)
    other.execute("DROP TRIGGER entries_never_change")
    other.execute("UPDATE entries SET body = replace(body, '92', '97') WHERE attempt = ? AND n = 32", (uuid_of(3),))
    other.commit()
    other.close()
    with Store.read(path) as store:
        (trouble,) = back_up(store, tmp_path / "backup.db").troubles
    assert f"attempt {uuid_of(3)}: entry 32" in trouble
