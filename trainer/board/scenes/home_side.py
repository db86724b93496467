"""The column of the first screen: today, the steps of the course, and the houses with how far one has come on each."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

import pygame

from trainer.board.library import HouseEntry, Library
from trainer.board.paint import Brush
from trainer.board.path import FIRST_HOUSE
from trainer.board.path import Path as LearningPath
from trainer.board.scene import Scene
from trainer.board.skill_roof import ROOF_SIZE, draw_skill_roof
from trainer.board.widgets import Button, Choice, Column, Label, Listing, Pad, Prose, Row, Scroll, Widget
from trainer.picture.model import fit
from trainer.words import _, ngettext

if TYPE_CHECKING:
    from trainer.course import SkillState

ROOMY_TEXT = 1.25
"""Up to this size of text the list says what each house teaches; beyond it that stands beside the chosen one alone."""
SHOWN = "houses/shown"
"""Which list has the room, where the text is large."""


class HousesShown(Scene):
    """What the column knows of the first screen: its houses, the one that is chosen, and how far one has come."""

    library: Library
    path: LearningPath

    @property
    def entry(self) -> HouseEntry | None:
        """The house that is chosen."""
        raise NotImplementedError

    def choose(self, level: str) -> None:
        """Choose a house by its id."""

    @property
    def roomy(self) -> bool:
        """Whether there is room for text under the house as well as beside it."""
        return self.ui.look.roomy(self.size)

    def about(self, entry: HouseEntry, ground: str) -> Prose:
        """What is said of a house."""
        raise NotImplementedError

    def how_far(self, entry: HouseEntry) -> str:
        """Say how far one has come on a house; a first truss is not a house, and is not forgotten either."""
        known = entry.id in self.path.done or entry.id in self.path.begun or entry.id in self.path.drills
        read = bool(self.path.steps)
        if read and entry.id == FIRST_HOUSE and self.services.comfort.settings.first_stands and not known:
            return _("Your first truss stood here: now the whole house")
        return self.path.in_words(entry)


def path_column(home: HousesShown) -> Widget:
    """Return the column: both lists, or where the text is large one of them at a time."""
    today = Button(_("Today's work"), home.services.go_today, kind="primary", shortcut="Y", key="home/today")
    houses, steps = _houses(home), _steps(home)
    if not home.roomy and home.entry is not None:
        return _one_at_a_time(home, today, houses, steps, home.entry)
    course = Label(_("The course"), "heading", role="heading")
    heading = Label(_("More houses"), "heading", role="heading")
    column = Column([today, course, steps, heading, Label(_all_in_words(home), "small", "panel_faint"), houses], gap=6)
    return Pad(column, pad=16, column=True, name=_("Your path"))


def _houses(home: HousesShown) -> Listing:
    teaches = home.ui.look.scale <= ROOMY_TEXT
    steps = _step_of_each(home)
    rows = [
        Row(
            e.id, e.level.title, picture=home.path.sign(e.id),
            drawing=partial(_thumbnail, home, e) if home.roomy else None,
            second=_progress_in_words(home, e, steps.get(e.id, 0), teaches=teaches),
        )
        for e in sorted(home.library.entries, key=lambda e: e.own is None)  # one's own stand at the top
    ]  # fmt: skip
    chosen = home.entry.id if home.entry else ""
    return Listing(
        _("Houses"), rows, chosen, home.choose, tall=True,
        empty=_("The houses are being read …"), show=2,
    )  # fmt: skip


def _step_of_each(home: HousesShown) -> dict[str, int]:
    """Return the step of the course, from 1, in which each house comes first: its chapter."""
    found: dict[str, int] = {}
    for number, (step, _n, _of) in enumerate(home.path.steps, 1):
        for house in (step.watch, *step.finish, step.whole):
            found.setdefault(house, number)
    return found


def _all_in_words(home: HousesShown) -> str:
    if not home.path.steps:
        return _("Your records are being read …")
    done = home.path.houses_done
    houses = len(home.library.entries) + len(home.library.waiting)
    said = ngettext("{n} of {all} house done", "{n} of {all} houses done", houses).format(n=done, all=houses)
    if home.path.due:
        due = len(home.path.due)
        said += " · " + ngettext("{n} to review in today's work", "{n} to review in today's work", due).format(n=due)
    return said


def _one_at_a_time(home: HousesShown, today: Button, houses: Listing, steps: Listing, entry: HouseEntry) -> Widget:
    """Where the text is large: one list at a time, or what is said of the house, with all of the room."""
    about = Scroll(Column([home.about(entry, "panel")]), _("About this house"))
    steps.grows = True
    shown: list[tuple[str, Widget]] = [
        (_("Houses"), houses), (_("The course"), steps), (_("About this house"), about),
    ]  # fmt: skip
    at = min(int(home.ui.memory.get(SHOWN, 0)), len(shown) - 1)

    def show(number: int) -> None:
        home.ui.memory[SHOWN] = number
        home.refresh("side")

    choice = Choice(_("Show"), [name for name, _part in shown], at, show, key="home/shown", tight=True)
    return Pad(Column([today, choice, shown[at][1]], gap=8), pad=10, column=True, name=_("Your path"))


def _steps(home: HousesShown) -> Listing:
    """The steps of the course: going to one shows the house that it ends with. Its place is there before it is read."""
    if not home.path.steps:
        lines = (_("The course is being read …"), " ", " ")
        rows = [Row(str(n), line, second=" ") for n, line in enumerate(lines)]
        listing = Listing(
            _("The course"), rows, "", lambda _row: None, key="home/course", show=3, tall=True, drawn=ROOF_SIZE
        )  # fmt: skip
        listing.grows = listing.enabled = False
        return listing
    from trainer.board.course_words import steps_in_rows  # loads the course: after the records were read

    wholes = {step.id: step.whole for step, _n, _of in home.path.steps}
    following = next((step.id for step, n, of in home.path.steps if n < of), "")
    chosen = str(home.ui.memory.get("home/step", following))

    def choose(step: str) -> None:
        home.ui.memory["home/step"] = step
        home.choose(wholes[step])

    rows = steps_in_rows(home.path.steps, home.path.mastery, partial(_skill_roof, home))
    listing = Listing(
        _("The course"), rows, chosen, choose, key="home/course", show=3, tall=True, drawn=ROOF_SIZE
    )  # fmt: skip
    listing.grows = False
    return listing


def _skill_roof(scene: Scene, reached: tuple[SkillState, ...], surface: pygame.Surface, rect: pygame.Rect) -> None:
    draw_skill_roof(scene.ui.look, reached, surface, rect)


def _progress_in_words(home: HousesShown, entry: HouseEntry, step: int, *, teaches: bool) -> str:
    """Say under a house's title what it teaches, in which step of the course it comes, and how far one has come."""
    idea = next(iter(entry.level.lesson.ideas), "") if teaches else ""
    idea = _("Your own") if entry.own else idea
    chapter = _("Step {n}").format(n=step) if step else ""
    return "\n".join(filter(None, (idea, " · ".join(filter(None, (chapter, home.how_far(entry)))))))


def _thumbnail(scene: Scene, entry: HouseEntry, surface: pygame.Surface, rect: pygame.Rect) -> None:
    """Draw a small roof plan; cached once drawn."""
    key = f"thumbnail/{entry.id}/{rect.size}/{scene.ui.look.theme}"
    cached = scene.ui.memory.get(key)
    if cached is None:
        cached = pygame.Surface(rect.size, pygame.SRCALPHA)
        Brush(cached, scene.ui.look.colours, fit(entry.box, *rect.size, 2)).paint(entry.roof_items)
        scene.ui.memory[key] = cached
    surface.blit(cached, rect)
