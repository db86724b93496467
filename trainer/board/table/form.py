"""The fields of a form: each shows a value of the level, or its usual one, and writes what is typed or chosen."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import TypeVar

from trainer.board.table.state import Table
from trainer.board.widgets import Button, Choice, Column, Flow, Label, LineEntry, NumberEntry, TextEntry, Widget
from trainer.table import SHORTEST, Act, SetValue, whole_mm
from trainer.table.form_acts import Way
from trainer.terms import thing

T = TypeVar("T")
Numbers = Sequence[tuple[str, Way, float, float, str]]
"""For each number of a form: its name, the keys that it stands under, its usual value, a step, its unit."""
LONGEST_NOTES = 4000


def number_entry(table: Table, said: str, way: Way, usual: float, nudge: float, unit: str) -> NumberEntry:
    """Return the entry of a number of the level."""
    found = table.drawing.at(*way)
    number = float(found) if type(found) in (int, float) else float(usual)

    def written(new: float) -> SetValue:
        if isinstance(usual, int):
            return SetValue(way, whole_mm(new, 0) if unit == "mm" else round(new))
        return SetValue(way, round(new) if float(new).is_integer() else new)

    def take(new: float) -> None:
        if float(new) != number:
            table.act_as(lambda: written(new))

    return NumberEntry(said, number, take, key=_key(way), unit=unit, nudge=nudge, exact=True)


def length_entry(
    table: Table, said: str, length: int, make: Callable[[int], Act], key: str, nudge: float, shortest: int = SHORTEST
) -> NumberEntry:
    """Return the entry of a length on the plan, in mm; ``make`` gives what another length does."""

    def take(new: float) -> None:
        if round(new) != length:
            table.act_as(lambda: make(whole_mm(new, shortest)))

    return NumberEntry(said, length, take, key=key, nudge=nudge, exact=True)


def choice_entry(table: Table, said: str, way: Way, options: Sequence[tuple[T, str]]) -> Choice:
    """Return the choice of a value of the level; the first is the usual one."""
    values = [value for value, _name in options]
    found = table.drawing.at(*way)
    index = values.index(found) if found in values else 0
    return Choice(
        said, [name for _value, name in options], index, lambda i: _choose(table, way, values[i], usual=i == 0),
        key=_key(way),
    )  # fmt: skip


def _choose(table: Table, way: Way, value: object, *, usual: bool) -> None:
    table.act(SetValue(way, None if usual else value))


def optional_entry(table: Table, said: str, way: Way, nudge: float, unit: str = "") -> NumberEntry:
    """Return the entry of a number that a level may do without; 0 stands for that."""
    found = table.drawing.at(*way)
    number = float(found) if type(found) in (int, float) else 0.0

    def take(new: float) -> None:
        if new != number:
            table.act(SetValue(way, (round(new) if new.is_integer() else new) or None))

    return NumberEntry(said, number, take, key=_key(way), unit=unit, nudge=nudge, exact=True)


def several(table: Table, said: str, way: Way, options: Sequence[str], usual: Sequence[str]) -> Widget:
    """Return a button for each of the names that a level may list, pressed in where it does."""
    found = table.drawing.at(*way)
    listed = list(usual) if found is None else list(found)
    names = [*options, *(each for each in listed if each not in options)]

    def press(name: str) -> None:
        new = [each for each in names if (each in listed) != (each == name)]
        table.act(SetValue(way, None if new == list(usual) else new))

    buttons = [
        Button(thing(name), partial(press, name), checked=name in listed, kind="quiet", key=f"{_key(way)}/{name}")
        for name in names
    ]
    return Column([Label(said, "small", "panel_faint"), Flow([*buttons], gap=4)], gap=2, key=_key(way))


def text_entry(table: Table, said: str, way: Way, *, most: int) -> LineEntry:
    """Return the entry of a text that every level has; it may stand empty only while it is typed."""
    shown = table.typed(way)
    found = str(table.drawing.at(*way) or "") if shown is None else shown

    def take(text: str) -> None:
        table.write({way: text} if text else {}, way, text)

    return LineEntry(said, found, take, key=_key(way), most=most)


def lines_entry(table: Table, said: str, way: Way, *, show: int) -> TextEntry:
    """Return the entry of a list of texts, one a line."""
    shown, found = table.typed(way), table.drawing.at(*way)
    lines = "\n".join(map(str, found)) if isinstance(found, list | tuple) else ""

    def take(text: str) -> None:
        table.write({way: [line.strip() for line in text.split("\n") if line.strip()] or None}, way, text)

    return TextEntry(
        said, lines if shown is None else shown, take, key=_key(way), most=LONGEST_NOTES, show=show
    )  # fmt: skip


def _key(way: Way) -> str:
    return f"table/{'.'.join(way)}"


def button(name: str, press: Callable[[], None], key: str, *, kind: str = "plain") -> Button:
    """Return a button of a panel."""
    return Button(name, press, key=key, kind=kind)
