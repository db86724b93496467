"""What a stranger handed out is signed for by nobody, and what was taken off a stick is said to be gone."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

import pytest
from records_made import NOON, acted, chain, ended, house_begun, marked, opened, uuid_of
from test_records_cli import run

from trainer.level import parse_level
from trainer.records.attempt import Attempt
from trainer.records.countersign import assessors_seal, signed_result, standing
from trainer.records.desk import take_back
from trainer.records.edition import editions
from trainer.records.keys import PrivateKey, new_key, private_pem, public_hex, public_pem, trust_key
from trainer.records.pack import make_pack, make_ticket
from trainer.records.proof import prove
from trainer.records.record_file import file_name, write_record
from trainer.records.stick import RESULTS, Place, results_in, write_class
from trainer.records.store import FILE, Store
from trainer.records.trust import trust_and_why
from trainer.records.waiting import ASSESSORS, PACKS
from trainer.rehearse import rehearse
from trainer.report.class_content import class_content
from trainer.report.class_counted import counted_in
from trainer.shipped import find_level

TEACHER, STRANGER = new_key(), new_key()
HOUSE = find_level("pardalote").read_text(encoding="utf-8")
EASIER = HOUSE.replace("title: ", "title: Another ", 1)
DAY = 86_400_000
WORDS = "an invented passphrase"


def sat(stick: Path, key: PrivateKey, text: str, nonce: str) -> Attempt:
    """Hand a house out to one candidate into ``stick``, and build it there as it should be."""
    pack = make_pack(key, "Assessment", [text], NOON - DAY, 77)
    ticket = make_ticket(key, pack, "ben", nonce * 16, NOON - 1, NOON + DAY)
    write_class(stick, key, "teacher", [(pack, [ticket])], beside_others=True)
    ((level, _text),) = pack.houses
    given = {"pack": pack.signed.hash, "ticket": ticket.signed.as_json()}
    first = opened(NOON, uuid_of(int(nonce, 16)), "ben", "assessment", editions(), **given)
    site = pack.seed("ben", 0)
    actions = [
        each.model_dump(by_alias=True, exclude_none=True, mode="json")
        for each in rehearse(parse_level(text, level), site).actions
    ]
    over = NOON + len(actions) * 900
    done = [acted(NOON + n * 900, n, action, []) for n, action in enumerate(actions)]
    made = Attempt(chain(first, house_begun(NOON, level, text, site), *done, marked(over, 100, "met"), ended(over)))
    (stick / RESULTS).mkdir(exist_ok=True)
    (stick / RESULTS / file_name(made)).write_bytes(write_record(made))
    return made


@dataclass
class Office:
    """A teacher's machine, and the stick that came back to it."""

    folder: Path

    def __post_init__(self) -> None:
        self.stick, self.data = self.folder / "stick", self.folder / "data"
        trust_key(public_hex(TEACHER), self.data / ASSESSORS, "teacher")
        (self.folder / "key.pem").write_bytes(private_pem(TEACHER, WORDS))
        (self.folder / "pass").write_text(WORDS, encoding="utf-8")

    def sign(self, made: Attempt, *more: object, leaves: int = 0) -> str:
        signing = ("--key", self.folder / "key.pem", "--passphrase-file", self.folder / "pass", "--data", self.data)
        file = self.stick / RESULTS / file_name(made)
        return flat(run("sign", file, "--code", made.head_code, *signing, *more, leaves=leaves)[1])

    def listed(self, *more: object, leaves: int = 0) -> str:
        return flat(" ".join(run("class", self.stick, "--data", self.data, *more, leaves=leaves)))


@pytest.fixture
def office(tmp_path: Path) -> Office:
    return Office(tmp_path)


def flat(text: str) -> str:
    return " ".join(text.split())


def test_a_strangers_pack_and_ticket_are_not_signed_for_by_command_or_desk(office: Office) -> None:
    made = sat(office.stick, STRANGER, EASIER, "ab")
    before = (office.stick / RESULTS / file_name(made)).read_bytes()
    said = office.sign(made, leaves=1)
    assert "its ticket is signed by a key that is not known here" in said and "If a colleague" in said
    with Store.open(office.data / FILE) as store:
        found, known = results_in(office.stick, []), {public_hex(TEACHER): "teacher"}
        back = take_back(store, found, {"ben": [made.head_code]}, TEACHER, known, NOON, tuple)
    assert not back.signed and "not known here" in back.said[0] and "It was not signed." in back.said[0]
    assert (office.stick / RESULTS / file_name(made)).read_bytes() == before
    assert "closed, but its ticket is signed by a key that is not known here" in office.listed()
    out = run("verify", office.stick, "--data", office.data)[0]
    assert "But the pack is signed by a key that is not known here." in flat(out)
    (office.folder / "colleague.pub.pem").write_bytes(public_pem(public_hex(STRANGER)))
    assert "Signed " in office.sign(made, "--assessor", office.folder / "colleague.pub.pem"), "a colleague's is"


def test_ones_own_sitting_is_signed_on_a_machine_that_knows_nobody(office: Office) -> None:
    made = sat(office.stick, TEACHER, HOUSE, "ab")
    office.data = office.folder / "another machine"
    assert "Signed " in office.sign(made)


@pytest.mark.parametrize("kind", ["stranger's", "none"])
def test_what_was_signed_without_a_good_ticket_is_said_wherever_one_looks(kind: str, office: Office) -> None:
    made = sat(office.stick, STRANGER, EASIER, "ab")
    if kind == "none":
        bodies = [dict(entry.body) for entry in made.entries]
        bodies[0].pop("ticket")
        (office.stick / RESULTS / file_name(made)).unlink()
        made = Attempt(chain(*bodies))
    seal = assessors_seal(made, TEACHER, NOON)
    assert seal is not None
    signed = Attempt(made.entries, (seal,))
    (office.stick / RESULTS / file_name(made)).write_bytes(write_record(signed))
    why = "nobody gave a ticket for it" if kind == "none" else "its ticket is signed by a key that is not known here"
    label = trust_and_why(prove(signed), {public_hex(TEACHER): "teacher"})
    assert label == ("self-study", f"signed after the close by teacher, but {why}")
    run("records", "collect", office.stick, "--data", office.data)
    tables = (("records", "export", "--as", "csv"), ("report",))
    texts = [run("records", "list", "--data", office.data)[0]]
    for n, words in enumerate(tables):
        file = office.folder / f"{n}.csv"
        run(*words, "-o", file, "--data", office.data)
        texts.append(file.read_text(encoding="utf-8"))
    page = office.folder / "class.html"
    run("report", "-o", page, "--data", office.data)
    texts.append(page.read_text(encoding="utf-8"))
    assert [why in flat(text) for text in texts] == [True] * 4
    assert "self-study: 100" in flat(texts[-1])
    assert f"signed by teacher, but {why}" in office.listed()


def test_what_was_taken_off_a_stick_or_damaged_is_named(office: Office) -> None:
    made = sat(office.stick, TEACHER, HOUSE, "ab")
    (ticket,) = (office.stick / PACKS).glob("ticket-*.json")
    (pack,) = (office.stick / PACKS).glob("pack-*.json")
    names = office.folder / "names.csv"
    names.write_text("ben\nzoe\n", encoding="utf-8")
    assert "closed; type the code" in office.listed() and "no ticket" not in office.listed()
    assert "No ticket and no result of zoe is in" in office.listed("--codes", names, leaves=1)
    ticket.write_bytes(ticket.read_bytes().replace(b'"ben"', b'"bea"'))
    said = office.listed(leaves=1)
    assert f"{ticket.name}: no pack and no ticket can be read in it" in said
    assert "ben Assessment closed; type the code that you wrote down; no ticket of it lies in this folder" in said
    run("report", office.stick, "-o", office.folder / "class.html", "--data", office.data, leaves=1)
    ticket.unlink()
    pack.unlink()
    assert "ben missing or damaged closed" in office.listed()
    assert "Its pack is missing or damaged in this folder." in office.sign(made)


def test_two_results_of_one_ticket_are_one_place_and_ask_for_no_code_once_one_is_signed(office: Office) -> None:
    made = sat(office.stick, TEACHER, HOUSE, "ab")
    bodies = [dict(entry.body) for entry in made.entries]
    other = Attempt(chain({**bodies[0], "attempt": uuid_of(99)}, *bodies[1:]))
    place, known = Place("ben", "Assessment", (made, other)), {public_hex(TEACHER): "teacher"}
    assert standing(place, known).startswith("2 results of one ticket; closed; type the code")
    assert signed_result(place, known) is None
    seal = assessors_seal(made, TEACHER, NOON)
    assert seal is not None
    signed = Attempt(made.entries, (seal,))
    place = Place("ben", "Assessment", (signed, other))
    assert standing(place, known) == "2 results of one ticket; counter-signed"
    assert signed_result(place, known) is signed
    assert signed_result(place, {}) is None, "a stranger's signature asks on"


def test_two_ends_of_one_sitting_are_said_in_the_report_on_the_class(office: Office) -> None:
    made = sat(office.stick, TEACHER, HOUSE, "ab")
    cut = Attempt(made.entries[:-2])
    said = class_content([(made, "supervised"), (cut, "self-study")], {}).remarks
    assert sum("Results under its id are not the same: 2." in each for each in said) == 2
    assert not any("not the same" in each for each in class_content([(made, "supervised")], {}).remarks)


def test_what_came_from_a_file_counts_in_no_table_until_somebody_signs_for_it(office: Office) -> None:
    made = prove(sat(office.stick, TEACHER, HOUSE, "ab"))
    sent = replace(made, unmanned="sent in from a file")
    for each, trust, counts in (
        (sent, "self-study", False),
        (sent, "counter-signed", True),
        (made, "self-study", True),
    ):
        counted, said = counted_in([(each, trust)], {each.head: 0})
        assert bool(counted) is counts and ("not all done by hand" in said) is not counts
