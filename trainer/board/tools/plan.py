"""Plan the lifts: by hand or by crane, how many people, and how it is slung; once for each kind of truss."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import cast, get_args

from trainer.board.tools.panel import Screen, choice_of, entry, faint, row
from trainer.board.tools.tool import Tool, Wanted
from trainer.board.widgets import Button, Label, Row, Widget
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
    """Its list has the kinds of truss of the house. Those ``picked`` there are planned alike, else the chosen one."""

    key = "Shift P"
    first_words = _("Say how each kind of truss is lifted. Pick several in the list to plan them alike.")
    title = _("Plan the lifts")
    button = _("Plan it so")
    list_name = _("Lift plan")
    list_empty = _("This house has no trusses to lift.")

    kind: TrussKind = "standard"
    by: str = BY[0]
    people: int = 0
    slung: str = ""
    picked: tuple[TrussKind, ...] = ()

    def take_up(self) -> None:
        self.picked = ()
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
    def _meant(self) -> tuple[TrussKind, ...]:
        return self.picked or (self.kind,)

    @property
    def button_name(self) -> str:
        n = len(self._meant)
        return self.button if n < 2 else ngettext("Plan {n} kind so", "Plan {n} kinds so", n).format(n=n)

    def actions(self) -> Wanted:
        if not self.people:
            return _("Type how many people lift it.")
        by_crane = self.by == "crane"
        if by_crane and not self.slung:
            return _("Choose where it is slung.")
        slung = self.slung if by_crane else None
        return [self.action(kind=kind, slung=slung) for kind in self._meant]

    def aim_at(self, action: Plan) -> str:
        self.picked = ()
        return super().aim_at(action)

    def after(self, action: Plan) -> None:
        self.take_up()

    def controls(self, screen: Screen) -> list[Widget]:
        limits = list(lift_limits(self.site.job)) or [_("This job asks for no lift plan. You may make one.")]
        people = entry(screen, _("People"), self.people, self._put_people, nudge=1.0, unit="")
        slung = choice_of(screen, _("Slung by"), self, "slung", SLUNG, SLUNG_NAMES, shortcut="E")
        lifts = self.site.job.lifts
        meant = ", ".join(counted(kind, lifts[kind].many) for kind in self._meant if kind in lifts)
        return [
            *(faint(line) for line in limits),
            Label(_("For: {kinds}.").format(kinds=meant)),
            row(choice_of(screen, _("By"), self, "by", BY), people, *([slung] if self.by == "crane" else [])),
        ]

    def panel(self, screen: Screen) -> list[Widget]:
        """Return its panel; where several kinds wait for a plan, with a button that picks them all."""
        left = self._left
        if len(left) < 2 or set(left) <= set(self.picked):
            return super().panel(screen)
        name = ngettext("Pick all {n} left", "Pick all {n} left", len(left)).format(n=len(left))
        return [*super().panel(screen), Button(name, partial(self._pick_all, screen), key="panel/pick all")]

    def _pick_all(self, screen: Screen) -> None:
        self.picked = tuple(self._left)
        screen.adjusted()

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
                    _("picked") if kind in self.picked else "",
                    picture="good" if planned else "open",
                    second=f"{size} · {in_words(planned) if planned else _('not planned yet')}",
                )
            )
        return rows

    @property
    def row(self) -> str:
        return self.kind

    def choose_row(self, row: str) -> None:
        self.kind = cast(TrussKind, row)

    def take_row(self, screen: Screen, row: str) -> None:
        """Pick a kind, or leave it out again."""
        kind = self.kind = cast(TrussKind, row)
        left_out = tuple(each for each in self.picked if each != kind)
        self.picked = left_out if kind in self.picked else (*self.picked, kind)

    @classmethod
    def detail(cls, action: Plan, site: Site) -> str:
        return in_words(action)


def in_words(plan: Plan) -> str:
    """Say how a kind of truss is lifted: by whom, how many, and how it is slung."""
    people = ngettext("{n} person", "{n} people", plan.people).format(n=plan.people)
    slung = SLUNG_NAMES[plan.slung] if plan.slung else ""
    return ", ".join(filter(None, (thing(plan.by), people, slung)))
