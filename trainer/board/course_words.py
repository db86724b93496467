"""The course in words: its steps with how far they are, its sittings and their parts."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import partial
from typing import TYPE_CHECKING

import pygame

from trainer.board.widgets.listing import Row
from trainer.course import Build, CourseStep, FinishIt, Part, Sitting, SkillState, Today, Watch, states_in_words
from trainer.course.sittings import is_new_house
from trainer.words import _, ngettext

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
            return _("A new house") if part.new else _("Build a whole house")


def part_in_words(part: Part, entries: Mapping[str, HouseEntry]) -> str:
    """Say what a part is about."""
    match part:
        case Watch():
            return part.step.title
        case FinishIt(once_more=True):
            return _("{what}, once more, {help}").format(what=part.step.title, help=HELP[part.helped])
        case FinishIt():
            text = _("{what}, on {house}, {help}")
            return text.format(what=part.step.title, house=_title(part.house, entries), help=HELP[part.helped])
        case Build() if part.new:
            text = _("made new, with no help: what can you do by now? Part {n} of {parts}")
            return text.format(n=part.number, parts=part.parts)
        case Build():
            text = _("{house}, part {n} of {parts}") if part.parts > 1 else "{house}"
            return text.format(house=_title(part.house, entries), n=part.number, parts=part.parts)


def why_in_words(plan: Today, entries: Mapping[str, HouseEntry]) -> str:
    """Say how many questions on why there are, and of which house where they are about one's own."""
    n, built = len(plan.why), plan.built
    if built is None:
        return ngettext("{n} question", "{n} questions", n).format(n=n)
    house = _("the new house") if is_new_house(built.level) else _title(built.level, entries)
    if built.broken:
        text = ngettext("{n} question on {house}: what was found", "{n} questions on {house}: what was found", n)
    else:
        text = ngettext("{n} question on {house}: its order", "{n} questions on {house}: its order", n)
    return text.format(n=n, house=house)


def sitting_in_words(sitting: Sitting, entries: Mapping[str, HouseEntry]) -> str:
    """Say what a sitting brings, the new first."""
    if sitting.new is not None:
        return sitting.new.title
    return " · ".join(part_in_words(part, entries) for part in sitting.parts)


def steps_in_rows(
    steps: Iterable[tuple[CourseStep, int, int]],
    mastery: Mapping[str, tuple[SkillState, ...]],
    roof: Callable[[tuple[SkillState, ...], pygame.Surface, pygame.Rect], None],
) -> list[Row]:
    """Return the steps, each with its chapter, how much is done and how far its skill has come, said and drawn."""
    rows, chapter = [], ""
    for number, (step, n, of) in enumerate(steps, 1):
        chapter, reached = step.chapter or chapter, mastery.get(step.id, ())
        how_far = _("{n} of {of} done").format(n=n, of=of)
        new = _("then a house made new, with no help") if step.new_house else ""
        said = " · ".join(filter(None, (chapter, how_far, states_in_words(reached) if reached else "", new)))
        rows.append(Row(step.id, f"{number} {step.title}", second=said, drawing=partial(roof, reached)))
    return rows


def _title(house: str, entries: Mapping[str, HouseEntry]) -> str:
    return entries[house].level.title if house in entries else house
