"""House styles: a fabricator's habits in a file of their own, which levels name."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import Field

from trainer.level.block import SMALL, Block, Edition, Name, Title
from trainer.level.instructions import ADVICE, BracingBlock, Fixings, OrderAdvice, TieDown, Tolerances
from trainer.level.model import Setback, Spacing, TrussHabits
from trainer.read import Document, Fault, Where, read_yaml, validate
from trainer.read.schema_walk import WANTED

HABITS = ("trusses", "tolerances", "bracing", "tie_down", "fixings", "order_advice")
"""The keys of a level that a style may give."""

Styles = Mapping[str, tuple[str | bytes, str]]
"""The text of each style there is, and the file it stood in, by the style's name."""


class StyleTrusses(TrussHabits):
    """The fabricator's habits; a level that names the style may still give its own."""

    spacing: Spacing | None = None
    """Largest distance from truss to truss, mm."""
    setback: Setback | None = None
    """Station of the truncated girders, mm."""


class Style(Block):
    """A house style, as its file gives it. What it leaves out stays as it is without a style."""

    schema_: Edition
    """Edition of the style file; always 1."""
    id: Annotated[str, Name, Field(json_schema_extra={WANTED: f"{SMALL}, such as wide-bays"})]
    """The name by which levels call it, and its file."""
    title: Title
    """What it is, in a few plain words."""
    trusses: StyleTrusses = StyleTrusses()
    tolerances: Tolerances = Tolerances()
    bracing: BracingBlock = BracingBlock()
    tie_down: TieDown = TieDown()
    fixings: Fixings = Fixings()
    order_advice: OrderAdvice = ADVICE
    """What this fabricator asks to be stood first, within a wing; what is left out is free."""


def parse_style(text: str | bytes, file: str) -> Style:
    """Read a style file's text; raises :class:`trainer.read.Faulty` with every fault."""
    return validate(Style, read_yaml(text, file))


@dataclass(frozen=True)
class Styled(Document):
    """A level file's document with the habits of a style under it.

    A fault in what the style alone gave is at the style's file and line.
    """

    style: Document | None = None
    own: object = None

    def fault(self, where: Where, what: str) -> Fault:
        """Return a fault at ``where``, in the file that gave what stands there."""
        if (
            self.style
            and where
            and where[0] in HABITS
            and _holds(self.style.data, where)
            and not _holds(self.own, where)
        ):
            return self.style.fault(where, what)
        return super().fault(where, what)


def styled(level: Document, style: Document) -> Styled:
    """Lay a level's document over a style's: what the level gives holds, key by key."""
    data = level.data
    if isinstance(data, dict) and isinstance(style.data, dict):
        under = {key: style.data[key] for key in HABITS if key in style.data}
        data = _over(under, data)
    return Styled(level.file, data, level.lines, level.faults, style, level.data)


def _over(under: dict[str, Any], over: dict[str, Any]) -> dict[str, Any]:
    both = {**under, **over}
    for key, value in under.items():
        if isinstance(value, dict) and isinstance(over.get(key), dict):
            both[key] = _over(value, over[key])
    return both


def _holds(data: object, where: Where) -> bool:
    for part in where:
        match data:
            case dict() if part in data:
                data = data[part]
            case list() if isinstance(part, int) and part < len(data):
                data = data[part]
            case _:
                return False
    return True
