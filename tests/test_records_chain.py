"""The chain and its canonical JSON, against RFC 8785's own examples and a second reading of the definition."""

from __future__ import annotations

import hashlib
import json
import math
import struct
from typing import Any

import pytest
import rfc8785
from hypothesis import given
from hypothesis import strategies as st
from records_made import act, chain, opening, said

from trainer.records.chain import ALPHABET, START, Entry, NotCanonical, canonical, first_break, head_code, same_code

# RFC 8785, appendix B: the bits of a double, and how it is written.
NUMBERS = """
0000000000000000 0
8000000000000000 0
0000000000000001 5e-324
8000000000000001 -5e-324
7fefffffffffffff 1.7976931348623157e+308
ffefffffffffffff -1.7976931348623157e+308
4340000000000000 9007199254740992
c340000000000000 -9007199254740992
4430000000000000 295147905179352830000
44b52d02c7e14af5 9.999999999999997e+22
44b52d02c7e14af6 1e+23
44b52d02c7e14af7 1.0000000000000001e+23
444b1ae4d6e2ef4e 999999999999999700000
444b1ae4d6e2ef4f 999999999999999900000
444b1ae4d6e2ef50 1e+21
3eb0c6f7a0b5ed8c 9.999999999999997e-7
3eb0c6f7a0b5ed8d 0.000001
41b3de4355555553 333333333.3333332
41b3de4355555554 333333333.33333325
41b3de4355555555 333333333.3333333
41b3de4355555556 333333333.3333334
41b3de4355555557 333333333.33333343
becbf647612f3696 -0.0000033333333333333333
43143ff3c1cb0959 1424953923781206.2
"""


@pytest.mark.parametrize(("bits", "written"), [line.split() for line in NUMBERS.split("\n") if line])
def test_numbers_are_written_as_rfc_8785_has_them(bits: str, written: str) -> None:
    (number,) = struct.unpack(">d", bytes.fromhex(bits))
    assert canonical([number]) == f"[{written}]".encode()


def test_the_worked_example_of_rfc_8785() -> None:
    # Section 3.2.2: the text before, and 3.2.4: after.
    text = r"""{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }"""
    after = (
        '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],'
        '"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}'
    )
    assert canonical(json.loads(text)) == after.encode("utf-8")


def test_keys_are_in_the_order_of_rfc_8785() -> None:
    # Section 3.2.3: by UTF-16 units, so that the face comes before the Hebrew letter.
    keys = {
        "\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh", "1": "One",
        "\U0001f600": "Emoji: Grinning Face", "\u0080": "Control", "\u00f6": "Latin Small Letter O With Diaeresis",
    }  # fmt: skip
    wanted = ["Carriage Return", "One", "Control", "Latin Small Letter O With Diaeresis", "Euro Sign"]
    wanted += ["Emoji: Grinning Face", "Hebrew Letter Dalet With Dagesh"]
    assert list(json.loads(canonical(keys)).values()) == wanted


@pytest.mark.parametrize("value", [math.nan, math.inf, 2**53, -(2**53), "\ud800", {"a": b"x"}, object()])
def test_what_has_no_canonical_form_is_refused(value: Any) -> None:
    with pytest.raises(NotCanonical):
        canonical({"key": value})


SCALARS = st.none() | st.booleans() | st.integers(-(2**53) + 1, 2**53 - 1) | st.text()
SCALARS |= st.floats(allow_nan=False, allow_infinity=False) | st.integers(-400_000, 400_000).map(lambda half: half / 2)
VALUES = st.recursive(SCALARS, lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner), max_leaves=12)


@given(VALUES)
def test_the_short_way_writes_what_the_library_writes(value: Any) -> None:
    assert canonical(value) == rfc8785.dumps(value)


def test_a_hash_is_what_the_definition_says() -> None:
    previous = START
    for entry in chain(*said()):
        text = rfc8785.dumps(dict(entry.body))
        assert entry.hash == hashlib.sha256(b"roof truss trainer: entry 1\n" + previous + text).digest()
        previous = entry.hash


def test_a_chain_that_was_not_touched_holds() -> None:
    assert first_break(chain(*said())) is None


@given(st.integers(1, 6), st.sampled_from(["change", "drop", "swap", "double", "hash"]))
def test_whatever_is_done_in_the_middle_shows_at_its_place(at: int, how: str) -> None:
    entries = list(chain(*said()))
    place = at
    match how:
        case "change":
            entries[at] = Entry({**entries[at].body, "at": 1}, entries[at].hash)
        case "drop":
            del entries[at]
        case "swap":
            entries[at], entries[at + 1] = entries[at + 1], entries[at]
        case "double":
            entries.insert(at, entries[at])
            place = at + 1
        case "hash":
            entries[at] = Entry(entries[at].body, bytes(32))
    broken = first_break(entries)
    assert broken is not None
    assert broken.ordinal == place


def test_an_entry_bears_its_own_number() -> None:
    numbered = chain(opening(), act(0))
    from trainer.records.chain import link

    wrong = link(START, [numbered[0].body, {**numbered[1].body, "n": 5}])
    assert (first_break(wrong) or wrong).ordinal == 1  # type: ignore[union-attr]


def test_a_head_code_is_sixteen_signs_that_no_hand_confuses() -> None:
    codes = {head_code(hashlib.sha256(bytes([n])).digest()) for n in range(200)}
    assert len(codes) == 200
    signs = "".join(codes).replace("-", "")
    assert all(len(code.replace("-", "")) == 16 for code in codes)
    assert set(signs) == set(ALPHABET), "every sign comes up"
    for alike in ("O0Q", "I1L", "Z2", "S5", "B8", "UV"):
        assert len(set(alike) & set(ALPHABET)) == 1


@given(st.binary(min_size=32, max_size=32), st.randoms(use_true_random=False))
def test_a_code_is_known_again_as_people_write_it(head: bytes, chance: Any) -> None:
    code = head_code(head)
    alike = {"0": "0oOQ", "1": "1iIlL", "2": "2zZ", "5": "5sS", "8": "8B", "V": "VvUu"}
    by_hand = "".join(chance.choice(alike.get(sign, sign + sign.lower())) for sign in code).replace("-", " ")
    assert same_code(code, by_hand)
    assert not same_code(code, head_code(bytes(31) + bytes([head[-1] ^ 1])))
