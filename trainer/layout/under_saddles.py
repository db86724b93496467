"""Where saddles cover the trusses of the wing that runs through: how far in from the opening, truss by truss."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from trainer.layout.model import Layout, Member
from trainer.layout.row_lines import RowLines


@dataclass(frozen=True)
class Covered:
    """The trusses of ``row`` under the saddles of one opening, each with how far in it is covered, mm.

    ``line`` is where across the row the opening lies, and ``inward`` (1 or -1) the way up the slope from there.
    """

    name: str
    row: str
    line: float
    inward: int
    trusses: tuple[tuple[Member, float], ...]

    def at(self, d: float) -> float:
        """Where across the row ``d`` mm in from the opening lies."""
        return self.line + self.inward * d


def covered_rows(layout: Layout, rows: Mapping[str, RowLines]) -> Iterator[Covered]:
    """Yield what the saddles of each opening cover, a row at a time."""
    wings = {wing.id: wing for wing in layout.wings}
    for name, tags in layout.rows.items():
        saddles = [layout.by_tag[tag] for tag in tags if layout.by_tag[tag].kind == "saddle"]
        if not saddles:
            continue
        unders = {c.under for c in layout.crossings if c.over in tags and c.what == "saddle"}
        row = next((layout.by_tag[tag].row for tag in sorted(unders) if layout.by_tag[tag].row in rows), None)
        if row is None:
            continue
        lines = rows[row]
        across = 1 - lines.along
        near = saddles[0].start[across]
        line = min(lines.low, lines.high, key=lambda edge: abs(edge - near))
        inward = 1 if line == lines.low else -1
        rect = wings[saddles[0].wing].rect
        low, high = rect[lines.along], rect[lines.along + 2]
        trusses = []
        for member in lines.of_kind("standard", "truncated", "half"):
            depth = min(lines.u(member) - low, high - lines.u(member), _slope(lines, member, line))
            if depth > 0:
                trusses.append((member, depth))
        yield Covered(name, row, line, inward, tuple(trusses))


def _slope(lines: RowLines, member: Member, line: float) -> float:
    """How far in the slope of a truss goes from the line of its plate, mm: to its apex, or to its flat top."""
    peaks = [run for run, z in member.top if z >= max(z for _, z in member.top) - 0.5]
    return min(abs(lines.v(member, run) - line) for run in peaks)
