"""An attempt as a file: any byte that changes shows, and what an assessor signed can't be cut or written anew."""

from __future__ import annotations

import json
import os
import random
from pathlib import Path
from typing import Any

import pytest
import rfc8785
from records_made import (
    EDITIONS,
    NOON,
    acted,
    answered,
    attempt,
    chain,
    ended,
    gap,
    house,
    marked,
    opening,
    paper_begun,
    said,
)
from sizes import by_size

from trainer.read import Faulty
from trainer.records.attempt import Attempt
from trainer.records.chain import link
from trainer.records.errors import AlreadyThere, NotWritten
from trainer.records.files import write_whole
from trainer.records.keys import new_key, public_hex
from trainer.records.record_file import file_name, read_record, write_record
from trainer.records.seal import seal
from trainer.records.verify import LIMITS, examine
from trainer.rules import Finding

CHANGES = by_size(24, 150, 1000)
ASSESSOR, SEAT = new_key(), new_key()
TRUSTED = {public_hex(ASSESSOR): "the assessor", public_hex(SEAT): "seat 4"}


def signed(made: Attempt) -> Attempt:
    """The same attempt under both signatures."""
    seals = [
        seal(SEAT, "seat", made.id, made.head, len(made.entries), NOON + 100_000),
        seal(ASSESSOR, "assessor", made.id, made.head, len(made.entries), NOON + 200_000),
    ]
    return Attempt(made.entries, tuple(seals))


def with_everything() -> Attempt:
    """Findings, a refusal, a gap, signs beyond ASCII, two houses and an answer."""
    found = Finding("off-station", 2, "T2", "tolerance", "1790 ± 1", "1800", "", "", "", "", "", "trusses T1 T2")
    action = {"do": "fix", "tag": "T2", "end": 1, "with": "framing anchor", "count": 1}
    told = [
        opening(), house(), acted(NOON, 0, action, [found]),
        acted(NOON, 1, action, [], "Nobody could – “so”."),
        gap(NOON + 5000, NOON, EDITIONS), marked(NOON + 6000, 97, "met"), house("lorikeet"),
        marked(NOON + 7000, 100, "unfinished"), paper_begun(NOON, "stand", 3),
        answered(NOON, "q1", "numeric", "How far? µ", 598.5, [598, 602], True, 4200),
        ended(NOON + 9000),
    ]  # fmt: skip
    return Attempt(chain(*told))


@pytest.mark.parametrize("made", [attempt(), with_everything(), signed(with_everything()), attempt(0, closed=False)])
def test_a_file_reads_back_as_it_was_written(made: Attempt) -> None:
    content = write_record(made)
    read = read_record(content, "it")
    assert read.untouched
    assert (read.attempt.entries, set(read.attempt.seals)) == (made.entries, set(made.seals))
    assert write_record(read.attempt) == content
    assert content == rfc8785.dumps(json.loads(content)), "the whole file is canonical"


@pytest.mark.parametrize("seed", range(CHANGES))
def test_any_byte_that_changes_shows(seed: int) -> None:
    made = signed(with_everything())
    content = bytearray(write_record(made))
    chance = random.Random(seed)
    at = chance.randrange(len(content))
    content[at] ^= chance.randrange(1, 256)
    try:
        read = read_record(bytes(content), "it")
    except Faulty as faulty:
        assert str(faulty).startswith("it:1: ")
        return
    assert not read.untouched, "the text is not the one that was written"
    assert (read.attempt.entries, set(read.attempt.seals)) == (made.entries, set(made.seals)), "what is signed is"


def test_a_file_that_another_program_set_out_anew_holds_and_says_so() -> None:
    made = signed(attempt())
    pretty = json.dumps(json.loads(write_record(made)), indent=2).encode()
    read = read_record(pretty, "it")
    assert not read.untouched
    assert read.attempt.head == made.head


def told(made: Attempt, code: str | None = None) -> dict[str, list[str]]:
    states: dict[str, list[str]] = {"holds": [], "fails": [], "unknown": [], "noticed": []}
    for each in examine(made, TRUSTED, code):
        states[each.state].append(each.text)
    return states


def test_a_counter_signed_attempt_holds() -> None:
    made = signed(attempt())
    states = told(made, made.head_code.lower())
    assert states["fails"] == states["unknown"] == []
    assert any("as an assessor by the assessor, all of it" in text for text in states["holds"])
    assert any("code was written down" in text for text in states["holds"])


def test_a_cut_tail_holds_as_a_chain_and_fails_against_the_signature() -> None:
    whole = signed(attempt(20))
    for left in range(2, len(whole.entries)):
        cut = Attempt(whole.entries[:left], whole.seals)
        assert cut.fault is None, "a chain alone does not see it"
        assert any("cut off" in text for text in told(cut)["fails"])
        assert told(Attempt(cut.entries), whole.head_code)["fails"], "nor does the code written down fit"


def test_a_chain_written_anew_fails_against_the_signature() -> None:
    whole = signed(attempt(20))
    better = [dict(entry.body) for entry in whole.entries]
    better[-2]["score"] = 100
    anew = Attempt(link(bytes(32), better), whole.seals)
    assert anew.fault is None, "a chain alone does not see it"
    assert any("written anew" in text for text in told(anew)["fails"])
    assert told(Attempt(anew.entries), whole.head_code)["fails"]
    file = read_record(write_record(anew), "it").attempt
    assert told(file)["fails"]


def test_signing_again_with_a_key_of_ones_own_is_not_taken_for_the_assessors() -> None:
    made = attempt()
    forged = Attempt(made.entries, (seal(new_key(), "assessor", made.id, made.head, len(made.entries), NOON),))
    states = told(forged)
    assert states["fails"] == []
    assert any("a key not known here" in text for text in states["unknown"])
    assert not any("assessor" in text for text in states["holds"])


def test_what_an_unsigned_attempt_can_not_show_is_said() -> None:
    assert any("Nobody signed" in text for text in told(attempt())["unknown"])
    assert any("never closed" in text for text in told(attempt(closed=False))["noticed"])
    assert any("It was left for 0.1 minutes" in text for text in told(with_everything())["noticed"])
    backwards = chain(opening(), house(), ended(NOON - 1))
    assert any("clock went back" in text for text in told(Attempt(backwards))["noticed"])
    assert any("competency" in text for text in LIMITS)


def test_a_signature_under_an_earlier_state_is_no_more_than_that() -> None:
    made = attempt()
    early = seal(ASSESSOR, "assessor", made.id, made.entries[3].hash, 4, NOON)
    assert any("up to entry 3 only" in text for text in told(Attempt(made.entries, (early,)))["unknown"])


def spoilt(change: Any) -> bytes:
    document = json.loads(write_record(signed(attempt())))
    change(document)
    return rfc8785.dumps(document)


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "no JSON"),
        (b"\xff\xfe", "no JSON"),
        (b"[" * 100_000, "no JSON"),
        (b'{"kind": NaN}', "no JSON"),
        (b'{"n": ' + b"9" * 5000 + b"}", "no JSON"),
        (b"[]", "'kind' should be"),
        (b"{}", "'kind' should be"),
        (write_record(attempt())[:-40], "no JSON"),
        (spoilt(lambda d: d.update(schema=2)), "'schema' should be"),
        (spoilt(lambda d: d.update(more=1)), "'more' is not known here"),
        (spoilt(lambda d: d.update(head="00" * 32)), "head: is not the hash"),
        (spoilt(lambda d: d.update(entries=[])), "entries: is empty"),
        (spoilt(lambda d: d["entries"].pop()), "entries may be missing at the end"),
        (spoilt(lambda d: d["entries"].pop(3)), r"entries\[3\]: It was changed"),
        (spoilt(lambda d: d["entries"].insert(3, 7)), r"entries\[3\]: a set of keys"),
        (spoilt(lambda d: d["entries"][2].update(x=1)), r"entries\[2\]: 'x' is not known here"),
        (spoilt(lambda d: d["seals"][0].update(at=1)), r"seals\[0\]: does not fit"),
        (spoilt(lambda d: d["seals"][0].update(role="x")), r"seals\[0\]: 'role' should be one of"),
        (spoilt(lambda d: d["seals"][0].update(x="x")), r"seals\[0\]: 'x' is not known here"),
        (
            write_record(attempt()).replace(
                b'"at":1760000000000,"attempt"', b'"at":1760000000000,"at":%d,"attempt"' % 2**60
            ),
            "number or a sign",
        ),
        (write_record(attempt()).replace(b'"kind":"close"', b'"kind":"open","kind":"close"'), "given twice"),
    ],
    ids=lambda value: value if isinstance(value, str) else "file",
)
def test_a_faulty_file_is_refused_with_its_place(content: bytes, says: str) -> None:
    with pytest.raises(Faulty, match=says):
        read_record(content, "it")


def test_a_file_larger_than_any_attempt_is_not_read() -> None:
    with pytest.raises(Faulty, match="larger than 5 MB"):
        read_record(b" " * 50_000_001, "it")


def resaid(*told: dict[str, Any]) -> bytes:
    return write_record(Attempt(chain(*told)))


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (resaid(*said()[1:]), "begins with one opening"),
        (resaid(opening(), opening()), "begins with one opening"),
        (resaid(opening(), ended(NOON), house()), "after the attempt was closed"),
        (resaid(opening(), marked(NOON, 100, "met")), "no house"),
        (resaid(opening(), house(), marked(NOON, 1, "met"), marked(NOON, 100, "met")), "not marked yet"),
        (resaid(opening(), answered(NOON, "q", "choice", "", [], [], True, 1)), "no paper"),
        (
            resaid(
                opening(),
                paper_begun(NOON, "p", 1),
                {**answered(NOON, "q", "numeric", "", 1, [1, 2], True, 1), "want": [1]},
            ),
            "'want'",
        ),
        (
            resaid(
                opening(), paper_begun(NOON, "p", 1), {**answered(NOON, "q", "choice", "", [], [], True, 1), "given": 1}
            ),
            "'given'",
        ),
        (resaid({**opening(), "code": "=cmd()"}), "'code' should be"),
        (resaid(opening(), {"kind": "mark", "at": NOON, "score": 101, "outcome": "met"}), "'score' should be"),
        (resaid(opening(), {**house(), "text": 7}), "'text' should be"),
        (resaid({**opening(), "attempt": "../../x"}), "'attempt' should be"),
    ],
    ids=lambda value: value if isinstance(value, str) else "file",
)
def test_a_chain_that_holds_and_says_what_can_not_be_is_refused(content: bytes, says: str) -> None:
    with pytest.raises(Faulty, match=says):
        read_record(content, "it")


def test_what_a_later_trainer_adds_is_carried_along() -> None:
    made = Attempt(chain(opening(), {**house(), "weather": "fine"}, {"kind": "weather", "at": NOON}, ended(NOON)))
    assert read_record(write_record(made), "it").attempt.entries == made.entries


def test_a_file_name_can_be_a_file_name_anywhere() -> None:
    names = {file_name(each) for each in (attempt(), attempt(6), attempt(seed=2), with_everything())}
    assert len(names) == 4
    assert all(set(name) <= set("abcdefghijklmnopqrstuvwxyz0123456789-.") for name in names)


def test_a_file_is_whole_or_not_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "a.json"
    write_whole(path, b"old")

    def full(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(NotWritten, match="disk is full"):
        write_whole(path, b"new and longer")
    monkeypatch.undo()
    assert path.read_bytes() == b"old"
    assert [each.name for each in tmp_path.iterdir()] == ["a.json"]
    with pytest.raises(AlreadyThere):
        write_whole(path, b"new", replace=False)
    write_whole(path, b"new")
    assert path.read_bytes() == b"new"
    with pytest.raises(NotWritten, match=r"can't be written"):
        write_whole(path / "no folder.json", b"")
    write_whole(tmp_path / "made" / "a.json", b"x")
    assert (tmp_path / "made" / "a.json").read_bytes() == b"x", "folders are made"
