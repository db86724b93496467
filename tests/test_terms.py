"""Every word of a diary and of a record has its term, and lines are said whole."""

from typing import get_args

import pytest

from trainer.layout.model import TAG_LETTERS
from trainer.level import Lesson
from trainer.level.as_found import CHECKS, OTHER_CHECKS, TrussFault, WallFault
from trainer.level.dangers import Reported
from trainer.level.lesson import Weights
from trainer.report.in_words import action_line
from trainer.site import AnyAction
from trainer.site.actions import BraceKind, Cut, Load, Measure, Pattern, PlaceReading, Slung, TrussReading, WallReading
from trainer.site.fastening import BRACKETS, CONNECTORS
from trainer.terms import (
    CUTS,
    FAULTS,
    KIND_NAMES,
    KIND_PLURALS,
    LOADS,
    MODE_NAMES,
    OUTCOME_NAMES,
    READINGS,
    SEVERITIES,
    SEVERITY_MEANS,
    SEVERITY_NAMES,
    STAGE_NAMES,
    STAGES,
    THINGS,
    VERBS,
    Mode,
    Outcome,
    TrussKind,
    counted,
    done_line,
    to_do_line,
)

DIARY = {kind.model_fields["do"].default for kind in get_args(AnyAction)}


def test_every_verb_of_a_diary_has_its_terms_and_a_stage() -> None:
    assert set(VERBS) == DIARY
    assert {verb for verb, terms in VERBS.items() if terms.stage is None} == {"undo"}


def test_every_kind_of_truss_is_named_for_one_for_several_and_counted() -> None:
    assert set(KIND_NAMES) == set(KIND_PLURALS) == set(get_args(TrussKind)) == set(TAG_LETTERS)
    for kind in KIND_NAMES:
        assert counted(kind, 1) == f"1 {KIND_NAMES[kind]}"
        assert counted(kind, 2) == f"2 {KIND_PLURALS[kind]}"


def test_stages_severities_modes_and_outcomes_all_have_names() -> None:
    assert tuple(STAGE_NAMES) == STAGES == Lesson().stages
    assert tuple(SEVERITY_NAMES) == tuple(SEVERITY_MEANS) == SEVERITIES == tuple(Weights().by_severity())
    assert tuple(MODE_NAMES) == get_args(Mode)
    assert tuple(OUTCOME_NAMES) == get_args(Outcome)


def test_every_word_that_a_diary_may_hold_has_a_term() -> None:
    assert set(get_args(WallFault)) | set(get_args(TrussFault)) | set(get_args(Reported)) | {"a fall"} == set(FAULTS)
    readings = {*get_args(WallReading), *get_args(TrussReading), *get_args(PlaceReading)}
    assert readings | {"between"} == set(READINGS)
    assert get_args(Measure.model_fields["what"].annotation)
    assert tuple(CUTS) == get_args(Cut.model_fields["where"].annotation)
    assert tuple(LOADS) == get_args(Load.model_fields["what"].annotation)
    assert {*CHECKS, *OTHER_CHECKS, *get_args(BraceKind), *CONNECTORS, *BRACKETS} <= set(THINGS)
    assert {*get_args(Pattern), *get_args(Slung)} <= {*THINGS, "apex"}


@pytest.mark.parametrize(
    ("action", "done", "to_do", "line"),
    [
        ({"do": "check", "item": "plates"}, "Checked: plates", "Check: plates", "Checked: plates"),
        ({"do": "mark", "wall": "A", "at": 1800.0}, "Marked wall A", "Mark wall A", "Marked wall A: at 1800"),
        (
            {"do": "plan", "kind": "hip", "by": "crane", "people": 2, "slung": "panel points"},
            "Planned lifts of hip trusses", "Plan lifts of hip trusses",
            "Planned lifts of hip trusses: by crane, people 2, slung panel points",
        ),
        (
            {"do": "load", "what": "packs", "pattern": "both slopes"},
            "Said where the first packs land", "Say where the first packs land",
            "Said where the first packs land: packs, both slopes",
        ),
        ({"do": "stop"}, "Stopped lifting", "Stop lifting", "Stopped lifting"),
        (
            {"do": "report", "fault": "gust forecast"},
            "Reported the site", "Report the site", "Reported the site: danger: gusts forecast",
        ),
        (
            {"do": "stand", "tag": "ST3", "from": (1800, 0.0), "to": (1800.0, 6000.0)},
            "Stood ST3", "Stand ST3", "Stood ST3: from (1800, 0), to (1800, 6000)",
        ),
        (
            {"do": "fit", "part": "hanger", "on": "G1", "at": 600.0},
            "Fitted on G1 at 600", "Fit on G1 at 600", "Fitted on G1 at 600: hanger",
        ),
        (
            {"do": "fix", "tag": "T1", "end": 2, "with": "framing anchor", "count": 1},
            "Fixed T1, end 2", "Fix T1, end 2", "Fixed T1, end 2: with framing anchor",
        ),
        (
            {"do": "brace", "kind": "batten", "tags": ("T1", "T2"), "every": 2700},
            "Braced T1 – T2", "Brace T1 – T2", "Braced T1 – T2: batten, every 2700",
        ),
        (
            {"do": "string", "from": "ST1", "to": "ST9"},
            "Pulled a string from ST1 to ST9", "Pull a string from ST1 to ST9", "Pulled a string from ST1 to ST9",
        ),
        (
            {"do": "report", "fault": "broken web", "tag": "T7"},
            "Reported T7", "Report T7", "Reported T7: truss: broken web",
        ),
        (
            {"do": "inspect", "tag": "T7", "accept": False},
            "Inspected T7", "Inspect T7", "Inspected T7: rejected",
        ),
        ({"do": "hand_over"}, "Handed over", "Hand over", "Handed over"),
    ],
)  # fmt: skip
def test_an_action_is_said_as_done_as_to_do_and_on_one_line_of_a_report(
    action: dict[str, object], done: str, to_do: str, line: str
) -> None:
    assert (done_line(action), to_do_line(action), action_line(action)) == (done, to_do, line)


def test_a_verb_that_this_edition_does_not_know_is_still_a_line() -> None:
    assert action_line({"do": "carry_up", "tag": "T1"}) == "Carry up: T1"
