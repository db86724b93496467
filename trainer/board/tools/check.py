"""Check one of the level's pre-start items."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.board.tools.panel import do_it, faint, heading
from trainer.board.tools.tool import Screen, Tool, Wanted
from trainer.board.widgets import Row, Widget
from trainer.site.actions import Check
from trainer.terms import thing
from trainer.words import _


@dataclass
class CheckTool(Tool[Check]):
    """Its list has what is to be checked before anything is lifted."""

    verb = "check"
    key = "Q"
    first_words = _("Choose what you have checked, and press Enter.")
    list_name = _("Checks")
    list_empty = _("This house has nothing to check.")

    item: str = ""

    def take_up(self) -> None:
        items = self.site.job.conditions.checks
        left = [item for item in items if item not in self.site.checked]
        self.item = next(iter([*left, *items]), "")

    def actions(self) -> Wanted:
        return [Check(item=self.item)] if self.item else _("Choose what you have checked.")

    def aim_at(self, action: Check) -> str:
        self.item = action.item
        return ""

    def after(self, action: Check) -> None:
        self.take_up()

    def panel(self, screen: Screen) -> list[Widget]:
        return [
            heading(_("Check before you lift")),
            faint(thing(self.item) or _("Nothing to check here.")),
            do_it(screen, _("Checked")),
        ]

    def rows(self) -> list[Row]:
        checked = self.site.checked
        return [
            Row(
                item,
                thing(item),
                picture="good" if item in checked else "open",
                second=_("checked") if item in checked else _("not checked yet"),
            )
            for item in self.site.job.conditions.checks
        ]

    @property
    def row(self) -> str:
        return self.item

    def choose_row(self, row: str) -> None:
        self.item = row

    def take_row(self, screen: Screen, row: str) -> None:
        self.choose_row(row)
        screen.act()
