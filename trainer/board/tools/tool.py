"""What a tool is: the seam between the work screen and the files beside this one, one for each verb."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, fields
from typing import Any, ClassVar, Generic, TypeVar, get_args

from trainer.board.overlay import ring_round
from trainer.board.tools.hand import Hand
from trainer.board.tools.panel import DO_IT, MEASURE, Screen, choice, chosen, do_it, heading
from trainer.board.widgets import Room, Row, Widget
from trainer.picture.measures import figure
from trainer.picture.model import Item
from trainer.plan import Point
from trainer.plan.points import half
from trainer.session.hands import Routine
from trainer.site.actions import AnyAction
from trainer.site.model import Event, Site, Stood
from trainer.words import _

A = TypeVar("A")
Wanted = Sequence[AnyAction] | str
"""Actions to be done one after the other, or in words what has to be chosen first."""


@dataclass
class Tool(Generic[A]):
    """One tool with its state: a dataclass, whose fields beside ``hand`` are its own.

    ``A`` is its action of a diary. Its icon is ``art/icons/<verb>.svg``, its names are in ``trainer/terms``. What is
    here is right for a tool that only needs its panel; :class:`TrussTool` is for those aimed at a standing truss.
    """

    verb: ClassVar[str]
    """The verb of its action."""
    makes: ClassVar[type[Any]]
    """The class of its action."""
    key: ClassVar[str]
    """What takes it up: a letter, with ``Shift`` before it or without."""
    first_words: ClassVar[str]
    """What to do with it, said when it is taken up."""
    button: ClassVar[str]
    """Name of the button that does what it is aimed at."""
    list_name: ClassVar[str] = ""
    """Name of the list of its own in the column, if it has one."""
    list_empty: ClassVar[str] = ""
    from_yard: ClassVar[bool] = False
    """Whether it begins with a truss that waits in the yard."""
    only_standing: ClassVar[bool] = False
    """Whether a waiting truss chosen with it is meant to be stood first."""

    routine: ClassVar[Routine | None] = None
    """What of it may be done in one go, if anything may."""
    one_or_all: ClassVar[tuple[str, str]] = ("", "")
    """What a single act of that is called, and all of it in one go."""

    of_site: ClassVar[bool] = False
    """Whether it is of the whole site: no truss is chosen for it."""

    hand: Hand = field(repr=False, compare=False)
    in_one_go: bool = False
    """Whether it does its routine in one go now."""

    def __init_subclass__(cls) -> None:
        """Take the action that the class is said to be for, and its verb."""
        super().__init_subclass__()
        (kind,) = get_args(vars(cls)["__orig_bases__"][0])
        if not isinstance(kind, TypeVar):
            cls.makes, cls.verb = kind, kind.model_fields["do"].default

    @property
    def site(self) -> Site:
        """The site as it stands."""
        return self.hand.site

    @property
    def title(self) -> str:
        """The heading of its panel."""
        raise NotImplementedError

    # taken up, and given a truss

    def take_up(self) -> None:
        """Begin: forget what was picked for the time before."""

    def choose(self, tag: str) -> None:
        """Choose a truss."""
        self.hand.truss = tag

    @property
    def listed(self) -> str:
        """The truss that lists show as chosen."""
        return self.hand.truss

    def take(self, screen: Screen, tag: str) -> None:
        """Go on with a truss just chosen in a list by Enter or a press."""
        if screen.by_keyboard:
            screen.focus_on(MEASURE)

    # what comes of it

    def actions(self) -> Wanted:
        """Return what it does now, or what has to be chosen first, in words."""
        return [self.action()]

    def action(self, **more: Any) -> AnyAction:
        """Return its action: the fields that are named as the action's keys, and ``more``."""
        keys = self.makes.model_fields
        made = {own.name: getattr(self, own.name) for own in fields(self) if own.name in keys}
        action: AnyAction = self.makes.model_validate(made | more)
        return action

    def aim_at(self, action: A) -> str:
        """Set it so that ``action`` comes of it, as a hint asks; return why that can't be, or an empty text.

        The truss or wall, and every field that is named as a key of the action is, are set here.
        """
        self.hand.truss = getattr(action, "tag", None) or self.hand.truss
        self.hand.wall = getattr(action, "wall", None) or self.hand.wall
        for own in fields(self):
            if own.name in self.makes.model_fields and (value := getattr(action, own.name)) is not None:
                setattr(self, own.name, value)
        return ""

    def after(self, action: A) -> None:
        """Get ready for what usually comes after an action."""

    def panel(self, screen: Screen) -> list[Widget]:
        """Return its panel: title, controls and, where there is something to do, the button that does it."""
        name = self.button_name
        if self.go and screen.offers(self.routine):  # said on the button too, which no text is too large for
            name = _("{act}: {much}").format(act=name, much=self.how_much[self.go])
        button = [do_it(screen, name)] if self.has_button else []
        return [heading(self.title), *self.controls(screen), *button]

    def go_choice(self, screen: Screen) -> list[Widget]:
        """Return the choice between a single act and all in one go; until it is offered, the room that it will take,
        so that nothing moves under the mouse when it comes.
        """
        if not screen.may_offer(self.routine):
            return []
        much = choice(screen, _("In one go"), self.how_much, self.go, self.go_on_with, key="in one go", shortcut="V")
        return [much if screen.offers(self.routine) else Room(much)]

    @property
    def how_much(self) -> tuple[str, ...]:
        """What may be done at a time, the single act first."""
        return self.one_or_all

    @property
    def go(self) -> int:
        """Which of that is done now."""
        return int(self.in_one_go)

    def go_on_with(self, number: int) -> None:
        """Do so much of it at a time."""
        self.in_one_go = number > 0

    @property
    def button_name(self) -> str:
        """Name of that button now."""
        return self.button

    @property
    def has_button(self) -> bool:
        """Whether there is something to do yet."""
        return True

    def controls(self, screen: Screen) -> list[Widget]:
        """Return its controls. The letter that a choice names steps it."""
        return []

    # on the plan

    def point_at(self, place: Point, truss: Stood | None, mm_per_px: float) -> None:
        """Aim at a place of the plan, at which a standing truss may lie."""

    def press(self, screen: Screen, place: Point, tag: str) -> None:
        """Press on a place that it is aimed at already; ``tag`` is the standing truss there, if any."""
        screen.say(self.first_words)

    def enter(self, screen: Screen) -> None:
        """Press Enter on the plan."""
        screen.act()

    def move(self, screen: Screen, across: int, up: int, step: float) -> None:
        """Press an arrow on the plan: one way of it, and how far a nudge goes, mm."""

    def next_catch(self) -> bool:
        """Go on to the next place that catches; return whether there is one."""
        return False

    def letter(self, key: int) -> bool:
        """Take a letter that no control of the panel names; return whether it was of use."""
        return False

    @property
    def ringed(self) -> frozenset[str]:
        """The trusses that are ringed on the plan as chosen."""
        return frozenset({self.hand.truss} - {""})

    def drawn(self, hovered: str) -> list[Item]:
        """Return what is drawn over the plan while it is in the hand: rings round what is chosen and pointed at."""
        ringed = self.ringed
        items = [item for tag in sorted(ringed) for item in ring_round(self.site, tag, "mark")]
        if hovered and hovered not in ringed:
            items += ring_round(self.site, hovered, "ghost")
        return items

    @property
    def aimed_at(self) -> str:
        """What it is aimed at, in words."""
        return self.hand.truss

    def ghost(self, action: A) -> list[Item]:
        """Return what a hint suggests, in the colour of nothing that stands."""
        given: Any = action
        tags = getattr(given, "tags", None) or (getattr(given, "tag", None),)
        return [item for tag in tags if tag for item in ring_round(self.site, tag, "ghost")]

    # the list of its own

    def rows(self) -> list[Row]:
        """Return the rows of the list of its own."""
        return []

    @property
    def row(self) -> str:
        """The row that is chosen there."""
        return ""

    def choose_row(self, row: str) -> None:
        """Choose a row there."""

    def take_row(self, screen: Screen, row: str) -> None:
        """Press Enter, or the mouse, on a row there."""
        self.choose_row(row)
        if screen.by_keyboard:
            screen.act()

    # in words

    @classmethod
    def detail(cls, action: A, site: Site) -> str:
        """Return what stands under the words of the verb: where, or with what."""
        return ""

    def detail_now(self, action: A) -> str:
        """Return the same as the learner has it before the eyes now: a measure as the tape in the hand shows it."""
        return self.detail(action, self.site)

    def detail_to_do(self, action: A) -> str:
        """Return the same of something that is still to be done."""
        return self.detail_now(action)

    @classmethod
    def reading(cls, event: Event) -> str:
        """Return what came of its action that the learner could not see: what a tape reads, what came to light."""
        if event.reading is None:
            return " ".join(flaw.in_words for flaw in event.seen)
        got, want = event.reading.got, half(event.reading.want)
        if got == want:
            return _("It reads {got} mm, as it should.").format(got=figure(got))
        off, within = figure(half(abs(got - want))), event.reading.within
        if within is not None:
            text = _("It reads {got} mm. {off} mm out: within the {within} allowed.")
            return text.format(got=figure(got), off=off, within=figure(math.floor(2 * within) / 2))
        text = _("It reads {got} mm. It should be {want} mm: {off} mm out.")
        return text.format(got=figure(got), want=figure(want), off=off)

    def reading_now(self, event: Event) -> str:
        """Return the same as the tape in the hand shows it."""
        return self.reading(event)


@dataclass
class TrussTool(Tool[A]):
    """A tool aimed at a standing truss, by a press on it or by arrows from truss to truss."""

    at_once: ClassVar[bool] = True
    """Whether a press on a truss does it; where that would do harm, the truss is only chosen."""
    wanting: ClassVar[str] = ""
    """What is said while no truss is chosen that stands."""

    def actions(self) -> Wanted:
        return [self.action(tag=self.hand.truss)] if self.hand.stands else self.wanting

    def controls(self, screen: Screen) -> list[Widget]:
        return [chosen(self.hand)]

    def take(self, screen: Screen, tag: str) -> None:
        if screen.by_keyboard:
            screen.act() if self.at_once else screen.focus_on(DO_IT)

    def press(self, screen: Screen, place: Point, tag: str) -> None:
        if not tag:
            screen.say(_("There is no truss there. Point at one that stands."))
            return
        self.press_truss(place, tag)
        if self.at_once:
            screen.act()

    def press_truss(self, place: Point, tag: str) -> None:
        """Press on a standing truss."""
        self.hand.truss = tag

    def move(self, screen: Screen, across: int, up: int, step: float) -> None:
        self.choose(neighbour(self.site, self.hand.truss, (across, up)))


def neighbour(site: Site, tag: str, way: tuple[int, int]) -> str:
    """Return the standing truss next to ``tag`` in a direction of the plan; the first there is if none is chosen."""
    if not site.stood:
        return ""
    if tag not in site.stood:
        return next(iter(site.stood))
    here = _middle(site, tag)

    def cost(other: str) -> float:
        x, y = _middle(site, other)
        ahead = (x - here[0]) * way[0] + (y - here[1]) * way[1]
        aside = abs((x - here[0]) * way[1]) + abs((y - here[1]) * way[0])
        return ahead + 2 * aside if ahead > 1 else math.inf

    best = min((t for t in site.stood if t != tag), key=cost, default=tag)
    return best if cost(best) < math.inf else tag


def _middle(site: Site, tag: str) -> Point:
    stood = site.stood[tag]
    return ((stood.start[0] + stood.finish[0]) / 2, (stood.start[1] + stood.finish[1]) / 2)
