"""Gable and verge framing in the order of work: outriggers, then the verge rafters that they carry; studs at any time.

On the girder of a dutch gable a waling plate, on the ground or once it stands, and the ladders of its small verge.

Should (common practice, no source): verge framing comes after the row behind it is tied, straight and braced for good.

Each set is a step ``frame``; a level with ``gable_framing: false`` asks for none:

- ``{do: fit, part: outrigger, on: GT1, every: 900, back: 812.5}``: one set for both slopes, close enough
  together, in at least as far as they stand out from the gable truss's centre, and to a truss's centre;
- ``{do: fit, part: verge rafter, on: GT1}``: one pair, after the outriggers;
- ``{do: fit, part: gable stud, on: GT1, every: 900}`` or ``{do: fit, part: packer, on: GT1}``: one set; none where the
  truss is flush with its wall;
- ``{do: fit, part: waling plate, on: G1}``, which any level asks for: must, before a truss whose top lands on it is set
  down, and before an extension is fixed there;
- ``{do: fit, part: verge ladder, on: G1}``: one pair, on its face.
"""

from __future__ import annotations

from collections.abc import Iterator

from trainer.layout import Layout
from trainer.order.model import TIED, Edge, LevelAsks, Step

FRAMED = ("outrigger", "verge rafter", "gable stud", "waling plate", "verge ladder")
"""The parts of a gable; a step's ``end`` is a part's number here, from 1."""
STRAIGHT_FIRST = "straight first"
"""The reason why verge framing waits for its row."""
WALING_FIRST = "waling plate"
"""The reason why what lands on a waling plate waits for it."""
ON_DUTCH = ("waling plate", "verge ladder")
"""The parts that go on the girder of a dutch gable."""
WALING = FRAMED.index("waling plate") + 1
WITH_VERGE = ("outrigger", "verge ladder")
"""The parts that a verge begins with."""


def frames(layout: Layout, gables: bool = True) -> tuple[tuple[str, int], ...]:
    """Return (gable truss or girder, number of the part) for all the framing that a layout's gables need.

    Without ``gables`` only waling plates: extensions land on them. A gable truss flush with the outside of its wall
    needs no studs to bring the cladding out.
    """
    found = dict.fromkeys((part.on, FRAMED.index(part.part) + 1) for part in layout.parts if part.part in FRAMED)
    flush = layout.house.trusses.gable_stands == "flush"
    return tuple(
        (tag, number)
        for tag, number in found
        if (gables or number == WALING) and not (flush and FRAMED[number - 1] == "gable stud")
    )


def verge_steps(asked: LevelAsks) -> Iterator[Step]:
    """Yield a step for each part of each gable."""
    yield from (Step("frame", tag, number) for tag, number in asked.frames)


def verge_edges(layout: Layout, asked: LevelAsks) -> Iterator[Edge]:
    """Yield what comes before each of them."""
    for tag, number in asked.frames:
        frame = Step("frame", tag, number)
        if number == WALING:
            yield from _landing(layout, tag, frame)
            continue
        yield Edge(Step("stand", tag), frame, "can", "stood")
        if FRAMED[number - 1] == "verge rafter":
            yield Edge(Step("frame", tag, FRAMED.index("outrigger") + 1), frame, "can", "carried")
        if FRAMED[number - 1] in WITH_VERGE:
            yield from (Edge(step, frame, "should", STRAIGHT_FIRST) for step in _row_done(layout, asked, tag))


def _landing(layout: Layout, girder: str, frame: Step) -> Iterator[Edge]:
    """What waits for a waling plate: setting down a truss that hangs under it, and fixing any top that lands on it."""
    for number, crossing in enumerate(layout.crossings):
        if crossing.under == girder and crossing.what == "extension":
            yield Edge(frame, Step("cross", crossing.over, number), "must", WALING_FIRST)
            if girder in layout.by_tag[crossing.over].carried_by:
                yield Edge(frame, Step("stand", crossing.over), "must", WALING_FIRST)


def _row_done(layout: Layout, asked: LevelAsks, gable: str) -> Iterator[Step]:
    """The steps after which the row of a gable is tied, straight and braced for good."""
    row = layout.by_tag[gable].row
    for tag in layout.rows[row]:
        if layout.by_tag[tag].kind in TIED:
            yield Step("tie", tag)
            yield Step("plumb", tag)
    yield from (
        Step("restrain", piece.name) for piece in asked.restraints if (piece.kind, piece.row) == ("roof brace", row)
    )
