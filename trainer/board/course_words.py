"""The course in words: its steps with how far they are, its sittings and their parts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

from trainer.board.widgets.listing import Row
from trainer.course import Build, CourseStep, FinishIt, Part, Sitting, Watch
from trainer.words import _

if TYPE_CHECKING:
    from trainer.board.library import HouseEntry

HELP = {"shown": _("with help"), "faded": _("with hints alone"), "alone": _("on your own")}


def kind_of(part: Part) -> str:
    """Say what one does in a part."""
    match part:
        case Watch():
            return _("Watch it")
        case FinishIt():
            return _("Finish it")
        case Build():
            return _("Build a whole house")


def part_in_words(part: Part, entries: Mapping[str, HouseEntry]) -> str:
    """Say what a part is about."""
    match part:
        case Watch():
            return part.step.title
        case FinishIt():
            text = _("{what}, on {house}, {help}")
            return text.format(what=part.step.title, house=_title(part.house, entries), help=HELP[part.helped])
        case Build():
            text = _("{house}, part {n} of {parts}") if part.parts > 1 else "{house}"
            return text.format(house=_title(part.house, entries), n=part.number, parts=part.parts)


def sitting_in_words(sitting: Sitting, entries: Mapping[str, HouseEntry]) -> str:
    """Say what a sitting brings, the new first."""
    if sitting.new is not None:
        return sitting.new.title
    return " · ".join(part_in_words(part, entries) for part in sitting.parts)


def steps_in_rows(steps: Iterable[tuple[CourseStep, int, int]]) -> list[Row]:
    """Return the steps with how far each is: how many of its parts are done, and of how many."""
    rows = []
    for number, (step, n, of) in enumerate(steps, 1):
        picture = "house_built" if n == of else "house_begun" if n else "house_open"
        how_far = _("{n} of {of} done").format(n=n, of=of)
        rows.append(Row(step.id, f"{number} {step.title}", detail=how_far, picture=picture))
    return rows


def _title(house: str, entries: Mapping[str, HouseEntry]) -> str:
    return entries[house].level.title if house in entries else house
