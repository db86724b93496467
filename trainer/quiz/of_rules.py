"""Questions about a rule itself, from its own texts: what puts a mistake right, and why it matters on site.

Its wrong choices are what is done and said on site of the same thing. A learner who broke a rule is asked about that
rule, however rare the house on which it can be broken.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from trainer.chance import pick, shuffled
from trainer.quiz.bank import Question
from trainer.quiz.from_bank import asked
from trainer.quiz.question import Asked, OneOf, Slip
from trainer.quiz.rule_kin import rules_by_name
from trainer.quiz.slips import SLIPS
from trainer.quiz.unit import TOPIC_OF
from trainer.quiz.worked.judging import JUDGING, SERVES
from trainer.quiz.worked.subject import Subject
from trainer.words import _

PUT_RIGHT, WHY = "put-right", "why-it-matters"
ABOUT_RULES = (PUT_RIGHT, WHY)
"""The two forms; an id is ``form.rule.seed``."""
WRITTEN = "about"
"""The form of a written question that is asked about a rule; its id is ``about.rule.question``."""
LONGEST_ID = 80
"""Letters of an id that records can keep."""
LARGEST = 70
"""Houses of more trusses than this are not asked about when a rule is due: a day there takes long to play."""
HOUSES_TRIED = 4
TURNS = 1000


def about_rule(form: str, rule: str, seed: int) -> Asked | None:
    """Return the question about a rule in one of the two forms, the same for the same seed; none of an unknown rule."""
    mine = rules_by_name().get(rule)
    if mine is None or form not in ABOUT_RULES:
        return None
    put_right = form == PUT_RIGHT
    slips = SLIPS[rule]
    wrong = tuple(Slip(*each) for each in (slips.do if put_right else slips.why))
    right = mine.fix if put_right else mine.why
    choices = shuffled([right, *(slip.text for slip in wrong)], seed, form, rule, "places")
    asks = _("You are told: “{why}” What has to be done?") if put_right else _("You are told: “{fix}” Why?")
    return Asked(
        id=f"{form}.{rule}.{seed}",
        topic=TOPIC_OF[mine.stage],
        difficulty=2,
        serves=(SERVES[mine.stage],),
        text=asks.format(why=mine.why, fix=mine.fix),
        task=OneOf(tuple(choices), choices.index(right)),
        why=mine.why if put_right else mine.fix,
        source=mine.source,
        safety=mine.safety,
        slips=wrong,
        rules=(rule,),
    )


def rule_of(question: str) -> str:
    """Return the one rule that the question with this id is about; empty where it is about none, or about several."""
    form, _dot, rest = question.partition(".")
    name, _dot, seed = rest.rpartition(".")
    if form == WRITTEN:
        return rest.partition(".")[0]
    if form in ABOUT_RULES:
        return name
    family = next((each for each in JUDGING if each.name == form), None)
    return family.rule_of(int(seed)) if family and seed.isdigit() else ""


def house_of(question: str) -> str:
    """Return the id of the house that the question with this id is about; empty where it is about none."""
    form, _dot, rest = question.partition(".")
    return "" if form in (*ABOUT_RULES, WRITTEN) else rest.rpartition(".")[0]


def written_about(rule: str, bank: Iterable[Question], seed: int) -> Asked | None:
    """Return a written question that is about a rule, under an id of its own by which it counts for the rule."""
    found = [each for each in bank if rule in each.rules and len(f"{WRITTEN}.{rule}.{each.id}") <= LONGEST_ID]
    if not found:
        return None
    question = pick(found, seed, "written about", rule)
    return replace(asked(question, seed), id=f"{WRITTEN}.{rule}.{question.id}", rules=(rule,))


def written_again(id_: str, bank: Mapping[str, Question], seed: int) -> Asked | None:
    """Return the same again by its id; none where the bank no longer has it."""
    question = bank.get(id_.rpartition(".")[2])
    return replace(asked(question, seed), id=id_, rules=(rule_of(id_),)) if question else None


def judged_rule(rule: str, subjects: Sequence[Subject], seed: int) -> Asked | None:
    """Return a question of judgement about a rule on one of these houses, the first that has room for its mistake."""
    families = shuffled([family for family in JUDGING if rule in family.judged], seed, rule, "form")
    small = [subject for subject in subjects if len(subject.layout.members) <= LARGEST]
    for subject in shuffled(small, seed, rule, "house")[:HOUSES_TRIED]:
        for family in families:
            if (question := family.ask_about(rule, subject, seed % TURNS)) is not None:
                return question
    return None
