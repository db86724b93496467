"""The controls that panels are made of."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Protocol

from trainer.board.tools.hand import Hand
from trainer.board.widgets import Button, Choice, Flow, Label, NumberEntry, Widget
from trainer.plan import corners
from trainer.session.hands import Routine
from trainer.site.actions import AnyAction
from trainer.terms import THINGS
from trainer.words import _

MEASURE = "panel/measure"
"""Key of the entry that digits go to, in every panel that has one."""
DO_IT = "panel/do"
"""Key of the button that does what the tool is aimed at."""


class Screen(Protocol):
    """What a tool may ask of the screen that it is used on."""

    @property
    def by_keyboard(self) -> bool:
        """Whether the learner moves a focus, and has no mouse on the screen."""

    def act(self) -> None:
        """Do what the tool is aimed at."""

    def adjusted(self) -> None:
        """Show that a control has changed what the tool holds."""

    def offers(self, routine: Routine | None) -> bool:
        """Whether a routine may be done in one go."""

    def may_offer(self, routine: Routine | None) -> bool:
        """Whether a routine is offered here some time, if not yet."""

    def turn(self) -> None:
        """Turn the truss in the hand end for end."""

    def say(self, text: str) -> None:
        """Put a sentence in the strip."""

    def focus_on(self, key: str) -> None:
        """Put the focus on a control, once it is there."""

    def get_ready(self, action: AnyAction) -> None:
        """Take up the tool for an action, aimed at it; doing it is left to the learner."""


def heading(text: str) -> Label:
    """Return the heading of a panel."""
    return Label(text, "heading", role="heading")


def faint(text: str) -> Label:
    """Return a small line of advice."""
    return Label(text, "small", "panel_faint")


def row(*widgets: Widget) -> Flow:
    """Return controls beside each other, as far as there is room."""
    return Flow(list(widgets), fill=True, key="panel/row")


def do_it(screen: Screen, name: str) -> Button:
    """Return the button that does what the tool is aimed at."""
    return Button(name, screen.act, kind="primary", shortcut="Enter", key=DO_IT)


def choice(
    screen: Screen, name: str, options: Sequence[str], index: int, put: Callable[[int], object], *, key: str,
    shortcut: str = "",
) -> Choice:  # fmt: skip
    """Return a choice whose options are put by their number."""

    def change(number: int) -> None:
        put(number)
        screen.adjusted()

    return Choice(name, options, index, change, key=f"panel/{key}", shortcut=shortcut)


def choice_of(
    screen: Screen, name: str, owner: object, field: str, options: Sequence[str],
    names: Mapping[str, str] = THINGS, *, shortcut: str = "C",
) -> Choice:  # fmt: skip
    """Return a choice that puts one of ``options`` in a field of a tool or of the hand; ``names`` are how they read."""
    now = getattr(owner, field)
    shown = [names.get(option, option) for option in options]
    index = options.index(now) if now in options else 0
    return choice(screen, name, shown, index, lambda i: setattr(owner, field, options[i]), key=field, shortcut=shortcut)


def entry(
    screen: Screen, name: str, number: float, put: Callable[[float], object], *, key: str = MEASURE,
    nudge: float = 10.0, unit: str = "mm", blank: bool = False, stops: Sequence[float] = (), at_once: bool = False,
) -> NumberEntry:  # fmt: skip
    """Return an entry for a number, ``blank`` until there is one, taken ``at_once`` while it is typed.

    Enter in it does what the tool is aimed at.
    """

    def take(typed: float) -> None:
        put(typed)
        screen.adjusted()

    return NumberEntry(
        name, number, take, key=key, enter=screen.act, nudge=nudge, unit=unit, blank=blank, stops=stops,
        at_once=at_once,
    )  # fmt: skip


def along_entry(
    screen: Screen, hand: Hand, where: str, start: float, at: float, put: Callable[[float], object], *,
    blank: bool = False,
) -> NumberEntry:  # fmt: skip
    """Return an entry for a measure along a wall or truss, read off the tape from where that begins."""
    way = -1 if start == hand.length_of(where) else 1
    return entry(screen, _("Along it"), way * (at - start), lambda typed: put(start + way * typed), blank=blank)


def tape_choice(screen: Screen, hand: Hand, wall: str, *more: str) -> Choice:
    """Return the choice of where the tape is hooked: the corners, named by the walls that meet there, and ``more``."""
    options = [*corners(hand.plan, wall), *more]
    now = hand.hooked_on(wall)
    return choice(
        screen, _("Tape from"), options, now if now < len(options) else 0, lambda i: hand.hook(wall, i), key="from",
        shortcut="K",
    )  # fmt: skip


def wall_names(hand: Hand) -> list[str]:
    """Return the names of the walls."""
    return [wall.name for wall in hand.plan.walls]


def wall_choice(screen: Screen, hand: Hand, now: str, put: Callable[[str], object], *more: str) -> Choice:
    """Return the choice of the wall that is measured along, and ``more``; the strip says where the tape is hooked."""
    names = wall_names(hand)
    options = [*names, *more]

    def change(number: int) -> None:
        wall = names[number % len(names)]
        put(wall)
        screen.say(hand.hook_in_words(wall))

    return choice(screen, _("Wall"), options, options.index(now), change, key="wall", shortcut="W")


def chosen(hand: Hand, *, standing: bool = True) -> Label:
    """Return the line that says which truss is chosen, or that one is wanted."""
    tag = hand.truss
    if tag and (not standing or hand.stands):
        return faint(_("Chosen: {tag}").format(tag=tag))
    return faint(_("Choose a standing truss.") if standing else _("Choose a truss in a list."))
