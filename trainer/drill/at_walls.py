"""The drill on a higher wall: a truss is hung or set down there, fixed, and its top tied to the wall."""

from __future__ import annotations

from trainer.chance import pick
from trainer.drill.kind import drill, kind
from trainer.drill.model import CannotDrill, Drill, Kind
from trainer.drill.playing import DrillSite
from trainer.layout import Layout
from trainer.level import Level
from trainer.words import _


@kind(
    title=_("Tie it to the wall"),
    skill=_("hang a truss at a higher wall, and tie its top to that wall"),
    stages=("stand", "brace", "fix"),
    minutes=3,
    rules=("wall-tie-missing",),
)
def tie_it_to_the_wall(me: Kind, level: Level, layout: Layout, seed: int) -> Drill:
    """Put up one truss at a higher wall with all that holds it: its bracket, both ends, and the tie at its top."""
    if not layout.at_wall:
        raise CannotDrill(_("This needs a roof against a higher wall."))
    scene = DrillSite.of(level, layout, seed)
    tag = pick(sorted(layout.at_wall), seed, level.id, "at the wall")
    goal = [s for s in scene.job.order.steps if s.tag == tag and s.verb in ("fit", "stand", "tie", "fix")]
    task = _("Put up {tag} at wall {wall}, which goes on up. Fix both its ends. What holds its top?")
    return drill(me, level, scene, goal, task.format(tag=tag, wall=layout.at_wall[tag]))
