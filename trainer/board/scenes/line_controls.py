"""What stands over a view of a house: its buttons, and what types the ends of a line that is drawn on the plan."""

from __future__ import annotations

from collections.abc import Callable

from trainer.board.section_line import LineDrawer
from trainer.board.widgets import Button, Column, Flow, NumberEntry, Ui, Widget
from trainer.words import _


def press(name: str, do: Callable[[], None], key: str, on: bool | None = None, shortcut: str = "") -> Button:
    """Return a button over a view; ``on`` where it says whether something is shown."""
    return Button(name, do, kind="quiet", ground="paper", key=f"view/{key}", checked=on, shortcut=shortcut)


def line_controls(ui: Ui, width: int, drawer: LineDrawer, stop: Callable[[], None]) -> Widget:
    """Return what types the end of a line that is to be put next, and what goes on from there, so many px wide."""

    def entry(name: str, axis: int) -> NumberEntry:
        def take(number: float) -> None:
            x, y = drawer.ends[drawer.end]
            drawer.put(drawer.end, (number, y) if axis == 0 else (x, number))

        return NumberEntry(
            name, drawer.ends[drawer.end][axis], take, key=f"view/{drawer.end} {axis}", enter=drawer.go_on, nudge=100.0
        )

    first = drawer.end == 0
    across, up = (_("Begins: across"), _("Begins: up")) if first else (_("Ends: across"), _("Ends: up"))
    fields = [entry(across, 0), entry(up, 1)]
    go_on = press(_("Its end") if first else _("Show it"), drawer.go_on, "go on")
    buttons = [go_on, press(_("Stop"), stop, "stop")]
    line = Flow([*fields, *buttons], gap=4, key="views/line")
    if line.wide(ui) <= width:
        return line
    lines = [Flow(list(pair), gap=4, key=f"views/line {n}") for n, pair in enumerate(zip(fields, buttons, strict=True))]
    return Column(lines, gap=4, key="views/line")
