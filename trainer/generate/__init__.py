"""New levels, made to measure: the same for the same seed, and as hard as asked."""

from trainer.generate.family import make_family
from trainer.generate.make import CannotMake, make_level, short_level
from trainer.generate.shapes import SHAPES, HouseShape
