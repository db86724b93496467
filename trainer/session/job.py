"""The job that a level sets."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Literal

from trainer.layout import Layout, lay_out
from trainer.level import Level
from trainer.read import Where, did_you_mean
from trainer.site import Conditions, Flaw, Job, Limits

Mode = Literal["practice", "assessment"]


def job_of(level: Level, seed: int, mode: Mode = "practice", layout: Layout | None = None) -> Job:
    """Return the job that ``level`` sets; ``layout`` saves working it out again.

    What the level says of walls and trusses that the house does not have is left out; see :func:`site_faults`.

    :raises LayoutRefused: where the level's house can't be laid out.
    """
    layout = layout or lay_out(level.house())
    near = level.tolerances
    return Job(
        layout,
        station_tolerance=float(near.station),
        stages=frozenset(level.lesson.stages),
        undo_allowed=mode == "practice",
        seed=seed,
        conditions=_conditions(level, layout),
        advice=frozenset(level.order_advice),
        limits=Limits(
            near.plumb.ratio, near.plumb.cap, near.bow.ratio, near.bow.cap, float(near.apex), float(near.plates)
        ),
    )


def site_faults(level: Level, layout: Layout) -> Iterator[tuple[Where, str]]:
    """Yield (path in the level file, what is wrong) for every wall or truss of the site block that isn't there."""
    walls = layout.house.plan.by_name
    for i, wall in enumerate(level.site.walls):
        if wall.wall not in walls:
            yield ("site", "walls", i, "wall"), _unknown("wall", wall.wall, walls)
    for i, truss in enumerate(level.site.delivery):
        for key, tag in (("truss", truss.truss), ("other", truss.other)):
            if tag is not None and tag not in layout.by_tag:
                yield ("site", "delivery", i, key), _unknown("truss", tag, layout.by_tag)


def _conditions(level: Level, layout: Layout) -> Conditions:
    walls = (w for w in level.site.walls if w.wall in layout.house.plan.by_name)
    trusses = (
        t for t in level.site.delivery if t.truss in layout.by_tag and (t.other is None or t.other in layout.by_tag)
    )
    flaws = (
        *(Flaw(w.fault, wall=w.wall, by=float(w.by)) for w in walls),
        *(Flaw(t.fault, tag=t.truss, other=t.other or "") for t in trusses),
    )
    return Conditions(level.site.checks, tuple(dict.fromkeys(flaws)), level.site.wind)


def _unknown(what: str, name: str, known: Iterable[str]) -> str:
    return f"names a {what} '{name}' that this house doesn't have; {did_you_mean(name, known) or 'see the layout'}"
