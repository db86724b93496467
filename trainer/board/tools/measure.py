"""Take a reading of a wall's plate or of a truss; or hold the tape to any two places."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

from trainer.board.tools.panel import Screen, choice_of, faint
from trainer.board.tools.subject import Subject, SubjectTool
from trainer.board.tools.tool import Wanted
from trainer.board.tools.two_points import TwoPointsTool
from trainer.board.widgets import Widget
from trainer.order.inspection import READINGS as READ
from trainer.picture.measures import figure
from trainer.picture.model import Item
from trainer.plan import Point
from trainer.session.runs import go_round
from trainer.site.actions import Measure, PlaceReading, TrussReading, WallReading
from trainer.site.model import Event, Site, Stood
from trainer.terms import READINGS
from trainer.words import _

BETWEEN = "between"
"""A reading between two points of the plan, for the learner alone; no action comes of it."""
OF_WALLS, OF_TRUSSES, OF_PLACES = (get_args(each) for each in (WallReading, TrussReading, PlaceReading))
READING_KINDS: tuple[str, ...] = (*OF_WALLS, *OF_PLACES, BETWEEN, *OF_TRUSSES)
"""What can be read, in the order in which it is wanted before anything is marked."""

ASKS: dict[str, str] = {
    BETWEEN: _("How far is it between two places? Press on both. Arrows and Enter do it too."),
    "diagonals": _("Is the house square? Both diagonals of the plates are then as long."),
    "level": _("Is the top of one wall at one height from end to end?"),
    "straight": _("Does one wall follow a string from end to end, or does it bow?"),
    "length": _("Is one wall as long as the plan says?"),
    "plumb": _("Does a standing truss lean? A plumb line from its top shows how far."),
    "bow": _("Does a standing truss bend to the side? A string from end to end shows how far."),
    "apex": _("Is the top of a standing truss on the string line of its row?"),
    "clearance": _("How near would a load on the hook swing to a service line?"),
}
"""The question that each reading answers."""


@dataclass
class MeasureTool(SubjectTool[Measure]):
    """The board's own tape, and the readings that a diary knows."""

    key = "A"
    first_words = _("Choose what to measure, and what of.")
    title = _("Measure")
    button = _("Measure it")
    routine = "go round"
    one_or_all = (_("this reading"), _("plumb and bow of all"))

    what: str = READING_KINDS[0]
    _first: str = READING_KINDS[0]
    """What was wanted first when it was last taken up."""

    def __post_init__(self) -> None:
        self._tape: TwoPointsTool[Measure] = TwoPointsTool(self.hand)

    @property
    def kinds(self) -> tuple[str, ...]:
        """What can be read, what is wanted at this stage of the work first: of walls, of marks, or of trusses."""
        first = OF_TRUSSES[0] if self.site.stood else BETWEEN if self.site.set_out else READING_KINDS[0]
        at = READING_KINDS.index(first)
        return READING_KINDS[at:] + READING_KINDS[:at]

    def take_up(self) -> None:
        """Begin with what is wanted first, where that has changed; else with what was read last."""
        if self._first != self.kinds[0]:
            self.what = self._first = self.kinds[0]

    @property
    def subject(self) -> Subject:
        if self.what in OF_PLACES:
            return "at"
        return "wall" if self.what in OF_WALLS else "tag"

    @property
    def between(self) -> bool:
        """Whether the tape is held to two points of the plan."""
        return self.what == BETWEEN

    def actions(self) -> Wanted:
        if self.between:
            return _("Press on two places of the plan. The tape shows how far apart they are.")
        if self.subject == "tag" and not self.hand.stands:
            return _("Choose a standing truss to measure.")
        one = Measure.model_validate({"what": self.what, **self.subject_of})
        return go_round(self.site, one) if self.in_one_go else [one]

    @property
    def has_button(self) -> bool:
        return not self.between

    def controls(self, screen: Screen) -> list[Widget]:
        meant = faint(ASKS[self.what])
        what = choice_of(screen, _("What"), self, "what", self.kinds, READINGS)
        if self.between:
            return [what, meant]
        near = faint(_("The tape reads to half a millimetre. The job sheet says how near is near enough."))
        round_it = self.go_choice(screen) if self.what in READ.values() else []
        return [what, meant, *round_it, *self.aim_controls(screen, standing=True), near]

    # on the plan: between two points all is the tape's

    def point_at(self, place: Point, truss: Stood | None, mm_per_px: float) -> None:
        if self.between:
            self._tape.point_at(place, truss, mm_per_px)
        else:
            super().point_at(place, truss, mm_per_px)

    def press(self, screen: Screen, place: Point, tag: str) -> None:
        if self.between:
            self._tape.press(screen, place, tag)
        else:
            super().press(screen, place, tag)

    def enter(self, screen: Screen) -> None:
        if self.between:
            self._tape.enter(screen)
        else:
            super().enter(screen)

    def move(self, screen: Screen, across: int, up: int, step: float) -> None:
        if self.between:
            self._tape.move(screen, across, up, step)
        else:
            super().move(screen, across, up, step)

    def next_catch(self) -> bool:
        return self._tape.next_catch() if self.between else super().next_catch()

    def drawn(self, hovered: str) -> list[Item]:
        return self._tape.drawn(hovered) if self.between else super().drawn(hovered)

    @property
    def aimed_at(self) -> str:
        return self._tape.aimed_at if self.between else super().aimed_at

    @classmethod
    def detail(cls, action: Measure, site: Site) -> str:
        return READINGS.get(action.what, action.what)

    @classmethod
    def reading(cls, event: Event) -> str:
        if event.reading is None or not (isinstance(event.action, Measure) and event.action.at):
            return super().reading(event)
        if not event.seen:
            return _("There is no line near that place.")
        text = _("Loads will swing within {got} mm of the line. They have to stay {want} mm clear.")
        return text.format(got=figure(event.reading.got), want=figure(event.reading.want))
