"""Look round the site before anything is lifted: at the level's places, and at what is drawn on the plan.

Looking only shows what is there. What is wrong has to be reported.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

from trainer.board.overlay import cross
from trainer.board.tools.panel import DO_IT, Screen, faint
from trainer.board.tools.report import ReportTool, report_of
from trainer.board.tools.subject import spot_near
from trainer.board.tools.tool import Tool, Wanted
from trainer.board.widgets import Button, Label, Row, Widget
from trainer.picture.dangers import DangerSpot, spots
from trainer.picture.model import Item
from trainer.plan import Point
from trainer.site import LOOKED_AT, is_there
from trainer.site.actions import AnyAction, Check, Measure, Stop
from trainer.site.conditions import Flaw
from trainer.site.model import Event, Site
from trainer.terms import thing
from trainer.words import _

ON_PLAN = "plan/"
"""A row of the list that begins so is something drawn on the plan; its number follows."""
WRONG = _("looked at: something is wrong")
LOOKED_FOR = {
    "method statement": _("Looked for: is it there, and does whoever lifts or slings have the licence?"),
    "edge protection": _("Looked for: rails and platforms on every side, no open edge or hole."),
    "exclusion zone": _("Looked for: nobody under the lift, no service line near it."),
    "weather": _("Looked for: wind and gusts in the forecast."),
    "walls braced": _("Looked for: every wall braced, studs under what carries much."),
    "delivery": _("Looked for: every truss there, tags, broken webs, loose plates, how the packs lie."),
    "falls inside": _("Looked for: open stairs and holes inside."),
    "lifting plan": _("Looked for: where each lift is slung, and licences."),
    "power lines": _("Looked for: service lines that a load could come near."),
    "studs under girders": _("Looked for: enough studs under each girder."),
    "beams and posts": _("Looked for: bolts, props, braces and tie-down."),
    "ledgers": _("Looked for: fixed to studs, not to a skin of bricks."),
}
"""What is looked for at each place of the look round."""
"""What a row says where something is wrong: what it is stands in the panel, and rows stay low in large text."""


@dataclass
class CheckTool(Tool[Check]):
    """Its list has the places to look at, and what can be seen on the plan.

    ``item`` is the place that is chosen, ``spot`` what is chosen on the plan, if anything.
    """

    key = "Q"
    first_words = _("Choose a place and press Enter to look there. Or press on something on the plan.")
    title = _("Look round before you lift")
    button = _("Look there")
    list_name = _("Places")
    list_empty = _("This house has nothing to look at.")

    item: str = ""
    spot: DangerSpot | None = None

    def take_up(self) -> None:
        items = self.site.job.conditions.checks
        left = [item for item in items if item not in self.site.checked]
        self.item, self.spot = next(iter([*left, *items]), ""), None

    @property
    def _known(self) -> bool:
        """Whether what is chosen has been looked at, or shows itself."""
        return not self.item or self.item in self.site.checked

    @property
    def _seen(self) -> tuple[Flaw, ...]:
        """What is wrong there, as far as it has been looked at."""
        if not self._known:
            return ()
        if self.spot is not None:
            return (self.spot.flaw,) if self.spot.flaw in self.site.flaws else ()
        return open_at(self.site, self.item)

    def actions(self) -> Wanted:
        if not self.item and self.spot is None:
            return _("Choose where you look.")
        if self._seen:
            return _("You have looked there. What can hurt somebody has to be reported.")
        return [self.action()] if self.item else _("It shows by itself.")

    def aim_at(self, action: Check) -> str:
        self.spot = None
        return super().aim_at(action)

    def after(self, action: Check) -> None:
        """Stay where something was seen, until it is reported; else go on to the next place."""
        if not self._seen:
            self.take_up()

    @property
    def has_button(self) -> bool:
        return not self._seen and bool(self.item)

    def controls(self, screen: Screen) -> list[Widget]:
        if not self._seen:
            where = self.spot.word if self.spot else thing(self.item)
            return [faint(where or _("Nothing to look at here."))]
        blocks: list[Widget] = []
        for number, flaw in enumerate(self._seen):
            blocks += [Label(flaw.in_words), *self._measuring(screen, flaw), self._next(screen, flaw, number)]
        return [*blocks, faint(_("Looking puts nothing right. What can hurt somebody has to be reported."))]

    def _next(self, screen: Screen, flaw: Flaw, number: int) -> Button:
        """Return the button that gets ready what is done about it."""
        name = _("Stop lifting") if isinstance(answer(flaw), Stop) else _("Get the report ready")
        first = number == 0
        return Button(
            name, partial(screen.get_ready, answer(flaw)), kind="primary" if first else "plain",
            shortcut="Enter" if first else "", key=DO_IT if first else f"panel/report {number}",
        )  # fmt: skip

    def _measuring(self, screen: Screen, flaw: Flaw) -> list[Button]:
        if flaw.what != "service line" or flaw.at is None:
            return []
        ready = partial(screen.get_ready, Measure(what="clearance", at=flaw.at))
        return [Button(_("Measure how near"), ready, key="panel/measure near")]

    # on the plan

    def press(self, screen: Screen, place: Point, tag: str) -> None:
        """Press on something drawn there, to ask about it."""
        spot = spot_near(self.site, place)
        if spot is None:
            screen.say(_("Nothing is drawn there. Press on something that is, or choose a place in the list."))
            return
        self._choose(spot)
        self._look(screen)

    def next_catch(self) -> bool:
        found = spots(self.site)
        if found:
            here = found.index(self.spot) if self.spot in found else -1
            self._choose(found[(here + 1) % len(found)])
        return bool(found)

    def enter(self, screen: Screen) -> None:
        self._look(screen)

    def _look(self, screen: Screen) -> None:
        """Look there; where something has been seen, get ready what is done about it."""
        if self._seen:
            if screen.by_keyboard:
                screen.get_ready(answer(self._seen[0]))
            else:
                screen.say(self._seen[0].in_words)
        else:
            screen.act()

    def _choose(self, spot: DangerSpot) -> None:
        self.spot, self.item = spot, spot.item

    def drawn(self, hovered: str) -> list[Item]:
        return cross(self.spot.place, "") if self.spot else []

    @property
    def aimed_at(self) -> str:
        return self.spot.word if self.spot else thing(self.item)

    # the list of its own

    def rows(self) -> list[Row]:
        checked = self.site.checked
        places = [
            Row(item, thing(item), picture=_sign(self.site, item), second=what_it_showed(self.site, item))
            for item in self.site.job.conditions.checks
        ]
        drawn = [
            Row(
                f"{ON_PLAN}{number}",
                _("On the plan: {what}").format(what=spot.word),
                picture=ReportTool.verb if known else "open",
                second=WRONG if known else _("not asked about yet"),
            )
            for number, spot in enumerate(spots(self.site))
            for known in [not spot.item or spot.item in checked]
        ]
        return [*places, *drawn]

    @property
    def row(self) -> str:
        found = spots(self.site)
        return f"{ON_PLAN}{found.index(self.spot)}" if self.spot in found else self.item

    def choose_row(self, row: str) -> None:
        if row.startswith(ON_PLAN):
            self._choose(spots(self.site)[int(row.removeprefix(ON_PLAN))])
        else:
            self.item, self.spot = row, None

    def take_row(self, screen: Screen, row: str) -> None:
        self.choose_row(row)
        self._look(screen)

    @classmethod
    def reading(cls, event: Event) -> str:
        looked_for = LOOKED_FOR.get(event.action.item, "") if isinstance(event.action, Check) else ""
        return super().reading(event) or " ".join(filter(None, (looked_for, _("No fault found."))))


def answer(flaw: Flaw) -> AnyAction:
    """Return what is done about something that was seen: wind stops the lift, all else is reported."""
    return Stop() if flaw.what == "gust at noon" else report_of(flaw)


def open_at(site: Site, item: str) -> tuple[Flaw, ...]:
    """Return what a look at a place shows that has not been put right yet."""
    return tuple(flaw for flaw in site.flaws if item in LOOKED_AT.get(flaw.what, ()) and is_there(site, flaw))


def what_it_showed(site: Site, item: str) -> str:
    """Say what a look at a place showed."""
    if item not in site.checked:
        return _("not looked at yet")
    return WRONG if open_at(site, item) else _("looked at: no fault found")


def _sign(site: Site, item: str) -> str:
    if item not in site.checked:
        return "open"
    return ReportTool.verb if open_at(site, item) else "good"
