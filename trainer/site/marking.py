"""Setting out: where a mark that is measured really comes.

Each time a tape is hooked on an end it is read a little off, by up to :data:`READ`. Set down on a pencil line instead,
it is set by the line's thickness, always to the same side, so that marks made bay by bay creep on and on.
Both figures are common practice, no source.
"""

from __future__ import annotations

from trainer.chance import between, chance
from trainer.plan.points import half
from trainer.site.actions import Mark
from trainer.site.doing import does
from trainer.site.model import Event, Marked, Reading, Refused, Site, changed
from trainer.site.refusals import past_the_end, unknown, unknown_truss
from trainer.words import _

ROUND_THE_CORNER = 300.0
"""How far past a wall's corner its line may be marked on the plate that meets it there, mm."""
READ = 1.0
"""A tape run on from an end is off by up to this, mm, once, however long it is."""
SET_DOWN = (0.5, 2.0)
"""A tape set down on a mark is off by this much, mm, each time to the same side."""
ON_IT = 10.0
"""How near to a mark a measure must be to be taken from it, mm."""


@does(Mark)
def mark(site: Site, index: int, action: Mark) -> tuple[Site, Event] | Refused:
    """Mark a station on a wall or on a truss."""
    bearing = _bearing(site, action)
    if isinstance(bearing, Refused):
        return bearing
    where, length, beyond = bearing
    if refused := past_the_end(where, action.at, length, beyond):
        return refused
    made = _measured(site, where, length, action)
    if isinstance(made, Refused):
        return made
    set_out = {**site.set_out, where: (*site.set_out.get(where, ()), made)}
    return changed(site, set_out=set_out), Event(index, action, reading=Reading(made.is_at, made.at))


def _bearing(site: Site, action: Mark) -> tuple[str, float, float] | Refused:
    """What is marked, how long it is, and how far past its ends it may be marked, mm."""
    if action.wall is not None:
        walls = site.layout.house.plan.by_name
        if action.wall not in walls:
            return unknown(_("wall"), action.wall, walls)
        return action.wall, walls[action.wall].length, ROUND_THE_CORNER
    where = action.on or ""
    return unknown_truss(site, where) or (where, site.layout.by_tag[where].span, 0.0)


def _measured(site: Site, where: str, length: float, action: Mark) -> Marked | Refused:
    names = ("mark", where, f"{action.at:g}", _times(site, where, action.at))
    start = action.measured_from
    if start is None or start in (0, length):
        off = between(-READ, READ, site.job.seed, *names)
        return Marked(action.at, half(action.at + off), 1)
    last = min(site.set_out.get(where, ()), key=lambda made: abs(made.at - start), default=None)
    if last is None or abs(last.at - start) > ON_IT:
        text = _("There is no mark on {where} at {start:g} to measure from. Mark it first, or measure from the end.")
        return Refused(text.format(where=where, start=start))
    side = 1 if chance(site.job.seed, "set down", where) < 1 / 2 else -1
    off = between(*SET_DOWN, site.job.seed, *names)
    onwards = 1 if action.at >= last.at else -1
    return Marked(action.at, half(last.is_at + action.at - last.at + side * onwards * off), last.links + 1)


def _times(site: Site, where: str, at: float) -> int:
    """How often this very measure was marked before."""
    return sum(made.at == at for made in site.set_out.get(where, ()))
