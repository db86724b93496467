"""The question paper of a pack: signed, asked of each candidate alike, answered in silence, judged again afterwards."""

from __future__ import annotations

import json
import re
import tempfile
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from records_made import NOON, uuid_of
from typer.testing import CliRunner
from xapi_check import faults_of

from trainer.cli import app
from trainer.quiz.bank import Question, parse_bank
from trainer.quiz.from_bank import reshuffled
from trainer.quiz.judge import LETTERS, options, right_answer
from trainer.quiz.question import Amount, Asked, InOrder, SomeOf
from trainer.quiz.unit import TOPICS
from trainer.read import Faulty
from trainer.records.asking import OtherQuestions, bank_hash, judged_wrongly, questions_for
from trainer.records.attempt import Attempt
from trainer.records.chain import START, link
from trainer.records.keys import new_key
from trainer.records.pack import MINUTE, AssessmentPack, PackPaper, make_pack, read_pack
from trainer.records.record_file import read_record
from trainer.records.signed import write_signed
from trainer.records.sitting import OpenSitting, TimeUp, sittings_of
from trainer.records.store import FILE, Store
from trainer.records.trust import examine_sitting
from trainer.records.verify import examine
from trainer.records.xapi import statements
from trainer.shipped import bank_paths, find_level

ASSESSOR, SEAT = new_key(), new_key()
BANK: tuple[Question, ...] = tuple(q for path in bank_paths() for q in parse_bank(path.read_bytes(), str(path)))
WREN = find_level("wren").read_text(encoding="utf-8")
RUNNER = CliRunner()


def a_pack(count: int = 8, **more: Any) -> AssessmentPack:
    paper = PackPaper(questions=count, topics=["set-out", "safety", "reading plans"], bank=bank_hash(BANK))
    return make_pack(ASSESSOR, "Invented", [WREN], NOON, 77, paper=paper, **more)


def typed(asked: Asked, right: bool = True) -> str:
    """An answer as a person types it."""
    answer = right_answer(asked)
    if isinstance(asked.task, Amount):
        return f"{asked.task.value if right else asked.task.value * 3 + 50:.10g} {asked.task.unit}"
    assert not isinstance(answer, str)
    given = answer if right else wrongly(asked, answer)
    return " ".join(LETTERS[i] for i in given)


def wrongly(asked: Asked, answer: tuple[int, ...]) -> tuple[int, ...]:
    """An answer like the right one, and wrong."""
    if isinstance(asked.task, InOrder):
        return answer[::-1]
    if isinstance(asked.task, SomeOf) and len(answer) > 1:
        return answer[1:]
    return ((answer[0] + 1) % len(options(asked)), *answer[1:])


def sat(store: Store, pack: AssessmentPack, clock: Any = lambda: NOON) -> OpenSitting:
    sitting = OpenSitting.begin(store, pack, "wren-07", None, uuid_of(1), SEAT, clock, BANK)
    sitting.next()
    return sitting


def states(attempt: Attempt, pack: AssessmentPack) -> list[str]:
    return [said.text for said in examine_sitting(attempt, {}, pack, BANK) if said.state == "fails"]


def test_a_pack_with_a_paper_comes_back_from_its_file_and_holds_its_bank() -> None:
    pack = a_pack()
    assert read_pack(write_signed(pack.signed), "p").paper == pack.paper
    assert len(questions_for(pack, "wren-07", BANK)) == 8
    assert bank_hash(BANK) == bank_hash(BANK[::-1]), "in whatever order they are read"
    with pytest.raises(OtherQuestions):
        questions_for(pack, "wren-07", BANK[1:])
    content = json.loads(write_signed(pack.signed))
    content["content"]["paper"]["questions"] = 9
    with pytest.raises(Faulty):
        read_pack(json.dumps(content).encode(), "p")


def test_everybody_is_asked_the_same_or_each_their_own_as_the_pack_says() -> None:
    same, own = a_pack(), a_pack(seeds="by code")
    emu, owl = (questions_for(same, code, BANK) for code in ("emu-1", "owl-2"))
    assert [each.id for each in emu] == [each.id for each in owl]
    assert {each.text: set(options(each)) for each in emu} == {each.text: set(options(each)) for each in owl}
    assert any(options(one) != options(other) for one, other in zip(emu, owl, strict=True)), "a letter tells nothing"
    one, other = (tuple(q.id for q in questions_for(own, code, BANK)) for code in ("emu-1", "owl-2"))
    assert one != other
    assert one == tuple(q.id for q in questions_for(own, "emu-1", BANK))


def test_a_paper_is_answered_recorded_and_judged_again(tmp_path: Path) -> None:
    pack = a_pack()
    asked = questions_for(pack, "wren-07", BANK)
    with Store.open(tmp_path / FILE) as store:
        sitting = sat(store, pack)
        for place, question in enumerate(asked):
            assert sitting.asked == question
            assert sitting.answer("??", 1) != "", "what can't be an answer is no answer"
            assert sitting.answer(typed(question, right=place % 3 > 0), 1500) == ""
        assert sitting.asked is None
        made = sitting.finish(SEAT)
    right = [bool(body["right"]) for body in made.papers[0].answers]
    assert right == [place % 3 > 0 for place in range(8)]
    said = [each.text for each in examine_sitting(made, {}, pack, BANK) if each.state == "holds"]
    assert f"8 of 8 questions were answered, {sum(right)} of them right, as judged again." in said
    assert not states(made, pack)
    assert not [each for each in examine(made, {}) if each.state == "fails"]
    otherwise = [reshuffled(question, "another order") for question in asked]
    assert judged_wrongly(made.papers[0], otherwise) == (), "a record in another order is judged by its words"


@pytest.mark.parametrize("done", [0, 3, 8])
def test_a_paper_goes_on_where_it_stopped(done: int, tmp_path: Path) -> None:
    pack = a_pack()
    asked = questions_for(pack, "wren-07", BANK)
    with Store.open(tmp_path / FILE) as store:
        sitting = sat(store, pack)
        for question in asked[:done]:
            sitting.answer(typed(question), 5)
    with Store.open(tmp_path / FILE) as store:
        (left,) = sittings_of(store, pack, "wren-07")
        with pytest.raises(OtherQuestions):
            OpenSitting.resume(store, pack, left, SEAT, lambda: NOON, BANK[1:])
        again = OpenSitting.resume(store, pack, left, SEAT, lambda: NOON, BANK)
        assert again.session is None
        for question in asked[done:]:
            assert again.asked == question
            again.answer(typed(question), 5)
        made = again.finish(SEAT)
    assert [body["question"] for body in made.papers[0].answers] == [question.id for question in asked]
    assert len(made.papers) == 1
    assert len(made.gaps) == 1
    assert not states(made, pack)


def test_no_answer_is_taken_after_the_time(tmp_path: Path) -> None:
    pack, now = a_pack(minutes=30), [NOON]
    with Store.open(tmp_path / FILE) as store:
        sitting = sat(store, pack, lambda: now[0])
        first = sitting.asked
        assert first is not None
        sitting.answer(typed(first), 5)
        now[0] += 30 * MINUTE
        second = sitting.asked
        assert second is not None
        with pytest.raises(TimeUp):
            sitting.answer(typed(second), 5)
        assert len(sitting.finish(SEAT).answers) == 1


def test_answers_that_do_not_come_to_what_they_say_show(tmp_path: Path) -> None:
    pack = a_pack()
    with Store.open(tmp_path / FILE) as store:
        sitting = sat(store, pack)
        for question in questions_for(pack, "wren-07", BANK):
            sitting.answer(typed(question, right=False), 5)
        made = sitting.finish(SEAT)
    for change in ({"right": True}, {"question": "another-question"}):
        bodies = [dict(entry.body) for entry in made.entries]
        at = next(n for n, body in enumerate(bodies) if body["kind"] == "answer")
        bodies[at] |= change
        forged = Attempt(link(START, bodies))
        assert forged.fault is None, "written anew from there on, the chain holds"
        assert states(forged, pack)
    bodies = [{**body, "right": True} if body["kind"] == "answer" else dict(body) for body in bodies]
    assert [said for said in examine(Attempt(link(START, bodies)), {}) if said.state == "fails"]
    swapped = [dict(entry.body) for entry in made.entries]
    swapped[at], swapped[at + 1] = swapped[at + 1] | {"n": at}, swapped[at] | {"n": at + 1}
    assert states(Attempt(link(START, swapped)), pack)
    no_paper = make_pack(ASSESSOR, "Invented", [WREN], NOON, 77)
    assert "answers questions that the pack does not ask" in " ".join(states(replace(made), no_paper))


def run(*words: object, leaves: int = 0, typed: str = "") -> tuple[str, str]:
    result = RUNNER.invoke(app, [str(word) for word in words], input=typed)
    assert result.exit_code == leaves, result.output
    assert "Traceback" not in result.output
    return result.stdout, result.stderr


def test_a_paper_from_the_command_line(tmp_path: Path) -> None:
    (tmp_path / "pass").write_text("an invented passphrase", encoding="utf-8")
    key = ("--key", tmp_path / "a.pem", "--passphrase-file", tmp_path / "pass")
    run("key", tmp_path / "a.pem", "--passphrase-file", tmp_path / "pass")
    run("pack", "-o", tmp_path / "none.json", *key, leaves=2)
    _out, err = run("pack", "--questions", 200, "--topics", "clean-up", "-o", tmp_path / "p.json", *key, leaves=2)
    assert "Ask for fewer" in err
    run("pack", "pardalote", "--questions", 5, "--seed", 3, "-o", tmp_path / "p.json", *key)
    pack = read_pack((tmp_path / "p.json").read_bytes(), "p")
    asked = questions_for(pack, "emu-3", BANK)
    sit = ("sit", tmp_path / "p.json", "--code", "emu-3", "--data", tmp_path / "d", "-o", tmp_path / "r")
    out, err = run(*sit, typed="do: hand_over\n" + typed_in(asked[:2]) + "plan\nrubbish of an answer\n")
    assert out == ""
    assert "Stopped in the questions." in err
    for question in asked[:2]:
        assert question.why not in err, "silent"
    code, err = run(*sit, typed=typed_in(asked[2:]))
    assert re.search(r"Question 3 of 5", err)
    (result,) = (tmp_path / "r").glob("*.attempt.json")
    made = read_record(result.read_bytes(), "r").attempt
    assert [body["right"] for body in made.papers[0].answers] == [True] * 5
    out, _err = run("verify", result, "--pack", tmp_path / "p.json", "--code", code.strip())
    assert "5 of 5 questions were answered, 5 of them right, as judged again." in out
    assert "FAILS" not in out
    run("report", result, "-o", tmp_path / "r.html")
    page = (tmp_path / "r.html").read_text(encoding="utf-8")
    assert "5 of 5" in page
    _out, err = run("pack", "--questions", 4, "-o", tmp_path / "q.json", *key)
    assert "4 questions" in err


def typed_in(asked: tuple[Asked, ...]) -> str:
    return "".join(f"{typed(question)}\n" for question in asked)


def a_long_paper(folder: Path) -> Attempt:
    """A paper of questions of every kind and topic, some answered wrong."""
    pack = make_pack(
        ASSESSOR,
        "Invented",
        [WREN],
        NOON,
        77,
        paper=PackPaper(questions=120, topics=list(TOPICS), bank=bank_hash(BANK)),
    )
    with Store.open(folder / FILE) as store:
        sitting = sat(store, pack)
        for place, question in enumerate(questions_for(pack, "wren-07", BANK)):
            assert sitting.answer(typed(question, right=place % 3 > 0), 1500) == ""
        return sitting.finish(SEAT)


def test_every_kind_of_question_is_a_sound_statement(tmp_path: Path) -> None:
    made = a_long_paper(tmp_path)
    told = statements(made)
    assert {"choice", "numeric", "matching", "sequencing"} <= {
        each["object"]["definition"].get("interactionType") for each in told
    }
    assert not [fault for each in told for fault in faults_of(each)]
    assert all(body["serves"] for body in made.papers[0].answers)


if __name__ == "__main__":  # for the validator of record stores that CI drives
    with tempfile.TemporaryDirectory() as somewhere:
        print(json.dumps(statements(a_long_paper(Path(somewhere)))))
