"""The unit of competency, item by item, in our words: by which steps of the job each is practised."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.coverage.houses import Asks, kinds, two_spans, walls_across, walls_along
from trainer.quiz.unit import UnitItem
from trainer.words import _

PRACTISED: dict[UnitItem, tuple[str, ...]] = {
    "plan": ("girders", "standard", "delivery"),
    "safety": ("checks", "temporary bracing", "load"),
    "tools": (),
    "site": ("walls", "checks"),
    "materials": ("delivery",),
    "set-out": ("plates", "girder marks", "near face"),
    "lifting": ("packs",),
    "erecting": ("standard", "hips", "inspect"),
    "internal walls": ("walls across", "walls along"),
    "ceiling": (),
    "bracing": ("temporary bracing", "permanent bracing"),
    "restraint": ("permanent bracing",),
    "connections": ("tie-down", "brackets"),
    "clean-up": (),
}
"""For each item the steps that practise it on the board; for those with none there are questions."""


@dataclass(frozen=True, slots=True)
class Evidence:
    """Something that the unit wants to have been seen done."""

    name: str
    what: str
    here: Asks


EVIDENCE: tuple[Evidence, ...] = (
    Evidence("two spans", _("a major and a minor span"), two_spans),
    Evidence("hip and valley", _("a hip end and a valley"), kinds("hip", "saddle")),
    Evidence("gable", _("a gable end"), kinds("gable")),
    Evidence("gable bracing", _("bracing of a gable end"), kinds("gable")),
    Evidence("chord and web bracing", _("bottom-chord, web and top-chord bracing"), kinds("standard")),
    Evidence("across", _("connections to internal walls across the bottom chords"), walls_across),
    Evidence("along", _("connections to internal walls along the bottom chords"), walls_along),
)
