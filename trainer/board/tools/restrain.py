"""Put in one piece of permanent bracing, from one place of the plan to another."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import Literal

from trainer.board.bracing_words import from_where_to_where
from trainer.board.tools.panel import MEASURE, Screen, choice, choice_of, entry, faint, row
from trainer.board.tools.tool import Wanted
from trainer.board.tools.two_points import TwoPointsTool
from trainer.board.widgets import NumberEntry, Widget
from trainer.layout.bracing import KINDS, RestraintKind
from trainer.picture.model import Item, Line
from trainer.plan import Point
from trainer.session.runs import straps_alike
from trainer.site.actions import Restrain
from trainer.site.model import Site
from trainer.words import _

STRAP: RestraintKind = "roof brace"
"""The kind that is a strap, and tensioned."""


@dataclass
class RestrainTool(TwoPointsTool[Restrain]):
    """The tape has its two ends."""

    key = "Z"
    first_words = _("Choose the permanent bracing. Then press where it begins and where it ends.")
    title = _("Restrain: permanent bracing")
    button = _("Put it in")
    routine = "straps alike"
    one_or_all = (_("this strap"), _("each slope, both ways"))

    kind: RestraintKind = KINDS[0]
    of_site = True
    hard: bool = False
    """Whether a strap is pulled harder than straight."""
    typed: frozenset[tuple[int, int]] = frozenset()
    """The measures that were typed since: of which end, and along which axis."""

    def actions(self) -> Wanted:
        if len(self.hand.points) < 2 or any(self._blank(end, axis) for end in (0, 1) for axis in (0, 1)):
            return _("Press where it begins and where it ends, or type both places.")
        tension: Literal["hard"] | None = "hard" if self.hard and self.kind == STRAP else None
        one = Restrain(kind=self.kind, start=self.hand.points[0], finish=self.hand.points[1], tension=tension)
        return straps_alike(self.site, one) if self.in_one_go else [one]

    def aim_at(self, action: Restrain) -> str:
        self.hard = action.tension == "hard"
        self.hand.points, self.typed = (action.start, action.finish), frozenset()
        return super().aim_at(action)

    def after(self, action: Restrain) -> None:
        self.hand.points, self.typed = (), frozenset()

    def take_up(self) -> None:
        self.typed = frozenset()

    def _end(self, end: int) -> Point:
        """Where the piece begins (0) or ends (1), or where the tape is held for it."""
        return (*self.hand.points, self.hand.point, self.hand.point)[end]

    def _blank(self, end: int, axis: int) -> bool:
        """Whether nobody has yet said where an end is, neither typed nor by the tape, which lies at the corner."""
        unsaid = bool(self.typed) or end >= len(self.hand.points)
        return unsaid and self._end(end) == (0.0, 0.0) and (end, axis) not in self.typed

    def controls(self, screen: Screen) -> list[Widget]:
        kind = choice_of(screen, _("Kind"), self, "kind", KINDS)
        pulled = choice(
            screen, _("Strap pulled"), [_("straight"), _("hard")], int(self.hard),
            lambda i: setattr(self, "hard", i == 1), key="hard", shortcut="E",
        )  # fmt: skip
        return [
            faint(_("Press on two places, or type them: across and up the plan from the corner of wall A.")),
            row(kind, pulled, *self.go_choice(screen)) if self.kind == STRAP else kind,
            row(
                self._entry(screen, _("Begins: across"), 0, 0, MEASURE),
                self._entry(screen, _("Begins: up"), 0, 1, "panel/up"),
                self._entry(screen, _("Ends: across"), 1, 0, "panel/to across"),
                self._entry(screen, _("Ends: up"), 1, 1, "panel/to up"),
            ),
        ]

    def _entry(self, screen: Screen, name: str, end: int, axis: int, key: str) -> NumberEntry:
        """Return the entry for one measure of one end."""
        x, y = self._end(end)

        def put(number: float) -> None:
            self.typed |= {(end, axis)}
            self.hand.put_point(end, (number, y) if axis == 0 else (x, number))

        typing = entry(screen, name, (x, y)[axis], put, key=key, blank=self._blank(end, axis), at_once=True)
        typing.enter = partial(self._put_in, screen)
        return typing

    def _put_in(self, screen: Screen) -> None:
        """Put the piece in that was typed; the next one is typed from its first measure on."""
        if not isinstance(self.actions(), str):
            screen.focus_on(MEASURE)
        screen.act()

    def enter(self, screen: Screen) -> None:
        """Put the tape there; its second end puts the piece in."""
        super().enter(screen)
        if len(self.hand.points) == 2:
            screen.act()

    def ghost(self, action: Restrain) -> list[Item]:
        return [Line((action.start, action.finish), "ghost", 4.0, "px", (8.0, 5.0))]

    @classmethod
    def detail(cls, action: Restrain, site: Site) -> str:
        hard = _("pulled hard") if action.tension == "hard" else ""
        return ", ".join(filter(None, (from_where_to_where(site, action), hard)))
