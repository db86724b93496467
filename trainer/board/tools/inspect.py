"""At the end, accept or reject a truss as it stands."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.board.tools.panel import choice, chosen, do_it, faint, heading, row
from trainer.board.tools.tool import Screen, TrussTool, Wanted
from trainer.board.widgets import Widget
from trainer.site.actions import Inspect
from trainer.site.model import Site
from trainer.words import _


@dataclass
class InspectTool(TrussTool[Inspect]):
    """It gives the verdict that is chosen."""

    verb = "inspect"
    key = "I"
    first_words = _("Choose a truss. Accept it, or reject it.")
    only_standing = True

    accept: bool = True

    def actions(self) -> Wanted:
        if not self.hand.stands:
            return _("Choose a standing truss to inspect.")
        return [Inspect(tag=self.hand.truss, accept=self.accept)]

    def aim_at(self, action: Inspect) -> str:
        self.hand.truss, self.accept = action.tag, action.accept
        return ""

    def panel(self, screen: Screen) -> list[Widget]:
        verdict = choice(
            screen, _("Your verdict"), [_("accept it"), _("reject it")], int(not self.accept),
            lambda i: setattr(self, "accept", i == 0), key="accept", shortcut="C",
        )  # fmt: skip
        left = sum(tag not in self.site.inspected for tag in self.site.stood)
        return [
            heading(_("Inspect")),
            chosen(self),
            row(verdict),
            faint(_("{n} trusses are not inspected yet.").format(n=left)),
            do_it(screen, _("Say so")),
        ]

    @classmethod
    def detail(cls, action: Inspect, site: Site) -> str:
        return _("accepted") if action.accept else _("rejected")

    @classmethod
    def detail_to_do(cls, action: Inspect, site: Site) -> str:
        return _("accept it") if action.accept else _("reject it")
