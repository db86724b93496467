"""Lining up and straightening: a string along each row of full-height trusses, and plumbing each truss that tips.

Common practice, no source: the two outermost are set with care, plumbed and tied; a string is pulled from the top of
one to the top of the other; each truss between is then lined up by it.

- ``string``, in a diary ``{do: string, from: ST1, to: ST9}``: once for each row with a full-height truss between its
  outermost two, after these are tied and plumbed;
- ``plumb``, ``{do: plumb, tag: ST4}``: the truss stands within the limits, plumbed or not.

What a truss was lined up by decides how true it stands (:mod:`trainer.site.shape`, ``Site.plumbed``): the string over
it is as true as its two ends; the outermost full-height trusses of a row go by the tape, from the corners; any other by
its plates, bowed or not. A truss does not stretch, so between two bowed plates it comes midway: its apex is off by the
mean of both ends' bow along the truss, bowed inward by a and b (a - b)/2; an end on another truss counts as true. So a
string matters where a plate is bowed, as far as plates may be; sighting along a straight one is as good. Hands bring
any lean and bow within limits. A truss that others left standing may be out as well.

Limits, judged at hand-over, and under a saddle when it is set down. Plumb: lesser of height/50 and the cap. Bow: lesser
of length/200 and the cap. The tops' line and the plates: the level's own values. A truncated truss that nothing which
runs over it is fixed to leans at hand-over; that is ``out-of-plumb`` with the cause of the crossing, so it counts once.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from trainer.layout import Layout
from trainer.layout.model import Member
from trainer.order.model import TIED, Edge, Step, spot

STRING_FIRST = "string first"
"""The reason why a string is up before a truss between its ends is stood."""


@dataclass(frozen=True, slots=True)
class LineOfTops:
    """The full-height trusses of one row: the outermost two, by tag, and those between."""

    first: str
    last: str
    between: tuple[str, ...]

    @property
    def step(self) -> Step:
        """The step that pulls the string."""
        return Step("string", self.first)


def lines(layout: Layout) -> Iterator[LineOfTops]:
    """Yield the rows that a string lines up: those with a full-height truss between the outermost two."""
    for tags in layout.rows.values():
        row = (layout.by_tag[tag] for tag in tags)
        full = sorted((member for member in row if member.kind == "standard" or member.is_dutch), key=spot)
        if len(full) > 2:
            names = tuple(member.tag for member in full)
            yield LineOfTops(names[0], names[-1], names[1:-1])


def straightened(layout: Layout) -> Iterator[Member]:
    """Yield the trusses that are plumbed: those that tip. The others' ends set them."""
    return (member for member in layout.members if member.kind in TIED)


def straightening_steps(layout: Layout) -> Iterator[Step]:
    """Yield a string for each line, and a plumbing for each truss that tips."""
    yield from (line.step for line in lines(layout))
    yield from (Step("plumb", member.tag) for member in straightened(layout))


def straightening_edges(layout: Layout, advice: frozenset[str]) -> Iterator[Edge]:
    """Yield what comes before and after them; the string comes before standing only where outermost trusses do."""
    for member in straightened(layout):
        yield Edge(Step("stand", member.tag), Step("plumb", member.tag), "can", "stood")
    for line in lines(layout):
        for tag in (line.first, line.last):
            yield Edge(Step("tie", tag), line.step, "can", "ends of a string")
            yield Edge(Step("plumb", tag), line.step, "can", "ends of a string")
        for tag in line.between:
            yield Edge(line.step, Step("plumb", tag), "can", "lined up")
            if "outermost first" in advice:
                yield Edge(line.step, Step("stand", tag), "should", STRING_FIRST)
    for saddle in (member for member in layout.members if member.kind == "saddle"):
        for tag in saddle.carried_by:
            if layout.by_tag[tag].kind in TIED:
                yield Edge(Step("plumb", tag), Step("stand", saddle.tag), "must", "straight support")
