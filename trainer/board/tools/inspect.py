"""At the end, accept or reject a truss as it stands."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.board.tools.panel import Screen, choice, chosen, faint, row
from trainer.board.tools.tool import TrussTool
from trainer.board.widgets import Widget
from trainer.order.inspection import sample
from trainer.picture.measures import figure
from trainer.site.actions import Inspect, Measure
from trainer.site.model import Site
from trainer.terms import READINGS
from trainer.words import _, listed


@dataclass
class InspectTool(TrussTool[Inspect]):
    """It gives the verdict that is chosen."""

    key = "I"
    first_words = _("Choose a truss. Accept it, or reject it.")
    title = _("Inspect")
    button = _("Say so")
    wanting = _("Choose a standing truss to inspect.")
    only_standing = True

    accept: bool = True

    def controls(self, screen: Screen) -> list[Widget]:
        verdict = choice(
            screen, _("Your verdict"), [_("accept it"), _("reject it")], int(not self.accept),
            lambda i: setattr(self, "accept", i == 0), key="accept", shortcut="C",
        )  # fmt: skip
        inspected = {self.site.stood[tag].place for tag in self.site.inspected if tag in self.site.stood}
        left = [place for place in sample(self.site.layout) if place not in inspected]
        to_do = _("Still to be inspected, by the job sheet: {trusses}.").format(trusses=listed(left))
        return [
            chosen(self.hand),
            *([faint(read)] if (read := self._read()) else []),
            row(verdict),
            faint(to_do if left else _("All that the job sheet asks for is inspected.")),
        ]

    def _read(self) -> str:
        """What was read of the chosen truss, the latest of each kind: it was not always read a moment ago."""
        read = {
            each.action.what: each.event.reading.got
            for each in self.hand.session.outcomes
            if isinstance(each.action, Measure) and each.action.tag == self.hand.truss
            and each.event is not None and each.event.reading is not None
        }  # fmt: skip
        parts = [f"{READINGS[what]} {figure(got)} mm" for what, got in read.items()]
        return _("You read: {readings}.").format(readings=listed(parts)) if parts else ""

    @classmethod
    def detail(cls, action: Inspect, site: Site) -> str:
        return _("accepted") if action.accept else _("rejected")

    def detail_to_do(self, action: Inspect) -> str:
        return _("accept it") if action.accept else _("reject it")
