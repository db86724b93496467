"""The drill on lining up: a string from top to top, and the trusses between straightened by it."""

from __future__ import annotations

from trainer.chance import pick
from trainer.drill.kind import STAND, kind
from trainer.drill.model import CannotDrill, Drill, Kind
from trainer.drill.playing import DrillSite
from trainer.layout import Layout
from trainer.level import Level
from trainer.order import Step
from trainer.order.straightening import LineOfTops, lines
from trainer.session import Session
from trainer.site import Site, done
from trainer.words import _, listed

TO_STRAIGHTEN = 3
"""Trusses between the outermost to be straightened."""


@kind(
    title=_("Line it up"),
    skill=_("pull a string from top to top, and straighten trusses by it"),
    stages=STAND,
    minutes=3,
    rules=("no-string-line", "apex-off-line", "out-of-plumb", "truss-bowed", "saddle-over-crooked-truss"),
)
def line_it_up(me: Kind, level: Level, layout: Layout, seed: int) -> Drill:
    """Straighten the crooked ones of a row that stands."""
    # With no advice on what is stood first, the whole row can stand before there is a string.
    level = level.model_copy(update={"order_advice": ()})
    scene = DrillSite.of(level, layout, seed)
    found = list(lines(layout))
    if not found:
        raise CannotDrill(_("This needs a row of three full-height trusses."))
    line = pick(found, seed, level.id, "line")
    given = scene.given(scene.left(_whole(line, line.between)))
    crooked = _crooked(Session(level, seed, layout=layout, given=given).site, line)
    task = _("Straighten {first} and {last}. Pull a string from the one to the other. Straighten {trusses} by it.")
    return Drill(
        kind=me.name,
        title=me.title,
        task=task.format(first=line.first, last=line.last, trusses=listed(crooked)),
        level=level,
        layout=layout,
        seed=seed,
        given=given,
        steps=tuple(scene.left(_whole(line, crooked))),
        minutes=me.minutes,
        rules=me.rules,
    )


def _whole(line: LineOfTops, between: tuple[str, ...]) -> list[Step]:
    return [line.step, *(Step("plumb", tag) for tag in (line.first, line.last, *between))]


def _crooked(site: Site, line: LineOfTops) -> tuple[str, ...]:
    """The first few between the outermost that need it; where all stand true, the first few of all."""
    crooked = tuple(tag for tag in line.between if not done(site, Step("plumb", tag)))
    return (crooked or line.between)[:TO_STRAIGHTEN]
