"""Straighten a truss: line and plumb."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.board.tools.tool import TrussTool
from trainer.site.actions import Plumb
from trainer.words import _


@dataclass
class PlumbTool(TrussTool[Plumb]):
    """It has nothing but the truss that is chosen."""

    key = "P"
    first_words = _("Choose a truss that stands. It is set straight and plumb.")
    title = _("Straighten")
    button = _("Set it plumb")
    wanting = _("Choose a standing truss to straighten.")
    only_standing = True
