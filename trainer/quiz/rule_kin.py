"""Which rules are about so nearly the same that what mends one could be defended for the other.

A question of judgement has what mends another rule among its wrong choices: never one of its kin, and of the rest one
that shares words with what is asked, so that a choice is not right for its words alone.
"""

from __future__ import annotations

import re
from collections.abc import Hashable, Mapping
from functools import cache

from trainer.chance import shuffled
from trainer.rules import Rule, all_rules
from trainer.terms import STAGES

_HOLDING = (
    "row-with-nothing-solid stood-before-last-tied wall-tie-missing bracing-taken-too-early stopped-unsecured "
    "row-left-unsafe-overnight let-go-half-fixed braced-to-beam post-brace-taken-off post-not-braced lifted-in-gust "
    "hip-before-truncated-girder saddle-before-support carried-before-carrier forecast-not-heeded pack-left-on-row "
    "extension-not-propped extension-not-fixed unbraced-wall-loaded worked-on-after-a-fall loaded-before-hand-over "
    "top-chord-battens-too-far-apart top-chord-ties-stripped braces-left-inside out-of-order roof-brace-missing "
    "roof-braces-all-one-way roof-brace-broken end-brace-missing tie-end-loose"
)
_ROOF_BRACING = (
    "roof-brace-missing roof-braces-all-one-way roof-brace-broken roof-brace-not-tied-down roof-brace-at-wrong-angle "
    "end-brace-missing tie-end-loose bottom-chord-ties-too-far-apart long-web-not-tied strap-pulled-too-hard "
    "top-chords-not-tied-under-saddles top-chord-ties-stripped top-chord-battens-too-far-apart braced-while-crooked"
)
_STRAIGHT = (
    "out-of-plumb truss-bowed apex-off-line no-string-line saddle-over-crooked-truss braced-while-crooked "
    "strap-pulled-too-hard verge-before-row-straight accepted-out-of-limits accepted-unmeasured rejected-though-sound "
    "not-inspected plate-out-of-true roof-brace-missing roof-brace-at-wrong-angle out-of-order"
)
_PLACE = (
    "mark-off-station mark-to-wrong-face measured-bay-by-bay far-bearing-not-carried-across station-not-marked "
    "off-station spacing-too-wide setback-not-the-levels girder-off-plate-line dutch-girder-off-station "
    "bay-left-too-wide plate-out-of-true apex-off-line no-string-line wrong-truss-for-place truss-left-over "
    "truss-missing missing-truss-not-reported"
)
_LIFTING = (
    "lift-not-planned too-heavy-by-hand too-few-to-lift slung-at-apex slings-not-spread lifted-without-licence "
    "people-under-the-lift check-left-undone lifted-in-gust forecast-not-heeded taken-down-again service-line-in-reach"
)
_CHECKS = (
    "check-left-undone service-line-in-reach stair-void-open edge-left-open people-under-the-lift forecast-not-heeded "
    "lifted-without-licence unbraced-wall-loaded studs-missing-under-girder ledger-not-on-studs plate-out-of-true "
    "beam-not-bolted-down beam-propped post-not-braced post-not-tied-down pack-landed-badly brackets-left-loose "
    "missing-truss-not-reported report-without-looking post-brace-taken-off pack-left-on-row lift-not-planned"
)
_CONNECTING = (
    "heavy-girder-bracket-missing hanger-missing plies-not-joined waling-plate-missing let-go-half-fixed "
    "tie-down-missing tie-down-too-light connector-half-nailed extension-not-fixed slotted-bracket-missing "
    "fixed-hard-to-internal-wall brackets-left-loose studs-missing-under-girder ledger-not-on-studs "
    "carried-before-carrier post-not-tied-down beam-not-bolted-down hip-before-truncated-girder "
    "roof-brace-not-tied-down"
)
_VERGE = (
    "outriggers-missing outriggers-too-far-apart outriggers-not-far-enough-back outriggers-end-between-trusses "
    "verge-rafters-missing gable-studs-missing verge-ladder-missing verge-before-row-straight"
)
_SADDLES = (
    "saddle-before-support saddle-over-crooked-truss saddle-without-batten saddle-without-trimmer "
    "top-chords-not-tied-under-saddles"
)
_WHOLE = (
    "damaged-truss-stood truss-cut tail-cut tail-where-none-belongs end-for-end wrong-truss-for-place truss-left-over "
    "truss-missing missing-truss-not-reported"
)
_LOADS = (
    "loaded-before-hand-over roof-loaded-unevenly loading-not-agreed pack-landed-badly pack-left-on-row "
    "unbraced-wall-loaded bay-left-too-wide truss-missing off-station spacing-too-wide"
)
_VERDICTS = "accepted-unmeasured accepted-out-of-limits rejected-though-sound not-inspected report-without-looking"
_ORDER = (
    "out-of-order hip-before-truncated-girder carried-before-carrier saddle-before-support taken-down-again "
    "verge-before-row-straight no-string-line saddle-over-crooked-truss station-not-marked"
)
KIN: tuple[frozenset[str], ...] = tuple(
    frozenset(names.split())
    for names in (
        _HOLDING, _ROOF_BRACING, _STRAIGHT, _PLACE, _LIFTING, _CHECKS, _CONNECTING, _VERGE, _SADDLES, _WHOLE, _LOADS,
        _VERDICTS, _ORDER,
    )
)  # fmt: skip
"""Rules of one kin: what is wrong by the one may be put right by the text of another."""
NEAREST = 5
"""Out of so many that share most words with what is asked the wrong choices are drawn."""
NEARER = (-2, 0, 1)
"""So many words in common does a rule have to have more: of the same stage, of the next to it, of one further off."""
LATER = (
    "saddle saddles truncated hip hips creeper creepers jack jacks dutch waling valley valleys outrigger outriggers "
    "verge ledger ledgers girder girders"
)
"""Words for parts of roofs that a learner meets later than the plain gable roof."""
_WORD = re.compile(r"[a-z]+")


@cache
def rules_by_name() -> Mapping[str, Rule]:
    """Every rule by its name."""
    return {rule.name: rule for rule in all_rules()}


def not_kin(rule: str) -> tuple[Rule, ...]:
    """Return the rules whose texts are wrong beyond dispute where ``rule`` was broken."""
    kin = {rule}.union(*(group for group in KIN if rule in group))
    mine = rules_by_name()[rule]
    return tuple(each for each in all_rules() if each.name not in kin and each.why != mine.why and each.fix != mine.fix)


def words_of(text: str) -> frozenset[str]:
    """Return the words of a text, in small letters."""
    return frozenset(_WORD.findall(text.casefold()))


def distractors(asked: str, rule: str, count: int, seed: int, *names: Hashable) -> list[Rule]:
    """Return rules not of the kin of ``rule`` whose mends share as many words with what is ``asked`` as any.

    Those of its own stage and the next come before others that share a little more, and those that speak of parts of
    a later roof, which the rule itself does not, come last. Which of them, is drawn by ``names``.
    """
    mine = rules_by_name()[rule]
    words, known = words_of(asked), words_of(f"{mine.why} {mine.fix}")
    by_text = {each.fix: each for each in shuffled(not_kin(rule), seed, *names)}
    near = sorted(
        by_text.values(),
        key=lambda each: (
            len(words_of(each.fix) & words_of(LATER) - known) > 0,
            NEARER[min(_apart(each, mine), 2)] - len(words_of(each.fix) & words),
        ),
    )
    return shuffled(near[: max(NEAREST, count)], seed, *names, "drawn")[:count]


def _apart(one: Rule, other: Rule) -> int:
    """How many stages of the job two rules are apart."""
    return abs(STAGES.index(one.stage) - STAGES.index(other.stage))
