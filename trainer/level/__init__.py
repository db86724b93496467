"""A level: one house with its own instructions, and what a learner does on it."""

from trainer.level.difficulty import difficulty
from trainer.level.lesson import Lesson, Weights
from trainer.level.model import Level
from trainer.level.parse import level_of, parse_level
from trainer.level.schema import level_schema, style_schema
from trainer.level.style import parse_style
from trainer.level.write import whole_text, write_level
