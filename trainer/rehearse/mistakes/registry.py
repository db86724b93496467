"""Every mistake that can be planted, by the rule that finds it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from importlib import import_module
from pathlib import Path
from pkgutil import iter_modules
from types import MappingProxyType

from trainer.read import did_you_mean
from trainer.rehearse.mistakes.planting import Attempt, Mistake, Planted
from trainer.site import Job
from trainer.words import _


class CannotOccur(Exception):  # noqa: N818 - it is an answer about a level, not a fault of the program
    """Raised where a level leaves no room for a mistake; says why."""


class UnknownMistake(LookupError):  # noqa: N818 - it is an answer, not a fault of the program
    """Raised where no mistake has the name given; says which was perhaps meant."""


def _all() -> Iterator[tuple[str, Mistake]]:
    """Yield the mistakes of every module beside this one, each under the name that it has there."""
    for module in iter_modules([str(Path(__file__).parent)]):
        for name, found in vars(import_module(f"{__package__}.{module.name}")).items():
            if isinstance(found, Mistake):
                yield name.replace("_", "-"), found


_MISTAKES: Mapping[str, Mistake] = MappingProxyType(dict(_all()))


def mistakes() -> tuple[str, ...]:
    """Return the names of all that can be planted."""
    return tuple(_MISTAKES)


def plant(job: Job, seed: int, name: str) -> Planted:
    """Return an attempt that is right but for the mistake ``name``; ``seed`` draws its order and the mistake's place.

    :raises UnknownMistake: where there is no such mistake.
    :raises CannotOccur: where this job leaves no room for it.
    """
    if name not in _MISTAKES:
        guess = did_you_mean(name, _MISTAKES)
        raise UnknownMistake(f"no mistake is called '{name[:80]}'; {guess or 'known: ' + ', '.join(_MISTAKES)}")
    mistake = _MISTAKES[name]
    for planted in mistake.plant(job, seed):
        if (done := Attempt.drawn(job, seed).done(planted)) is not None:
            return done
    text = _("The mistake {name} can't occur on this level. It needs {needs}.")
    raise CannotOccur(text.format(name=name, needs=mistake.needs))
