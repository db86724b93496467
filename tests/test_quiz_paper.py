"""Papers: the same seed the same paper, others parallel to it; and questions exchanged as QTI and CSV."""

from __future__ import annotations

import io
import json
import re
import zipfile
from collections import Counter
from functools import cache
from itertools import combinations
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st
from qti_check import ITEM_SPACE, package_faults
from sizes import by_size, some

from trainer.level import parse_level
from trainer.quiz.as_json import paper_json
from trainer.quiz.bank import Question, parse_bank
from trainer.quiz.blueprint import WEIGHTS, blueprint
from trainer.quiz.from_bank import asked
from trainer.quiz.judge import LETTERS, Verdict, judge, read_answer, right_answer
from trainer.quiz.paper import Paper, TooFewQuestions, make_paper, question_again
from trainer.quiz.qti import identifier, package
from trainer.quiz.question import InOrder, Pairs
from trainer.quiz.sheet import HEADS, read_sheet, write_sheet
from trainer.quiz.unit import TOPICS
from trainer.quiz.worked import FAMILIES, Subject, subject_of
from trainer.read import Faulty
from trainer.report.paper_text import printed
from trainer.shipped import find_level, level_paths


@cache
def bank() -> tuple[Question, ...]:
    files = sorted((level_paths()[0].parent / "bank").glob("*.yaml"))
    return tuple(question for file in files for question in parse_bank(file.read_bytes(), file.name))


@cache
def subject(name: str) -> Subject:
    return subject_of(parse_level(find_level(name).read_bytes(), name))


@cache
def paper(seed: int, house: str = "wren", count: int = 40) -> Paper:
    return make_paper(bank(), [subject(house)], seed, count)


def written(paper: Paper) -> set[str]:
    return {question.id for question in paper.questions if question.written}


# papers


def test_a_page_to_take_home_asks_others_than_the_worksheet_of_the_same_house() -> None:
    worksheet = paper(7)
    home = make_paper(bank(), [subject("wren")], 7, 40, beside=worksheet)
    assert len(home.questions) == 40
    assert not {q.id for q in home.questions} & {q.id for q in worksheet.questions}
    assert not {q.text for q in home.questions} & {q.text for q in worksheet.questions}
    written_ones = tuple(asked(question) for question in bank() if question.topic == "clean-up")
    every = make_paper(bank(), (), 1, len(written_ones), ["clean-up"], beside=Paper(1, written_ones))
    assert len(every.questions) == len(written_ones), "where there are no others they come again"


def test_a_paper_has_as_many_questions_as_asked_and_none_twice() -> None:
    for count in (1, 5, 17, 40, 80):
        found = paper(3, count=count).questions
        assert len(found) == count
        assert len({question.id for question in found}) == len({question.text for question in found}) == count


THREE = ((1, 2, 3), (0, 1, 2), (10, 11, 12), (10, 20, 30), (100, 200, 300), (4, 5, 6))


@pytest.mark.parametrize("seeds", some(THREE, 1))
@pytest.mark.parametrize("house", some(["wren", "pardalote"], 1))
def test_three_papers_of_forty_share_no_written_question(seeds: tuple[int, ...], house: str) -> None:
    for one, other in combinations(seeds, 2):
        shared = written(paper(one, house)) & written(paper(other, house))
        assert not shared
    assert all(len(written(paper(seed, house))) >= 15 for seed in seeds)


def test_three_papers_of_forty_written_questions_share_none() -> None:
    papers = [make_paper(bank(), (), seed, 40) for seed in (1, 2, 3)]
    assert len(set.union(*map(written, papers))) == 120


def test_forms_are_parallel() -> None:
    """By topic and by difficulty the forms are alike, so that none is the easy one."""
    forms = [paper(seed) for seed in range(by_size(4, 6, 6))]
    topics = [Counter(question.topic for question in form.questions) for form in forms]
    assert all(other == topics[0] for other in topics)
    means = [sum(question.difficulty for question in form.questions) / 40 for form in forms]
    assert max(means) - min(means) <= 0.125
    wanted = blueprint(bank(), 40).hardness
    for form in forms:
        got = Counter(question.difficulty for question in form.questions)
        assert all(abs(got[level] - wanted[level]) <= 2 for level in wanted)


def test_the_same_seed_gives_the_same_paper_and_other_seeds_others() -> None:
    again = make_paper(bank(), [subject("wren")], 5, 40)
    assert again == paper(5)
    assert json.dumps(paper_json(again, True)) == json.dumps(paper_json(paper(5), True))
    # A form comes back after some seeds: in its written questions, in others worked from the house.
    assert {q.id for q in paper(1).questions} != {q.id for q in paper(7).questions}


def test_the_blueprint_gives_every_topic_its_weight() -> None:
    plan = blueprint(bank(), 40)
    assert plan.count == 40
    assert {part.topic for part in plan.parts} == set(TOPICS) == set(WEIGHTS)
    total = sum(WEIGHTS.values())
    for part in plan.parts:
        assert abs(part.written + part.worked - 40 * WEIGHTS[part.topic] / total) < 1


def test_only_the_topics_asked_for_are_on_a_paper() -> None:
    found = make_paper(bank(), [subject("wren")], 2, 12, ("saddles", "safety"))
    assert {question.topic for question in found.questions} == {"saddles", "safety"}


def test_too_many_questions_are_refused_in_plain_words() -> None:
    with pytest.raises(TooFewQuestions, match=r"There are only \d+ questions"):
        make_paper(bank(), (), 1, 30, ("clean-up",))


def test_a_question_can_be_asked_again_by_its_id() -> None:
    by_id = {question.id: question for question in bank()}
    for question in paper(4).questions:
        assert question_again(question.id, by_id, {"wren": subject("wren")}, 4) == question
    for gone in ("no-such-question", "hip-run.emu.3", "hip-run.wren.x", "nothing.wren.3", ""):
        assert question_again(gone, by_id, {"wren": subject("wren")}) is None


def test_paper_json_holds_the_contract() -> None:
    silent, told = paper_json(paper(1)), paper_json(paper(1), answers=True)
    assert list(silent) == ["seed", "questions"]
    for plain, full in zip(silent["questions"], told["questions"], strict=True):
        assert {"id", "kind", "topic", "text"} <= set(plain)
        assert not {"answer", "working", "why", "mistakes", "about"} & set(plain), "nothing gives the answer away"
        assert {"answer", "working", "why"} <= set(full)
        if full["kind"] == "choose one":
            assert full["answer"] in full["choices"]
            assert len(set(full["choices"])) == len(full["choices"])
            assert all(mistake["answer"] != full["answer"] for mistake in full["mistakes"])
        if full["kind"] == "choose several":
            assert set(full["answer"]) < set(full["choices"])


# QTI


@cache
def everything() -> list:
    worked = [
        q for family in FAMILIES.values() for house in ("wren", "fantail") if (q := family.ask(subject(house), 3))
    ]
    return [*(asked(question, 1) for question in bank()[:: by_size(4, 1, 1)]), *worked]


@cache
def packed() -> bytes:
    return package(everything(), "Everything")


def test_a_package_is_sound_whatever_it_holds() -> None:
    content = packed()
    assert package_faults(content) == []
    assert content == package(everything(), "Everything"), "the same questions make the same file"


def test_the_check_of_packages_can_fail() -> None:
    content = package(everything()[:3], "Three")
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        files = {name: archive.read(name) for name in archive.namelist()}
    name = next(name for name in files if name.startswith("items/"))

    def rebuilt(changed: dict[str, bytes]) -> bytes:
        out = io.BytesIO()
        with zipfile.ZipFile(out, "w") as archive:
            for each, text in changed.items():
                archive.writestr(each, text)
        return out.getvalue()

    assert package_faults(
        rebuilt({**files, name: files[name].replace(b'response-identifier="R', b'response-identifier="X')})
    )
    assert package_faults(rebuilt({each: text for each, text in files.items() if each != name}))
    assert package_faults(rebuilt({**files, "items/stray.xml": files[name]}))


def test_right_values_of_a_package_are_the_right_answers() -> None:
    with zipfile.ZipFile(io.BytesIO(packed())) as archive:
        for question in everything():
            root = ET.fromstring(archive.read(f"items/{identifier(question.id)}.xml"))
            values = [
                v.text or ""
                for v in root.find(f"{{{ITEM_SPACE}}}qti-response-declaration").iter(f"{{{ITEM_SPACE}}}qti-value")
            ]  # type: ignore[union-attr]
            if question.kind == "number":
                given: object = values[0]
            elif question.kind == "match":
                given = tuple(LETTERS.index(value.split()[1]) for value in values)
            else:
                given = tuple(LETTERS.index(value) for value in values)
            verdict = judge(question, given)  # type: ignore[arg-type]
            assert isinstance(verdict, Verdict) and verdict.right, question.id


# CSV


def dumped(questions: tuple[Question, ...]) -> list[dict]:
    """Questions without where they were read."""
    return [question.model_dump() for question in questions]


def test_the_whole_bank_goes_out_to_csv_and_comes_back() -> None:
    assert dumped(read_sheet(write_sheet(bank()).encode("utf-8"), "bank.csv")) == dumped(bank())


@pytest.mark.parametrize("delimiter", [";", "\t"])
def test_a_spreadsheet_may_part_cells_its_own_way(delimiter: str) -> None:
    import csv

    rows = list(csv.reader(io.StringIO(write_sheet(bank()))))
    out = io.StringIO()
    csv.writer(out, delimiter=delimiter).writerows(rows)
    assert dumped(read_sheet(b"\xef\xbb\xbf" + out.getvalue().encode("utf-8"), "bank.csv")) == dumped(bank())


ROW = {
    "id": "my-first", "kind": "choose one", "topic": "terms", "difficulty": "1", "serves": "plan", "text": "What?",
    "A": "this", "B": "that", "C": "the other", "answer": "B", "why": "Because it is so.",
    "source": "common practice, no source",
}  # fmt: skip


def sheet(*rows: dict[str, str], heads: tuple[str, ...] = HEADS) -> bytes:
    import csv

    out = io.StringIO()
    writer = csv.DictWriter(out, heads, restval="", extrasaction="ignore")
    writer.writeheader()
    writer.writerows(rows)
    return out.getvalue().encode("utf-8")


def faults(content: bytes) -> list[str]:
    with pytest.raises(Faulty) as raised:
        read_sheet(content, "mine.csv")
    return list(map(str, raised.value.faults))


def test_a_sound_row_is_a_question() -> None:
    (question,) = read_sheet(sheet(ROW), "mine.csv")
    assert question.place == ("mine.csv", 2)
    assert judge(asked(question), right_answer(asked(question))).understood.endswith("that")  # type: ignore[union-attr]


def test_every_fault_of_every_row_is_told_at_its_line() -> None:
    found = faults(
        sheet(
            {**ROW, "difficulty": "hard", "topic": "saftey"},
            ROW,
            {**ROW, "answer": "F"},
            {**ROW, "kind": "choose-one"},
            {**ROW, "why": "", "id": "No Good"},
        )
    )
    told = "\n".join(found)
    for line, word in (
        (2, "difficulty"),
        (2, "did you mean 'safety'"),
        (6, "id"),
        (4, "answer F"),
        (5, "kind"),
        (6, "why"),
    ):
        assert any(each.startswith(f"mine.csv:{line}:") and word in each for each in found), (line, word, told)
    assert not any(each.startswith("mine.csv:3:") for each in found)


@pytest.mark.parametrize(
    ("content", "word"),
    [
        (b"", "header"), (b"\n\n", "header"), (b"id,kind\nx,y\n", "no column 'topic'"), (b"\xff\xfe\x00", "UTF-8"),
        (sheet(ROW, heads=(*HEADS, "colour")), "colour"), (sheet(), "rows"), (b'id,kind\n"x', "no column"),
        (sheet(ROW).replace(b"my-first", b"a,b,c"), "cells"), (b"id,id\n", "twice"),
    ],
)  # fmt: skip
def test_a_bad_sheet_says_what_is_wrong(content: bytes, word: str) -> None:
    assert any(word in fault for fault in faults(content)), faults(content)


@given(st.binary(max_size=300))
def test_no_bytes_whatever_break_the_reading_of_a_sheet(content: bytes) -> None:
    with pytest.raises(Faulty):
        read_sheet(content, "mine.csv")


@given(st.text(max_size=200))
def test_no_text_in_a_cell_breaks_the_reading(cell: str) -> None:
    try:
        (question,) = read_sheet(sheet({**ROW, "text": cell}), "mine.csv")
    except Faulty:
        return
    assert question.text == cell.strip().removeprefix("'")


def test_a_guide_gives_orders_and_matches_by_the_letters_that_are_printed() -> None:
    made = paper(7)
    guide = printed(made, {"wren": subject("wren")}, guide=True)
    told = 0
    for question, shown in zip(made.questions, guide.questions, strict=True):
        if isinstance(question.task, InOrder | Pairs):
            letters = [part.partition(",")[0].split()[-1] for part in re.split("; then |; ", shown.answer)]
            assert read_answer(question, " ".join(letters)) == right_answer(question), shown.answer
            told += 1
    assert told > 2
    places = [each for each in guide.questions if each.offered and each.offered[0][0] == "1"]
    assert places, "places are numbered, as they are on the drawing"
