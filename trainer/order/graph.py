"""Works out the one precedence graph of a layout: what must and what should come before what.

The reasons are the trade brief's "Order of work": common practice, no source. ``must`` edges follow
what carries what. ``should`` edges stay within one row of parallel trusses and the hip ends at its ends,
so that nothing is said of how wings interleave. That no truss is let go before it is held is no edge:
it depends on which truss is lifted next, see :mod:`trainer.site`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from trainer.layout import Layout
from trainer.layout.marks import mark_run
from trainer.layout.model import Member
from trainer.order.inspection import inspection_edges, inspection_steps
from trainer.order.load_path import load_path_edges, load_path_steps
from trainer.order.model import NOTHING, Edge, LevelAsks, Order, Step, is_tied, spot
from trainer.order.permanent import restraint_edges, restraint_steps
from trainer.order.pre_start import pre_start_edges, pre_start_steps
from trainer.order.straightening import straightening_edges, straightening_steps
from trainer.order.verge import verge_edges, verge_steps
from trainer.plan import Point
from trainer.terms import STAGE_OF

HAND_OVER = Step("hand_over", "")
LOADING = Step("load", "")


def order_of(layout: Layout, stages: frozenset[str], asked: LevelAsks = NOTHING) -> Order:
    """Return the precedence graph of ``layout`` for a learner who does ``stages``; the others count as done.

    ``asked`` is what the level asks for besides.
    """
    marks = _marks(layout)
    edges = [
        *pre_start_edges(layout, asked),
        *_own_edges(layout, marks),
        *_carrier_edges(layout),
        *load_path_edges(layout),
        *(edge for edge in _habit_edges(layout) if edge.why in asked.advice),
        *straightening_edges(layout, asked.advice),
        *restraint_edges(layout, asked),
        *verge_edges(layout, asked),
    ]
    steps = [
        step
        for step in (
            *pre_start_steps(asked),
            *_steps(layout, marks),
            *straightening_steps(layout),
            *load_path_steps(layout, asked.advice),
            *inspection_steps(asked),
            *restraint_steps(asked),
            *verge_steps(asked),
            *((LOADING,) if asked.loading else ()),
            HAND_OVER,
        )
        if step.verb == "hand_over" or STAGE_OF[step.verb] in stages
    ]
    edges += inspection_edges(steps, asked)
    kept = set(steps)
    into: dict[Step, list[Edge]] = {step: [] for step in steps}
    out_of: dict[Step, list[Edge]] = {step: [] for step in steps}
    for edge in edges:
        if edge.first in kept and edge.then in kept:
            into[edge.then].append(edge)
            out_of[edge.first].append(edge)
    for step in steps:
        if not out_of[step] and step != HAND_OVER:
            last = Edge(step, HAND_OVER, "can", "last")
            into[HAND_OVER].append(last)
            out_of[step].append(last)
    return Order(
        tuple(steps),
        {step: tuple(found) for step, found in into.items()},
        {step: tuple(found) for step, found in out_of.items()},
        asked.day if "brace" in stages else None,
        asked.late if "stand" in stages else (),
    )


def marks_end(member: Member, end: int) -> bool:
    """Whether a mark serves this end (1 or 2): saddles have none, and a hip's corner, its end 1, is its own mark."""
    return member.kind != "saddle" and not (member.kind == "hip" and end == 1)


def _marks(layout: Layout) -> dict[Step, Step]:
    """For each end that has a mark, the step that makes it: what meets at one place shares one mark."""
    first: dict[tuple[str, Point, float], Step] = {}
    found: dict[Step, Step] = {}
    for member in layout.members:
        for end in (1, 2):
            if marks_end(member, end):
                here, step = member.ends[end - 1], Step("mark", member.tag, end)
                found[step] = first.setdefault((here.bears_on, here.at, mark_run(layout, member, end)), step)
    return found


def needs_bracket(member: Member, end: int) -> bool:
    """Whether this end (1 or 2) hangs in a bracket on its carrier."""
    return member.kind != "saddle" and not member.ends[end - 1].on_plate


def finishing(member: Member) -> Iterator[Step]:
    """The steps after which ``member`` stands, is held and is fixed: from then on it carries."""
    yield Step("stand", member.tag)
    if is_tied(member):
        yield Step("tie", member.tag)
    yield from (Step("fix", member.tag, end) for end in (1, 2))


def hold_steps(layout: Layout, order: Order, tag: str) -> tuple[Step, ...]:
    """The steps that hold the truss once it stands, so that the next one, in whatever row, may be lifted."""
    _stand, *steps = finishing(layout.by_tag[tag])
    return tuple(step for step in (*steps, Step("prop", tag)) if step in order.into)


def _steps(layout: Layout, marks: Mapping[Step, Step]) -> Iterator[Step]:
    yield from dict.fromkeys(marks.values())
    for member in layout.members:
        yield from (Step("fit", member.tag, end) for end in (1, 2) if needs_bracket(member, end))
        yield from finishing(member)


def _own_edges(layout: Layout, marks: Mapping[Step, Step]) -> Iterator[Edge]:
    """What comes before and after standing, truss by truss."""
    for end_mark, made in marks.items():
        yield Edge(made, Step("stand", end_mark.tag), "can", "marked")
    for member in layout.members:
        stand, *after = finishing(member)
        for end in (1, 2):
            yield Edge(Step("fit", member.tag, end), stand, "must", "bracket")
        yield from (Edge(stand, step, "can", "stood") for step in after)


def _carrier_edges(layout: Layout) -> Iterator[Edge]:
    for member in layout.members:
        why = "support" if member.kind == "saddle" else "carrier"
        for tag in member.carried_by:
            for step in finishing(layout.by_tag[tag]):
                yield Edge(step, Step("stand", member.tag), "must", why)


def _habit_edges(layout: Layout) -> Iterator[Edge]:
    for girder in (m for m in layout.members if m.kind == "girder"):
        others = (m for m in layout.members if m.wing == girder.wing and m.kind != "girder")
        yield from _stands([girder], others, "girders first")
    for row, tags in layout.rows.items():
        yield from _row_edges([layout.by_tag[tag] for tag in tags], _hip_ends(layout, row))


def _row_edges(row: list[Member], hip_ends: list[list[Member]]) -> Iterator[Edge]:
    """The good order of one row of parallel trusses with the hip ends at its ends."""
    carriers = {tag for hip_end in hip_ends for m in hip_end for tag in m.carried_by}
    girders = [m for m in row if m.kind == "truncated_girder" or (m.is_dutch and m.tag in carriers)]
    standards = sorted((m for m in row if m.full_height), key=spot)
    truncated = [m for m in row if m.flat_topped]
    for hip_end in hip_ends:
        hips = [m for m in hip_end if m.kind == "hip"]
        rest = [m for m in hip_end if m.kind in ("jack", "creeper")]
        own = _nearest_to(hips, truncated, girders)
        yield from _stands(girders, hips, "truncated girders first")
        yield from _stands(own, rest, "truncated first")
        yield from _stands([*own, *hip_end], standards, "hip end first")
    # No string lines up half trusses: each has its top on the higher wall.
    full = sorted((m for m in row if m.kind == "standard" or m.is_dutch), key=spot)
    outermost = [full[0], full[-1]] if len(full) > 1 else full
    between = (m for m in full if m.kind == "standard" and m not in outermost)
    yield from _stands(outermost, between, "outermost first")
    for gable in (m for m in row if m.kind == "gable"):
        if outermost:
            yield from _stands([min(outermost, key=lambda m: _apart(m, gable))], [gable], "outermost first")


def _hip_ends(layout: Layout, row: str) -> list[list[Member]]:
    """The hips, jacks and creepers of each hip end whose hips land on a truncated girder of ``row``."""
    ends: dict[str, list[Member]] = {}
    for member in layout.members:
        if member.kind in ("hip", "jack", "creeper"):
            ends.setdefault(member.row, []).append(member)
    return [end for end in ends.values() if any(layout.by_tag[t].row == row for m in end for t in m.carried_by)]


def _nearest_to(hips: list[Member], truncated: list[Member], girders: list[Member]) -> list[Member]:
    """Those of ``truncated`` that belong to the hip end with these ``hips``: nearer its girder than any other."""
    carriers = {tag for hip in hips for tag in hip.carried_by}
    own = [m for m in girders if m.tag in carriers]
    if not own:
        return []
    return [t for t in truncated if min(girders, key=lambda g: (_apart(g, t), g.tag)) in own]


def _apart(a: Member, b: Member) -> float:
    return abs(spot(a) - spot(b))


def _stands(first: Iterable[Member], then: Iterable[Member], why: str) -> Iterator[Edge]:
    firsts = [Step("stand", before.tag) for before in first]
    for after in (Step("stand", member.tag) for member in then):
        for before in firsts:
            yield Edge(before, after, "should", why)
