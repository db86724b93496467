"""What a house that was drawn could be called, and the id that goes with a title."""

from __future__ import annotations

import re
import unicodedata

from trainer.table.drawing import Drawing, new_drawing
from trainer.words import _, ngettext

LONGEST_ID = 36
SHAPES = {4: _("House"), 6: _("L-shaped house")}
"""What a plan of so many corners is; of more than these it may be a T, a U, or an L with a bay."""


def is_named(drawing: Drawing) -> bool:
    """Whether somebody gave the house a title."""
    return bool(drawing.at("title")) and drawing.at("title") != new_drawing().at("title")


def suggested_title(drawing: Drawing) -> str:
    """Return a title that tells this house from others: its shape, what is special about it, its size."""
    if is_named(drawing):
        return str(drawing.at("title"))
    left, low, right, high = drawing.bounds
    kinds = {wall.kind for wall in drawing.walls}
    said = {
        "dutch gable": _("dutch gable"), "beam": _("beam on posts"), "against": _("higher wall"), "gable": _("gable"),
    }  # fmt: skip
    special = next((word for kind, word in said.items() if kind in kinds), "")
    corners = len(drawing.corners)
    many = ngettext("House with {n} corner", "House with {n} corners", corners)
    shape = SHAPES.get(corners, many.format(n=corners))
    size = _("{wide:g} by {deep:g} m").format(wide=(right - left) / 1000, deep=(high - low) / 1000)
    return ", ".join(filter(None, (shape, special, size)))


def id_of(title: str) -> str:
    """Return an id that looks like a title: small letters and figures, with - between."""
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode("ascii").lower()
    name = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:LONGEST_ID].strip("-")
    return name if name[:1].isalpha() else f"house-{name}".strip("-")[:LONGEST_ID]
