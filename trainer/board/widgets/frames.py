"""What stands round the parts of many screens: the frame of a question, and the bar at the top."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from trainer.board.widgets.base import Widget
from trainer.board.widgets.boxes import Column, Flow, Pad
from trainer.board.widgets.button import Button
from trainer.board.widgets.text import Label
from trainer.words import _


def dialog(
    title: str, parts: Sequence[Widget], *, head: str = "", style: str = "heading", gap: float = 12, pad: float = 24,
    first: str = "",
) -> Pad:  # fmt: skip
    """Return a question over the screen: its parts under its ``head``, which is the title where it says no more.

    ``first`` is the key of the widget that has the focus first.
    """
    root = Pad(
        Column([Label(head or title, style, role="heading"), *parts], gap=gap), pad=pad, name=title, key="dialog"
    )
    root.first_focus = first
    return root


def top_bar(title: str, back: str, go: Callable[[], None], help_: Callable[[], None]) -> Pad:
    """Return a bar with the way back, what the screen is called, and help."""
    parts = (
        Button(back, go, shortcut="Esc", kind="quiet", ground="paper", key="bar/houses"),
        Label(title, "heading", "ink", ground="paper", role="heading"),
        Button(_("Help"), help_, shortcut="F1", kind="quiet", ground="paper", key="bar/help"),
    )
    return Pad(Flow(parts, gap=6, key="bar/flow"), pad=6, ground="paper", name=_("Top"), key="bar")
