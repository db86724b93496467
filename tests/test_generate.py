"""New levels: the same for a seed, as hard as asked, sound, buildable, and plain to read."""

import re
from functools import cache
from pathlib import Path

import pytest
import textstat
from carpenter import hidden_walls, laughs
from sizes import by_size
from typer.testing import CliRunner

from trainer.cli import app
from trainer.cli.check import checked_level
from trainer.generate import SHAPES, CannotMake, make_level, short_level
from trainer.generate.birds import BIRDS
from trainer.layout import lay_out
from trainer.level import difficulty, parse_level, write_level
from trainer.rehearse import rehearse
from trainer.rules import all_rules
from trainer.session import Session
from trainer.shipped import level_paths

GRADES = range(1, 11)
SEEDS = range(by_size(1, 20, 1000))
BUILT = range(by_size(1, 4, 1000))
YEAR = 8
TRADE = ("truncated girder", "setback", "girder", "gable", "outrigger", "near face")
made = cache(make_level)
"""A new level, made once for all that looks at it."""


@pytest.mark.parametrize("hard", GRADES)
def test_every_level_is_sound_laid_out_and_as_hard_as_asked(hard: int) -> None:
    for seed in SEEDS:
        level = made(seed, hard)
        again, layout, faults = checked_level(write_level(level).encode(), Path(f"{level.id}.yaml"))
        assert (again, faults) == (level, ())
        assert layout
        assert difficulty(level, layout).grade == hard
        assert [*laughs(level, layout), *hidden_walls(level, layout)] == []


@pytest.mark.parametrize("hard", GRADES)
def test_a_right_attempt_at_it_has_no_finding(hard: int) -> None:
    for seed in BUILT:
        level = made(seed, hard)
        layout = lay_out(level.house())
        done = Session(level, seed, layout=layout).replay(rehearse(level, seed, layout=layout).actions)
        assert done.site.handed_over
        assert (done.findings, done.refused) == ((), ())


SHORT = (("l", 5, 24), ("dutch-l", 5, 24), ("porch", 4, 20))
"""Houses that end a chapter: their minutes are stated by the course."""


@pytest.mark.parametrize(("shape", "hard", "minutes"), SHORT)
def test_a_short_house_is_short_sound_and_can_be_built(shape: str, hard: int, minutes: int) -> None:
    for seed in SEEDS:
        level = short_level(seed, hard, shape, minutes)
        _again, layout, faults = checked_level(write_level(level).encode(), Path(f"{level.id}.yaml"))
        assert layout and faults == ()
        assert 0.65 * len(layout.members) <= minutes + 0.5
        assert f"{difficulty(level, layout).grade} of 10" in level.title
        assert [*laughs(level, layout), *hidden_walls(level, layout)] == []
    done = Session(level, 1, layout=layout).replay(rehearse(level, 1, layout=layout).actions)
    assert (done.findings, done.refused) == ((), ())
    with pytest.raises(CannotMake, match="at least"):
        short_level(1, hard, shape, 5)


def test_a_short_line_of_long_webs_beside_a_longer_one_is_tied_to_its_own_ends() -> None:
    """Two lines of web ties in one row, the one over a part of the trusses of the other: neither end is loose."""
    level = make_level(5069, 9)
    done = Session(level, 5069).replay(rehearse(level, 5069).actions)
    assert (done.findings, done.refused) == ((), ())


def test_the_same_seed_gives_the_same_bytes_and_others_differ() -> None:
    for hard in GRADES:
        seeds = range(by_size(2, 5, 5))
        texts = [write_level(made(seed, hard)) for seed in seeds]
        assert texts == [write_level(make_level(seed, hard)) for seed in seeds]
        assert len(set(texts)) == len(texts)


def test_no_truss_has_two_faults_and_every_fault_can_be_found() -> None:
    for hard in (6, 8, 10):
        for seed in range(by_size(5, 20, 20)):
            level = made(seed, hard)
            site = level.site
            tags = [tag for fault in site.delivery for tag in (fault.truss, fault.other) if tag]
            assert len(set(tags)) == len(tags)
            assert len({wall.wall for wall in site.walls}) == len(site.walls)


def test_harder_levels_have_more_to_do() -> None:
    """Common sense, no source: over many seeds each grade has more trusses, and faults and openings never fewer."""
    means = []
    for hard in GRADES:
        levels = [made(seed, hard) for seed in range(10)]
        measured = [difficulty(level, lay_out(level.house())) for level in levels]
        means.append([sum(getattr(m, what) for m in measured) for what in ("trusses", "openings", "faults")])
    trusses, openings, faults = zip(*means, strict=True)
    assert list(trusses) == sorted(set(trusses))
    assert list(faults) == sorted(faults)
    assert openings[0] == openings[3] == 0 < openings[5] < openings[9]


@pytest.mark.parametrize("name", SHAPES)
def test_a_shape_asked_for_has_that_shape(name: str) -> None:
    corners = {
        "gable": 4,
        "hip": 4,
        "hip-and-gable": 4,
        "dutch-gable": 4,
        "dutch-l": 6,
        "l": 6,
        "t": 8,
        "u": 8,
        "z": 8,
        "plus": 12,
        "step": 6,
        "staggered": 6,
        "lower-room": 6,
        "round-wall": 6,
        "comb": 12,
        "h": 12,
    }
    shape = SHAPES[name]
    for hard in (shape.easiest, shape.hardest):
        for seed in range(by_size(1, 4, 4)):
            level = make_level(seed, hard, name)
            assert len(level.plates.outline) == corners.get(name, len(level.plates.outline))
            layout = lay_out(level.house())
            assert sum(m.kind == "girder" and not m.is_dutch for m in layout.members) == shape.openings
            assert bool(layout.roof.steps) == (name == "lower-room")
            assert (len(level.against) == 2) == (name == "round-wall")
            assert bool(level.dutch_gables) == name.startswith("dutch")
            assert difficulty(level, layout).grade == hard
            assert layout.counts.get("saddle") or "saddle-before-support" not in level.lesson.teaches
            assert not (level.site.loading and layout.counts.get("half")), "packs go on both slopes, and there is one"
            if shape.openings == 0 and name != "dutch-gable":
                assert len(level.gables) == {"gable": 2, "hip-and-gable": 1, "lean-to": 2, "lower-room": 2}.get(name, 0)
            whole = [high - low == layout.house.plan.by_name[wall].length for wall, (low, high) in level.beams.items()]
            assert whole == {"porch": [False], "verandah": [True]}.get(name, [])


def test_what_cannot_be_made_is_told() -> None:
    with pytest.raises(CannotMake, match="did you mean 'plus'"):
        make_level(1, 7, "pluss")
    with pytest.raises(CannotMake, match="gable can be 1 to 2"):
        make_level(1, 7, "gable")
    with pytest.raises(CannotMake, match="from 1 to 10"):
        make_level(1, 11)


def test_what_a_learner_reads_is_plain_and_invented_names_are_free() -> None:
    levels = [made(seed, hard) for hard in GRADES for seed in range(6)]
    told = [text for level in levels for text in (level.brief, *level.job_sheet)]
    for sentence in re.split(r"(?<=[.?!])\s+", " ".join(told)):
        assert len(sentence.split()) < 15, sentence
    text = " ".join(told)
    for word in TRADE:
        text = re.sub(rf"\b{word}s?\b", "beam", text)
    assert textstat.flesch_kincaid_grade(text) <= YEAR
    assert not set(BIRDS) & {path.stem for path in level_paths()}
    assert {rule for level in levels for rule in level.lesson.teaches} <= {rule.name for rule in all_rules()}


def test_the_command_writes_what_it_prints(tmp_path: Path) -> None:
    run = CliRunner()
    printed = run.invoke(app, ["make", "--seed", "4", "--difficulty", "6"])
    assert printed.exit_code == 0
    file = tmp_path / "new.yaml"
    assert run.invoke(app, ["make", "--seed", "4", "--difficulty", "6", "-o", str(file)]).exit_code == 0
    assert file.read_bytes().decode("utf-8") == printed.stdout
    assert parse_level(printed.stdout, "new.yaml") == make_level(4, 6)
    assert run.invoke(app, ["make", "--seed", "4", "--difficulty", "6", "--shape", "gable"]).exit_code == 2
    assert run.invoke(app, ["make", "--seed", "4", "--difficulty", "11"]).exit_code == 2
