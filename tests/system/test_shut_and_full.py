"""Disks that are full and folders that are shut, from the command line: a clear sentence, and nothing lost.

Runs without root's rights and under a limit on the size of files, as Linux knows them: ``pytest tests/system``.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from attempts import level_of
from records_made import said

from trainer.records.keeping import look_over
from trainer.records.keys import new_key
from trainer.records.pack import make_pack
from trainer.records.signed import write_signed
from trainer.records.store import FILE, Store
from trainer.rehearse import rehearse
from trainer.shipped import find_level
from trainer.site import write_diary

AS_SOMEBODY = """
import ctypes, resource, signal, sys
libc = ctypes.CDLL(None, use_errno=True)
header, kept = (ctypes.c_uint32 * 2)(0x20080522, 0), (ctypes.c_uint32 * 6)()
assert libc.capget(header, kept) == 0
kept[0] &= ~2  # root's leave to write where nobody may (CAP_DAC_OVERRIDE)
assert libc.capset(header, kept) == 0
most = int(sys.argv.pop(1))
if most:
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))
from trainer.cli import main
main()
"""
LEVEL = "pardalote"


def run(*words: object, most: int = 0, typed: str = "") -> tuple[int, str, str]:
    """Run a command as somebody; ``most`` is how large a file may become, bytes."""
    command = [sys.executable, "-c", AS_SOMEBODY, str(most), *map(str, words)]
    done = subprocess.run(command, input=typed, capture_output=True, encoding="utf-8", check=False, timeout=120)
    assert "Traceback" not in done.stderr, done.stderr
    return done.returncode, done.stdout, done.stderr


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """A folder that may be written to."""
    with tempfile.TemporaryDirectory() as name:
        yield Path(name)


@pytest.fixture
def shut_folder(open_folder: Path) -> Iterator[Path]:
    """A data folder with an attempt in it that may only be read."""
    shut = open_folder / "shut"
    with Store.open(shut / FILE) as store:
        store.begin(*said())
    for path in shut.iterdir():
        path.chmod(0o444)
    shut.chmod(0o555)
    yield shut
    shut.chmod(0o755)


def a_pack(folder: Path) -> Path:
    path = folder / "pack.json"
    texts = [find_level(LEVEL).read_text(encoding="utf-8")]
    path.write_bytes(write_signed(make_pack(new_key(), "Invented", texts, 1, 3).signed))
    return path


def test_a_shut_folder_is_told_by_every_command_that_writes(open_folder: Path, shut_folder: Path) -> None:
    pack, data = a_pack(open_folder), ("--data", shut_folder)
    for words in (
        ("sit", pack, "--code", "emu-3", *data),
        ("records", "collect", open_folder, *data),
        ("records", "keep", "30", *data),
        ("records", "name", "emu-3", "Somebody", *data),
        ("records", "backup", shut_folder / "copy.db", *data),
        ("quiz", "--level", LEVEL, "--count", "3", *data),
        ("report", "-o", shut_folder / "class.html", *data),
        ("records", "export", "-o", shut_folder / "class.csv", "--as", "csv", *data),
    ):
        code, _out, err = run(*words)
        assert code == 2, (words, err)
        assert "can't be written to" in err, (words, err)
        assert "What is there already is safe." in err


def test_what_only_reads_reads_a_shut_folder(shut_folder: Path, open_folder: Path) -> None:
    code, out, _err = run("records", "list", "--data", shut_folder)
    assert (code, out.count("wren 92")) == (0, 1)
    assert run("records", "what", "--data", shut_folder)[0] == 0
    assert run("records", "export", "-o", open_folder / "c.csv", "--as", "csv", "--data", shut_folder)[0] == 0


@pytest.mark.parametrize("most", [60_000, 120_000, 200_000])
def test_a_disk_that_takes_no_more_loses_nothing_acknowledged(most: int, open_folder: Path) -> None:
    pack = a_pack(open_folder)
    seed = _seed(pack)
    diary = write_diary(rehearse(level_of(LEVEL), seed))
    sit = ("sit", pack, "--code", "emu-3", "--data", open_folder / "seat")
    code, _out, err = run(*sit, most=most, typed=diary)
    assert code == 2
    assert "was not recorded and not done" in err or "can't be written" in err
    if not (open_folder / "seat" / FILE).exists():
        # Too small for a store: nothing was acknowledged, and nothing half made is left.
        assert not list((open_folder / "seat").glob("*records*"))
        return
    with Store.read(open_folder / "seat" / FILE) as store:
        assert look_over(store).troubles == ()
        done = [len(each.houses[0].acts) for id_ in store.ids() for each in store.attempts(id_)]
    lines = diary.splitlines(keepends=True)
    head = next(n for n, line in enumerate(lines) if line.startswith("- ") or line.lstrip().startswith("- "))
    rest = "".join(lines[head + (done[0] if done else 0) :])
    code, out, err = run(*sit, typed=rest)
    assert code == 0, err
    assert len(out.strip()) == 19, "closed, with its code"
    with Store.read(open_folder / "seat" / FILE) as store:
        (made,) = [each for id_ in store.ids() for each in store.attempts(id_) if each.closed]
    assert made.houses[0].mark is not None
    assert made.houses[0].mark["score"] == 100, "nothing is missing and nothing is there twice"


def _seed(pack: Path) -> int:
    from trainer.records.pack import read_pack

    return read_pack(pack.read_bytes(), "pack").seed("emu-3", 0)
