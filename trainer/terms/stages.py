"""The six stages of the job."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, get_args

from trainer.words import _

Stage = Literal["pre-start", "set-out", "stand", "brace", "fix", "hand-over"]
STAGES: tuple[Stage, ...] = get_args(Stage)
"""The six stages, in order."""
STAGE_NAMES: Mapping[Stage, str] = {
    "pre-start": _("Pre-start"), "set-out": _("Set-out"), "stand": _("Stand"), "brace": _("Brace"), "fix": _("Fix"),
    "hand-over": _("Hand-over"),
}  # fmt: skip
