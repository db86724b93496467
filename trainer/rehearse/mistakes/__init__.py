"""Mistakes that can be planted in a right attempt, one for each rule of the site."""

from trainer.rehearse.mistakes.planting import Planted
from trainer.rehearse.mistakes.registry import CannotOccur, UnknownMistake, mistakes, plant
