"""What a rule is: the texts of one mistake, the actions it may come of, and the check that finds it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from importlib import import_module
from typing import cast

from trainer.rules.finding import Finding
from trainer.rules.whole import WHOLE
from trainer.site import AnyAction, Event, HandOver, Remove, Site, Stand
from trainer.terms import Severity, Stage
from trainer.words import _

PRACTICE = _("common practice, no source")
LEVEL = _("this job's own value; check the truss plan and the current standard")
TRAINING_CODE = _("code text quoted in a training resource for the unit RIIWHS204D, put more strictly by us")
INCIDENT = _(
    "common practice; that the place is left as it is: recalled from the model Work Health and Safety Act, not seen"
)
PLUMB = _(
    "height/50: AS 4440-2004 Fig. 3.3, as listed in a supervisor's checklist, South Australia, Development "
    "Regulations 2008, historical; the cap is this job's own value"
)
BOW = _(
    "length/200: AS 4440-2004 Fig. 3.2, as listed in a supervisor's checklist, South Australia, Development "
    "Regulations 2008, historical; the cap is this job's own value"
)


@dataclass(frozen=True, slots=True)
class Found:
    """One breach that a check found: who, and in plain words what was ``got`` and what was ``want``ed.

    ``cause`` names the one thing done or left undone that this came of; findings with the same cause are
    marked once. Left empty, the breach is a cause of its own.
    """

    member: str
    got: str
    want: str
    cause: str = ""


Finds = Iterator[Found]
"""What a check finds, one after the other."""
Check = Callable[[Site, Event, Site], Finds]
"""Takes the site before an event, the event, and the site after it."""


@dataclass(frozen=True, slots=True)
class Rule:
    """One mistake. ``what`` is said with a case's own ``{member}``, ``{got}`` and ``{want}``.

    ``why`` it matters on site, ``fix`` is how to put it right, ``safety`` what to mind, and ``source`` how
    far the rule can be trusted. ``on`` are the kinds of action it looks at; no other action costs it anything.
    """

    name: str
    stage: Stage
    severity: Severity
    on: tuple[type[AnyAction], ...]
    what: str
    why: str
    fix: str
    safety: str
    source: str
    check: Check

    def finding(self, event: Event, found: Found) -> Finding:
        """Put the rule's own words to what its check found in an event."""
        return Finding(
            rule=self.name,
            event=event.index,
            member=found.member,
            severity=self.severity,
            got=found.got,
            want=found.want,
            what=self.what.format(member=found.member, got=found.got, want=found.want),
            why=self.why,
            fix=self.fix,
            safety=self.safety,
            source=self.source,
            cause=found.cause,
            missing=self.name in WHOLE and isinstance(event.action, HandOver),
        )


def truss_of(event: Event) -> str:
    """Return the tag of the truss that was stood or taken down."""
    return event.action.tag if isinstance(event.action, Stand | Remove) else ""


def rule(
    *,
    severity: Severity,
    on: type[AnyAction] | tuple[type[AnyAction], ...],
    what: str,
    why: str,
    fix: str,
    safety: str,
    source: str,
) -> Callable[[Check], Rule]:
    """Turn a check into the rule of its name, in the stage of its folder; that still has to list it in ``RULES``."""
    kinds = on if isinstance(on, tuple) else (on,)

    def with_texts(check: Check) -> Rule:
        name, folder = check.__name__.replace("_", "-"), check.__module__.split(".")[-2].replace("_", "-")
        return Rule(name, cast(Stage, folder), severity, kinds, what, why, fix, safety, source, check)

    return with_texts


def rules_of(package: str, names: str) -> tuple[Rule, ...]:
    """Return the rules of a stage, one module of its ``package`` each, in the order of their ``names``."""
    modules = [name.replace("-", "_") for name in names.split()]
    return tuple(getattr(import_module(f"{package}.{module}"), module) for module in modules)
