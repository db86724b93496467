"""The state of the site: what has been marked, fitted, stood, braced and fixed so far.

A :class:`Site` is never changed; :func:`trainer.site.act` returns the next one, which shares with it
all that the action did not touch. Undo is going back to an earlier one.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields, replace
from operator import attrgetter
from typing import Any, Literal

from trainer.layout import Layout
from trainer.layout.bracing import RestraintKind
from trainer.level.as_found import Wind
from trainer.plan import Point
from trainer.site.actions import AnyAction, Plan
from trainer.site.conditions import Flaw
from trainer.site.job import Job
from trainer.terms import TrussKind

How = Literal["solid", "batten", "fastened", "hip end", "permanent", "put right", "given"]
"""What holds a truss: a brace to something solid; a batten to a truss that is held; both ends fastened;
the finished hip end that it is part of; permanent bracing that is tied down; others, who put it right after it was let
go unheld; or work that counts as done on this level."""


@dataclass(frozen=True, slots=True)
class Off:
    """How far an end stands from where it belongs, mm.

    ``along`` is towards its place's ``to``; ``across`` is to the left of that.
    """

    along: float
    across: float


NOT_OFF = (Off(0.0, 0.0), Off(0.0, 0.0))


@dataclass(frozen=True, slots=True)
class Stood:
    """A truss as it stands, its own ``from`` end at ``start``.

    ``place`` is the tag of the layout member whose place it takes, none where it stands in nobody's.
    ``flipped``: its ``from`` end stands where the place's ``to`` belongs. ``turned``: so that its two ends
    are the wrong way round, which flipping a truss with like ends never is. ``off`` is for the place's
    ``from`` and ``to``; where it takes no place, for those of its own tag's place. ``piece`` is the truss it
    really is, another where tags were swapped; ``turn`` counts how often it was stood before.
    """

    tag: str
    place: str | None
    start: Point
    finish: Point
    flipped: bool
    turned: bool
    off: tuple[Off, Off]
    piece: str
    turn: int = 0

    def own_end(self, place_end: int) -> int:
        """The truss's own end (1 or 2) that stands at the place's end 1 or 2."""
        return 3 - place_end if self.flipped else place_end


@dataclass(frozen=True, slots=True)
class Bracing:
    """One piece of temporary bracing; of battens, their rows go ``every`` so many mm, or as the job sheet says.

    ``to`` is a verandah beam where that is what it was fixed to.
    """

    kind: str
    tags: tuple[str, ...]
    every: int | None = None
    to: str | None = None

    @property
    def solid(self) -> bool:
        """Whether it holds by itself what it is on: a beam moves with its posts."""
        return self.kind == "wall tie" or (self.kind == "solid" and self.to is None)


@dataclass(frozen=True, slots=True)
class Restrained:
    """One piece of permanent bracing on the trusses of ``row``: a straight line in plan.

    ``crosses`` are the trusses that it was put over, in order along the row: each one's tag, and how far along
    it, mm from the ``from`` end of the place that it stands in. ``pulled_over``: the strap was
    pulled hard with nothing to hold the row against it, and leans it.
    """

    kind: RestraintKind
    row: str
    start: Point
    finish: Point
    crosses: tuple[tuple[str, float], ...]
    pulled_over: bool = False

    def without(self, tag: str) -> Restrained:
        """The same piece once the truss ``tag`` has been taken from under it."""
        return replace(self, crosses=tuple(cross for cross in self.crosses if cross[0] != tag))


@dataclass(frozen=True, slots=True)
class Fitted:
    """A part on a truss; ``at`` in mm from that truss's ``from`` end, none where it needs no place.

    On a gable truss a set of them: ``every`` so many mm, outriggers ``back`` so many mm in from it.
    """

    part: str
    at: float | None
    every: float | None = None
    back: float | None = None


@dataclass(frozen=True, slots=True)
class Marked:
    """A mark: the measure it is meant to be ``at``, where it really ``is``, mm, and how many tapes lie behind it.

    ``links`` is 1 for a mark measured from an end; one more than the mark that it was measured from, else.
    """

    at: float
    is_at: float
    links: int


@dataclass(frozen=True, slots=True)
class Fastened:
    """A connector, and how many of it, at one end or crossing; ``half`` with half its nail holes empty."""

    with_: str
    count: int
    half: bool = False


@dataclass(frozen=True, slots=True)
class Trued:
    """How a straightened truss was lined up: by a line that is itself ``line`` mm off, a string's or the plates'."""

    line: float
    by_string: bool


@dataclass(frozen=True, slots=True)
class Lying:
    """A truss that lies where it fell, or that still stands where one fell on it (``struck``).

    It stood from ``start`` to ``finish``. ``towards`` is the way that it, or what struck it, went over: a unit
    vector in plan, square to the truss that was let go first.
    """

    tag: str
    start: Point
    finish: Point
    towards: Point
    struck: bool = False


@dataclass(frozen=True, slots=True)
class Fall:
    """What lies after a fall, by tag, until it is cleared; and whether work was stopped for it, and it was reported.

    ``cause`` is the one thing left undone that it came of, by the name that findings give it.
    """

    cause: str
    lying: Mapping[str, Lying]
    reported: bool = False
    stopped: bool = False


@dataclass(frozen=True, slots=True)
class Site:
    """The state after ``done`` actions that could be done; ``before`` is the one that undo goes back to.

    All by tag of the truss itself, except ``at_place``: tag of the place to tag of the truss in it.
    ``set_out`` are the marks by wall's name or tag. ``fitted`` by tag of the carrier. ``fixed`` by the
    truss's own end (1, 2) or by the place of a crossing. ``holds`` says how each truss that is held is held.
    ``last`` is the truss stood last, while it has not been let go. ``astray`` are
    trusses that stand in nobody's place; ``ties`` the trusses that each is tied to; ``untied`` pairs of trusses that a
    tie along their tops was taken off. ``readings`` counts those taken, by what and of what; ``turns`` how often each
    truss was stood. ``restrained`` are the trusses that permanent bracing holds, so that the temporary bracing may come
    off them; ``permanent`` its pieces. ``today`` counts the trusses stood today for the first time, and ``nights`` the
    nights gone by. ``lifted`` counts all lifts, ``lifted_kinds`` are the kinds of truss lifted since their plan last
    changed; ``plans`` how each kind is lifted; ``pattern`` where the first packs are to land. ``fall`` is what lies
    where it fell: until it is cleared, these trusses still count as ``stood``, as if others had put them back braced,
    so that an attempt that goes on regardless can be read to its end. ``fell`` has the fall of each truss that fell
    or was struck, until a new one is stood for it.
    """

    job: Job
    before: Site | None = field(default=None, repr=False, compare=False)
    done: int = 0
    set_out: Mapping[str, tuple[Marked, ...]] = field(default_factory=dict)
    fitted: Mapping[str, tuple[Fitted, ...]] = field(default_factory=dict)
    stood: Mapping[str, Stood] = field(default_factory=dict)
    at_place: Mapping[str, str] = field(default_factory=dict)
    astray: frozenset[str] = frozenset()
    bracing: tuple[Bracing, ...] = ()
    ties: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    untied: frozenset[tuple[str, str]] = frozenset()
    fixed: Mapping[tuple[str, int | Point], tuple[Fastened, ...]] = field(default_factory=dict)
    holds: Mapping[str, How] = field(default_factory=dict)
    permanent: tuple[Restrained, ...] = ()
    restrained: frozenset[str] = frozenset()
    last: str | None = None
    checked: frozenset[str] = frozenset()
    readings: Mapping[tuple[str, str], int] = field(default_factory=dict)
    put_right: frozenset[Flaw] = frozenset()
    strings: tuple[tuple[str, str], ...] = ()
    plumbed: Mapping[str, Trued] = field(default_factory=dict)
    cuts: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    turns: Mapping[str, int] = field(default_factory=dict)
    today: int = 0
    nights: int = 0
    lifted: int = 0
    lifted_kinds: frozenset[TrussKind] = frozenset()
    plans: Mapping[TrussKind, Plan] = field(default_factory=dict)
    pattern: str = ""
    loads: tuple[str, ...] = ()
    inspected: Mapping[str, bool] = field(default_factory=dict)
    fall: Fall | None = None
    fell: Mapping[str, Fall] = field(default_factory=dict)
    handed_over: bool = False

    @property
    def marks(self) -> Mapping[str, tuple[float, ...]]:
        """Where the marks on each wall and truss really are, mm along it."""
        return {where: tuple(mark.is_at for mark in marks) for where, marks in self.set_out.items()}

    @property
    def flaws(self) -> tuple[Flaw, ...]:
        """What is still wrong of what the site was found with."""
        found = self.job.conditions.flaws
        return tuple(flaw for flaw in found if flaw not in self.put_right) if self.put_right else found

    @property
    def layout(self) -> Layout:
        """The reference layout."""
        return self.job.layout


_NAMES = tuple(each.name for each in fields(Site))
_ALL_OF = attrgetter(*_NAMES)
_SETTERS = tuple(getattr(Site, name).__set__ for name in _NAMES)


def changed(site: Site, **changes: Any) -> Site:
    """Return the site with some of its fields changed.

    It does what ``dataclasses.replace`` does, in a third of the time: a site is copied twice at every action.
    """
    after = object.__new__(Site)
    for put, value in zip(_SETTERS, _ALL_OF(site), strict=True):
        put(after, value)
    for name, value in changes.items():
        object.__setattr__(after, name, value)
    return after


@dataclass(frozen=True, slots=True)
class Refused:
    """An action that nobody could do there, why, and what to do instead; it changes nothing."""

    why: str


@dataclass(frozen=True, slots=True)
class Reading:
    """What a measurement showed, and what it should show, mm.

    ``within``: how far off it may be, where it is no further off; left out in an assessment.
    """

    got: float
    want: float
    within: float | None = None


@dataclass(frozen=True, slots=True)
class Night:
    """One night, counted from 1, and its ``wind``; ``let_go`` are the trusses that hands left when the day ended.

    ``unsafe`` are the rows that could rack in a wind, each with its standing trusses that tip; ``fell`` all that lay
    over in the morning.
    """

    number: int
    wind: Wind
    let_go: tuple[str, ...]
    unsafe: tuple[tuple[str, tuple[str, ...]], ...]
    fell: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Event:
    """One accepted action and what came of it. ``index`` counts the diary's actions from 0.

    ``let_go`` are the trusses that this action lets go of: at a ``stand`` or at hand-over the one stood last, in
    whatever row; at a ``remove`` those that nothing holds any longer. Whether each
    was held is for :func:`trainer.site.held` on the state before. ``fell`` are the tags of a row that went
    over, with what hung on it; a truss let go unheld beside others stands braced afterwards. ``went_on`` is the fall
    that this action took no heed of; after it the site is read as cleared. ``reading`` is what a measurement
    showed, or where a mark really is and where it is meant to be; ``seen`` the flaws that it, or a check,
    brought to light, or that came up after it; ``put_right`` those that a report, or a stop, had put right. ``night``
    is the one before this action, where the day had ended.
    """

    index: int
    action: AnyAction
    let_go: tuple[str, ...] = ()
    fell: tuple[str, ...] = ()
    reading: Reading | None = None
    seen: tuple[Flaw, ...] = ()
    put_right: tuple[Flaw, ...] = ()
    night: Night | None = None
    went_on: Fall | None = None
