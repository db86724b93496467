"""Questions about a rule itself, from its own texts: what puts a mistake right, and why it matters on site.

Each has the texts of other rules of its stage as wrong choices: what is done about another mistake, and what that could
do. A learner who broke a rule is asked about that rule, however rare the house on which it can be broken.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from trainer.chance import shuffled
from trainer.quiz.question import Asked, OneOf, Slip
from trainer.quiz.review import TOPIC_OF
from trainer.quiz.unit import UnitItem
from trainer.rules import Rule, all_rules
from trainer.terms import Stage
from trainer.words import _

PUT_RIGHT, WHY = "put-right", "why-it-matters"
ABOUT_RULES = (PUT_RIGHT, WHY)
"""The two forms; an id is ``form.rule.seed``."""
WRONG = 3
SERVES: Mapping[Stage, UnitItem] = {
    "pre-start": "safety", "set-out": "set-out", "stand": "erecting", "brace": "bracing", "fix": "connections",
    "hand-over": "safety",
}  # fmt: skip
_SMALL_WORDS = frozenset({"not", "no", "a", "the", "of", "in", "on", "at", "to", "too", "with", "for", "off", "left"})


def about_rule(form: str, rule: str, seed: int) -> Asked | None:
    """Return the question about a rule in one of the two forms, the same for the same seed; none of an unknown rule."""
    mine = _by_name().get(rule)
    if mine is None or form not in ABOUT_RULES:
        return None
    said = {each.name: each.fix if form == PUT_RIGHT else each.why for each in _by_name().values()}
    one_each = {said[each.name]: each for each in shuffled(_others(mine), seed, form, rule)}
    others = list(one_each.values())[:WRONG]
    texts = {each.name: said[each.name] for each in (mine, *others)}
    order = shuffled(list(texts), seed, form, rule, "places")
    asks = _("You are told: “{why}” What has to be done?") if form == PUT_RIGHT else _("You are told: “{fix}” Why?")
    slip = _("That goes with another mistake: {name}.")
    return Asked(
        id=f"{form}.{rule}.{seed}",
        topic=TOPIC_OF[mine.stage],
        difficulty=2,
        serves=(SERVES[mine.stage],),
        text=asks.format(why=mine.why, fix=mine.fix),
        task=OneOf(tuple(texts[name] for name in order), order.index(rule)),
        why=mine.why if form == PUT_RIGHT else mine.fix,
        source=mine.source,
        safety=mine.safety,
        slips=tuple(Slip(texts[each.name], slip.format(name=each.name.replace("-", " "))) for each in others),
        rules=(rule,),
    )


def rule_of(question: str) -> str:
    """Return the rule that the question with this id is about; empty where it is about none."""
    form, _dot, rest = question.partition(".")
    return rest.rpartition(".")[0] if form in ABOUT_RULES else ""


@cache
def _by_name() -> dict[str, Rule]:
    return {rule.name: rule for rule in all_rules()}


def _others(mine: Rule) -> list[Rule]:
    """Rules of the same stage about something else: none with a text, or a word in its name, in common."""
    about = _words(mine)
    same_stage = [each for each in all_rules() if each.stage == mine.stage and _differs(each, mine)]
    apart = [each for each in same_stage if not about & _words(each)]
    return apart if len(apart) >= WRONG else [each for each in all_rules() if _differs(each, mine)]


def _differs(one: Rule, other: Rule) -> bool:
    return one.name != other.name and one.why != other.why and one.fix != other.fix


def _words(rule: Rule) -> frozenset[str]:
    return frozenset(rule.name.split("-")) - _SMALL_WORDS
