"""Fixing at a place that is no end of a truss: where an extension crosses another truss, or an internal wall below."""

from __future__ import annotations

import math

from trainer.layout.inner_walls import BESIDE, CLEAR, OVER, InnerWall
from trainer.layout.model import Crossing, Member
from trainer.order import spanned, trimmers
from trainer.plan import Point
from trainer.plan.points import half, to_half
from trainer.site.actions import Fit, Fix
from trainer.site.load_path import NEAR, SLOTTED, crossed, parts_on, trimmer_meant
from trainer.site.model import Refused, Site
from trainer.words import _

Key = tuple[str, int | Point]


def at_place(site: Site, action: Fix) -> Key | Refused:
    """Return the key of what is fixed at ``action.at``, or why nothing can be."""
    at = action.at or (math.inf, math.inf)
    walls = _walls(site, action.tag, at)
    crossings = [] if action.with_ == SLOTTED and walls else _crossings(site, action.tag, at)
    if crossings:
        return _crossing_key(site, crossings[0])
    if walls:
        return walls[0]
    text = _("{tag} crosses nothing there. Give the place of a crossing, or end 1 or 2.")
    return Refused(text.format(tag=action.tag))


def over_internal_wall(site: Site, action: Fix) -> bool:
    """Whether a fixing went to an internal wall, and not to a crossing or an end."""
    if action.at is None or not _walls(site, action.tag, action.at):
        return False
    return action.with_ == SLOTTED or not _crossings(site, action.tag, action.at)


def no_trimmer(site: Site, action: Fit) -> Refused | None:
    """Say why a saddle's trimmer can't go in: it goes between trusses that must be there."""
    for number, part in trimmers(site.layout, site.layout.by_tag[action.on]).items():
        if action.at is None or trimmer_meant(site, action.on, action.at) == number:
            for tag in spanned(site.layout, part):
                if tag not in site.at_place:
                    text = _("A trimmer goes between two trusses. {tag} does not stand yet. Stand it first.")
                    return Refused(text.format(tag=tag))
    return None


def _crossings(site: Site, tag: str, at: Point) -> list[Crossing]:
    """The crossings near by that the truss is one side of: the nearest first, then what is still loose.

    Where the tips of three extensions meet, one that was fixed to one of the others is then fixed to the next.
    """
    place = site.stood[tag].place
    near = [
        c
        for c in site.job.crossings.get(place or "", ())
        if math.dist(c.at, at) <= NEAR and (c.over == place or c.over in site.at_place)
    ]
    return sorted(near, key=lambda c: (round(math.dist(c.at, at)), *_still_loose(site, c), c.over != place, c.over))


def _still_loose(site: Site, crossing: Crossing) -> tuple[bool, bool]:
    """What sorts crossings at one spot: those with both trusses first, then those not fixed yet."""
    both = crossing.over in site.at_place and crossing.under in site.at_place
    return not both, crossed(site, crossing)


def _crossing_key(site: Site, crossing: Crossing) -> Key | Refused:
    for tag in (crossing.over, crossing.under):
        if tag not in site.at_place:
            return Refused(_("{tag} does not stand there yet. Stand it, then fix the crossing.").format(tag=tag))
    return site.at_place[crossing.over], to_half(crossing.at)


def _walls(site: Site, tag: str, at: Point) -> list[Key | Refused]:
    """What the truss can be fixed to on internal walls near by."""
    member = site.layout.by_tag[site.stood[tag].place or tag]
    if member.kind not in OVER:
        return []
    near = (wall for wall in site.job.inner_walls if _on(wall, at))
    return [found for wall in near if (found := _to_wall(site, tag, member, wall, at)) is not None]


def _on(wall: InnerWall, at: Point) -> bool:
    return abs(at[1 - wall.along] - wall.line) <= NEAR and wall.low <= at[wall.along] <= wall.high


def _to_wall(site: Site, tag: str, member: Member, wall: InnerWall, at: Point) -> Key | Refused | None:
    along, across = wall.along, 1 - wall.along
    (ax, ay), (bx, by) = member.start, member.finish
    low, high = sorted(((ax, bx), (ay, by))[across])
    if member.start[along] == member.finish[along]:
        crosses = abs(member.start[along] - at[along]) <= NEAR and low + CLEAR <= wall.line <= high - CLEAR
        return (tag, to_half(wall.at(member.start[along]))) if crosses else None
    off = abs(member.start[across] - wall.line)
    if member.start[across] != member.finish[across] or off > BESIDE * site.layout.house.trusses.spacing:
        return None
    spot = to_half(wall.at(at[along]))
    if off > (member.width + site.layout.house.plan.plate_width) / 2 and not any(
        part.at is not None and abs(part.at - half(member.run(spot))) <= NEAR
        for part in parts_on(site, member.tag, "trimmer")
    ):
        text = _(
            "The wall runs beside {tag}, not under it. Fit a trimmer to {tag} there, then fix the bracket to that."
        )
        return Refused(text.format(tag=tag))
    return tag, spot
