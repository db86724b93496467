"""``trainer rules``: what the trainer finds, by stage, and one rule explained."""

from __future__ import annotations

import json
from itertools import groupby
from typing import TYPE_CHECKING, Annotated

import typer

from trainer.cli.given import AsJson, wrong_call
from trainer.cli.table import table

if TYPE_CHECKING:
    from trainer.rules import Rule

RuleName = Annotated[str, typer.Argument(metavar="NAME", help="A rule to explain, such as off-station.")]
TOLD = ("name", "stage", "severity", "what", "why", "fix", "safety", "source")
AsPage = Annotated[bool, typer.Option("--page", help="Print levels/RULES.md: all rules, and what each covers.")]


def rules(name: RuleName = "", as_json: AsJson = False, page: AsPage = False) -> None:
    """List the rules by stage, or explain one.

    Each has a severity, what it says, why it matters on site, how to put it right, what to mind, and its source.
    """
    from trainer.rules import all_rules, rules_page  # noqa: PLC0415

    if page:
        typer.echo(rules_page(), nl=False)
        return
    known = {rule.name: rule for rule in all_rules()}
    if name and name not in known:
        from trainer.read import did_you_mean  # noqa: PLC0415

        guess = did_you_mean(name, known) or "'trainer rules' lists them"
        wrong_call(f"There is no rule '{name}'; {guess}")
    chosen = [known[name]] if name else list(known.values())
    if as_json:
        told = [{field: getattr(rule, field) for field in TOLD} for rule in chosen]
        typer.echo(json.dumps(told[0] if name else told))
    else:
        typer.echo(explained(chosen[0]) if name else _listed(chosen))


def explained(rule: Rule) -> str:
    """Return one rule in words for people."""
    from trainer.rules.page import what_it_says  # noqa: PLC0415
    from trainer.terms import SEVERITY_MEANS, SEVERITY_NAMES, STAGE_NAMES  # noqa: PLC0415
    from trainer.words import CAUTION  # noqa: PLC0415

    return "\n".join(
        [
            f"{rule.name} ({STAGE_NAMES[rule.stage]}; {SEVERITY_NAMES[rule.severity]})",
            f"  {SEVERITY_MEANS[rule.severity]}",
            f"  Says: {what_it_says(rule)}",
            f"  Why: {rule.why}",
            f"  Put right: {rule.fix}",
            f"  Safety: {rule.safety}",
            f"  Source: {rule.source}.",
            "",
            CAUTION,
        ]
    )


def _listed(chosen: list[Rule]) -> str:
    from trainer.terms import SEVERITY_NAMES, STAGE_NAMES  # noqa: PLC0415
    from trainer.words import CAUTION  # noqa: PLC0415

    parts = []
    for stage, of_stage in groupby(chosen, key=lambda rule: rule.stage):
        rows = [(rule.name, SEVERITY_NAMES[rule.severity], rule.why) for rule in of_stage]
        parts.append(f"{STAGE_NAMES[stage]}\n\n{table(('rule', 'severity', 'why it matters'), rows)}")
    return "\n\n".join([*parts, CAUTION])
