"""Every kind of drill, and which one practises what a finding was about."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from trainer.drill.at_walls import tie_it_to_the_wall
from trainer.drill.lifting import beam_and_posts, lift_plan, look_round
from trainer.drill.looking import find_the_fault, how_many, true_plates
from trainer.drill.model import Drill, Kind
from trainer.drill.placing import read_the_tape, turn_it_right, where_the_first_goes, which_truss
from trainer.drill.restraining import brace_the_roof
from trainer.drill.truing import line_it_up
from trainer.drill.working import brace_the_row, fasten_it, land_it, what_order
from trainer.layout import Layout, lay_out
from trainer.level import Level
from trainer.read import did_you_mean
from trainer.rules import all_rules
from trainer.words import _

_ALL = (
    look_round,
    beam_and_posts,
    lift_plan,
    true_plates,
    how_many,
    read_the_tape,
    where_the_first_goes,
    which_truss,
    turn_it_right,
    what_order,
    line_it_up,
    brace_the_row,
    brace_the_roof,
    fasten_it,
    land_it,
    tie_it_to_the_wall,
    find_the_fault,
)
KINDS: Mapping[str, Kind] = MappingProxyType({each.name: each for each in _ALL})
_OF_STAGE: Mapping[str, Kind] = MappingProxyType(
    {
        "pre-start": how_many,
        "set-out": read_the_tape,
        "stand": what_order,
        "brace": brace_the_row,
        "fix": fasten_it,
        "hand-over": find_the_fault,
    }
)
"""What practises a stage, for rules that no kind is about by name."""


def drills() -> tuple[Kind, ...]:
    """Return every kind of drill, in the order of the job."""
    return _ALL


def make_drill(name: str, level: Level, seed: int, layout: Layout | None = None) -> Drill:
    """Return the drill of the kind ``name`` on a level; the same for the same seed.

    ``layout`` saves working it out again.

    :raises LookupError: where there is no such kind; says which was perhaps meant.
    :raises CannotDrill: where the level has nothing to practise it on.
    :raises LayoutRefused: where the level's house can't be laid out.
    """
    if name not in KINDS:
        raise LookupError(
            _("no drill is called '{name}'; {guess}").format(
                name=name[:40], guess=did_you_mean(name, KINDS) or ", ".join(KINDS)
            )
        )
    return KINDS[name].on(level, layout or lay_out(level.house()), seed)


def drill_for(rule: str) -> str:
    """Return the name of the kind that practises what ``rule`` finds.

    :raises LookupError: where there is no such rule.
    """
    for each in _ALL:
        if rule in each.rules:
            return each.name
    stage = next((known.stage for known in all_rules() if known.name == rule), None)
    if stage is None:
        raise LookupError(_("no rule is called '{rule}'").format(rule=rule[:40]))
    return _OF_STAGE[stage].name
