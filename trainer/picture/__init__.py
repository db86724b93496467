"""Drawings as one display list, painted alike by the board, SVG, PNG and PDF."""

from trainer.picture.model import SHEET_SCALE, Group, Item, Line, Picture, Polygon, Text, View, fit, flat
from trainer.picture.palette import PALETTE_FILE, Palette, contrast, parse_palettes, rgb
from trainer.picture.sheet import counts_in_words, layout_sheet, plan_picture, settings_in_words
from trainer.picture.svg import to_svg

__all__ = [
    "PALETTE_FILE", "SHEET_SCALE", "Group", "Item", "Line", "Palette", "Picture", "Polygon", "Text", "View",
    "contrast", "counts_in_words", "fit", "flat", "layout_sheet", "parse_palettes", "plan_picture", "rgb",
    "settings_in_words", "to_svg",
]  # fmt: skip
