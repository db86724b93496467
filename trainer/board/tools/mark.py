"""Mark a station on a plate, or on a girder."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.board.aim import from_wall, nearest_wall, on_wall
from trainer.board.overlay import NOTE_PX, tape_along_truss, tape_along_wall, wall_line
from trainer.board.snap import along_truss, mark_places
from trainer.board.tools.along import caught_on, caught_on_truss, following, places_on, within
from trainer.board.tools.hand import FIRST_CORNER, LAST_MARK, OTHER_CORNER, Hand, measured
from trainer.board.tools.panel import Screen, along_entry, entry, faint, row, tape_choice, wall_choice
from trainer.board.tools.tool import Tool, Wanted
from trainer.board.widgets import Room, Widget
from trainer.picture.measures import figure
from trainer.picture.model import Item, Line, Text
from trainer.plan import Point, Wall
from trainer.session.hands import LEAST_RUN, run_on
from trainer.site.actions import Mark
from trainer.site.marking import ROUND_THE_CORNER
from trainer.site.model import Event, Site, Stood
from trainer.words import _

REACH_PX = 22.0
"""How near the mouse must be to a girder to mean it and not the wall that it lies in line with, px."""


@dataclass
class MarkTool(Tool[Mark]):
    """``on`` is the wall or truss that is marked, ``at`` mm from its start.

    A tape that is run on marks ``every`` so many mm from there to the next mark, or the end.
    """

    key = "M"
    first_words = _("Point at a plate, or type a measure and press Enter.")
    title = _("Mark a station")
    button = _("Mark it")
    from_yard = True
    routine = "run on"
    one_or_all = (_("this mark"), _("run the tape on"))

    on: str = ""
    at: float = 0.0
    aimed: bool = False
    """Whether a place was given since the last mark."""
    every: float = 0.0
    pinned: str = ""
    """The wall or truss that was chosen by its name: it is meant all round it, until a mark is made."""

    def __post_init__(self) -> None:
        self.on = self.hand.wall
        self.every = self.site.layout.house.trusses.spacing

    def take_up(self) -> None:
        self.pinned = ""
        if not self.on_wall:
            self.on = self.hand.aim.wall

    @property
    def on_wall(self) -> bool:
        """Whether the mark goes on a wall."""
        return self.on in self.hand.plan.by_name

    @property
    def last_mark(self) -> float | None:
        """The mark that the tape is set down on, mm from the start; None where it is hooked on an end."""
        made = self.site.set_out.get(self.on, ()) if self.hand.tape_from == LAST_MARK else ()
        return made[-1].at if made else None

    @property
    def tape_start(self) -> float:
        """Where the tape begins, mm from the start."""
        return self.hand.tape_start(self.on) if self.last_mark is None else self.last_mark

    def choose(self, tag: str) -> None:
        super().choose(tag)
        self.on = self.pinned = tag
        self.at, self.aimed = 0.0, False

    @property
    def listed(self) -> str:
        return self.on

    def actions(self) -> Wanted:
        if not self.aimed:
            return self.first_words
        if self.in_one_go:
            if self.every < LEAST_RUN:
                return _("Type how far it is from mark to mark.")
            back = self.hand.hooked_on(self.on) == OTHER_CORNER and self.on_wall
            run = run_on(self.site, self.on, self.at, self.every, back, from_last=self.last_mark is not None)
            return run or _("There is no room for a mark before the next one.")
        wall, on = (self.on, None) if self.on_wall else (None, self.on)
        return [Mark(wall=wall, on=on, at=self.at, measured_from=self.last_mark)]

    def aim_at(self, action: Mark) -> str:
        self.on, self.at, self.aimed = action.wall or str(action.on), action.at, True
        if (self.hand.tape_from == LAST_MARK) != (action.measured_from is not None):
            self.hand.tape_from = LAST_MARK if action.measured_from is not None else 0
        return ""

    def controls(self, screen: Screen) -> list[Widget]:
        wall = wall_choice(screen, self.hand, self.on, self.pin, *([] if self.on_wall else [self.on]))
        tape = [tape_choice(screen, self.hand, self.on, _("the last mark"))] if self.on_wall else []
        at = along_entry(screen, self.hand, self.on, self.tape_start, self.at, self.hold, blank=not self.aimed)
        return [
            faint(_("Point at a plate, or type the measure. For a mark on a girder, choose it in a list.")),
            row(wall, *tape, at, *self.go_choice(screen), *self._spacing(screen)),
        ]

    def _spacing(self, screen: Screen) -> list[Widget]:
        """Return the entry for the spacing of a tape that is run on, or the room for it."""
        name = _("A mark every")
        every = entry(screen, name, self.every, lambda mm: setattr(self, "every", mm), key="panel/every", nudge=300.0)
        if not screen.may_offer(self.routine):
            return []
        return [every if self.in_one_go and screen.offers(self.routine) else Room(every)]

    def letter(self, key: int) -> bool:
        """On a girder, K sets the tape down on the last mark there, or hooks it on the end again."""
        if key != ord("k"):
            return False
        self.hand.tape_from = 0 if self.hand.tape_from == LAST_MARK else LAST_MARK
        return True

    def hold(self, at: float) -> None:
        """Aim at a measure from the start."""
        self.at, self.aimed = at, True

    # on the plan

    def point_at(self, place: Point, truss: Stood | None, mm_per_px: float) -> None:
        wall = _wall_meant(self.hand, self.on, place)
        pinned = self.hand.plan.by_name.get(self.pinned)
        own = self.site.stood.get(self.pinned)
        if pinned and from_wall(pinned, place) <= ROUND_THE_CORNER:
            wall, truss = pinned, None
        if own and abs(along_truss(own, place)[1]) <= REACH_PX * mm_per_px:
            self.on, self.at = own.tag, caught_on_truss(self.hand, own, place, mm_per_px)
        elif truss is not None and _truss_meant(self.on, truss, place, from_wall(wall, place), REACH_PX * mm_per_px):
            self.at = caught_on_truss(self.hand, truss, place, mm_per_px)
            self.on = truss.tag
        else:
            along, _off = on_wall(wall, place)
            self.at = caught_on(self.hand, wall.name, along, mark_places(self.site, wall), mm_per_px)
            self.on = wall.name
        self.aimed = True

    def press(self, screen: Screen, place: Point, tag: str) -> None:
        screen.act()

    def pin(self, wall: str) -> None:
        """Choose a wall by its name."""
        self.on = self.pinned = wall

    def after(self, action: Mark) -> None:
        self.pinned, self.aimed = "", False

    def move(self, screen: Screen, across: int, up: int, step: float) -> None:
        self.hand.caught = ""
        self.hold(within(self.hand, self.on, self.at + across * step))

    def next_catch(self) -> bool:
        walls = self.hand.plan.by_name
        places = list(mark_places(self.site, walls[self.on])) if self.on_wall else places_on(self.hand, self.on)
        if places:
            self.hold(following(self.hand, places, self.at))
        return bool(places)

    def drawn(self, hovered: str) -> list[Item]:
        if not self.aimed:
            return []
        if not self.on_wall:
            return tape_along_truss(self.site, self.on, self.at, self.hand.caught)
        wall = self.hand.plan.by_name[self.on]
        cross = Line(wall_line(self.site, wall, self.at, 110), "mark", 3.0)
        return [cross, *tape_along_wall(self.site, wall, self.at, self.tape_start, self.hand.note(self.on, self.at))]

    @property
    def aimed_at(self) -> str:
        return f"{self.on} {figure(self.at)} mm" if self.aimed else self.on

    def ghost(self, action: Mark) -> list[Item]:
        if not action.wall:
            return tape_along_truss(self.site, str(action.on), action.at, "")
        line = wall_line(self.site, self.hand.plan.by_name[action.wall], action.at, 160)
        start = self.hand.tape_start(action.wall)
        read = start - action.at if start else action.at
        return [
            Line(line, "ghost", 3.0, "px", (8.0, 5.0)),
            Text(line[1], figure(read), "ink", NOTE_PX, "px", ground="paper"),
        ]

    @classmethod
    def detail(cls, action: Mark, site: Site) -> str:
        if action.wall is None:
            return _("at {at}").format(at=figure(action.at))
        return measured(site.layout.house.plan, action.wall, action.at, FIRST_CORNER)

    def detail_now(self, action: Mark) -> str:
        return self.hand.read_off(str(action.wall or action.on), action.at)

    @classmethod
    def reading(cls, event: Event) -> str:
        return "" if event.reading is None else _reads(event.reading.got, event.reading.want)

    def reading_now(self, event: Event) -> str:
        """Say where the line came; what was typed is no more than what was aimed at."""
        if event.reading is None or not isinstance(event.action, Mark):
            return ""
        start = self.hand.tape_start(str(event.action.wall or event.action.on))
        got, want = abs(event.reading.got - start), abs(event.reading.want - start)
        # In an assessment nothing may sound as if the mark were right.
        return _reads(got, want if self.hand.session.mode == "practice" else got)


def _reads(got: float, want: float) -> str:
    reads = _("It reads {got} mm.").format(got=figure(got))
    if got == want:
        return reads
    return _("{reads} So small a difference is no mistake: by hand a mark comes within about 1 mm.").format(reads=reads)


def _truss_meant(held: str, truss: Stood, place: Point, from_plate: float, reach: float) -> bool:
    """Whether a mark goes on the truss under the mouse, and not on the wall that is ``from_plate`` mm away.

    A girder lies in line with walls: past their ends it is the truss that is meant; near an end, if it is held already.
    """
    _run, aside = along_truss(truss, place)
    return from_plate > reach or (held == truss.tag and abs(aside) < from_plate)


def _wall_meant(hand: Hand, held: str, place: Point) -> Wall:
    """Return the wall nearest to a place; where two are as near, as at a corner, the one that is held already. It is
    that one too a little past its end, in line with it.
    """
    nearest, other = nearest_wall(hand.plan, place), hand.plan.by_name.get(held)
    if other is None:
        return nearest
    along, off = on_wall(other, place)
    past = max(-along, along - other.length)
    in_line = 0 < past <= ROUND_THE_CORNER and abs(off) <= hand.plan.plate_width / 2
    return other if in_line or from_wall(other, place) <= from_wall(nearest, place) + 1 else nearest
