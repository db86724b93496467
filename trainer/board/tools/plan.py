"""Plan the lifts: by hand or by crane, how many people, and how it is slung; once for each kind of truss."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import cast, get_args

from trainer.board.tools.panel import Screen, choice_of, entry, faint, row
from trainer.board.tools.tool import Tool, Wanted
from trainer.board.widgets import Button, Row, Widget
from trainer.rules.plain import kg, mm
from trainer.session.lift_sheet import lift_limits
from trainer.site.actions import Plan, Slung
from trainer.site.model import Site
from trainer.terms import THINGS, TrussKind, counted, thing
from trainer.words import _, ngettext

BY: tuple[str, ...] = get_args(Plan.model_fields["by"].annotation)
SLUNG: tuple[str, ...] = ("", *get_args(Slung))
SLUNG_NAMES = {**THINGS, "apex": _("the apex"), "": _("not said yet")}
MOST_PEOPLE = 10


@dataclass
class PlanTool(Tool[Plan]):
    """Its list has the kinds of truss of the house. ``the_rest`` plans every kind alike that has no plan yet."""

    key = "Shift P"
    first_words = _("Say how each kind of truss is lifted. The job sheet has their mass and length.")
    title = _("Plan the lifts")
    button = _("Plan it so")
    list_name = _("Lift plan")
    list_empty = _("This house has no trusses to lift.")

    kind: TrussKind = "standard"
    by: str = BY[0]
    people: int = 0
    slung: str = ""
    the_rest: bool = False

    def take_up(self) -> None:
        self.the_rest = False
        self._go_on()

    @property
    def _kinds(self) -> list[TrussKind]:
        return list(self.site.job.lifts)

    @property
    def _left(self) -> list[TrussKind]:
        """The kinds that have no plan yet."""
        return [kind for kind in self._kinds if kind not in self.site.plans]

    def _go_on(self) -> None:
        """Choose the next kind without a plan, or else one that the house has."""
        left = self._left
        if left or self.kind not in self._kinds:
            self.kind = (left or self._kinds or [self.kind])[0]

    @property
    def _meant(self) -> list[TrussKind]:
        return (self._left if self.the_rest else []) or [self.kind]

    def actions(self) -> Wanted:
        if not self.people:
            return _("Type how many people lift it.")
        by_crane = self.by == "crane"
        if by_crane and not self.slung:
            return _("Choose where it is slung.")
        slung = self.slung if by_crane else None
        return [self.action(kind=kind, slung=slung) for kind in self._meant]

    def aim_at(self, action: Plan) -> str:
        self.the_rest = False
        return super().aim_at(action)

    def after(self, action: Plan) -> None:
        self.take_up()

    def controls(self, screen: Screen) -> list[Widget]:
        people = entry(screen, _("People"), self.people, self._put_people, nudge=1.0, unit="")
        slung = choice_of(screen, _("Slung by"), self, "slung", SLUNG, SLUNG_NAMES, shortcut="E")
        return [
            *(faint(line) for line in lift_limits(self.site.job)),
            row(choice_of(screen, _("By"), self, "by", BY), people, *([slung] if self.by == "crane" else [])),
        ]

    def panel(self, screen: Screen) -> list[Widget]:
        """Return its panel; where more kinds wait for a plan, with a button that plans all of them alike."""
        left = len(self._left)
        if left < 2:
            return super().panel(screen)
        name = ngettext("{n} kind left, all the same", "{n} kinds left, all the same", left).format(n=left)
        return [*super().panel(screen), Button(name, partial(self._plan_the_rest, screen), key="panel/the rest")]

    def _plan_the_rest(self, screen: Screen) -> None:
        self.the_rest = True
        screen.act()
        self.the_rest = False

    def _put_people(self, number: float) -> None:
        self.people = max(1, min(MOST_PEOPLE, round(number)))

    # the list of its own

    def rows(self) -> list[Row]:
        rows = []
        for kind, lift in self.site.job.lifts.items():
            planned = self.site.plans.get(kind)
            size = _("{mass}, {length}").format(mass=kg(lift.mass), length=mm(lift.length))
            rows.append(
                Row(
                    kind,
                    counted(kind, lift.many),
                    picture="good" if planned else "open",
                    second=f"{size} · {in_words(planned) if planned else _('not planned yet')}",
                )
            )
        return rows

    @property
    def row(self) -> str:
        return self.kind

    def choose_row(self, row: str) -> None:
        self.kind, self.the_rest = cast(TrussKind, row), False

    @classmethod
    def detail(cls, action: Plan, site: Site) -> str:
        return in_words(action)


def in_words(plan: Plan) -> str:
    """Say how a kind of truss is lifted: by whom, how many, and how it is slung."""
    people = ngettext("{n} person", "{n} people", plan.people).format(n=plan.people)
    slung = SLUNG_NAMES[plan.slung] if plan.slung else ""
    return ", ".join(filter(None, (thing(plan.by), people, slung)))
