"""What all tools of a house share: the truss that is chosen, where it is aimed, and the tape."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from trainer.board.aim import Aim, pointing_inward
from trainer.layout import Member
from trainer.layout.model import TAG_LETTERS
from trainer.picture.measures import figure
from trainer.picture.tags import number_of
from trainer.plan import PlatePlan, Point, corners, read_back
from trainer.site.model import Site
from trainer.words import _, listed

if TYPE_CHECKING:
    from trainer.session import Session

FIRST_CORNER, OTHER_CORNER, LAST_MARK = 0, 1, 2
"""Where the tape may be hooked; only the tool that marks can set it down on its last mark."""


@dataclass
class Hand:
    """The state that tools share. Measures are mm from a wall's first corner or a truss's ``from`` end.

    ``aim`` is where the truss in the hand is held, ``wall`` the wall that readings and reports are of, ``point`` where
    the tape's loose end is held, ``points`` what it was put to, ``caught`` what holds the aim, in words.
    """

    session: Session = field(repr=False, compare=False)
    aim: Aim = field(init=False)
    wall: str = field(init=False)
    truss: str = ""
    tape_from: int = FIRST_CORNER
    tape_on: str = field(init=False)
    """The wall of whose corners ``tape_from`` is one: the first one, until the tape is hooked on another."""
    point: Point = (0.0, 0.0)
    points: tuple[Point, ...] = ()
    caught: str = ""
    aimed: bool = False
    """Whether the truss in the hand has been given a place since it was taken."""

    def __post_init__(self) -> None:
        self.wall = self.tape_on = self.plan.walls[0].name
        self.aim = Aim(self.wall, 0.0)

    @property
    def site(self) -> Site:
        """The site as it stands."""
        return self.session.site

    @property
    def plan(self) -> PlatePlan:
        """The walls of the house."""
        return self.session.site.layout.house.plan

    @property
    def member(self) -> Member | None:
        """The truss taken from the yard, if one is."""
        return None if self.stands else self.site.layout.by_tag.get(self.truss)

    @property
    def stands(self) -> bool:
        """Whether the chosen truss stands."""
        return self.truss in self.site.stood

    @property
    def turned(self) -> bool:
        """Whether the truss in the hand is turned end for end."""
        return self.aim.turned and not self.stands

    def hold(self, aim: Aim) -> None:
        """Aim the truss in the hand; a hip points into the house."""
        self.aim = pointing_inward(self.plan, self.member, aim) if self.member else aim
        self.aimed = True

    def turn(self) -> None:
        """Turn the truss in the hand end for end, where it is."""
        self.aim = replace(self.aim, turned=not self.aim.turned)

    def note(self, where: str, at: float) -> str:
        """Return what catches there, and whose mark that is where the layout drawing is at hand to tell."""
        near = self.site.job.station_tolerance
        marked = any(abs(mark.is_at - at) <= near for mark in self.site.set_out.get(where, ()))
        if not (self.caught and marked and self.session.level.lesson.layout_sheet):
            return self.caught
        tags = [one.tag for one in self.site.job.stations.get(where, ()) if abs(one.run - at) <= near]
        return ": ".join(filter(None, (self.caught, listed(tags))))

    def length_of(self, where: str) -> float:
        """Return the length of a wall, of the wall that a ledger lies along, or of a truss, mm."""
        walls, where = self.plan.by_name, self.site.layout.ledgers.get(where, where)
        return walls[where].length if where in walls else self.site.layout.by_tag[where].span

    def hook(self, wall: str, corner: int) -> None:
        """Hook the tape on a corner of a wall, or set it down on the last mark there."""
        self.tape_from, self.tape_on = corner, wall

    def hooked_on(self, where: str) -> int:
        """Return where the tape is hooked on a wall: at the end of the row at which it was hooked on another."""
        if self.tape_from == LAST_MARK or where not in self.plan.by_name:
            return self.tape_from
        return OTHER_CORNER if where in self.read_back else FIRST_CORNER

    @property
    def read_back(self) -> frozenset[str]:
        """The walls along which the tape reads from the other corner."""
        if self.tape_from == LAST_MARK:
            return frozenset()
        wall = self.plan.by_name[self.tape_on]
        return read_back(self.plan, (wall.a, wall.b)[self.tape_from])

    def hook_in_words(self, wall: str) -> str:
        """Say from which corner of a wall the tape reads."""
        corner = corners(self.plan, wall)[self.hooked_on(wall) == OTHER_CORNER]
        return _("Wall {wall}: the tape reads from {corner}. K hooks it elsewhere.").format(wall=wall, corner=corner)

    def tape_start(self, where: str) -> float:
        """Return where on a wall or truss the tape begins, mm from its start."""
        return self.length_of(where) if where in self.plan.by_name and self.hooked_on(where) == OTHER_CORNER else 0.0

    def read_off(self, where: str, at: float) -> str:
        """Say a measure along a wall or truss as the tape shows it, from the corner that it is hooked on."""
        if where not in self.plan.by_name:
            return _("at {at}").format(at=figure(at))
        corner = OTHER_CORNER if self.hooked_on(where) == OTHER_CORNER else FIRST_CORNER
        return measured(self.plan, where, at, corner)

    def put_tape(self) -> None:
        """Put the tape to where it is held: first its hook, then its end, then anew."""
        self.points = (self.point,) if len(self.points) == 2 else (*self.points, self.point)

    def put_point(self, index: int, point: Point) -> None:
        """Put the first or the second of the tape's two points."""
        held = list(self.points) if len(self.points) == 2 else [*self.points, self.point, self.point][:2]
        held[index] = point
        self.points = (held[0], held[1])


def measured(plan: PlatePlan, wall: str, at: float, corner: int) -> str:
    """Say a measure along a wall, mm from its first corner, as a tape shows it that is hooked on a ``corner`` of it."""
    read = plan.by_name[wall].length - at if corner == OTHER_CORNER else at
    return _("at {at} from {corner}").format(at=figure(read), corner=corners(plan, wall)[corner])


def yard(site: Site) -> list[str]:
    """Return the tags of the trusses not yet standing, girders first, then by tag."""
    letters = list(TAG_LETTERS)
    waiting = [m for m in site.layout.members if m.tag not in site.stood]
    return [m.tag for m in sorted(waiting, key=lambda m: (letters.index(m.kind), number_of(m.tag)))]
