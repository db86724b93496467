"""The board's own small widgets: enough for a window that works by mouse, by keyboard and by its tree of names."""

from trainer.board.widgets.base import Node, Ui, Widget
from trainer.board.widgets.boxes import Column, Flow, Followed, Pad, Room, Scroll
from trainer.board.widgets.button import Button
from trainer.board.widgets.choice import Choice
from trainer.board.widgets.drawing import Canvas
from trainer.board.widgets.frames import dialog, top_bar
from trainer.board.widgets.line import LineEntry, TextEntry
from trainer.board.widgets.listing import Listing, Row
from trainer.board.widgets.number import NumberEntry
from trainer.board.widgets.text import Label, Paragraph, Prose
