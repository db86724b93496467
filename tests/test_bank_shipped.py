"""The shipped bank: enough, sound, plain, true to its sources, and right where it can be worked out."""

import math
import re
from collections import Counter
from pathlib import Path

import pytest
import textstat

from trainer.layout import House, Layout, TrussSpec, lay_out
from trainer.plan import PlatePlan
from trainer.quiz import TOPICS, ChooseOne, Number, Question, bank_faults, parse_bank
from trainer.quiz.bank import LETTERS, ChooseSeveral
from trainer.quiz.worked.judging import JUDGING
from trainer.roof import RoofSpec
from trainer.rules import all_rules
from trainer.rules.rule import INCIDENT, LEVEL, PRACTICE, TRAINING_CODE
from trainer.shipped import bank_paths

FILES = bank_paths()
BY_FILE = {path.stem: parse_bank(path.read_bytes(), path.name) for path in FILES}
BANK: dict[str, Question] = {question.id: question for questions in BY_FILE.values() for question in questions}

CHECKLIST = "as listed in a supervisor's checklist, South Australia, Development Regulations 2008, historical"
SOURCES = {
    PRACTICE,
    INCIDENT,
    LEVEL,
    TRAINING_CODE,
    "arithmetic",
    "code text quoted in a training resource for the unit RIIWHS204D",
    "WorkSafe ACT safety alert on roof trusses",
    "model WHS regulation 291; WorkSafe Queensland",
    "Master Builders Victoria, roof framing",
    "AS 1684 guides; TAFE toolbox on fixings",
    "Timber Trader News, 11 October 2015, seen once",
    "a Canadian truss association's bracing sheets, a reference from overseas",
    "ANSI/TPI 1 table 3.5-1, a reference from overseas",
    f"AS 4440-2004 Fig. 3.2 {CHECKLIST}",
    f"AS 4440-2004 Fig. 3.3 {CHECKLIST}",
}
"""Every source a shipped question may name, and how it is named: nothing else has been seen."""
TRADE_WORDS = (
    "truncated girder", "truncated truss", "truncated trusses", "top plate", "top chord", "bottom chord",
    "bottom-chord", "nailplate", "outrigger", "verge rafter", "framing anchor", "tie-down", "heavy girder bracket",
    "method statement", "permanent", "temporary", "saddle", "girder", "hanger", "creeper", "trimmer", "extension",
    "overhang", "setback", "station", "apex", "fabricator", "gable", "ceiling", "batten", "truss", "supervisor",
    "bracing",
)  # fmt: skip
"""Words of the trade that a learner has to learn; measured as if each were a short word."""
TAN, COS = math.tan(math.radians(22.5)), math.cos(math.radians(22.5))
GRADE = 7


def house(outline: tuple[tuple[int, int], ...], gables: str = "", spec: TrussSpec | None = None) -> Layout:
    plan = PlatePlan(outline, 90, frozenset(gables))
    return lay_out(House(plan, RoofSpec(22.5, 600, 0), spec or TrussSpec(600, 1800)))


def hipped(width: int, spec: TrussSpec | None = None) -> Layout:
    return house(((0, 0), (18000, 0), (18000, width), (0, width)), "", spec)


WIDE, NARROW = hipped(7800), hipped(7200)
NEAR_FACE = hipped(7800, TrussSpec(600, 1800, thickness=35, girder_plies=2, stations_to="near face"))
WINGED = house(
    ((0, 0), (18000, 0), (18000, 12600), (12600, 12600), (12600, 7200), (0, 7200)),
    "C",
)


def placed(layout: Layout, kind: str) -> list[float]:
    """Distances along x of the trusses of a kind in the left half of the house, rising."""
    return sorted(member.start[0] for member in layout.members if member.kind == kind and member.start[0] < 9000)


def saddle_bases() -> list[float]:
    return sorted((m.span for m in WINGED.members if m.kind == "saddle"), reverse=True)


WORKED: dict[str, float] = {
    # From the layout, which has its own published and hand-worked checks.
    "plans-half-truss-height": 90 + 3000 * TAN,
    "plans-jack-count": sum(m.kind == "jack" and m.start[0] < 9000 for m in WIDE.members),
    "setout-third-truncated": placed(WIDE, "truncated")[2],
    "setout-how-many-truncated": len(placed(WIDE, "truncated")),
    "setout-first-standard": placed(NARROW, "standard")[0],
    "setout-near-face": placed(NEAR_FACE, "truncated_girder")[0],
    "saddles-base": saddle_bases()[0],
    "saddles-how-many": len(saddle_bases()),
    # Counted out or in closed form.
    "fixing-uplift-at-post": 8 * 1.2,
    "plans-count-gable": len(range(600, 9001, 600)),
    "plans-hanger-count": sum((7, 2)),
    "dutch-plate-length": 6000 - 1765 - 1765,
    "setout-seventh": range(600, 9001, 600)[6],
    "setout-creeping": sum([602] * 15) - sum([600] * 15),
    "setout-half-a-truss": 3600 + 35 / 2 - 3600,
    "setout-check-square": math.hypot(6000, 8000),
    "bracing-missed-nails": len(range(12)[1:-1]),
    "bracing-tie-rows": next(rows for rows in range(9) if 9000 / (rows + 1) <= 4000),
    "fixing-uplift-sum": 0.6 * 5,
    "fixing-net-uplift": 1.1 * 6 - 0.9 * 0.4 * 6,
    "fixing-double-wind": (0.0006 * 80**2) / (0.0006 * 40**2),
    "tolerances-plumb-sum": min(1500 / 50, 50),
    "tolerances-plumb-cap": min(3200 / 50, 50),
    "tolerances-bow-sum": min(6000 / 200, 50),
    "tolerances-times-over": 350 / (2500 / 50),
    "tolerances-gap-grows": (4200 + 9) - (3600 - 9),
    "gables-outrigger-count": len(range(0, 3001, 600)),
    "gables-how-far-in": min(far for far in (500, 1100, 1700) if far >= 700),
    "gables-lower-by": 90 / COS,
    "saddles-roof-has-risen": 1200 * TAN,
    "inspection-anchors-short": 14 * 2 * 2 - 53,
    "tools-hundred-mark": 1900 - 100,
    "ceiling-clear-gap": (600 - 35 / 2) - 35 / 2,
    "cleanup-hanger-sum": 45 - (48 - 6),
    # Published: code text quoted in a training resource for RIIWHS204D.
    "safety-platform-width": 450 / 225,
}
"""The answer of every number question, worked out apart from the bank."""


def prose(questions: tuple[Question, ...]) -> str:
    """The sentences of a file, trade words made short; choices are no sentences and would flatter the grade."""
    text = " ".join(f"{q.text} {q.why} {q.safety or ''}" for q in questions)
    for word in sorted(TRADE_WORDS, key=len, reverse=True):
        text = re.sub(rf"\b{word}(e?s)?\b", "truss", text, flags=re.IGNORECASE)
    return text


def test_the_bank_has_no_fault() -> None:
    assert [str(fault) for fault in bank_faults(BANK.values())] == []
    assert len(BANK) == sum(map(len, BY_FILE.values())) >= 160


def test_three_papers_of_forty_can_share_no_question_and_still_be_alike() -> None:
    cells = Counter((question.topic, question.difficulty) for question in BANK.values())
    assert all(cells[topic, difficulty] >= 3 for topic in TOPICS for difficulty in (1, 2, 3))
    assert len(TOPICS) * 3 >= 40


def test_each_file_is_named_for_its_topic() -> None:
    for stem, questions in BY_FILE.items():
        (topic,) = {question.topic for question in questions}
        assert set(stem.split("-")) <= set(topic.lower().replace("-", " ").split()), f"{stem} holds {topic}"


@pytest.mark.parametrize("stem", BY_FILE)
def test_a_file_reads_at_year_seven_or_easier(stem: str) -> None:
    text = prose(BY_FILE[stem])
    assert textstat.flesch_kincaid_grade(text) <= GRADE
    assert textstat.smog_index(text) <= GRADE


def test_the_measure_of_plain_reading_can_fail() -> None:
    heavy = (
        "Notwithstanding the aforementioned considerations, permissible deviations from the specified configuration"
        " necessitate documented authorisation by the responsible manufacturing organisation. "
    )
    assert textstat.flesch_kincaid_grade(heavy * 10) > GRADE and textstat.smog_index(heavy * 10) > GRADE


@pytest.mark.parametrize("name", [question.id for question in BANK.values() if isinstance(question, Number)])
def test_every_number_is_the_one_worked_out_apart_from_the_bank(name: str) -> None:
    question = BANK[name]
    assert isinstance(question, Number)
    assert question.answer == pytest.approx(WORKED[name], abs=max(question.tolerance, 1e-9))


def test_no_worked_number_is_left_without_a_question() -> None:
    assert set(WORKED) == {question.id for question in BANK.values() if isinstance(question, Number)}


def test_of_choices_that_are_numbers_the_right_one_alone_is_in_range() -> None:
    ranges = {"bracing-angle-pass": (30, 60), "tolerances-mark-passes": (3600 - 10, 3600 + 10)}
    numeric = {q.id: q for q in BANK.values() if isinstance(q, ChooseOne) and all(c[0].isdigit() for c in q.choices)}
    assert set(numeric) == set(ranges)
    for name, (least, most) in ranges.items():
        values = [int(choice.split()[0]) for choice in numeric[name].choices]
        assert [i for i, value in enumerate(values) if least <= value <= most] == list(numeric[name].right)
        assert values == sorted(values)


def test_every_source_is_one_that_was_seen_or_says_there_is_none() -> None:
    assert {question.source for question in BANK.values()} <= SOURCES


@pytest.mark.parametrize("figure", ["30 to 60", "4000 at most", "50 at most", "and 50", "10 off", "kN,"])
def test_a_figure_nobody_has_seen_in_a_standard_is_a_practice_jobs_own(figure: str) -> None:
    told = [question for question in BANK.values() if figure in question.text]
    assert told
    for question in told:
        assert "practice job" in question.text.lower() or "invented" in question.text, question.id


def test_lifting_and_safety_never_go_without_a_safety_note() -> None:
    bare = [q.id for q in BANK.values() if q.topic in ("safety", "lifting") and q.safety is None]
    assert bare == []


def test_no_height_is_taught_as_the_one_from_which_a_statement_is_required() -> None:
    question = BANK["safety-height-rule"]
    assert isinstance(question, ChooseOne)
    assert not re.search(r"\d|metre|two|three", question.choices[question.right[0]])


def test_bank_files_are_plain_utf8_with_no_tabs(tmp_path: Path) -> None:
    for path in FILES:
        text = path.read_text(encoding="utf-8")
        assert "\t" not in text and "\r" not in text and text.endswith("\n")
        copied = tmp_path / path.name
        copied.write_text(text, encoding="utf-8", newline="\r\n")
        assert parse_bank(copied.read_bytes(), path.name) == BY_FILE[path.stem]


# what a learner who knows nothing could score by, and what a rule is asked by

CUE = re.compile(
    r"\b(ask|asks|stop|stops|report|reports|tell|tells|telling|told|say so|wait|waits|call|warn|supervisor)\b",
    re.IGNORECASE,
)
"""What sounds careful, so that it might be picked blind."""
IN_DOUBT = re.compile(
    r"\b(bent|bow|broken|cracks?|cut|cuts|damaged?|dropped|fallen|falls?|fell|gap|gust|hurt|jams|leans?|lifted|loose"
    r"|missing|notch|one short|out of|power|rises|sags?|slack|splits?|sways|too \w+|unbraced|void|wet|wind|wrong)\b"
    r"|\b(design\w*|detail|differ\w*|disagree|drawings?|instead of|schedule)\b",
    re.IGNORECASE,
)
"""What a question says where danger, damage or the design is in doubt."""


def test_every_wrong_choice_says_why_it_is_wrong() -> None:
    for question in BANK.values():
        if isinstance(question, ChooseOne | ChooseSeveral):
            wrong = {letter for i, letter in enumerate(LETTERS[: len(question.choices)]) if i not in question.right}
            assert set(question.why_not) == wrong, question.id
            reasons = list(question.why_not.values())
            assert len(set(reasons)) == len(reasons), question.id
            for reason in reasons:
                assert all(len(part.split()) <= 15 for part in re.split(r"(?<=[.!?])\s+", reason)), reason


def test_to_ask_stop_or_report_picked_blind_is_right_in_at_most_half_of_what_offers_it() -> None:
    cues = {
        question.id: [bool(CUE.search(choice)) for choice in question.choices]
        for question in BANK.values()
        if isinstance(question, ChooseOne)
    }
    offered = {name: found for name, found in cues.items() if any(found)}
    # Whoever picks one of those that sound careful, by chance where there are several.
    right = sum(found[BANK[name].right[0]] / sum(found) for name, found in offered.items())  # type: ignore[union-attr]
    assert len(offered) >= 20 and right <= len(offered) / 2


def test_half_of_the_questions_where_something_is_in_doubt_offer_no_such_choice() -> None:
    doubt = [q for q in BANK.values() if isinstance(q, ChooseOne) and IN_DOUBT.search(q.text)]
    without = [q for q in doubt if not any(CUE.search(choice) for choice in q.choices)]
    assert len(doubt) >= 60 and len(without) >= len(doubt) / 2


def test_every_rule_has_two_questions_of_judgement_at_least() -> None:
    asked = Counter(rule for family in JUDGING for rule in family.judged)
    asked += Counter(rule for question in BANK.values() for rule in question.rules)
    assert {rule.name for rule in all_rules() if asked[rule.name] < 2} == set()
