"""What the lines of a layout drawing mean: of each kind that the drawing has, a sample and its name."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial

from trainer.layout import Layout
from trainer.picture.house import HIP_DASH, INSIDE_DASH, RIDGE_DASH, VALLEY_DASH
from trainer.picture.model import HEAVY, MEDIUM, THIN, Item, Line, Polygon
from trainer.picture.trusses import dashed, strip
from trainer.picture.verandah import EDGE, FILL
from trainer.plan import Point
from trainer.words import _

Sample = Callable[[Point, float], list[Item]]
"""Draws a sample from a place to the right, so many mm long."""
Key = tuple[str, Sample]
"""What a sample means, and the sample."""


def legend(layout: Layout) -> Iterator[Key]:
    """Yield what the plan of a layout has."""
    plan, roof = layout.house.plan, layout.roof
    kinds = {member.kind for member in layout.members}
    if roof.ridges:
        yield _("ridge"), line("roof", RIDGE_DASH, MEDIUM)
    if roof.hips:
        yield _("hip line"), line("roof", HIP_DASH, MEDIUM)
    if roof.valleys:
        yield _("valley line"), line("roof", VALLEY_DASH, MEDIUM)
    if roof.steps:
        yield _("gable's face above a lower roof"), line("roof", (), MEDIUM)
    yield from inside_walls(layout)
    yield _("running measure"), line("mark", (), THIN)
    yield _("truss"), bar("timber", 0.1)
    if not kinds.isdisjoint(("girder", "truncated_girder")):
        yield _("girder or truncated girder"), bar("girder", 0.14)
    if "saddle" in kinds:
        yield _("saddle truss"), bar("saddle", 0.1)
    if layout.parts or not kinds.isdisjoint(("hip", "jack")):
        yield _("extension, or framing fixed later"), _extension
    if any(layout.carries.values()) or layout.ledgers:
        yield _("bracket or hanger"), _bracket
    if plan.beams:
        yield BEAM
    if plan.against:
        yield _("higher wall, goes on up"), _higher_wall


def inside_walls(layout: Layout) -> Iterator[Key]:
    """Yield what an inside wall looks like, where there is one."""
    if layout.house.plan.internal_walls:
        yield _("inside wall, carries no truss"), line("plate_edge", INSIDE_DASH, HEAVY)


def extensions(layout: Layout) -> Iterator[Key]:
    """Yield what the extensions of hips and jacks look like, where there are any."""
    if any(member.kind in ("hip", "jack") and member.top[-1][0] > member.span + 1 for member in layout.members):
        yield _("extension"), _extension


def line(role: str, dash: Sequence[float], width: float) -> Sample:
    """Return a sample of a line."""
    return partial(_line, role, tuple(dash), width)


def bar(fill: str, high: float) -> Sample:
    """Return a sample of a timber, ``high`` as a share of its length."""
    return partial(_bar, fill, high)


def _line(role: str, dash: tuple[float, ...], width: float, at: Point, long: float) -> list[Item]:
    return [Line((at, (at[0] + long, at[1])), role, width, "px", dash)]


def _bar(fill: str, high: float, at: Point, long: float) -> list[Item]:
    return [Polygon(strip(at, (at[0] + long, at[1]), long * high), fill, "timber_edge", THIN)]


def _extension(at: Point, long: float) -> list[Item]:
    return dashed(strip(at, (at[0] + long, at[1]), long * 0.1))


def _bracket(at: Point, long: float) -> list[Item]:
    x, y = at[0] + long / 2, at[1]
    return [Polygon(strip((x - long * 0.06, y), (x + long * 0.06, y), long * 0.16), None, "fastener", MEDIUM)]


def _beam(at: Point, long: float) -> list[Item]:
    end = (at[0] + long, at[1])
    return [Polygon(strip(at, end, long * 0.12), FILL, EDGE, MEDIUM), Line((at, end), EDGE, THIN)]


BEAM: Key = (_("verandah beam; a crossed square is a post"), _beam)
"""What beams on posts look like on any plan."""


def _higher_wall(at: Point, long: float) -> list[Item]:
    (x, y), half = at, long * 0.07
    hatch = [
        Line(((x + long * k / 6, y - half), (x + long * (k + 1) / 6, y + half)), "plate_edge", THIN) for k in range(6)
    ]
    return [Polygon(strip(at, (x + long, y), 2 * half), "shadow", "plate_edge", MEDIUM), *hatch]
