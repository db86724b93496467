"""Drawings beside questions: what is asked about and no more, places as numbers in circles, in a person's words."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import islice

import pytest
from attempts import layout_of, level_of

from trainer.picture.model import Group, Item, Text, flat
from trainer.quiz.judge import Verdict, judge, option_names, options
from trainer.quiz.question import Asked, PointAt, SpotFault
from trainer.quiz.worked import FAMILIES, subject_of
from trainer.quiz.worked.judging import RuleFamily
from trainer.report.question_picture import TAG, printed_picture, question_picture

HOUSES = ("wren", "thornbill", "quail")


def asked(*families: str) -> Iterator[Asked]:
    for house in HOUSES:
        subject = subject_of(level_of(house), layout_of(house))
        for family in families:
            for seed in range(3):
                question = FAMILIES[family].ask(subject, seed)
                if question is not None:
                    yield question


def texts(items: tuple[Item | Group, ...]) -> list[Text]:
    return [item for group in items if isinstance(group, Group) for item in flat(group) if isinstance(item, Text)]


def test_places_are_numbers_in_circles_and_walls_are_letters() -> None:
    for question in asked("point-at-truss", "point-at-line"):
        assert isinstance(question.task, PointAt)
        picture = question_picture(question)
        assert picture is not None
        written = texts(picture.layers)
        rings = [text for text in written if text.ring]
        assert [text.text for text in rings] == [place.label for place in question.task.places]
        assert [text.text for text in rings] == [str(n) for n in range(1, len(rings) + 1)]
        walls = {wall.name for wall in layout_of(question.level).house.plan.walls}
        letters = [text for text in written if not text.ring]
        assert {text.text for text in letters} == walls, "no tag and no measure is asked about"
        assert {(text.size, text.unit) for text in written} == {(rings[0].size, "px")}, "as easy to read as a number"


def test_a_row_to_check_has_the_tags_that_are_asked_about_alone() -> None:
    for question in asked("fault-in-row"):
        assert isinstance(question.task, SpotFault)
        picture = question_picture(question)
        assert picture is not None
        tags = {text.text for group in picture.layers if group.layer == "tags" for text in texts(group.items)}
        assert tags == {place.label for place in question.task.places}
        assert not [group for group in picture.layers if group.layer == "measures"]


def test_places_are_described_without_coordinates_and_give_nothing_away() -> None:
    for question in asked("point-at-truss", "point-at-line"):
        assert isinstance(question.task, PointAt)
        words = [place.words for place in question.task.places]
        assert len(set(words)) == len(words)
        for each in words:
            assert not re.search(r"\bx \d|\by \d|middle at", each), each
            assert not re.search(r"ridge|valley|\bhip\b", each), each


@pytest.mark.parametrize("typed", ["number", "letter"])
def test_a_place_is_answered_by_its_number_or_its_letter(typed: str) -> None:
    question = next(asked("point-at-truss"))
    assert isinstance(question.task, PointAt)
    right = question.task.right
    answer = option_names(question)[right] if typed == "number" else "ABCDEF"[right]
    verdict = judge(question, answer)
    assert isinstance(verdict, Verdict) and verdict.right
    assert verdict.understood.startswith(f"{right + 1}, ")


def test_on_paper_a_roof_so_far_has_only_the_tags_that_its_question_names() -> None:
    """Of a large house all of them together can't be read."""
    crews = asked(*(name for name, family in FAMILIES.items() if isinstance(family, RuleFamily)))
    found = tuple(islice((each for each in crews if each.drawing and each.drawing.sites), 2))
    assert found
    for question in found:
        picture, whole = printed_picture(question), question_picture(question)
        assert picture is not None and whole is not None
        named, every = ({text.text for text in texts(each.layers) if text.names} for each in (picture, whole))
        assert named == every & {*question.about, *TAG.findall(" ".join((question.text, *options(question))))}
        walls = {wall.name for wall in layout_of(question.level).house.plan.walls}
        assert walls <= {text.text for text in texts(picture.layers)}
