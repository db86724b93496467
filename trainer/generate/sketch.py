"""A house in a few measures, and the plate plan that it gives: a long body, and wings off its two long sides."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from trainer.plan import wall_name

Corner = tuple[int, int]
Corners = tuple[Corner, ...]


@dataclass(frozen=True, slots=True)
class WingSketch:
    """A wing off the ``front`` (low y) or the back: from ``at`` along the body, ``width`` wide, ``out`` mm long."""

    front: bool
    at: int
    width: int
    out: int
    gable: bool


@dataclass(frozen=True, slots=True)
class Turned:
    """A sketch as a plate plan: its outline, its gables, the walls against higher ones, and the inside walls.

    ``gables`` are walls' names with how far in the girder of a dutch gable stands, 0 for a plain gable.
    """

    outline: Corners
    gables: dict[str, int]
    against: tuple[str, ...]
    inside: tuple[Corners, ...]


@dataclass(frozen=True, slots=True)
class FrontStep:
    """The body's second end goes on ``out`` mm past the one before it, ``width`` wide, along its front."""

    width: int
    out: int


@dataclass(frozen=True, slots=True)
class Sketch:
    """The body, ``length`` by ``width`` from (0, 0), whether its two ends are gables, and its wings; mm.

    ``steps`` go on from its second end, each narrower than the one before. The front stands ``forward`` mm further
    out from the first end up to ``forward_to``. ``dutch``: how far in from each end the girder of a dutch gable stands,
    to its middle; 0 for none. Inside walls of the body run ``along`` it at that y, and ``across`` it at that x; 0 for
    none. A ``porch`` is a stretch of the front, from x to x, that is a verandah beam; its far end is the body's where
    it is left at 0. ``against`` says which side of the body is the face of a higher wall: its far end, or its back; or
    the walls ``round`` the corner between its back and a wing flush with its first end. A body that steps has its
    second gable where the first step leaves off.
    """

    length: int
    width: int
    ends: tuple[bool, bool] = (False, False)
    wings: tuple[WingSketch, ...] = ()
    along: int = 0
    across: int = 0
    against: Literal["", "end", "back", "round"] = ""
    steps: tuple[FrontStep, ...] = ()
    forward: int = 0
    forward_to: int = 0
    porch: tuple[int, int] | None = None
    dutch: tuple[int, int] = (0, 0)

    def longer(self, bays: int, spacing: int) -> Sketch:
        """Return it so many bays longer, shared among the body and its wings.

        A wing flush with an end stays so, the others keep to the middle.
        """
        each, over = divmod(bays, 1 + len(self.wings))
        own = each + over
        wings = []
        for wing in self.wings:
            flush = wing.at + wing.width == self.length
            shift = own if flush else 0 if wing.at == 0 else own // 2
            wings.append(replace(wing, at=wing.at + shift * spacing, out=wing.out + each * spacing))
        return replace(self, length=self.length + own * spacing, wings=tuple(wings))

    def plan(self, turn: int) -> Turned:
        """Return it as a plate plan, turned in one of eight ways, low corner at (0, 0).

        The first four ways keep the body's first end first.
        """
        return _turned(self._outline(), self._gable_edges(), self._against_edges(), self._inside_walls(), turn)

    def beams(self, turn: int) -> dict[str, tuple[int, int]]:
        """Return the verandah beams of that plan: from where to where on each wall, mm from its first corner."""
        if self.porch is None:
            return {}
        low, high = self.porch
        turned = _turned(self._outline(), {}, set(), [((low, 0), (high or self.length, 0))], turn)
        (ends,) = turned.inside
        for i, (a, b) in enumerate(pairwise([*turned.outline, turned.outline[0]])):
            runs = sorted(abs(x - a[0]) + abs(y - a[1]) for x, y in ends)
            if all(_between(a, b, end) for end in ends):
                return {wall_name(i): (runs[0], runs[1])}
        raise AssertionError("a porch lies on the front of its body")

    def _outline(self) -> list[Corner]:
        front = sorted((w for w in self.wings if w.front), key=lambda w: w.at)
        back = sorted((w for w in self.wings if not w.front), key=lambda w: -w.at)
        path: list[Corner] = [(0, -self.forward), (self.forward_to, -self.forward), (self.forward_to, 0)]
        for wing in front:
            path += [(wing.at, 0), (wing.at, -wing.out), (wing.at + wing.width, -wing.out), (wing.at + wing.width, 0)]
        path += self._second_end()
        for wing in back:
            far, high = wing.at + wing.width, self.width + wing.out
            path += [(far, self.width), (far, high), (wing.at, high), (wing.at, self.width)]
        path.append((0, self.width))
        return _corners(path)

    def _second_end(self) -> list[Corner]:
        """The corners from the front round the second end to the back."""
        low: list[Corner] = [(self.length, self.width)]
        x = self.length
        for step in self.steps:
            low += [(x, step.width), (x + step.out, step.width)]
            x += step.out
        return [(x, 0), *reversed(low)]

    def _inside_walls(self) -> list[Corners]:
        along = ((0, self.along), (self.length, self.along))
        across = ((self.across, 0), (self.across, self.width))
        return [wall for wall, here in ((along, self.along), (across, self.across)) if here]

    def _against_edges(self) -> set[frozenset[Corner]]:
        if self.against == "round":
            (wing,) = self.wings
            corner = (wing.width, self.width)
            return {
                frozenset({corner, end}) for end in ((self.length, self.width), (wing.width, self.width + wing.out))
            }
        low = {"end": (self.length, 0), "back": (0, self.width)}
        return {frozenset({low[self.against], (self.length, self.width)})} if self.against else set()

    def _gable_edges(self) -> dict[frozenset[Corner], int]:
        edges = {}
        for gable, at, x in zip(self.ends, self.dutch, (0, self.length), strict=True):
            if gable or at:
                low = self.steps[0].width if x and self.steps else 0
                edges[frozenset({(x, low), (x, self.width)})] = at
        for wing in self.wings:
            y = -wing.out if wing.front else self.width + wing.out
            if wing.gable:
                edges[frozenset({(wing.at, y), (wing.at + wing.width, y)})] = 0
        return edges


def _between(a: Corner, b: Corner, place: Corner) -> bool:
    """Whether a place lies on the straight line from corner to corner."""
    return all(min(p, q) <= at <= max(p, q) for p, q, at in zip(a, b, place, strict=True))


def _corners(path: list[Corner]) -> list[Corner]:
    """Leave out points met twice, then those that the outline runs straight through."""
    distinct = [b for a, b in pairwise([path[-1], *path]) if a != b]
    around = zip([distinct[-1], *distinct[:-1]], distinct, [*distinct[1:], distinct[0]], strict=True)
    return [b for a, b, c in around if not (a[0] == b[0] == c[0] or a[1] == b[1] == c[1])]


def _turned(
    outline: list[Corner],
    gables: dict[frozenset[Corner], int],
    against: set[frozenset[Corner]],
    inside: list[Corners],
    turn: int,
) -> Turned:
    def moved(corner: Corner) -> Corner:
        x, y = corner
        x = -x if turn & 4 else x
        y = -y if turn & 2 else y
        return (y, x) if turn & 1 else (x, y)

    corners = [moved(corner) for corner in outline]
    left, low = min(x for x, _ in corners), min(y for _, y in corners)
    if (turn & 1) ^ (turn >> 1 & 1) ^ (turn >> 2 & 1):  # a mirror image is walked the other way round
        corners.reverse()
    walls = [frozenset(edge) for edge in pairwise([*corners, corners[0]])]

    def named(edges: dict[frozenset[Corner], int]) -> dict[str, int]:
        there = {frozenset(map(moved, edge)): at for edge, at in edges.items()}
        return {wall_name(i): there[wall] for i, wall in enumerate(walls) if wall in there}

    def shifted(path: Iterable[Corner]) -> Corners:
        return tuple((x - left, y - low) for x, y in path)

    inner = tuple(shifted(map(moved, wall)) for wall in inside)
    return Turned(shifted(corners), named(gables), tuple(named(dict.fromkeys(against, 0))), inner)
