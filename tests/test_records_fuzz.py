"""Files of every kind that the records read, changed at random in their structure: told in plain words, never a crash.

An attempt is changed and then linked and numbered rightly again, so that what is wrong with it is what it says, not its
hashes. What is taken is judged, listed, exported and reported too.
"""

from __future__ import annotations

import copy
import json
import random
import sys
import time
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from records_made import NOON, acted, chain, ended, gap, house_begun, marked, opened, opening, uuid_of, with_answers
from sizes import by_size

from trainer.board.settings import read_settings
from trainer.level import parse_level
from trainer.read import Faulty
from trainer.records.attempt import Attempt
from trainer.records.chain import START, NotCanonical, canonical, link
from trainer.records.edition import editions
from trainer.records.errors import RecordsError
from trainer.records.keys import new_key, private_pem, public_hex, public_pem, read_private, read_public
from trainer.records.pack import make_pack, make_ticket, read_pack, read_ticket
from trainer.records.proof import prove
from trainer.records.record_file import file_name, read_record, write_record
from trainer.records.seal import seal
from trainer.records.signed import sign_document, write_signed
from trainer.records.stick import read_candidates, read_closing_codes
from trainer.records.tables import as_csv, as_lines
from trainer.records.trust import examine_sitting, trust_and_why
from trainer.records.verify import examine, examine_marks
from trainer.records.xapi import statements
from trainer.report.attempt_content import attempt_content
from trainer.report.class_content import as_table, class_content
from trainer.shipped import find_level
from trainer.site import parse_diary

MANY = by_size(60, 800, 20_000)
MOST_MB = 300
KEY = new_key()
TEXT = find_level("pardalote").read_text(encoding="utf-8")
PACK = make_pack(KEY, "Invented", [TEXT], NOON, 7, minutes=90)
TICKET = make_ticket(KEY, PACK, "wren-07", "ab" * 16, NOON - 1, NOON + 10**9, 5, 5)
FOUND = {"rule": "off-station", "member": "T1", "severity": "rework", "got": "1", "want": "2", "cause": "c"}
ODD: tuple[Any, ...] = (
    None, True, False, -1, 0, 1, 2**53 - 1, 2**53, 10**15, -1.5, 1e308, 5e-324, "", " ", "\x1b[2J", "\u202e", "=1+1",
    "../../x", "a" * 5000, "x", "act", "open", "close", "numeric", "choice", "unfinished", "dire", [], {}, [[]], [{}],
    {"kind": "act"}, {"a": None}, ["a", "b"], [1, 2], "{n}", "%s", "\ud800", {str(n): n for n in range(300)},
)  # fmt: skip
NESTED: Any = []
for _level in range(300):
    NESTED = [NESTED]


def told() -> list[dict[str, Any]]:
    """What a short sitting says: an opening with a ticket, a house with actions and a finding, a stop, a mark."""
    first = opened(
        NOON, uuid_of(1), "wren-07", "assessment", editions(), pack=PACK.signed.hash, title="Invented", minutes=95,
        ticket=TICKET.signed.as_json(),
    )  # fmt: skip
    begun = house_begun(NOON, "pardalote", TEXT, PACK.seed("wren-07", 0))
    acts = [
        acted(NOON + 1, 0, {"do": "mark", "wall": "A", "at": 600}, []),
        {**acted(NOON + 2, 1, {"do": "stand", "tag": "GT1", "from": [0, 0], "to": [0, 7200]}, []), "found": [FOUND]},
        acted(NOON + 4, 2, {"do": "hand_over"}, []),
    ]
    drill = {
        "kind": "drill", "at": NOON, "drill": "plumb", "level": "wren", "seed": 1, "reached": 1, "goals": 2,
        "right": False, "hinted": True, "found": [FOUND], "rules": ["off-station"],
    }  # fmt: skip
    asked = [{k: v for k, v in e.body.items() if k != "n"} for e in with_answers().entries if e.body["kind"] in PAPER]
    stop = gap(NOON + 3, NOON + 2, editions())
    return [first, begun, *acts[:2], stop, acts[2], marked(NOON + 5, 40, "not yet met"), *asked, drill, ended(NOON + 9)]


PAPER = ("paper", "answer")


def changed(value: Any, chance: random.Random) -> Any:
    """The same with one place in it changed: another value there, one less, one more, one twice."""
    value = copy.deepcopy(value)
    places: list[tuple[Any, Any]] = []

    def walk(inside: Any) -> None:
        for key in range(len(inside)) if isinstance(inside, list) else list(inside):
            places.append((inside, key))
            if isinstance(inside[key], list | dict):
                walk(inside[key])

    walk(value)
    for _time in range(chance.choice((1, 1, 1, 2, 4))):
        inside, key = chance.choice(places)
        odd = NESTED if chance.random() < 0.01 else copy.deepcopy(chance.choice(ODD))
        how = chance.randrange(6)
        if how < 3 or (isinstance(inside, list) and key >= len(inside)):
            inside[key if isinstance(inside, dict) or key < len(inside) else slice(0, 0)] = (
                odd if isinstance(inside, dict) or key < len(inside) else [odd]
            )
        elif how == 3:
            inside.pop(key, None) if isinstance(inside, dict) else inside.pop(key)
        elif isinstance(inside, dict):
            inside[chance.choice(("kind", "at", "n", "x", "content", "level", "given"))] = odd
        else:
            inside.insert(key, copy.deepcopy(chance.choice(places)[0] if how == 4 else odd))
    return value


def an_attempt(chance: random.Random) -> None:
    try:
        bodies = [each for each in changed(told(), chance) if type(each) is dict]
        entries = link(START, [{**each, "n": n} for n, each in enumerate(bodies)])
        seals = [] if chance.random() < 0.5 or not entries else [
            seal(KEY, "assessor", str(bodies[0].get("attempt"))[:40], entries[-1].hash, len(entries), NOON).as_json()
        ]  # fmt: skip
        document = {
            "kind": "attempt record", "schema": 1, "head": entries[-1].hash.hex() if entries else "",
            "entries": [{"body": each.body, "hash": each.hash.hex()} for each in entries], "seals": seals,
        }  # fmt: skip
        content = canonical(changed(document, chance) if chance.random() < 0.2 else document)
    except (NotCanonical, TypeError):  # no JSON, so no file
        return
    used(read_record(content, "it").attempt, chance)


def used(attempt: Attempt, chance: random.Random) -> None:
    """All that is done with what was taken."""
    assert file_name(attempt).count("/") == 0
    trusted = {public_hex(KEY): "an assessor"}
    proved = prove(attempt)
    label, why = trust_and_why(proved, trusted)
    assert as_csv([(proved, label, why)])
    assert [json.loads(line) for line in as_lines([proved])]
    assert statements(proved, trust=label)
    examine(attempt, trusted)
    examine_marks(attempt)
    examine_sitting(attempt, trusted, PACK)
    assert as_table(class_content([(proved, label)], {}))
    if chance.random() < 0.2:
        assert attempt_content(proved, label, ()).facts
    assert read_record(write_record(attempt), "it").untouched


def a_pack(chance: random.Random) -> None:
    content = changed(PACK.signed.content, chance)
    try:
        signed = write_signed(sign_document(KEY, "assessment pack", content))
    except (NotCanonical, TypeError, ValueError):
        return
    pack = read_pack(signed, "it")
    assert pack.seed("a", 0) >= 0 and pack.title is not None and pack.houses is not None


def a_ticket(chance: random.Random) -> None:
    document = changed({**TICKET.signed.as_json()}, chance)
    if chance.random() < 0.7 and isinstance(document.get("content"), dict):
        try:
            document = json.loads(write_signed(sign_document(KEY, "ticket", document["content"])))
        except (NotCanonical, TypeError, ValueError):
            return
    read_ticket(json.dumps(document).encode("utf-8"), "it").fits("a", "b", NOON)


PIECES = (b"[" * 200, b"&a [*a]", b"*a", b"\n- ", b"{", b'"', b",", b"\x00", b"\xff", b"\x1b[")


def bytes_changed(content: bytes, chance: random.Random) -> bytes:
    made = bytearray(content)
    for _time in range(chance.choice((1, 2, 5))):
        at = chance.randrange(len(made) or 1)
        how = chance.randrange(4)
        if how == 0:
            made[at : at + 1] = bytes([chance.randrange(256)])
        elif how == 1:
            del made[at : at + chance.randrange(1, 40)]
        elif how == 2:
            made[at:at] = chance.choice(
                (b"[" * 200, b"&a [*a]", b"*a", b"\n- ", b"{", b'"', b",", b"\x00", b"\xff", b"\x1b[")
            )
        else:
            made[at:at] = made[: chance.randrange(1, 200)]
    return bytes(made)


PUBLIC, PRIVATE = public_pem(public_hex(KEY)), private_pem(KEY, "an invented passphrase")
DIARY = "schema: 1\nlevel: pardalote\nseed: 1\nactions:\n- {do: mark, wall: A, at: 600}\n- {do: hand_over}\n"


def a_public_key(chance: random.Random) -> None:
    assert len(read_public(bytes_changed(PUBLIC, chance), "it")) == 64


def a_private_key(chance: random.Random) -> None:
    assert len(public_hex(read_private(bytes_changed(PRIVATE, chance), "an invented passphrase", "it"))) == 64


@cache
def _folder() -> Path:
    import tempfile

    return Path(tempfile.mkdtemp(prefix="trainer-fuzz-"))


def some_settings(chance: random.Random) -> None:
    usual = {"theme": "dark", "scale": 1.5, "still": True, "shown": True}
    text = (
        json.dumps(changed(usual, chance)).encode()
        if chance.random() < 0.6
        else bytes_changed(b'{"theme":"x"}', chance)
    )
    (_folder() / "settings.json").write_bytes(text)
    assert read_settings(_folder()).theme


def a_level(chance: random.Random) -> None:
    parse_level(bytes_changed(TEXT.encode(), chance), "it")


def a_diary(chance: random.Random) -> None:
    parse_diary(bytes_changed(DIARY.encode(), chance).decode("utf-8", errors="replace"), "it")


def some_candidates(chance: random.Random) -> None:
    read_candidates(bytes_changed(b"code,extra\nwren-07,5\nowl-2,,10\nemu-3\n", chance), "it")


def some_codes(chance: random.Random) -> None:
    read_closing_codes(bytes_changed(b"wren-07,AAAA-BBBB\nowl-2;1111\n", chance), "it")


READERS: dict[str, Callable[[random.Random], None]] = {
    each.__name__: each
    for each in (
        an_attempt, a_pack, a_ticket, a_public_key, a_private_key, some_settings, a_level, a_diary, some_candidates,
        some_codes,
    )
}  # fmt: skip


@pytest.mark.parametrize("reader", READERS)
def test_no_file_however_odd_is_more_than_refused(reader: str) -> None:
    before, slowest = _memory_mb(), (0.0, 0)
    taken = 0
    for n in range(MANY):
        began = time.process_time()
        try:
            READERS[reader](random.Random(f"{reader} {n}"))
            taken += 1
        except (Faulty, RecordsError) as refusal:
            assert str(refusal).strip()
        except Exception as error:
            raise AssertionError(f"{reader} {n}: {type(error).__name__}: {error}") from error
        slowest = max(slowest, (time.process_time() - began, n))
    print(f"{reader}: {taken} of {MANY} taken; slowest {slowest[0]:.2f} s of work ({slowest[1]})")
    assert _memory_mb() - before < MOST_MB


def _memory_mb() -> float:
    """The most memory that this process ever had, where the system tells it."""
    if sys.platform == "win32":
        return 0.0
    import resource

    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def test_the_attempt_that_is_changed_is_taken_as_it_is() -> None:
    used(Attempt(chain(*told())), random.Random(1))
    assert opening() != told()[0]
