"""Pull a string line from the top of one truss to the top of another."""

from __future__ import annotations

import math
from dataclasses import dataclass

from trainer.board.overlay import ring_round
from trainer.board.tools.panel import Screen, faint
from trainer.board.tools.picking import PickingTool
from trainer.board.tools.tool import Wanted
from trainer.board.widgets import Widget
from trainer.picture.measures import figure
from trainer.picture.model import Item
from trainer.site.actions import String
from trainer.site.model import Event, Site
from trainer.site.shape import off_string, string_over
from trainer.words import _, listed

BY_EYE = 5
"""What an eye along a string can tell apart, mm (common practice, no source)."""


@dataclass
class StringTool(PickingTool[String]):
    """Two trusses are picked; a press on the second one pulls it, and by keys another Enter."""

    key = "G"
    first_words = _("Choose the outermost two standard trusses of a row. The string runs from top to top.")
    title = _("Pull a string line")
    button = _("Pull it")
    wanting = _("Choose two standing trusses for the string.")
    only_standing = True
    looked_over = True

    def actions(self) -> Wanted:
        if len(self.picked) < 2:
            return self.wanting
        return [String(start=self.picked[0], finish=self.picked[1])]

    def aim_at(self, action: String) -> str:
        self.picked = (action.start, action.finish)
        return ""

    def controls(self, screen: Screen) -> list[Widget]:
        picked = _("Picked: {tags}. Pick the outermost two standard trusses.").format(tags=self.picked_in_words)
        return [faint(picked), *(faint(looked_along(self.site, ends)) for ends in self.site.strings[-1:])]

    def reading_now(self, event: Event) -> str:
        return looked_along(self.site, self.site.strings[-1])

    def ghost(self, action: String) -> list[Item]:
        return [item for tag in (action.start, action.finish) for item in ring_round(self.site, tag, "ghost")]


def looked_along(site: Site, ends: tuple[str, str]) -> str:
    """Say how straight a string shows the row under it, to whoever looks along it."""
    by_tag, allowed = site.layout.by_tag, site.job.limits.apex
    under = [tag for tag in site.stood if by_tag[tag].kind == "standard" or by_tag[tag].is_dutch]
    off = {tag: abs(off_string(site, tag)) for tag in under if (over := string_over(site, tag)) and over[0] == ends}
    if not off:
        return _("No top stands under the string yet. It shows where each has to be.")
    furthest = max(off, key=lambda tag: off[tag])
    if off[furthest] < BY_EYE:
        return _("Look along it: all tops under it are on the line, as far as an eye can see.")
    over_it = [tag for tag in off if off[tag] > allowed]
    if len(over_it) > 1:
        rest = _("More than the {allowed} mm allowed: {tags}.")
    else:
        rest = _("That is more than the {allowed} mm allowed.") if over_it else _("Up to {allowed} mm is allowed.")
    rest = rest.format(allowed=figure(allowed), tags=listed(over_it, 3))
    line = _("Look along it: {tag} is furthest off the line, by about {about} mm. {rest}")
    return line.format(tag=furthest, about=math.ceil(off[furthest]), rest=rest)
