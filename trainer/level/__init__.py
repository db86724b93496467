"""A level: one house with its own instructions, and what a learner does on it."""

from trainer.level.instructions import Bracing, Fixings, SiteSettings, TieDown, Tolerances
from trainer.level.lesson import Lesson, Stage, Weights
from trainer.level.model import Level
from trainer.level.parse import parse_level
from trainer.level.schema import level_schema

__all__ = [
    "Bracing", "Fixings", "Lesson", "Level", "SiteSettings", "Stage", "TieDown", "Tolerances", "Weights",
    "level_schema", "parse_level",
]  # fmt: skip
