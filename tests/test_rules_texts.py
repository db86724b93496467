"""The rules as they read: each named for its mistake, every text there, plain, and honest about its source."""

import re
from itertools import product
from pathlib import Path

import pytest
import textstat
from attempts import SHIPPED, layout_of

import trainer.rules
from trainer.order import as_good, order_of
from trainer.rules import LEVEL, PRACTICE, TRAINING_CODE, all_rules
from trainer.rules.rule import BOW, INCIDENT, PLUMB
from trainer.rules.stand.out_of_order import REASONS
from trainer.rules.titles import TITLES
from trainer.terms import STAGES, Stage

RULES = all_rules()
TEXTS = ("what", "why", "fix", "safety", "source")
AGREED = {
    "wrong-truss-for-place", "off-station", "setback-not-the-levels", "spacing-too-wide", "girder-off-plate-line",
    "end-for-end", "carried-before-carrier", "hip-before-truncated-girder", "saddle-before-support",
    "stood-before-last-tied", "row-with-nothing-solid", "truss-missing", "truss-left-over", "hanger-missing",
    "heavy-girder-bracket-missing", "tie-down-missing", "out-of-order", "taken-down-again",
}  # fmt: skip
GLOSSARY = (
    "truncated girder", "truncated truss", "truncated", "girder", "hip truss", "hip", "jack", "creeper", "saddle",
    "gable", "truss", "plate", "setback", "station", "eave", "overhang", "tail", "hanger", "carrier", "bracket",
    "batten", "layout", "plies", "ply", "connector", "steel brace",
)  # fmt: skip
"""Trade words of the brief's list, which the picture glossary explains: taken out before reading is measured."""
YEAR = 7.0
MOST_WORDS = 14
SCOLDING = (
    "you should have",
    "careless",
    "wrong again",
    "obviously",
    "never again",
    "stupid",
    "lazy",
    "you failed",
    "bad work",
)


def stages():
    return [stage for stage in STAGES if any(rule.stage == stage for rule in RULES)]


def sentences(text):
    return [part.strip() for part in re.split(r"(?<=[.!?:])\s+", text) if part.strip()]


def plain_words(text):
    """A text as it is measured: without its blanks and without the trade words."""
    text = re.sub(r"\{\w+\}", "it", text)
    for word in sorted(GLOSSARY, key=len, reverse=True):
        text = re.sub(rf"\b{word}(s|es)?\b", "", text, flags=re.IGNORECASE)
    return text


def test_the_rules_agreed_are_there():
    names = [rule.name for rule in RULES]
    assert set(names) >= AGREED
    assert len(names) == len(set(names))


def test_rules_come_stage_by_stage():
    assert [rule.stage for rule in RULES] == sorted((rule.stage for rule in RULES), key=STAGES.index)
    assert {rule.stage for rule in RULES} <= set(Stage.__args__)


def test_every_rule_that_is_written_is_listed():
    """One short file a rule, filed under its stage and named as the rule is."""
    folder = Path(trainer.rules.__file__).parent
    listed = {(rule.stage.replace("-", "_"), rule.name.replace("-", "_")) for rule in RULES}
    written = {(path.parent.name, path.stem) for path in folder.glob("*/*.py") if path.stem != "__init__"}
    assert written == listed


def test_a_rule_says_everything():
    for rule in RULES:
        assert re.fullmatch(r"[a-z]+(-[a-z]+)+", rule.name)
        assert rule.severity in ("stop-work", "rework", "tolerance", "habit"), rule.name
        for field in TEXTS:
            assert getattr(rule, field).strip(), f"{rule.name} has no {field}"
        for field in ("what", "why", "fix", "safety"):
            assert getattr(rule, field)[-1] in ".!", f"{rule.name}: {field} is no whole sentence"
        assert set(re.findall(r"\{(\w+)\}", rule.what)) == {"member", "got", "want"}, rule.name
        assert not any("{" in getattr(rule, field) for field in TEXTS[1:]), rule.name
        assert rule.check.__doc__, rule.name


def test_each_has_a_short_title_of_its_own_in_the_order_of_the_job():
    """At most eight words and some fifty letters, so that a title stands on one line of a table: our own measure."""
    assert list(TITLES) == [rule.name for rule in RULES]
    assert len(set(TITLES.values())) == len(TITLES)
    for name, title in TITLES.items():
        assert 4 < len(title) <= 46 and len(title.split()) <= 9, name
        assert title[0].isupper() and not title.endswith("."), name
        assert not set(title.lower().split()) & {"rule", "level's", name}, name


def test_every_source_is_named():
    assert {rule.source for rule in RULES} <= {PRACTICE, LEVEL, TRAINING_CODE, INCIDENT, PLUMB, BOW}
    assert PRACTICE == "common practice, no source"
    assert LEVEL.startswith("this job's own value")
    assert "check the truss plan and the current standard" in LEVEL


def test_every_reason_of_good_order_has_its_words():
    reasons = set()
    for level in SHIPPED:
        layout = layout_of(level)
        for edges in order_of(layout, frozenset(STAGES)).into.values():
            stands = (edge for edge in edges if edge.then.verb == "stand" and edge.strength == "should")
            reasons |= {edge.why for edge in stands if edge.first.verb == "string" or not as_good(layout, edge)}
    assert reasons == set(REASONS)


def test_sentences_are_short_and_kind():
    for rule, field in product(RULES, ("what", "why", "fix", "safety")):
        text = getattr(rule, field)
        for sentence in sentences(text):
            assert len(sentence.split()) <= MOST_WORDS, f"{rule.name}, {field}: {sentence!r}"
        assert not any(word in text.lower() for word in SCOLDING), f"{rule.name}, {field}"


@pytest.mark.parametrize("stage", stages())
def test_each_stage_reads_at_year_7_or_easier(stage):
    """Whole texts, stage by stage, the trade words taken out; the measure of plain reading, Flesch and Kincaid's."""
    of_stage = [rule for rule in RULES if rule.stage == stage]
    text = " ".join(
        plain_words(getattr(rule, field)) for rule in of_stage for field in ("what", "why", "fix", "safety")
    )
    assert textstat.flesch_kincaid_grade(text) <= YEAR
