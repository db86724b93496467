"""The learning path: what one has come to on each house, as the records of this seat say."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from trainer.words import _, ngettext

if TYPE_CHECKING:
    from trainer.board.keeping import Records
    from trainer.board.library import HouseEntry
    from trainer.course import CourseStep, SkillState
    from trainer.records.attempt import Attempt
    from trainer.records.progress import PastHouse, Progress
    from trainer.records.waiting import BeingSat

FIRST_HOUSE = "thornbill"
"""The house at the start of the path, read before all others at the very first start."""


@dataclass
class Path:
    """What is done, begun and due on each house; ``look`` reads it anew from the records."""

    records: Records
    done: Mapping[str, Progress] = field(default_factory=dict)
    begun: Mapping[str, Attempt] = field(default_factory=dict)
    drills: Mapping[str, int] = field(default_factory=dict)
    """How many kinds of drill were done all right on each house."""
    lessons: Mapping[str, int] = field(default_factory=dict)
    """How many parts of a day's lesson were done on each."""
    steps: tuple[tuple[CourseStep, int, int], ...] = ()
    """The steps of the course, each with how many of its parts are done, and of how many."""
    mastery: Mapping[str, tuple[SkillState, ...]] = field(default_factory=dict)
    """How far one has come with each step's skill."""
    held_back: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """The houses that don't count as done before some skills can be done alone, with the titles of those."""
    due: tuple[tuple[str, str], ...] = ()
    """What has come back, as the kind and name of each card; a card of a rule is due on every house that teaches it."""

    sat: BeingSat | None = None
    """What belongs to sittings that are not closed yet; None before the records are read."""

    def look(self) -> None:
        """Read the records; without any, nothing is done yet."""
        from trainer.board.quiz_start import due_now  # loads questions, SQLite and the signatures
        from trainer.course import Done, holding_back, mastery
        from trainer.course.finish import KIND
        from trainer.records.course import course_done
        from trainer.records.drills import done_right
        from trainer.records.errors import RecordsError
        from trainer.records.practice import times_of
        from trainer.records.progress import progress
        from trainer.records.waiting import being_sat
        from trainer.shipped import level_paths
        from trainer.shipped.course import course

        self.steps = tuple((step, *Done().of_step(step)) for step in course().steps)
        seat = self.records.seat()
        if seat is None:
            return
        try:
            self.done = progress(seat.store.outlines(), seat.code)
            drills = done_right(seat.store, seat.code)
            begun, self.sat = seat.unfinished(), being_sat(seat.store, seat.folder, level_paths())
            self.due = tuple(card.about for card in due_now(seat))
            done = course_done(seat, lambda _house: 0)
            self.mastery = mastery(course(), times_of(seat.store, seat.code, course()))
        except RecordsError as error:
            self.records.trouble = str(error)
            return
        self.steps = tuple((step, *done.of_step(step)) for step in course().steps)
        waiting = {house: holding_back(course(), house, self.mastery) for house in self.done}
        self.held_back = {house: tuple(step.title for step in steps) for house, steps in waiting.items() if steps}
        finished = KIND.partition("{")[0]
        self.drills = {
            level: sum(kinds[k] for k in kinds if not k.startswith(finished)) for level, kinds in drills.items()
        }
        self.lessons = {level: sum(k.startswith(finished) for k in kinds) for level, kinds in drills.items()}
        self.begun = {attempt.houses[-1].level: attempt for attempt in reversed(begun) if attempt.houses[-1].acts}

    @property
    def houses_met(self) -> int:
        """How many houses were handed over with their practice mark met."""
        return sum(house.met for house in self.done.values())

    @property
    def houses_done(self) -> int:
        """How many of them count as done: no deciding skill of an earlier chapter is wanting."""
        return sum(house.met and level not in self.held_back for level, house in self.done.items())

    def past(self, level: str) -> tuple[PastHouse, ...]:
        """Return what can be looked back at on a house, the latest first."""
        return self.done[level].past if level in self.done else ()

    @property
    def latest(self) -> Attempt | None:
        """The house that was left last in the middle; to one made new Today leads back."""
        from trainer.course.sittings import is_new_house

        begun = [attempt for house, attempt in self.begun.items() if not is_new_house(house)]
        return max(begun, key=lambda attempt: attempt.ended, default=None)

    def due_on(self, entry: HouseEntry) -> int:
        """Return how much of what a house teaches has come back."""
        return sum(kind == "rule" and name in entry.level.lesson.teaches for kind, name in self.due)

    def may_watch(self, entry: HouseEntry) -> bool:
        """Whether there is a film of a house: not of one kept for assessment, nor of one that is being assessed."""
        begun = self.begun.get(entry.id)
        return not self.closed(entry) and (begun is None or begun.mode != "assessment")

    def in_sitting(self, entry: HouseEntry) -> bool:
        """Whether a house belongs to a sitting that is not closed yet: nobody practises on it meanwhile."""
        return self.sat is not None and self.sat.has(entry.level, entry.text)

    def closed(self, entry: HouseEntry) -> bool:
        """Whether a house is there to be assessed on alone: it is kept for that, or in a sitting just now."""
        return entry.level.lesson.unseen or self.in_sitting(entry)

    def sign(self, level: str) -> str:
        """Return the name of the icon for how far a house has come."""
        if level in self.begun:
            return "house_begun"
        done = level in self.done and self.done[level].met and level not in self.held_back
        return "house_built" if done else "house_open"

    def in_words(self, entry: HouseEntry) -> str:
        """Say how far a house has come."""
        parts = []
        done = self.done.get(entry.id)
        if done is not None and done.tries:
            wanting = self.held_back.get(entry.id, ()) if done.met else ()
            text = _("Done, best mark {best}") if done.met else _("Tried, best mark {best}")
            text = _("Mark met, best mark {best}") if wanting else text
            parts.append(text.format(best=done.best))
            if wanting:
                held = _("it counts as done once you can do this without hints: {skills}")
                parts.append(held.format(skills="; ".join(wanting)))
            if done.skills_shown:
                from trainer.session.skills import in_words  # loads all that is done to a site

                parts.append(_("shown by a hint, not done: {skills}").format(skills=in_words(done.skills_shown)))
        if entry.id in self.begun:
            n = len(self.begun[entry.id].houses[-1].acts)
            parts.append(ngettext("begun: {n} action", "begun: {n} actions", n).format(n=n))
        if drills := self.drills.get(entry.id):
            parts.append(ngettext("{n} drill done", "{n} drills done", drills).format(n=drills))
        if lessons := self.lessons.get(entry.id):
            parts.append(ngettext("{n} lesson done", "{n} lessons done", lessons).format(n=lessons))
        # What comes back from another house is no news of one that was never begun.
        if parts and (due := self.due_on(entry)):
            parts.append(ngettext("{n} to review in today's work", "{n} to review in today's work", due).format(n=due))
        if not parts:
            parts.append(_("Kept for assessment") if entry.level.lesson.unseen else _("Not tried yet"))
        return " · ".join(parts)
