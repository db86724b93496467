"""The tools of the board: one for each verb of a diary, in the stages in which they are used."""

from __future__ import annotations

from typing import Literal, get_args

from trainer.terms import Stage
from trainer.words import _

Tool = Literal[
    "check", "measure", "report", "mark", "stand", "string", "plumb", "remove", "cut", "brace", "unbrace",
    "restrain", "fit", "fix",
    "inspect", "load",
]  # fmt: skip
TOOLS: tuple[Tool, ...] = get_args(Tool)
STAGE_TOOLS: dict[Stage, tuple[Tool, ...]] = {
    "pre-start": ("check", "measure", "report"),
    "set-out": ("mark", "measure"),
    "stand": ("stand", "string", "plumb", "remove", "cut"),
    "brace": ("brace", "unbrace", "restrain"),
    "fix": ("fit", "fix"),
    "hand-over": ("measure", "inspect", "load"),
}
"""The tools of each stage. A tool may be of use in several; it is at home in the first."""
TOOL_KEYS: dict[Tool, str] = {
    "check": "Q", "measure": "A", "report": "Shift R", "mark": "M", "stand": "S", "string": "G", "plumb": "P",
    "remove": "R", "cut": "Shift X", "brace": "B", "unbrace": "Shift B", "restrain": "Z", "fit": "F", "fix": "X",
    "inspect": "I", "load": "Shift L",
}  # fmt: skip
FIRST_WORDS: dict[Tool, str] = {
    "check": _("Choose what you have checked, and press Enter."),
    "measure": _("Choose what to measure. Between two points: press on both."),
    "report": _("Choose what is wrong, and the wall or the truss."),
    "mark": _("Point at a plate, or type a measure and press Enter."),
    "stand": _("Choose a truss in the yard. Then point where it stands, or type the measure."),
    "string": _("Choose two trusses of a row. The string runs from top to top."),
    "plumb": _("Choose a truss that stands. It is set straight and plumb."),
    "remove": _("Choose a truss that stands."),
    "cut": _("Choose a truss, and where it is cut."),
    "brace": _("Choose a truss that stands. C changes the kind of brace."),
    "unbrace": _("Choose the piece of bracing to take off."),
    "restrain": _("Choose the permanent bracing. Then press where it begins and where it ends."),
    "fit": _("Choose the truss that will carry, then where the part goes."),
    "fix": _("Choose a truss that stands, its end and the connector."),
    "inspect": _("Choose a truss. Accept it, or reject it."),
    "load": _("Choose what goes on the roof."),
}
ONE_STANDING: frozenset[Tool] = frozenset({"fix", "remove", "plumb", "inspect"})
"""Tools that do something to one truss that stands."""


def stage_of(tool: Tool) -> Stage:
    """Return the stage in which a tool is at home."""
    return next(stage for stage, tools in STAGE_TOOLS.items() if tool in tools)
