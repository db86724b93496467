"""``trainer rules``: what the trainer finds, by stage, and one rule explained."""

from __future__ import annotations

import json
from itertools import groupby
from typing import TYPE_CHECKING, Annotated

import typer

from trainer.cli.given import AsJson, show, wrong_call
from trainer.cli.options import argument
from trainer.cli.table import table
from trainer.terms import SEVERITY_MEANS, SEVERITY_NAMES, STAGE_NAMES
from trainer.words import CAUTION, _

if TYPE_CHECKING:
    from trainer.rules import Rule

RuleName = Annotated[str, argument("NAME", "A rule to explain, such as off-station.")]
HEADS = (_("rule"), _("severity"), _("why it matters"))
FIELDS = ("name", "stage", "severity", "what", "why", "fix", "safety", "source")
AsPage = Annotated[bool, typer.Option("--page", help="Print levels/RULES.md: all rules, and what each covers.")]


def rules(name: RuleName = "", as_json: AsJson = False, page: AsPage = False) -> None:
    """List the rules by stage, or explain one.

    Each has a severity, what it says, why it matters on site, how to put it right, what to mind, and its source.
    """
    from trainer.rules import all_rules, rules_page

    if page:
        show(rules_page(), nl=False)
        return
    known = {rule.name: rule for rule in all_rules()}
    if name and name not in known:
        from trainer.read import did_you_mean

        guess = did_you_mean(name, known) or _("'trainer rules' lists them")
        wrong_call(_("There is no rule '{name}'; {guess}").format(name=name, guess=guess))
    chosen = [known[name]] if name else list(known.values())
    if as_json:
        data = [{field: getattr(rule, field) for field in FIELDS} for rule in chosen]
        show(json.dumps(data[0] if name else data))
    else:
        show(explained(chosen[0]) if name else _listed(chosen))


def explained(rule: Rule) -> str:
    """Return one rule in words for people."""
    from trainer.rules.page import what_it_says

    return "\n".join(
        [
            f"{rule.name} ({STAGE_NAMES[rule.stage]}; {SEVERITY_NAMES[rule.severity]})",
            f"  {SEVERITY_MEANS[rule.severity]}",
            _("  Says: {what}").format(what=what_it_says(rule)),
            _("  Why: {why}").format(why=rule.why),
            _("  Put right: {fix}").format(fix=rule.fix),
            _("  Safety: {safety}").format(safety=rule.safety),
            _("  Source: {source}.").format(source=rule.source),
            "",
            CAUTION,
        ]
    )


def _listed(chosen: list[Rule]) -> str:

    parts = []
    for stage, of_stage in groupby(chosen, key=lambda rule: rule.stage):
        rows = [(rule.name, SEVERITY_NAMES[rule.severity], rule.why) for rule in of_stage]
        parts.append(f"{STAGE_NAMES[stage]}\n\n{table(HEADS, rows)}")
    return "\n\n".join([*parts, CAUTION])
