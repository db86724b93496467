"""The stages before and after standing: what a level asks for becomes steps, hints and right rehearsals."""

from __future__ import annotations

import pytest
from attempts import layout_of, level_of

from trainer.layout import lay_out
from trainer.level import parse_level
from trainer.order import Step
from trainer.read import Faulty
from trainer.rehearse import rehearse
from trainer.session import Session, job_of, site_faults
from trainer.shipped import find_level
from trainer.site import Flaw, Stand, dockets
from trainer.site.actions import Check, Report
from trainer.terms import STAGES

AS_FOUND = """\
site:
  checks: [edge protection, studs under girders, delivery]
  walls:
    - {wall: A, fault: bowed wall, by: 20}
    - {wall: B, fault: plate out of level, by: 4}
    - {wall: D, fault: studs missing}
  delivery:
    - {truss: ST2, fault: broken web}
    - {truss: ST4, fault: missing truss}
    - {truss: ST1, fault: swapped tag, other: GT1}
  wind: strong
"""


def found(text: str = AS_FOUND):
    """The first shipped house, found like this."""
    return parse_level(level_text() + text, "pardalote.yaml")


def level_text() -> str:
    return find_level("pardalote").read_text(encoding="utf-8")


def test_a_levels_site_becomes_what_is_found_there() -> None:
    job = job_of(found(), 1)
    assert job.conditions.checks == ("edge protection", "studs under girders", "delivery")
    assert Flaw("bowed wall", wall="A", by=20) in job.conditions.flaws
    assert Flaw("swapped tag", tag="ST1", other="GT1") in job.conditions.flaws
    assert job.conditions.wind == "strong"


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("site: {walls: [{wall: A, fault: bowed wall}]}", "say how much"),
        ("site: {walls: [{wall: A, fault: studs missing, by: 5}]}", "leave it out"),
        ("site: {walls: [{wall: A, fault: bowd wall, by: 5}]}", "bowed wall"),
        ("site: {delivery: [{truss: ST1, fault: swapped tag}]}", "needs other"),
        ("site: {delivery: [{truss: ST1, fault: broken web, other: ST2}]}", "takes no other"),
        ("site: {packs: [[ST1, ST2], [ST3, ST1, ST3]]}", "names ST1, ST3 more than once"),
        ("site: {packs: [[ST1], []]}", "packs"),
        ("site: {pakcs: [[ST1]]}", "did you mean 'packs'"),
        ("site: {wind: gale}", "strong"),
    ],
)
def test_what_a_site_block_gets_wrong_is_told(line: str, says: str) -> None:
    with pytest.raises(Faulty, match=says):
        found(line + "\n")


def test_walls_and_trusses_that_are_not_there_are_told() -> None:
    level = found("site: {walls: [{wall: Q, fault: studs missing}], delivery: [{truss: ST99, fault: broken web}]}\n")
    told = dict(site_faults(level, lay_out(level.house())))
    assert set(told) == {("site", "walls", 0, "wall"), ("site", "delivery", 0, "truss")}
    assert not list(site_faults(found(), lay_out(level.house())))


def test_packs_that_do_not_hold_the_house_are_told_all_at_once() -> None:
    level = found("site: {packs: [[ST1, GT1, ST44], [TT2]]}\n")
    layout = lay_out(level.house())
    told = dict(site_faults(level, layout))
    assert set(told) == {("site", "packs", 0, 2), ("site", "packs", 1, 0), ("site", "packs")}
    assert "did you mean" in told["site", "packs", 0, 2]
    left = set(layout.by_tag) - {"ST1", "GT1"}
    assert left == {word.strip(",;") for word in told["site", "packs"].split("; ")[0].split()[2:]}
    # Played all the same, each truss lies in one pack: those that were named first.
    came = dockets(job_of(level, 1))
    assert came[0] == ("ST1", "GT1")
    assert sorted(tag for pack in came for tag in pack) == sorted(layout.by_tag)


def test_pre_start_comes_before_anything_is_lifted() -> None:
    """Trade brief, "Must": pre-start before anything is lifted (common practice, no source)."""
    order = job_of(found(), 1).order
    before = [step for step in order.steps if step.verb in ("check", "report")]
    # A wall out by less than plates may be is no fault.
    assert {step.tag for step in before} == {
        "edge protection",
        "studs under girders",
        "delivery",
        "A",
        "D",
        "ST2",
        "ST4",
        "ST1",
    }
    for member in layout_of("pardalote").members:
        musts = {edge.first for edge in order.into[Step("stand", member.tag)] if edge.strength == "must"}
        assert musts >= set(before)


def test_a_level_without_the_pre_start_has_none_of_its_steps() -> None:
    text = AS_FOUND + "lesson: {stages: [stand, brace, hand-over]}\n"
    plain = level_text()
    level = parse_level(plain[: plain.index("lesson:")] + text, "pardalote.yaml")
    assert not [step for step in job_of(level, 0).order.steps if step.verb in ("check", "report")]


def test_rehearsals_and_hints_put_the_site_right_first() -> None:
    level = found()
    for seed in range(6):
        session = Session(level, seed).replay(rehearse(level, seed).actions)
        assert (session.findings, session.refused) == ((), ())
        assert session.site.handed_over
        assert {flaw.what for flaw in session.site.flaws} == {"plate out of level"}
    session = Session(level, 0)
    hinted = {type(hint.action) for hint in session.hint()}
    assert {Check, Report} <= hinted
    assert Stand not in hinted
    while hints := session.hint():
        assert not session.do(hints[0].action).findings
    assert session.site.handed_over
    assert set(job_of(level, 0).stages) == set(STAGES)
    assert level_of("pardalote").site.walls == ()
