"""Every mistake that can be planted, by the rule that finds it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from trainer.read import did_you_mean
from trainer.rehearse.mistakes import (
    at_walls,
    beams,
    before_start,
    dangers,
    doing,
    inspecting,
    leaving_out,
    links,
    nights,
    ordering,
    permanent,
    placing,
    setting_out,
    truing,
    verge,
)
from trainer.rehearse.mistakes.planting import Mistake, Planted, RightAttempt
from trainer.site import Job
from trainer.words import _


class CannotOccur(Exception):  # noqa: N818 - it is an answer about a level, not a fault of the program
    """Raised where a level leaves no room for a mistake; says why."""


class UnknownMistake(LookupError):  # noqa: N818 - it is an answer, not a fault of the program
    """Raised where no mistake has the name given; says which was perhaps meant."""


_MODULES = (
    before_start, setting_out, placing, truing, ordering, permanent, verge, leaving_out, doing, inspecting, links,
    nights, dangers, beams, at_walls,
)  # fmt: skip
_MISTAKES: Mapping[str, Mistake] = MappingProxyType(
    {name.replace("_", "-"): it for module in _MODULES for name, it in vars(module).items() if isinstance(it, Mistake)}
)


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
        if (done := RightAttempt.drawn(job, seed).done(planted)) is not None:
            return done
    text = _("The mistake {name} can't occur on this level. It needs {needs}.")
    raise CannotOccur(text.format(name=name, needs=mistake.needs))
