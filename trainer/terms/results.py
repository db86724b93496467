"""How an attempt is taken and how it came out: modes, severities, outcomes."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, get_args

from trainer.words import _

Mode = Literal["practice", "assessment"]
MODE_NAMES: Mapping[str, str] = {"practice": _("practice"), "assessment": _("assessment")}
Severity = Literal["stop-work", "rework", "tolerance", "habit"]
SEVERITIES: tuple[Severity, ...] = get_args(Severity)
"""The severities, the worst first."""
SEVERITY_NAMES: Mapping[str, str] = {
    "stop-work": _("Stop work"), "rework": _("Rework"), "tolerance": _("Out of tolerance"), "habit": _("Habit"),
}  # fmt: skip
SEVERITY_MEANS: Mapping[str, str] = {
    "stop-work": _("Someone could be hurt, or it could fall."),
    "rework": _("It must come down or be done again."),
    "tolerance": _("It is out by more than this house allows."),
    "habit": _("It is safe, but a better way exists."),
}
Outcome = Literal["met", "not yet met", "unfinished", "shown"]
"""Of the practice mark only; it says nothing of competency. *Shown*: met, but too much of it by hints."""
OUTCOME_NAMES: Mapping[str, str] = {
    "met": _("Practice mark met"), "not yet met": _("Practice mark not yet met"), "unfinished": _("Not finished"),
    "shown": _("Shown by hints, not done alone"),
}  # fmt: skip
