"""Rows of temporary battens along the top chords: where they lie, and the longest stretch that they leave.

The first row is nailed along the ridge; the others go on from there down each slope, ``every`` so many mm on the
level, to the plate. A piece that does not say how far apart its rows are has them as the job sheet says.

In a diary: ``{do: brace, kind: batten, tags: [ST1, ST2], every: 2700}``. The rule ``top-chord-battens-too-far-apart``
takes the longest stretch from here, and every drawing its rows. The limit is the level's ``top_chord_ties``; a slope no
longer than that needs the row along the ridge alone. Other kinds of brace have no rows.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from trainer.layout.model import Member
from trainer.site.model import Bracing, Site


def row_runs(span: float, ridge: float, every: float) -> tuple[float, ...]:
    """Return how far along a truss its rows lie, mm of run from its ``from``, the least first."""
    first = min(max(ridge, 0.0), span)
    down = [k * every for k in range(1, int(span // every) + 1)]
    return tuple(sorted([first, *(run for d in down for run in (first - d, first + d) if 0.0 < run < span)]))


def ridge_run(top: Iterable[tuple[float, float]]) -> float:
    """Return the run of the highest place of a roof line, mm; of a flat one, of its middle."""
    line = list(top)
    high = max(z for _run, z in line)
    runs = [run for run, z in line if z > high - 1]
    return (runs[0] + runs[-1]) / 2


def longest_stretch(member: Member, every: float) -> float:
    """Return the longest stretch of a truss between rows, or between a row and its end, mm on the level."""
    runs = row_runs(member.span, ridge_run(member.top), every)
    return max(b - a for a, b in pairwise((0.0, *runs, member.span)))


def spacing_of(site: Site, piece: Bracing) -> float:
    """Return how far apart the rows of a batten are, mm on the level."""
    return float(piece.every or site.job.bracing.batten_rows)


def stretch_left(site: Site, piece: Bracing) -> float:
    """Return the longest stretch that a batten leaves on any of its trusses, mm on the level."""
    places = (site.stood[tag].place or tag for tag in piece.tags)
    return max(longest_stretch(site.layout.by_tag[place], spacing_of(site, piece)) for place in places)
