"""What is left of each wing of a part beside the wings before it: the bodies that trusses stand on.

The rules are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from trainer.layout.model import Refusal
from trainer.roof.rects import Axis, Grid, Rect, RoofRect, runs
from trainer.words import _


@dataclass(frozen=True, slots=True)
class Body:
    """What is left of a wing's rectangle beside the wings before it: the part its trusses stand on.

    ``sides`` are the lines across its ridge that its roof rises from. They are the rectangle's own, but where a wing
    before it takes a bite out of one side: there its trusses end at a girder, short of that line. ``left_of`` is the
    wing that it is left of, ``wing`` the one whose ridge its trusses stand across.
    """

    wing: RoofRect
    rect: Rect
    sides: tuple[float, float]
    left_of: RoofRect

    @property
    def axis(self) -> Axis:
        """Which way the wing's ridge runs."""
        return self.wing.axis

    @property
    def across(self) -> tuple[float, float]:
        """From where to where across the ridge its trusses run."""
        low = 1 if self.axis == "x" else 0
        return self.rect[low], self.rect[low + 2]

    @property
    def bitten(self) -> bool:
        """Whether a wing before it took a bite out of one side."""
        return self.sides != self.across


def bodies_of(rects: list[RoofRect], cells: Grid, setback: float) -> tuple[list[Body], list[Refusal]]:
    """Return the bodies of a part's wings, which stand in order, widest first, and what can't be taken apart."""
    taken = [0] * len(cells.rows)
    bodies: list[Body] = []
    refusals: list[Refusal] = []
    for wing in rects:
        for piece in _pieces(_free(wing, cells, taken)):
            found = _cut_up(piece, wing, cells)
            if found is None:
                refusals.append(_odd_leftover(wing))
                continue
            for body in found:
                placed = _strip(body, rects, cells, taken, setback) if body.bitten else body
                if placed is None or (placed.bitten and placed.wing.half is not None):
                    refusals.append(_odd_leftover(wing))
                    continue
                bodies.append(placed)
                for j, bits in cells.cells(placed.rect):
                    taken[j] |= bits
    return bodies, refusals


def _free(wing: RoofRect, cells: Grid, taken: list[int]) -> dict[int, int]:
    """The cells of a wing that no body has, as bits by row."""
    return {j: bits & ~taken[j] for j, bits in cells.cells(wing.rect) if bits & ~taken[j]}


def _pieces(free: dict[int, int]) -> list[dict[int, int]]:
    """Split cells into connected pieces; each maps a row to its bits."""
    pieces: list[dict[int, int]] = []
    for j in sorted(free):
        for i0, i1 in runs(free[j]):
            bits = (1 << i1) - (1 << i0)
            touching = [piece for piece in pieces if piece.get(j - 1, 0) & bits]
            joined: dict[int, int] = {j: bits}
            for piece in touching:
                for row, more in piece.items():
                    joined[row] = joined.get(row, 0) | more
                pieces.remove(piece)
            pieces.append(joined)
    return pieces


def _cut_up(piece: dict[int, int], wing: RoofRect, cells: Grid) -> list[Body] | None:
    """What is left of a wing cut across its ridge into bodies, those with a bite out of one side first.

    None where a bite takes both sides, or leaves nothing of one in the middle.
    """
    low, across = (0, 1) if wing.axis == "x" else (1, 0)
    sides = (wing.rect[across], wing.rect[across + 2])
    slices: list[list[float]] = []
    for start, stop, taken in _slices(piece, wing, cells):
        if len(taken) != 1 or not {*taken[0]} & {*sides}:
            return None
        if slices and slices[-1][1:] == [start, *taken[0]]:
            slices[-1][1] = stop
        else:
            slices.append([start, stop, *taken[0]])
    bodies = []
    for start, stop, first, last in slices:
        rect = (start, first, stop, last) if low == 0 else (first, start, last, stop)
        bodies.append(Body(wing, rect, sides, wing))
    return sorted(bodies, key=lambda body: body.across[1] - body.across[0])


def _slices(
    piece: dict[int, int], wing: RoofRect, cells: Grid
) -> Iterator[tuple[float, float, list[tuple[float, float]]]]:
    """(from, to along the ridge, the stretches across it) of each line of cells across a wing."""
    if wing.axis == "y":
        for j in sorted(piece):
            taken = [(float(cells.xs[a]), float(cells.xs[b])) for a, b in runs(piece[j])]
            yield float(cells.ys[j]), float(cells.ys[j + 1]), taken
        return
    for i in range(len(cells.xs) - 1):
        rows = sum(1 << j for j, bits in piece.items() if bits >> i & 1)
        if rows:
            taken = [(float(cells.ys[a]), float(cells.ys[b])) for a, b in runs(rows)]
            yield float(cells.xs[i]), float(cells.xs[i + 1]), taken


def _strip(body: Body, rects: list[RoofRect], cells: Grid, taken: list[int], setback: float) -> Body | None:
    """A bitten body; a strip too narrow for its hip end's truncated girder turned, so that jacks run across it.

    It then goes to the wing that crosses it, as far out as that goes. Where that ends with the strip, the roof has no
    hip on the side where it goes on over the rest of the strip's own wing. None where no wing crosses it.
    """
    low = 0 if body.axis == "x" else 1
    start, stop = body.rect[low], body.rect[low + 2]
    first, last = body.across
    whole = body.wing
    hips = [whole.rect[i] == body.rect[i] and not whole.no_eave(i) for i in (low, low + 2)]
    if True not in hips or last - first > setback or stop - start < last - first:
        return body
    outer = 1 - low + (2 if last == body.sides[1] else 0)
    for r in rects:
        gabled = r.no_eave(low) or r.no_eave(low + 2) or (r.no_eave(outer) and r.rect[outer] == body.rect[outer])
        if r == whole or r.axis == body.axis or (r.rect[low], r.rect[low + 2]) != (start, stop) or gabled:
            continue
        for piece in _pieces(_free(r, cells, taken)):
            found = _cut_up(piece, r, cells)
            if not found or len(found) > 1 or found[0].bitten or not _holds(found[0].rect, body.rect):
                continue
            rect = found[0].rect
            if rect[outer] != body.rect[outer]:
                return found[0]
            far = 2 * (stop - start)
            return Body(r, rect, (start if hips[0] else stop - far, stop if hips[1] else start + far), whole)
    return None


def _holds(a: Rect, b: Rect) -> bool:
    return a[0] <= b[0] and a[1] <= b[1] and b[2] <= a[2] and b[3] <= a[3]


def _odd_leftover(wing: RoofRect) -> Refusal:
    x0, y0, x1, y1 = wing.rect
    return Refusal(
        _("wings that overlap at a corner"),
        ((x0 + x1) / 2, (y0 + y1) / 2),
        _("What is left of the narrower wing is no rectangle. Let one wing run right through."),
    )
