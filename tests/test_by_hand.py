"""Diaries written by hand from the trade brief, without the tool: what is found in each, and the mark."""

import pytest
from attempts import CASES, layout_of, level_of

from trainer.read import read_yaml
from trainer.score import mark
from trainer.session import Session
from trainer.site import parse_diary

FOLDER = CASES / "by_hand"
EXPECTED = read_yaml((FOLDER / "expected.yaml").read_bytes(), "expected.yaml").data
DIARIES = sorted(path for path in FOLDER.glob("*_*.yaml"))


def test_there_are_enough_and_each_says_what_to_expect():
    assert sorted(EXPECTED) == [path.stem for path in DIARIES]
    assert sum(path.stem.startswith("right_") for path in DIARIES) >= 2
    assert sum(path.stem.startswith("wrong_") for path in DIARIES) >= 6


@pytest.mark.parametrize("path", DIARIES, ids=lambda path: path.stem)
def test_by_hand(path):
    expected = EXPECTED[path.stem]
    diary = parse_diary(path.read_bytes(), path.name)
    level = level_of(diary.level)
    session = Session(level, diary.seed, layout=layout_of(diary.level)).replay(diary.actions)
    found = sorted((f.event, f.rule, f.member) for f in session.findings)
    assert found == sorted(map(tuple, expected["finds"]))
    assert [event for event, _why in session.refused] == expected.get("refused", [])
    lesson = level.lesson
    got = mark(session.findings, lesson.weights.by_severity(), lesson.practice_mark, session.site.handed_over)
    assert (got.score, got.outcome) == (expected["score"], expected["outcome"])
