"""The shipped levels: enough of them, sound, plain, in a path, of the shapes asked for, and right when rehearsed."""

import math
import re
from functools import cache

import pytest
import textstat
from attempts import LEVELS, right
from attempts import layout_of as layout
from attempts import level_of as level
from carpenter import hidden_walls, laughs
from sizes import by_size, some

from trainer.rehearse.mistakes import plant
from trainer.rules import all_rules
from trainer.session import Session, job_of
from trainer.shipped import find_level, path_lines

IDS = list(LEVELS)
GRADE = 8
"""Years of school that a text may ask for, by the measure that the texts of the rules are held to."""
TRADE = (
    "truncated girder", "truncated", "girder", "gable", "verge", "outrigger", "setback", "saddle", "trimmer", "bracket",
    "tie-down", "framing anchor", "apex", "apexes", "carrier", "internal", "bearing",
)  # fmt: skip
"""Words of the trade that a learner has to learn; measured as if each were a short word."""
SEEDS = range(by_size(1, 2, 20))


@cache
def text(name: str) -> str:
    return find_level(name).read_text(encoding="utf-8")


def learners_texts(name: str) -> list[str]:
    return [level(name).brief, *level(name).job_sheet]


def path() -> list[str]:
    """The ids in the order of the path."""
    return [name for name, _line in path_lines(find_level(IDS[0]).parent)]


def inside_corners(name: str) -> list[tuple[int, int]]:
    plan = level(name).house().plan
    return [corner for i, corner in enumerate(plan.outline) if not plan.convex(i)]


def test_there_are_enough() -> None:
    assert len(IDS) >= 28


@pytest.mark.parametrize("name", IDS)
def test_a_shipped_level_is_named_after_its_file_and_marked_as_invented(name: str) -> None:
    assert level(name).id == name
    assert "invented" in text(name).lower()


@pytest.mark.parametrize("name", IDS)
def test_what_a_learner_reads_is_plain(name: str) -> None:
    sentences = [s for told in learners_texts(name) for s in re.split(r"(?<=[.?!])\s+", told.strip())]
    assert all(len(sentence.split()) < 15 for sentence in sentences), sentences
    assert all(told.rstrip().endswith((".", "?")) for told in learners_texts(name))
    assert all(idea[0].islower() and idea[-1] != "." for idea in level(name).lesson.ideas)


def test_all_briefs_and_notes_together_read_like_a_school_text() -> None:
    told = " ".join(text for name in IDS for text in learners_texts(name))
    for word in sorted(TRADE, key=len, reverse=True):
        told = re.sub(rf"\b{word}s?\b", "beam", told, flags=re.IGNORECASE)
    assert textstat.flesch_kincaid_grade(told) <= GRADE


def test_the_path_names_shipped_levels_once_each_and_they_come_in_its_order() -> None:
    assert IDS[: len(path())] == path()
    assert IDS[len(path()) :] == sorted(set(IDS) - set(path()))


@pytest.mark.parametrize("name", path())
def test_a_level_on_the_path_says_what_it_is_for_how_long_it_takes_and_that_it_is_invented(name: str) -> None:
    """A level beside the path may do without, as the README's ten lines do."""
    first, lesson = text(name).splitlines()[0], level(name).lesson
    assert first.startswith("# Invented")
    assert "standard" in first
    assert len(lesson.ideas) in ((0,) if lesson.unseen else (1, 2))
    assert lesson.teaches
    assert lesson.minutes


@pytest.mark.parametrize("name", IDS)
def test_a_level_brings_two_ideas_at_most_and_an_unseen_one_none(name: str) -> None:
    lesson = level(name).lesson
    assert len(lesson.ideas) <= (0 if lesson.unseen else 2)
    assert lesson.hints is not lesson.unseen
    assert set(lesson.teaches) <= {rule.name for rule in all_rules()}


def test_every_rule_is_aimed_at_by_three_houses_to_practise_on_and_by_one_in_the_second_half_of_the_path() -> None:
    in_order = [name for name in path() if not level(name).lesson.unseen]
    for rule in all_rules():
        places = [place for place, name in enumerate(in_order, 1) if rule.name in level(name).lesson.teaches]
        assert len(places) >= 3, rule.name
        assert places[-1] > len(in_order) // 2, rule.name


@pytest.mark.parametrize("name", some(path()[:-1], 3, 26))
def test_what_a_level_teaches_can_be_done_wrong_on_it(name: str) -> None:
    job = job_of(level(name), 1, layout=layout(name))
    for rule in level(name).lesson.teaches:
        assert plant(job, 1, rule).actions


def test_no_idea_is_new_twice() -> None:
    ideas = [idea for name in IDS for idea in level(name).lesson.ideas]
    assert len(set(ideas)) == len(ideas)


def test_the_path_grows_harder_and_ends_with_three_unseen_houses_of_rising_size() -> None:
    in_order = path()
    sizes = [len(layout(name).members) for name in in_order]
    third = len(sizes) // 3
    assert math.fsum(sizes[:third]) < math.fsum(sizes[third : 2 * third]) < math.fsum(sizes[2 * third :])
    assert [name for name in in_order if level(name).lesson.unseen] == in_order[-3:]
    assert sizes[-3] < sizes[-2] < sizes[-1]
    assert max(sizes) > 250


def test_the_shapes_asked_for_are_there() -> None:
    corners = {name: len(level(name).plates.outline) for name in IDS}
    inside = {name: len(inside_corners(name)) for name in IDS}
    assert {(4, 0), (6, 1), (8, 2), (12, 4)} <= {(corners[name], inside[name]) for name in IDS}
    specs = [level(name).trusses for name in IDS]
    assert {1800, 2400} <= {spec.setback for spec in specs}
    assert {"centre line", "near face"} == {spec.stations_to for spec in specs}
    assert {2, 3} <= {spec.girder_plies for spec in specs}
    assert {"inside plate", "flush"} == {spec.gable_stands for spec in specs}
    assert max(level(name).roof.overhang for name in IDS) >= 900
    square = [name for name in IDS if corners[name] == 4 and wings_are_square(name)]
    assert square
    equal = [name for name in IDS if len({wing.span for wing in layout(name).wings}) < len(layout(name).wings)]
    assert equal
    assert any(part.part == "trimmer" for name in IDS for part in layout(name).parts)


def wings_are_square(name: str) -> bool:
    (wing,) = layout(name).wings
    x0, y0, x1, y1 = wing.rect
    return x1 - x0 == y1 - y0


def test_the_twins_are_mirror_images() -> None:
    one, other = (level(name).plates.outline for name in ("oriole", "figbird"))
    width = max(x for x, _ in one)
    assert {(width - x, y) for x, y in one} == set(other)


@pytest.mark.parametrize("name", IDS)
def test_no_truss_would_make_a_carpenter_laugh_and_no_inside_wall_is_hidden(name: str) -> None:
    assert list(laughs(level(name), layout(name))) == []
    assert list(hidden_walls(level(name), layout(name))) == []


@pytest.mark.parametrize("name", some(IDS, 8, 26))
def test_a_right_attempt_has_no_finding_and_the_minutes_go_with_its_work(name: str) -> None:
    """Common practice, no source: a practised hand does six to eighteen actions a minute on the board."""
    minutes = level(name).lesson.minutes
    for seed in SEEDS:
        actions = right(name, seed)
        done = Session(level(name), seed, layout=layout(name)).replay(actions)
        assert done.site.handed_over
        assert (done.findings, done.refused) == ((), ())
        assert not minutes or 5 <= len(actions) / minutes <= 18
