"""The reference answer: every truss of a house, where it stands, what it bears on and what it carries."""

from trainer.layout.lay_out import lay_out
from trainer.layout.model import (
    Change,
    Crossing,
    End,
    FixingSpec,
    House,
    Layout,
    LayoutRefused,
    Leg,
    Member,
    Part,
    Refusal,
    TrussSpec,
    Wing,
)
from trainer.layout.shares import Load, loads

__all__ = [
    "Change",
    "Crossing",
    "End",
    "FixingSpec",
    "House",
    "Layout",
    "LayoutRefused",
    "Leg",
    "Load",
    "Member",
    "Part",
    "Refusal",
    "TrussSpec",
    "Wing",
    "lay_out",
    "loads",
]
