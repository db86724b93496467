"""The load path beside each truss's own two ends: plies, supports under saddles, crossings, internal walls, props.

A multi-ply truss is joined before it carries; a saddle's batten and trimmers are in before it comes down on them.
A crossing is fixed once both its trusses stand, and an internal wall's bracket once the truss over it does. Until
the truncated trusses under it stand, an extension is propped. All of it is common practice, no source.

What each step is in a diary, beside the two ends of each truss:

======  =====================================================  ===================================================
join    {do: fit, part: plies joined, on: G1}                  any time before something is set down on it
seat    {do: fit, part: batten, on: S1}                        before the saddle is set down
trim    {do: fit, part: trimmer, on: S1, at: 150}              within 150 mm of the trimmer's middle, along the
                                                               saddle (of two, the nearer); its trusses stand
prop    {do: brace, kind: prop, tags: [H1]}                    the extension is propped, braced, tied, fixed at a
                                                               crossing, or all under it stands
cross   {do: fix, tag: H1, at: [x, y], with: framing anchor}   from either truss; both stand; within 150 mm
bridge  {do: fit, part: trimmer, on: ST6, at: 1800}            beside an internal wall between two trusses
slot    {do: fix, tag: ST3, at: [x, y], with: slotted bracket} where the truss passes over the wall, or its trimmer
======  =====================================================  ===================================================

A ``fix`` with ``nails: half`` leaves half the nail holes of its connector empty: it holds the end while work goes on,
and is found at hand-over unless another ``fix`` there has all of them (``half_nailed`` in :mod:`trainer.site.query`).

Where several extensions meet over one truss at one place, a fixing given by the truss under them goes to the first that
is still loose; so hints name the extension. At the apex of a wing too short for a full-height truss the tips are fixed
to each other, jack to hip and hip to hip (``Crossing.bears`` is false: no roof comes down from one on the other there).
Internal walls and their brackets come from :mod:`trainer.layout.inner_walls`; a wall is judged by the gaps between its
brackets, not by which trusses were chosen. How many connectors an end or a crossing takes is for
:mod:`trainer.site.uplift` to say, to rules, hints and rehearsals alike; how much roof comes down at each is
:mod:`trainer.layout.shares`: a truss hands its roof to the nearest of its ends and crossings.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Set

from trainer.layout import Layout
from trainer.layout.inner_walls import wall_spots
from trainer.layout.model import Member, Part
from trainer.order.model import Edge, Step

TRUNCATED_FIRST = "truncated first"
"""The reason why truncated trusses stand before what runs over them."""


def load_path_steps(layout: Layout, advice: Set[str]) -> Iterator[Step]:
    """Yield the steps; ``advice`` are the reasons of good order that the house goes by."""
    for member in layout.members:
        if member.plies > 1:
            yield Step("join", member.tag)
        if member.kind == "saddle":
            yield Step("seat", member.tag)
            yield from (Step("trim", member.tag, number) for number in trimmers(layout, member))
        if needs_prop(layout, member, advice):
            yield Step("prop", member.tag)
    for number, crossing in enumerate(layout.crossings):
        if crossing.what == "extension":
            yield Step("cross", crossing.over, number)
    for number, spot in enumerate(wall_spots(layout)):
        if spot.trimmer:
            yield Step("bridge", spot.tag, number)
        yield Step("slot", spot.tag, number)


def load_path_edges(layout: Layout) -> Iterator[Edge]:
    """Yield what comes before each of these steps, and what waits for it."""
    for member in layout.members:
        if member.plies > 1:
            for tag in layout.carries[member.tag]:
                yield Edge(Step("join", member.tag), Step("stand", tag), "must", "plies")
        if member.kind == "saddle":
            yield from _under_saddle(layout, member)
        yield Edge(Step("stand", member.tag), Step("prop", member.tag), "can", "stood")
    for number, crossing in enumerate(layout.crossings):
        for tag in (crossing.over, crossing.under):
            yield Edge(Step("stand", tag), Step("cross", crossing.over, number), "can", "stood")
    for number, spot in enumerate(wall_spots(layout)):
        bridge, slot = Step("bridge", spot.tag, number), Step("slot", spot.tag, number)
        yield Edge(Step("stand", spot.tag), slot, "can", "stood")
        for tag in (spot.tag, spot.other) if spot.trimmer else ():
            yield Edge(Step("stand", tag), bridge, "can", "stood")
        yield Edge(bridge, slot, "can", "trimmer")


def trimmers(layout: Layout, saddle: Member) -> Mapping[int, Part]:
    """The trimmers under a saddle's ends, by their number among the layout's parts."""
    ends = {end.bears_on for end in saddle.ends}
    return {i: part for i, part in enumerate(layout.parts) if part.part == "trimmer" and part.name in ends}


def spanned(layout: Layout, part: Part) -> tuple[str, ...]:
    """Return the trusses that a saddle's trimmer goes between."""
    return tuple(
        tag
        for tag in layout.by_tag[part.on].carried_by
        if any(_on_line(layout.by_tag[tag], at) for at in (part.start, part.finish))
    )


def runs_over_truncated(layout: Layout, tag: str) -> tuple[str, ...]:
    """Return the truncated trusses that the extension of ``tag`` crosses."""
    return layout.runs_over.get(tag, ())


def needs_prop(layout: Layout, member: Member, advice: Set[str]) -> bool:
    """Whether its extension may have nothing under it yet; jacks wait for the truncated trusses of their own wing."""
    over = runs_over_truncated(layout, member.tag)
    if member.kind == "jack" and TRUNCATED_FIRST in advice:
        return any(layout.by_tag[tag].wing != member.wing for tag in over)
    return member.kind in ("hip", "jack") and bool(over)


def _under_saddle(layout: Layout, saddle: Member) -> Iterator[Edge]:
    stand = Step("stand", saddle.tag)
    yield Edge(Step("seat", saddle.tag), stand, "must", "support")
    for number, part in trimmers(layout, saddle).items():
        trim = Step("trim", saddle.tag, number)
        yield Edge(trim, stand, "must", "support")
        yield from (Edge(Step("stand", tag), trim, "can", "stood") for tag in spanned(layout, part))


def _on_line(member: Member, at: tuple[float, float]) -> bool:
    """Whether a plan point lies on the truss's line, within a millimetre."""
    (x, y), (ux, uy) = member.start, member.direction
    return abs((at[1] - y) * ux - (at[0] - x) * uy) <= 1.0
