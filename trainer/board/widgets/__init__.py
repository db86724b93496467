"""The board's own small widgets: enough for a window that works by mouse, by keyboard and by its tree of names."""

from trainer.board.widgets.base import Node, Ui, Widget
from trainer.board.widgets.boxes import Column, Flow, Gap, Pad, Scroll
from trainer.board.widgets.button import Button
from trainer.board.widgets.choice import Choice
from trainer.board.widgets.drawing import Drawing
from trainer.board.widgets.line import LineEntry
from trainer.board.widgets.listing import Listing, Row
from trainer.board.widgets.number import Entry
from trainer.board.widgets.text import Block, Label, Prose

__all__ = [
    "Block", "Button", "Choice", "Column", "Drawing", "Entry", "Flow", "Gap", "Label", "LineEntry", "Listing", "Node",
    "Pad", "Prose", "Row", "Scroll", "Ui", "Widget",
]  # fmt: skip
