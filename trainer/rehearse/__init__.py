"""Right attempts drawn at random from the precedence graph, and the same with one mistake planted."""

from trainer.rehearse.mistakes import CannotOccur, UnknownMistake, mistakes, plant
from trainer.rehearse.rehearse import rehearse
