"""At every lift of every right diary, all that stands is held: looked at with a model that imports no rule.

The trade brief, "Order of work" (common practice, no source): "at every lift, every truss that stands is held: one
gang, one lift at a time, crane or not, so whatever stood before is let go by then, in whatever row or wing".
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest
import yaml
from case_diaries import CASES, Diary, called, cases_in, read
from foreman import Foreman, Free
from sizes import by_size, some

LEVELS = sorted(path.stem for path in (Path(__file__).parent.parent / "levels").glob("*.yaml"))
BASES = sorted(read(CASES / "bases.yaml"))
SEEDS = by_size((1,), (1, 2), (1, 2, 3))
HELD = (
    "far-truncated-girder", "first-of-a-row", "gable-truss-free", "girder-let-go", "girder-one-end", "half-fixed-jack",
    "hip-extension-free", "lift-in-another-wing", "outermost-standard", "row-not-tied", "saddle-let-go", "tall-saddle",
    "tied-to-each-other", "truncated-girder-loose",
)  # fmt: skip
"""The cases whose danger is a lift past a free truss."""


def first_free(diary: Diary) -> Free | None:
    return next(Foreman(diary.house.layout, diary.actions).free(), None)


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("level", some(LEVELS, 3, 20))
def test_no_right_diary_lifts_past_a_free_truss(level: str, seed: int, tmp_path: Path) -> None:
    diary = Diary({"says": "right", "level": level, "base": {"rehearsed": seed}}, tmp_path)
    free = list(Foreman(diary.house.layout, diary.actions).free())
    assert not free, f"{len(free)} times, first {free[0]} at {diary.actions[free[0].event]}"


@pytest.mark.parametrize("base", BASES)
def test_the_bases_of_the_cases_hold_at_every_lift(base: str, tmp_path: Path) -> None:
    assert first_free(Diary({"says": "right", "base": base}, tmp_path)) is None


@pytest.mark.parametrize("case", [pytest.param(case, id=name) for name, case in cases_in("sound")])
def test_sound_cases_hold_at_every_lift(case: dict, tmp_path: Path) -> None:
    assert first_free(Diary(case, tmp_path)) is None


@pytest.mark.parametrize(
    "case", [pytest.param(c, id=name) for name, c in cases_in("dangers") if name.split(":")[0] in HELD]
)
def test_the_model_sees_the_first_free_truss_where_the_case_says(case: dict, tmp_path: Path) -> None:
    diary = Diary(case, tmp_path)
    found = first_free(diary)
    wanted = case["finds"][0]
    moment = diary.moment(wanted["at"])
    if diary.actions[moment]["do"] == "unbrace":  # free from then on: seen at the lift that follows
        moment = next(i for i, a in enumerate(diary.actions) if i > moment and a["do"] in ("stand", "hand_over"))
    assert found is not None
    members = wanted["member"] if isinstance(wanted["member"], list) else [wanted["member"]]
    assert (found.event, found.tag in members) == (moment, True), (found, diary.actions[found.event])


@pytest.mark.parametrize("base", BASES)
def test_without_any_one_brace_or_end_the_model_finds_it(base: str, tmp_path: Path) -> None:
    """Take out each fixing of an end, and each brace or prop, one at a time: that truss is free at the next lift."""
    diary = Diary({"says": "right", "base": base}, tmp_path)
    layout, actions = diary.house.layout, diary.actions
    stood = {a["tag"]: i for i, a in enumerate(actions) if a["do"] == "stand"}
    for i, action in enumerate(actions):
        if action["do"] == "fix" and "end" in action:
            free = next(Foreman(layout, [*actions[:i], *actions[i + 1 :]]).free())
            lift = next(j for j in range(i + 1, len(actions)) if actions[j]["do"] in ("stand", "hand_over")) - 1
            assert (free.event, free.tag, free.why) == (lift, action["tag"], "end")
        if action["do"] == "brace" and action["kind"] in ("solid", "prop") and stood[action["tags"][0]] == i - 1:
            free = next(Foreman(layout, [*actions[:i], *actions[i + 1 :]]).free())
            lift = next(j for j in range(i + 1, len(actions)) if actions[j]["do"] in ("stand", "hand_over")) - 1
            assert (free.event, free.tag) == (lift, action["tags"][0])


def test_nothing_of_the_trainers_rooms_is_imported() -> None:
    """Neither the model nor what reads its diaries may share a mistake with the trainer; the command line is called."""
    here = Path(__file__).parent
    lines = [line for name in ("foreman", "case_diaries") for line in (here / f"{name}.py").read_text().splitlines()]
    assert [line for line in lines if "import" in line and "trainer" in line] == ["from trainer.cli import app"]


def test_the_layout_as_printed_is_all_that_it_needs() -> None:
    layout = json.loads(called("layout", "pardalote", "--json"))
    lines = yaml.safe_load("[{do: stand, tag: ST1}, {do: stand, tag: ST2}, {do: fix, tag: ST1, end: 1}]")
    assert [free.tag for free in Foreman(layout, lines).free()] == ["ST1"]
