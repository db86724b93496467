"""Every mistake that can be planted, by the rule that finds it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from trainer.read import did_you_mean
from trainer.rehearse.mistakes import doing, leaving_out, ordering, placing
from trainer.rehearse.mistakes.planting import Planted, Planter
from trainer.site import AnyAction, Job, Refused, act, start
from trainer.words import _


class CannotOccur(Exception):  # noqa: N818 - it is an answer about a level, not a fault of the program
    """Raised where a level leaves no room for a mistake; says why."""


class UnknownMistake(LookupError):  # noqa: N818 - it is an answer, not a fault of the program
    """Raised where no mistake has the name given; says which was perhaps meant."""


@dataclass(frozen=True, slots=True)
class _Mistake:
    plant: Planter
    needs: str


_MISTAKES: Mapping[str, _Mistake] = MappingProxyType(
    {
        "wrong-truss-for-place": _Mistake(placing.wrong_truss_for_place, _("two unlike trusses of one length")),
        "off-station": _Mistake(placing.off_station, _("a truss with room beside it")),
        "setback-not-the-levels": _Mistake(placing.setback_not_the_levels, _("a truncated girder")),
        "spacing-too-wide": _Mistake(placing.spacing_too_wide, _("two neighbours a full spacing apart")),
        "girder-off-plate-line": _Mistake(placing.girder_off_plate_line, _("a girder over an opening")),
        "end-for-end": _Mistake(placing.end_for_end, _("a truss with unlike ends")),
        "carried-before-carrier": _Mistake(ordering.carried_before_carrier, _("a truss that hangs on a girder")),
        "hip-before-truncated-girder": _Mistake(ordering.hip_before_truncated_girder, _("a hip on a truncated girder")),
        "saddle-before-support": _Mistake(ordering.saddle_before_support, _("a saddle")),
        "stood-before-last-tied": _Mistake(ordering.stood_before_last_tied, _("a row that is braced as it goes up")),
        "row-with-nothing-solid": _Mistake(ordering.row_with_nothing_solid, _("a row that is braced as it goes up")),
        "truss-missing": _Mistake(placing.truss_missing, _("a truss that nothing waits for")),
        "truss-left-over": _Mistake(placing.truss_left_over, _("two unlike trusses of one length")),
        "hanger-missing": _Mistake(leaving_out.hanger_missing, _("a truss in a hanger")),
        "heavy-girder-bracket-missing": _Mistake(
            leaving_out.heavy_girder_bracket_missing, _("a girder hung on another")
        ),
        "tie-down-missing": _Mistake(leaving_out.tie_down_missing, _("a truss that carries nothing")),
        "out-of-order": _Mistake(ordering.out_of_order, _("trusses with a better order")),
        "taken-down-again": _Mistake(ordering.taken_down_again, _("a truss that is stood")),
        "bracing-taken-too-early": _Mistake(doing.bracing_taken_too_early, _("a truss that a batten alone holds")),
        "truss-cut": _Mistake(doing.truss_cut, _("a truss that is stood")),
        "tail-cut": _Mistake(doing.tail_cut, _("a truss with a tail")),
        "damaged-truss-stood": _Mistake(doing.damaged_truss_stood, _("a truss that comes damaged")),
        "tail-where-none-belongs": _Mistake(doing.tail_where_none_belongs, _("a truss with an unwanted tail")),
        "loaded-before-hand-over": _Mistake(doing.loaded_before_hand_over, _("a truss that is stood")),
    }
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
        if _can_be_done(job, planted.actions):
            return planted
    text = _("The mistake {name} can't occur on this level. It needs {needs}.")
    raise CannotOccur(text.format(name=name, needs=mistake.needs))


def _can_be_done(job: Job, actions: list[AnyAction]) -> bool:
    site = start(job)
    for index, action in enumerate(actions):
        result = act(site, index, action)
        if isinstance(result, Refused):
            return False
        site = result[0]
    return True
