"""Drawings as one display list, painted alike by the board, SVG, PNG and PDF.

What is drawn of a layout is in :mod:`trainer.picture.sheet`: fetched from there, so that colours and the
list itself don't load the layout and its libraries.
"""

from trainer.picture.model import SHEET_SCALE, Group, Item, Line, Picture, Polygon, Text, View, fit, flat
from trainer.picture.palette import PALETTE_FILE, Palette, contrast, parse_palettes, rgb
from trainer.picture.svg import to_svg
