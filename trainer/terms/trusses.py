"""The kinds of truss: what one is called, what several are, and how they are counted."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Literal

from trainer.words import _, ngettext

TrussKind = Literal[
    "standard", "girder", "truncated_girder", "truncated", "hip", "jack", "creeper", "gable", "saddle", "half"
]
KIND_NAMES: Mapping[TrussKind, str] = {
    "standard": _("standard truss"), "girder": _("girder truss"), "truncated_girder": _("truncated girder"),
    "truncated": _("truncated truss"), "hip": _("hip truss"), "jack": _("jack truss"),
    "creeper": _("creeper truss"), "gable": _("gable truss"), "saddle": _("saddle truss"),
    "half": _("half truss"),
}  # fmt: skip
KIND_PLURALS: Mapping[TrussKind, str] = {
    "standard": _("standard trusses"), "girder": _("girder trusses"), "truncated_girder": _("truncated girders"),
    "truncated": _("truncated trusses"), "hip": _("hip trusses"), "jack": _("jack trusses"),
    "creeper": _("creeper trusses"), "gable": _("gable trusses"), "saddle": _("saddle trusses"),
    "half": _("half trusses"),
}  # fmt: skip
"""What several are called where they are not counted: a language may have more forms for counting than one."""
_COUNTED: Mapping[TrussKind, Callable[[int], str]] = {
    "standard": lambda n: ngettext("{n} standard truss", "{n} standard trusses", n),
    "girder": lambda n: ngettext("{n} girder truss", "{n} girder trusses", n),
    "truncated_girder": lambda n: ngettext("{n} truncated girder", "{n} truncated girders", n),
    "truncated": lambda n: ngettext("{n} truncated truss", "{n} truncated trusses", n),
    "hip": lambda n: ngettext("{n} hip truss", "{n} hip trusses", n),
    "jack": lambda n: ngettext("{n} jack truss", "{n} jack trusses", n),
    "creeper": lambda n: ngettext("{n} creeper truss", "{n} creeper trusses", n),
    "gable": lambda n: ngettext("{n} gable truss", "{n} gable trusses", n),
    "saddle": lambda n: ngettext("{n} saddle truss", "{n} saddle trusses", n),
    "half": lambda n: ngettext("{n} half truss", "{n} half trusses", n),
}


def counted(kind: TrussKind, n: int) -> str:
    """Return ``n`` trusses of a kind: ``1 hip truss``, ``4 hip trusses``."""
    return _COUNTED[kind](n).format(n=n)
