"""Every rule, by stage, and the judging of one event."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from trainer.rules import brace, fix, hand_over, pre_start, set_out, stand
from trainer.rules.finding import Finding
from trainer.rules.rule import Rule
from trainer.site import AnyAction, Event, Site

_ALL: tuple[Rule, ...] = (
    *pre_start.RULES,
    *set_out.RULES,
    *stand.RULES,
    *brace.RULES,
    *fix.RULES,
    *hand_over.RULES,
)


def _by_action() -> Mapping[type[AnyAction], tuple[Rule, ...]]:
    kinds = dict.fromkeys(kind for rule in _ALL for kind in rule.on)
    return MappingProxyType({kind: tuple(rule for rule in _ALL if kind in rule.on) for kind in kinds})


_BY_ACTION = _by_action()


def all_rules() -> tuple[Rule, ...]:
    """Return every rule, stage by stage in the order of the job."""
    return _ALL


def judge(before: Site, event: Event, after: Site) -> tuple[Finding, ...]:
    """Return what is found in one event: ``before`` and ``after`` are the site on either side of it.

    What is done is judged on any level. What belongs to a stage that the job counts as done is not missed.
    """
    rules = _BY_ACTION.get(type(event.action), ())
    return tuple(rule.finding(event, found) for rule in rules for found in rule.check(before, event, after))
