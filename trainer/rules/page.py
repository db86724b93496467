"""The page of all rules for teachers, written from the rules' own texts."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from trainer.rules.duties import DUTIES, Duty
from trainer.rules.judge import all_rules
from trainer.rules.rule import Rule
from trainer.terms import SEVERITY_MEANS, STAGE_NAMES
from trainer.words import CAUTION, _


def what_it_says(rule: Rule) -> str:
    """Return what a rule says, with words where a case has its own."""
    return rule.what.format(member=_("[the truss]"), got=_("[what was found]"), want=_("[what is wanted]"))


def rules_page() -> str:
    """Return the page as Markdown: what each rule says, and what of the job it covers."""
    return "\n".join([*_head(), *_stages(), *_covered()])


def _head() -> Iterator[str]:
    yield _("# What the trainer finds")
    yield ""
    yield _("Made from the rules themselves: `trainer rules --page` writes it again. {caution}").format(caution=CAUTION)
    yield ""
    yield _("| severity | what it means |")
    yield "|---|---|"
    yield from (f"| {name} | {meaning} |" for name, meaning in SEVERITY_MEANS.items())


def _stages() -> Iterator[str]:
    for stage, rules in groupby(all_rules(), key=lambda rule: rule.stage):
        yield f"\n## {STAGE_NAMES[stage]}"
        for rule in rules:
            yield f"\n### {rule.name}\n"
            yield f"*{rule.severity}*. {what_it_says(rule)}\n"
            yield _("- Why: {text}").format(text=rule.why)
            yield _("- Put right: {text}").format(text=rule.fix)
            yield _("- Safety: {text}").format(text=rule.safety)
            yield _("- Source: {text}.").format(text=rule.source)


def _covered() -> Iterator[str]:
    yield _("\n## What the job asks for, and what finds it missed\n")
    yield _("| | what the job asks | found by |")
    yield "|---|---|---|"
    for duty in DUTIES:
        yield f"| {duty.kind} | {duty.what} | {_found_by(duty)} |"
    yield ""


def _found_by(duty: Duty) -> str:
    names = ", ".join(f"[{name}](#{name})" for name in duty.rules)
    return "; ".join(part for part in (names, duty.note) if part)
