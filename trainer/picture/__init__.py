"""Drawings as one display list, painted alike by the board, SVG, PNG and PDF."""

from trainer.picture.model import Group, Item, Line, Picture, Polygon, Text, View, fit, flat

__all__ = ["Group", "Item", "Line", "Picture", "Polygon", "Text", "View", "fit", "flat"]
