"""Take a piece of temporary bracing off again, or the roof braces over trusses that are to be straightened."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field

from trainer.board.snap import along_truss
from trainer.board.tools.brace import kind_in_words
from trainer.board.tools.panel import Screen, faint
from trainer.board.tools.tool import TrussTool, Wanted
from trainer.board.widgets import Row, Widget
from trainer.picture.solids import Stander
from trainer.picture.struts import Strut, struts
from trainer.plan import Point
from trainer.roof.model import Point3
from trainer.session.hands import strike_alike
from trainer.site.actions import Unbrace
from trainer.site.model import Site, Stood, changed
from trainer.terms import thing
from trainer.words import _, listed

REACH_PX = 14.0
"""How near the mouse must be to a piece of bracing to mean it, px."""

BRACES = {"solid": _("solid brace"), "diagonal": _("diagonal brace")}
"""Kinds that are no name of a thing by themselves, as they are called where they stand alone."""


@dataclass(frozen=True, slots=True)
class Bracework:
    """Something that can be taken off: temporary bracing, or a roof brace."""

    kind: str
    tags: tuple[str, ...]
    every: int | None = None
    to: str | None = None

    @property
    def in_words(self) -> str:
        """Its kind and the trusses it is on."""
        plain = self.kind in BRACES and self.to is None
        kind = BRACES[self.kind] if plain else kind_in_words(self.kind, self.every, self.to)
        return _("{kind} on {tags}").format(kind=kind, tags=listed(list(self.tags)))


def pieces_on(site: Site) -> list[Bracework]:
    """Return what can be taken off: the temporary bracing, then the roof braces, each in the order put on."""
    roof = (piece for piece in site.permanent if piece.kind == "roof brace")
    return [
        *(Bracework(piece.kind, piece.tags, piece.every, piece.to) for piece in site.bracing),
        *(Bracework("roof brace", tuple(tag for tag, _run in piece.crosses)) for piece in roof),
    ]


def lengths_of(site: Site) -> Iterator[tuple[int, Strut]]:
    """Yield each length, as it is drawn, of what can be taken off, after the number of its piece in ``pieces_on``."""
    solids = Stander(site.layout).solids(site)
    bare = changed(site, bracing=(), strings=(), permanent=())
    roof = (piece for piece in site.permanent if piece.kind == "roof brace")
    alone = [
        *(changed(bare, bracing=(piece,)) for piece in site.bracing),
        *(changed(bare, permanent=(piece,)) for piece in roof),
    ]
    for number, one in enumerate(alone):
        yield from ((number, strut) for strut in struts(one, solids))


@dataclass
class UnbraceTool(TrussTool[Unbrace]):
    """Its list has what is on; ``piece`` is the one chosen there, -1 while none is: most of it has to stay.

    A hint may ask for a roof brace by some of its trusses, ``under`` it.
    """

    key = "Shift B"
    first_words = _("Which piece comes off? Press on it on the plan, or choose it in the list.")
    title = _("Take bracing off")
    button = _("Take it off")
    wanting = _("There is no bracing to take off.")
    list_name = _("Bracing")
    list_empty = _("No bracing is on yet.")
    at_once = False
    routine = "strike alike"
    one_or_all = (_("this piece alone"), _("all of this kind in its row"))

    piece: int = -1
    under: tuple[str, ...] = ()
    reach: float = field(default=0.0, compare=False)
    """How near a press must be to a piece of bracing to mean it, mm."""

    @property
    def bracing(self) -> Bracework | None:
        """The piece that is chosen."""
        pieces = pieces_on(self.site)
        return pieces[self.piece] if 0 <= self.piece < len(pieces) else None

    @property
    def _lacking(self) -> str:
        """What is said while no piece is chosen."""
        return self.first_words if pieces_on(self.site) else self.wanting

    @property
    def has_button(self) -> bool:
        return self.bracing is not None

    def take_up(self) -> None:
        self.piece, self.under = -1, ()

    def actions(self) -> Wanted:
        piece = self.bracing
        if piece is None:
            return self._lacking
        facts = {"kind": piece.kind, "tags": self.under or piece.tags, "every": piece.every, "to": piece.to}
        one = Unbrace.model_validate(facts)
        return strike_alike(self.site, one) if self.in_one_go and piece.kind != "roof brace" else [one]

    def aim_at(self, action: Unbrace) -> str:
        pieces = pieces_on(self.site)
        roof = action.kind == "roof brace"
        tags = set(action.tags)
        same = [
            i for i, piece in enumerate(pieces)
            if piece.kind == action.kind and (tags <= set(piece.tags) if roof else tags == set(piece.tags))
        ]  # fmt: skip
        self.piece = min(same, key=lambda i: (pieces[i].every != action.every, pieces[i].to != action.to), default=-1)
        self.under = action.tags if roof else ()
        return ""

    def after(self, action: Unbrace) -> None:
        self.take_up()

    def controls(self, screen: Screen) -> list[Widget]:
        piece = self.bracing
        if piece is None:
            return [faint(self._lacking), faint(_("It may come off once something else does its work."))]
        chosen = faint(_("Chosen: {piece}.").format(piece=piece.in_words))
        if piece.kind == "roof brace":
            freed = _("Every roof brace over these trusses comes off with it. Then they can be straightened.")
            return [chosen, faint(freed)]
        holds = _("Is each of these trusses held by something else? If not, leave it on.")
        return [chosen, faint(holds), *self.go_choice(screen)]

    def point_at(self, place: Point, truss: Stood | None, mm_per_px: float) -> None:
        self.reach = REACH_PX * mm_per_px

    def press(self, screen: Screen, place: Point, tag: str) -> None:
        off, piece = self._nearest(place)
        aside = abs(along_truss(self.site.stood[tag], place)[1]) if tag else math.inf
        if off <= self.reach and off < aside:
            self._choose(piece)
        elif tag:
            self.press_truss(place, tag)
        else:
            screen.say(_("There is no bracing there. Press on the piece to take off, or choose it in the list."))

    def _nearest(self, place: Point) -> tuple[float, int]:
        """Return how far the nearest piece of bracing is from a place as the plan shows it, mm, and its number."""
        found = ((_off(place, strut.a, strut.b), number) for number, strut in lengths_of(self.site))
        return min(found, default=(math.inf, -1))

    def press_truss(self, place: Point, tag: str) -> None:
        super().press_truss(place, tag)
        pieces = list(enumerate(pieces_on(self.site)))
        temporary = len(self.site.bracing)
        # A brace to something solid, or a prop, comes out before battens do.
        latest = sorted(
            pieces, key=lambda each: (each[0] < temporary, each[1].kind in {"solid", "prop"}, each[0]), reverse=True
        )
        self._choose(next((i for i, piece in latest if tag in piece.tags), -1))

    def move(self, screen: Screen, across: int, up: int, step: float) -> None:
        """The list goes from piece to piece, and not the arrows from truss to truss."""

    def _choose(self, piece: int) -> None:
        self.piece, self.under = piece, ()

    @property
    def ringed(self) -> frozenset[str]:
        return frozenset(self.bracing.tags) if self.bracing else frozenset()

    def rows(self) -> list[Row]:
        return [
            Row(str(i), " – ".join(piece.tags), second=thing(piece.kind))
            for i, piece in enumerate(pieces_on(self.site))
        ]

    @property
    def row(self) -> str:
        return str(self.piece) if self.bracing else ""

    def choose_row(self, row: str) -> None:
        self._choose(int(row))

    @classmethod
    def detail(cls, action: Unbrace, site: Site) -> str:
        return kind_in_words(action.kind, action.every)


def _off(place: Point, a: Point3, b: Point3) -> float:
    """Return how far a place is from a length of bracing, as seen from above, mm."""
    (x, y), dx, dy = place, b[0] - a[0], b[1] - a[1]
    long = dx * dx + dy * dy
    share = min(max(((x - a[0]) * dx + (y - a[1]) * dy) / long, 0.0), 1.0) if long else 0.0
    return math.hypot(x - a[0] - share * dx, y - a[1] - share * dy)
