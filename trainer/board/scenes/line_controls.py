"""What stands over a view of a house: its buttons, and what types the ends of a line that is drawn on the plan."""

from __future__ import annotations

from collections.abc import Callable

from trainer.board.section_line import LineDrawer
from trainer.board.widgets import Button, NumberEntry, Widget
from trainer.words import _


def press(name: str, do: Callable[[], None], key: str, on: bool | None = None, shortcut: str = "") -> Button:
    """Return a button over a view; ``on`` where it says whether something is shown."""
    return Button(name, do, kind="quiet", ground="paper", key=f"view/{key}", checked=on, shortcut=shortcut)


def line_controls(drawer: LineDrawer, stop: Callable[[], None]) -> list[Widget]:
    """Return what types the end of a line that is to be put next, and what goes on from there."""

    def entry(name: str, axis: int) -> NumberEntry:
        def take(number: float) -> None:
            x, y = drawer.ends[drawer.end]
            drawer.put(drawer.end, (number, y) if axis == 0 else (x, number))

        return NumberEntry(
            name, drawer.ends[drawer.end][axis], take, key=f"view/{drawer.end} {axis}", enter=drawer.go_on, nudge=100.0
        )

    first = drawer.end == 0
    across, up = (_("Begins: across"), _("Begins: up")) if first else (_("Ends: across"), _("Ends: up"))
    go_on = _("Its end") if first else _("Show it")
    return [
        entry(across, 0), entry(up, 1), press(go_on, drawer.go_on, "go on"), press(_("Stop"), stop, "stop"),
    ]  # fmt: skip
