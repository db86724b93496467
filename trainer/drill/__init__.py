"""Drills: short exercises on one skill, made from any level and seed, judged by the same rules."""

from trainer.drill.model import CannotDrill, Drill
from trainer.drill.registry import drill_for, drills, make_drill
