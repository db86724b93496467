"""A house being built as a film: a right order in shots with times, captions, and stops that ask what comes next."""

from trainer.film.make import film_of
from trainer.film.model import Caption, Film, Option, Part, Shot, Stop
from trainer.film.player import Player
