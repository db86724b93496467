"""Check one of the level's pre-start items."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.board.tools.panel import Screen, faint
from trainer.board.tools.tool import Tool, Wanted
from trainer.board.widgets import Row, Widget
from trainer.site.actions import Check
from trainer.terms import thing
from trainer.words import _


@dataclass
class CheckTool(Tool[Check]):
    """Its list has what is to be checked before anything is lifted."""

    verb = "check"
    makes = Check
    key = "Q"
    first_words = _("Choose what you have checked, and press Enter.")
    title = _("Check before you lift")
    button = _("Checked")
    list_name = _("Checks")
    list_empty = _("This house has nothing to check.")

    item: str = ""

    def take_up(self) -> None:
        items = self.site.job.conditions.checks
        left = [item for item in items if item not in self.site.checked]
        self.item = next(iter([*left, *items]), "")

    def actions(self) -> Wanted:
        return [self.action()] if self.item else _("Choose what you have checked.")

    def after(self, action: Check) -> None:
        self.take_up()

    def controls(self, screen: Screen) -> list[Widget]:
        return [faint(thing(self.item) or _("Nothing to check here."))]

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
