"""Drills: made from any house, right when done right, wrong when done wrong, and plain to read."""

import importlib
import json
import pkgutil
from functools import cache

import pytest
import textstat
from attempts import layout_of, level_of
from sizes import by_size, some
from typer.testing import CliRunner

import trainer.drill
from trainer.cli import app
from trainer.drill import CannotDrill, Drill, drill_for, drills, make_drill
from trainer.drill.model import Kind
from trainer.rules import all_rules
from trainer.shipped import level_paths
from trainer.site import AnyAction, Brace, Stand, step_actions
from trainer.site.actions import Inspect, Undo
from trainer.site.placing import same_both_ways

KINDS = [kind.name for kind in drills()]
HOUSES = (
    "thornbill", "pardalote", "fantail", "wagtail", "wren", "scrubwren", "kookaburra", "egret", "robin", "swallow",
)  # fmt: skip
AT_WALLS = ("swallow", "martin", "woodswallow")
"""Houses against a higher wall; a kind that is about that is tried on these."""
EVERYWHERE = {
    "look-round", "lift-plan", "true-plates", "how-many", "read-the-tape", "where-the-first-goes", "which-truss",
    "brace-the-row", "fasten-it", "find-the-fault",
}  # fmt: skip
OF_BEAMS = {"beam-and-posts"}
"""Kinds that want a verandah beam."""
YEAR = 8
SEEDS = range(1, by_size(6, 12, 12))


@cache
def made(kind: str, house: str, seed: int = 1) -> Drill | None:
    """A drill as it was made the first time."""
    return made_anew(kind, house, seed)


def made_anew(kind: str, house: str, seed: int = 1) -> Drill | None:
    try:
        return make_drill(kind, level_of(house), seed, layout_of(house))
    except CannotDrill:
        assert kind not in EVERYWHERE
        return None


def home_of(kind: str) -> str:
    """A house that a kind can be made on."""
    return "egret" if kind in OF_BEAMS else AT_WALLS[0] if kind == "tie-it-to-the-wall" else "wren"


def done_right(drill: Drill) -> list[AnyAction]:
    if drill.faults:
        return [Inspect(tag=drill.faults[0], accept=False)]
    session = drill.session()
    for step in drill.steps:
        session.do(step_actions(session.site, step)[0])
    return [outcome.action for outcome in session.outcomes]


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("house", some(HOUSES, 2))
def test_a_drill_done_right_is_right_and_ends_with_its_last_step(kind: str, house: str) -> None:
    for seed in by_size((1,), (1, 2), (1, 2)):
        if drill := made(kind, house, seed):
            session = drill.session()
            assert (session.findings, session.outcomes, drill.finished(session.site)) == ((), (), False)
            for action in done_right(drill):
                assert not drill.finished(session.site)
                outcome = session.do(action)
                assert (outcome.refused, outcome.findings) == (None, ())
            assert drill.result(session).right


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_can_be_made_on_most_houses(kind: str) -> None:
    fit = [path.stem for path in level_paths() if kind not in OF_BEAMS or level_of(path.stem).beams]
    houses = AT_WALLS if kind == "tie-it-to-the-wall" else fit if kind in OF_BEAMS else fit[:: by_size(16, 5, 5)]
    assert sum(made(kind, house) is not None for house in houses) >= max(len(houses) - 2, 3)


@pytest.mark.parametrize("kind", KINDS)
def test_the_same_seed_makes_the_same_drill_and_seeds_differ(kind: str) -> None:
    assert made(kind, home_of(kind), 1) == made_anew(kind, home_of(kind), 1)
    tasks = [(drill.task, drill.faults) for seed in SEEDS if (drill := made(kind, home_of(kind), seed))]
    asked = {(task, faults) for task, faults in tasks} | {
        tuple(map(str, drill.steps)) for seed in SEEDS if (drill := made(kind, home_of(kind), seed))
    }
    assert len(asked) > 2


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_given_cannot_be_undone(kind: str) -> None:
    drill = made(kind, home_of(kind))
    assert drill
    session = drill.session()
    assert session.do(Undo()).refused
    session.do(done_right(drill)[0])
    assert session.undo().refused is None
    assert session.site == drill.session().site


def test_a_wrong_truss_is_found_by_the_rule_that_it_practises() -> None:
    drill = made("which-truss", "wren")
    assert drill
    place = layout_of("wren").by_tag[drill.steps[0].tag]
    other = next(
        m
        for m in layout_of("wren").members
        if m.span == place.span and m.like != place.like and m.tag not in drill.session().site.stood
        and [(e.on_plate, e.tail) for e in m.ends] == [(e.on_plate, e.tail) for e in place.ends]
    )  # fmt: skip
    session = drill.session()
    found = session.do(Stand(tag=other.tag, start=place.start, finish=place.finish)).findings
    assert "wrong-truss-for-place" in {finding.rule for finding in found}
    result = drill.result(session)
    assert result.finished and not result.right


def test_a_truss_end_for_end_is_found() -> None:
    drill = made("turn-it-right", "wren")
    assert drill
    member = layout_of("wren").by_tag[drill.steps[0].tag]
    assert not same_both_ways(member)
    session = drill.session()
    found = session.do(Stand(tag=member.tag, start=member.finish, finish=member.start)).findings
    assert "end-for-end" in {finding.rule for finding in found}


def test_a_row_let_go_unbraced_is_found() -> None:
    drill = made("brace-the-row", "pardalote")
    assert drill
    session = drill.session()
    for action in done_right(drill):
        if not isinstance(action, Brace):
            session.do(action)
    assert {"row-with-nothing-solid", "stood-before-last-tied"} & {finding.rule for finding in session.findings}
    assert not drill.result(session).right


def test_an_order_turned_round_is_found() -> None:
    drill = made("what-order", "wren")
    assert drill
    session = drill.session()
    for action in reversed(done_right(drill)):
        session.do(action)
    assert drill.finished(session.site)
    assert session.findings


def test_rejecting_a_sound_truss_ends_the_drill_and_is_not_right() -> None:
    drill = made("find-the-fault", "pardalote")
    assert drill
    session = drill.session()
    sound = next(tag for tag in session.site.stood if tag not in drill.faults)
    session.do(Inspect(tag=sound, accept=False))
    assert drill.finished(session.site)
    assert not drill.result(session).right


def test_every_rule_leads_to_a_drill() -> None:
    assert {drill_for(rule.name) for rule in all_rules()} <= set(KINDS)
    assert drill_for("end-for-end") == "turn-it-right"
    named = {rule for kind in drills() for rule in kind.rules}
    assert named <= {rule.name for rule in all_rules()}
    with pytest.raises(LookupError):
        drill_for("no-such-rule")


def test_an_unknown_kind_is_told_with_a_guess() -> None:
    with pytest.raises(LookupError, match="did you mean 'which-truss'"):
        make_drill("wich-truss", level_of("wren"), 1)


def test_tasks_are_plain_and_drills_short() -> None:
    for kind in drills():
        assert 2 <= kind.minutes <= 5
        tasks = [drill.task for house in HOUSES if (drill := made(kind.name, house))]
        for sentence in " ".join(tasks).replace("?", ".").split(". "):
            assert len(sentence.split()) <= 16, sentence
    told = " ".join(drill.task for kind in KINDS if (drill := made(kind, "wren")))
    assert textstat.flesch_kincaid_grade(told) <= YEAR


def test_the_command_lists_kinds_and_tells_tasks() -> None:
    run = CliRunner()
    listed = run.invoke(app, ["drills"])
    assert listed.exit_code == 0
    assert [line.split()[0] for line in listed.stdout.splitlines()] == KINDS
    told = run.invoke(app, ["drills", "wren", "--seed", "1"])
    drill = made("which-truss", "wren")
    assert drill and drill.task in told.stdout
    asked = json.loads(run.invoke(app, ["drills", "wren", "--seed", "1", "--kind", "which-truss", "--json"]).stdout)
    assert [each["task"] for each in asked] == [drill.task]
    assert run.invoke(app, ["drills", "--kind", "wich-truss"]).exit_code == 2


def test_every_kind_that_is_declared_is_listed() -> None:
    modules = [
        importlib.import_module(f"trainer.drill.{each.name}") for each in pkgutil.iter_modules(trainer.drill.__path__)
    ]
    declared = {found.name for module in modules for found in vars(module).values() if isinstance(found, Kind)}
    assert declared == {kind.name for kind in drills()}
