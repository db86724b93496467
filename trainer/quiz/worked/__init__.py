"""Questions worked out from a house: one family a kind of measure or decision; their modules are listed here."""

from __future__ import annotations

from trainer.quiz.worked import (
    against,
    beams,
    before_lifting,
    carrying,
    coming_off,
    dutch,
    girders,
    handing_over,
    heights,
    held_still,
    hips,
    holding_on,
    inside_corners,
    judging,
    lengths,
    loads,
    orders,
    pointing,
    saddles,
    spotting,
    stations,
)
from trainer.quiz.worked.family import Family
from trainer.quiz.worked.subject import Subject, subject_of

_MODULES = (
    stations, girders, heights, hips, lengths, saddles, carrying, loads, beams, orders, pointing, spotting,
    before_lifting, holding_on, handing_over, dutch, held_still, against, inside_corners, judging,
    coming_off,
)  # fmt: skip
FAMILIES = {made.name: made for module in _MODULES for made in vars(module).values() if isinstance(made, Family)}
"""Every family by its name."""
