"""Dutch gables: the roof solved as hipped, then each hip end's plane cut at its girder and the side planes run on.

Where two hips rise to one point, the plane between them is a triangle above the eaves. A dutch gable's girder stands
``at`` in from its wall: past it the side planes take the triangle's tip, and they run on over the end's plane out to
the small verge. So the end's plane lies under them from the verge to the girder: that overlap is covered twice, and
counts in the areas of both. All of it is exact, as slopes in plan are 0 or ±1.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from trainer.plan import DutchGable, PlatePlan, Wall
from trainer.roof.creases import CreasePiece
from trainer.roof.plane import Spread, clean
from trainer.roof.side import Place

Edge = tuple[Place, Place]


def cut(
    plan: PlatePlan, spreads: Sequence[Spread], pieces: Sequence[CreasePiece]
) -> tuple[list[Spread], list[CreasePiece], tuple[Edge, ...]]:
    """Return the planes and the creases of a hipped roof with the dutch gables of a plan in it, and their verges."""
    planes, lines = list(spreads), list(pieces)
    verges: list[Edge] = []
    for gable in plan.dutch_gables:
        end = _End(plan.by_name[gable.wall], gable)
        planes = [end.plane(spread) for spread in planes]
        lines = end.creases(lines)
        verges += end.verges()
    return planes, lines, tuple(verges)


class _End:
    """One dutch gable: ``s`` inward from its wall, ``t`` along it from its first corner."""

    def __init__(self, wall: Wall, gable: DutchGable) -> None:
        self.wall, self.at, self.verge = wall, gable.at, gable.verge_at
        self.half = wall.length / 2
        self.apex = self.place(self.half, self.half, self.half)
        self.tip = self.place(self.verge, self.half, self.half)

    def place(self, s: float, t: float, d: float) -> Place:
        """The place on the plan, ``d`` from the outside."""
        (x, y), (ux, uy), (nx, ny) = self.wall.a, self.wall.along, self.wall.inward
        return (x + ux * t + nx * s + 0.0, y + uy * t + ny * s + 0.0, d)

    def seen(self, place: Place) -> tuple[float, float]:
        """(s, t) of a place."""
        (x, y), (ux, uy), (nx, ny) = self.wall.a, self.wall.along, self.wall.inward
        dx, dy = place[0] - x, place[1] - y
        return dx * nx + dy * ny, dx * ux + dy * uy

    def plane(self, spread: Spread) -> Spread:
        """A plane of the roof, cut at the girder or run on to the verge where it has to do with this end."""
        if self.apex not in spread.ring:
            return spread
        i = spread.ring.index(self.apex)
        before, after = spread.ring[i - 1], spread.ring[(i + 1) % len(spread.ring)]
        if self.wall.index in spread.walls:
            tip = [self._on_hip(before, self.at), self._on_hip(after, self.at)]
        elif self._is_on_hip(before):
            tip = [self._on_hip(before, self.verge), self.tip, self.apex]
        elif self._is_on_hip(after):
            tip = [self.apex, self.tip, self._on_hip(after, self.verge)]
        else:
            return spread  # another end's plane, that comes up to the same point
        ring = [*spread.ring[:i], *tip, *spread.ring[i + 1 :]]
        return Spread(spread.walls, _straightened(ring))

    def creases(self, pieces: list[CreasePiece]) -> list[CreasePiece]:
        """The creases: hips as far as the small verge, the ridge out to it."""
        found, ridge = [], False
        for piece in pieces:
            if self.apex not in (piece.start, piece.finish):
                found.append(piece)
                continue
            other = piece.start if piece.finish == self.apex else piece.finish
            if piece.kind == "hip" and self._is_on_hip(other):
                found.append(CreasePiece("hip", other, self._on_hip(other, self.verge)))
            elif piece.kind == "ridge" and self.seen(other)[1] == self.half:
                found.append(_ridge(self.tip, other))
                ridge = True
            else:
                found.append(piece)
        if not ridge:
            found.append(_ridge(self.tip, self.apex))
        return sorted(found)

    def verges(self) -> Iterator[Edge]:
        """The edges of the small verge, from the hip on either side up to the ridge."""
        for t in (self.verge, 2 * self.half - self.verge):
            yield self.place(self.verge, t, self.verge), self.tip

    def _is_on_hip(self, place: Place) -> bool:
        """Whether a place lies on one of this end's hips, below the point where they meet."""
        s, t = self.seen(place)
        return s < self.half and s in (t, 2 * self.half - t)

    def _on_hip(self, below: Place, s: float) -> Place:
        """The place ``s`` in from the wall on the hip that ``below`` is on."""
        low = self.seen(below)[1] < self.half
        return self.place(s, s if low else 2 * self.half - s, s)


def _ridge(a: Place, b: Place) -> CreasePiece:
    return CreasePiece("ridge", *sorted((a, b), key=lambda place: (place[2], place[0], place[1])))


def _straightened(ring: list[Place]) -> list[Place]:
    """The ring without corners on a straight line."""
    heights = {(x, y): d for x, y, d in ring}
    return [(x, y, heights[x, y]) for x, y in clean([(x, y) for x, y, _d in ring])]
