"""The reference answer: every truss of a house, where it stands, what it bears on and what it carries."""

from trainer.layout.model import (
    Crossing,
    End,
    House,
    Kind,
    Layout,
    LayoutRefused,
    Member,
    Part,
    Refusal,
    TrussSpec,
    Wing,
)

__all__ = [
    "Crossing",
    "End",
    "House",
    "Kind",
    "Layout",
    "LayoutRefused",
    "Member",
    "Part",
    "Refusal",
    "TrussSpec",
    "Wing",
]
