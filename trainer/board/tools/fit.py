"""Fit a part to a truss, a bracket to a ledger, or a set of parts to a gable truss."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from trainer.board.aim import from_wall
from trainer.board.overlay import tape_along_truss
from trainer.board.snap import Caught, along_truss, crossed_at
from trainer.board.tools.along import caught_on, caught_on_truss, following, places_on, within
from trainer.board.tools.ledger import ledgers, meant, places_along, tape_along
from trainer.board.tools.panel import MEASURE, Screen, choice, entry, faint, row
from trainer.board.tools.tool import TrussTool, Wanted
from trainer.board.widgets import Widget
from trainer.order.verge import ON_DUTCH
from trainer.picture.measures import figure
from trainer.picture.model import Item
from trainer.plan import Point
from trainer.plan.points import half
from trainer.session.hands import bracket_places, brackets_along
from trainer.session.runs import parts_alike
from trainer.site.actions import LEAST_EVERY, Fit
from trainer.site.fastening import BRACKETS, FRAMING
from trainer.site.model import Site, Stood
from trainer.site.query import row_of, standing_in_row
from trainer.terms import thing
from trainer.words import _

PARTS = (*BRACKETS, *FRAMING)
WHOLE = frozenset({"batten", "plies joined", "verge rafter", *ON_DUTCH})
"""Parts that go on a truss as a whole."""
SPACED = frozenset({"outrigger", "gable stud"})
"""Parts that go on a gable truss as a set, so many mm apart."""
CLEARLY = 60.0
"""So much nearer than a ledger a truss is that a bracket there is meant for, mm: a ledger is not as thick."""


@dataclass
class FitTool(TrussTool[Fit]):
    """``on`` is what will carry, ``at`` mm along it; a set goes ``every`` so many mm and runs ``back``."""

    key = "F"
    first_words = _("Choose the truss that will carry, then where the part goes.")
    button = _("Fit it")
    routine = "brackets along"
    one_or_all = (_("this one"), _("one at every mark"))

    part: str = PARTS[0]
    on: str = ""
    at: float = 0.0
    by_place: bool = False
    """Whether a part that may go on a truss as a whole is fitted at a place."""
    every: float = 0.0
    back: float = 0.0

    def __post_init__(self) -> None:
        self.every = self.site.layout.house.trusses.spacing

    @property
    def placed(self) -> bool:
        """Whether the part goes at a place along its truss."""
        return self.part in BRACKETS or (self.part not in WHOLE and self.by_place)

    def take_up(self) -> None:
        self.on = self.hand.truss

    def choose(self, tag: str) -> None:
        super().choose(tag)
        self.at = self.at if tag == self.on else 0.0
        self.on = tag

    def take(self, screen: Screen, tag: str) -> None:
        if screen.by_keyboard:
            screen.focus_on(MEASURE) if self.placed else screen.act()

    def actions(self) -> Wanted:
        if not self.on:
            return _("Choose the truss that the part goes on.")
        if self.in_one_go and self.part in BRACKETS:
            marked = brackets_along(self.site, self.part, self.on)
            return marked or _("There is no mark on it without a bracket. Mark it first.")
        if self.in_one_go and self.part in WHOLE:
            return parts_alike(self.site, Fit(part=self.part, on=self.on))
        if self.placed or self.part not in SPACED:
            return [Fit(part=self.part, on=self.on, at=self.at if self.placed else None)]
        outrigger = self.part == "outrigger"
        if self.every < LEAST_EVERY or (outrigger and self.back <= 0):
            return _("Type how far apart they go, and how far outriggers run back.")
        return [Fit(part=self.part, on=self.on, every=self.every, back=self.back if outrigger else None)]

    def aim_at(self, action: Fit) -> str:
        self.by_place = action.at is not None
        return super().aim_at(action)

    @property
    def title(self) -> str:
        return _("Fit on {tag}").format(tag=self.on) if self.on else _("Fit a part")

    @property
    def has_button(self) -> bool:
        return bool(self.on)

    def controls(self, screen: Screen) -> list[Widget]:
        part = choice(
            screen, _("Part"), [thing(each) for each in PARTS], PARTS.index(self.part), self._change_part, key="part",
            shortcut="C",
        )  # fmt: skip
        ledger = self._ledger_choice(screen)
        if not self.on:
            return [faint(_("Choose the truss that will carry: in a list, or on the plan.")), part, *ledger]
        controls: list[Widget] = [part, *ledger]
        if self.part not in BRACKETS and self.part not in WHOLE:
            options = [_("on it as a whole"), _("at a place")]
            controls.append(
                choice(
                    screen, _("Where"), options, int(self.by_place), lambda i: setattr(self, "by_place", bool(i)),
                    key="by place",
                )
            )  # fmt: skip
        if self.placed:
            along = _("Along its wall") if self.on in ledgers(self.site) else _("From its end 1")
            stops = _bays_under(self.site, self.on) if self.part == "trimmer" else ()
            controls.append(entry(screen, along, self.at, lambda at: setattr(self, "at", at), stops=stops))
        elif self.part in SPACED:
            controls += self._set_controls(screen)
        if self.part in BRACKETS or self.part in WHOLE:
            controls += self.go_choice(screen)
        return [row(*controls)]

    @property
    def how_much(self) -> tuple[str, ...]:
        return self.one_or_all if self.part in BRACKETS else (self.one_or_all[0], _("on every one of its kind"))

    def _change_part(self, number: int) -> None:
        """Take another part: what may go on its truss as a whole does, until a place is asked for."""
        self.part = PARTS[number]
        self.by_place = False

    def _ledger_choice(self, screen: Screen) -> list[Widget]:
        """Return the choice of what takes a bracket: the chosen truss, or a ledger where the house has one."""
        known = ledgers(self.site)
        if self.part not in BRACKETS:
            self.on = self.hand.truss if self.on in known else self.on
            return []
        if not known:
            return []
        options = [self.hand.truss or _("a truss"), *known]
        index = options.index(self.on) if self.on in known else 0
        return [
            choice(
                screen, _("On"), options, index, lambda i: setattr(self, "on", options[i] if i else self.hand.truss),
                key="on", shortcut="L",
            )
        ]  # fmt: skip

    def _set_controls(self, screen: Screen) -> list[Widget]:
        """Return what a set of parts wants typed."""
        every: list[Widget] = [
            entry(
                screen,
                _("One every"),
                self.every,
                lambda mm: setattr(self, "every", mm),
                key="panel/every",
                nudge=150.0,
            )
        ]
        if self.part != "outrigger":
            return every
        back = entry(
            screen, _("Run back"), self.back, lambda mm: setattr(self, "back", mm), key="panel/back",
            stops=_to_trusses(self.site, self.on),
        )  # fmt: skip
        return [*every, back]

    # on the plan

    def point_at(self, place: Point, truss: Stood | None, mm_per_px: float) -> None:
        on_ledger = meant(self.site, place, self.on) if self.part in BRACKETS else None
        if on_ledger and not (truss and self._truss_meant(truss, place, on_ledger[0])):
            self.on, along = on_ledger
            self.at = caught_on(self.hand, self.on, along, places_along(self.hand, self.on), mm_per_px)
        elif truss is not None:
            self.on = truss.tag
            if beside := self._beside_marks(truss.tag):
                self.at = caught_on(self.hand, truss.tag, along_truss(truss, place)[0], beside, mm_per_px)
            else:
                self.at = caught_on_truss(self.hand, truss, place, mm_per_px)

    def _truss_meant(self, truss: Stood, place: Point, ledger: str) -> bool:
        """Whether a bracket goes on the truss under the mouse, and not on the ledger near by that its end hangs on:
        there the truss is clearly the nearer, or it is as near and held already.
        """
        wall = self.hand.plan.by_name[self.site.layout.ledgers[ledger]]
        nearer = from_wall(wall, place) - abs(along_truss(truss, place)[1])
        return nearer >= (0 if self.on == truss.tag else CLEARLY)

    def _beside_marks(self, tag: str) -> list[Caught]:
        """Return what catches a bracket where marks show the near face of each truss; nothing where they do not."""
        if self.part not in BRACKETS or self.site.layout.house.trusses.stations_to != "near face":
            return []
        return [Caught(at, _("beside the mark"), mark=True) for at in bracket_places(self.site, tag)]

    def press(self, screen: Screen, place: Point, tag: str) -> None:
        if self.part in BRACKETS and self.on in ledgers(self.site):
            screen.act()
        else:
            super().press(screen, place, tag)

    def press_truss(self, place: Point, tag: str) -> None:
        """A press means the place under it, but for a set, which goes on its truss as a whole."""
        super().press_truss(place, tag)
        self.by_place = self.by_place if self.part in SPACED else True

    def move(self, screen: Screen, across: int, up: int, step: float) -> None:
        if up:
            super().move(screen, across, up, step)
        elif self.on:
            self.hand.caught = ""
            self.at = within(self.hand, self.on, self.at + across * step)

    def next_catch(self) -> bool:
        places = places_along(self.hand, self.on) or places_on(self.hand, self.on)
        if places:
            self.at = following(self.hand, places, self.at)
        return bool(places)

    def drawn(self, hovered: str) -> list[Item]:
        if self.on in ledgers(self.site):
            return tape_along(self.site, self.on, self.at, self.hand.caught)
        return tape_along_truss(self.site, self.on, self.at, self.hand.caught)

    @property
    def aimed_at(self) -> str:
        return f"{self.on} {figure(self.at)} mm" if self.on else ""

    def ghost(self, action: Fit) -> list[Item]:
        if action.on in ledgers(self.site):
            return tape_along(self.site, action.on, action.at or 0.0, "")
        return tape_along_truss(self.site, action.on, action.at or 0.0, "")

    @classmethod
    def detail(cls, action: Fit, site: Site) -> str:
        return thing(action.part)


def _bays_under(site: Site, tag: str) -> tuple[float, ...]:
    """Return where an entry stops on a truss that waits: in the middle between each two of the trusses that stand where
    the plan shows it over them, or else at its end, mm. A trimmer goes in there, from one of the two to the other.
    """
    if tag in site.stood:
        return ()
    member = site.layout.by_tag[tag]
    under = sorted(crossed_at(site, member.start, member.direction))
    middles = ((a + b) / 2 for a, b in pairwise(under) if b >= 0 and a <= member.span and b - a > 1)
    return tuple(sorted({half(min(max(middle, 0.0), half(member.span))) for middle in middles}))


def _to_trusses(site: Site, gable: str) -> tuple[float, ...]:
    """Return how far it is from a standing truss back to each other of its row that stands, mm."""
    if gable not in site.stood:
        return ()
    own = site.stood[gable]
    row = (site.stood[tag] for tag in standing_in_row(site, row_of(site, gable)) if tag != gable)
    return tuple(sorted(abs(along_truss(own, other.start)[1]) for other in row))
