"""A truss from the side as timbers to draw, worked out once for all trusses that are alike."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from trainer.layout import Layout, Member
from trainer.layout.webs import Frame, webs
from trainer.plan import Point

Part = Literal["top chord", "bottom chord", "web", "extension"]


@dataclass(frozen=True, slots=True)
class TrussTimber:
    """One timber: its outline in (run, z), and its upper edge."""

    part: Part
    outline: tuple[Point, ...]
    upper: tuple[Point, Point]


@dataclass(frozen=True)
class Framed:
    """A truss's own timbers; the webs first, so that the chords are painted over their ends."""

    member: Member
    frame: Frame

    @cached_property
    def timbers(self) -> tuple[TrussTimber, ...]:
        """Every timber whole."""
        from trainer.picture.outlines import outlines_of  # noqa: PLC0415 - shapely is slow to load: once it is drawn

        member, outlines = self.member, outlines_of(self.frame)
        runs_on = member.kind in {"hip", "jack"}
        found = [_timber("web", outline) for outline in outlines.webs if outline]
        found.append(_timber("bottom chord", outlines.bottom_chord))
        for outline in outlines.top_chords:
            beyond = min(run for run, _z in outline) >= member.span - 1
            found.append(_timber("extension" if runs_on and beyond else "top chord", outline))
        return tuple(found)

    @cached_property
    def rim(self) -> tuple[Point, ...]:
        """The outline of the whole truss as one closed line."""
        frame = self.frame
        low = [(frame.last, frame.bottom), (frame.first, frame.bottom)]
        return (*frame.top, *low, frame.top[0])

    @property
    def base(self) -> float:
        """Height of the underside of the bottom chord."""
        return self.frame.bottom

    def roof(self, run: float) -> float:
        """Height of the upper edge at a run along it, mm above the plate."""
        return self.frame.roof(run)

    @cached_property
    def high(self) -> float:
        """Height of its highest place."""
        return max(z for _run, z in self.frame.top)

    @cached_property
    def peaks(self) -> tuple[float, float]:
        """Where its highest part begins and ends, mm of run."""
        runs = [run for run, z in self.frame.top if z > self.high - 1]
        return runs[0], runs[-1]


class Framer:
    """Gives the timbers of the trusses of one layout; trusses that are alike share theirs."""

    def __init__(self, layout: Layout) -> None:
        self._house = layout.house
        self._known: dict[tuple[object, ...], Framed] = {}

    def of(self, member: Member) -> Framed:
        """Return the timbers of a truss of the layout."""
        key = (*member.like, member.span)
        if key not in self._known:
            self._known[key] = Framed(member, webs(member, self._house))
        return self._known[key]


def _timber(part: Part, outline: Iterable[Point]) -> TrussTimber:
    corners = tuple(outline)
    if len(corners) > 1 and corners[0] == corners[-1]:
        corners = corners[:-1]
    edges = zip(corners, corners[1:] + corners[:1], strict=True)
    longest = sorted(edges, key=lambda e: -((e[0][0] - e[1][0]) ** 2 + (e[0][1] - e[1][1]) ** 2))[:2]
    a, b = max(longest, key=lambda e: e[0][1] + e[1][1])
    return TrussTimber(part, corners, (a, b) if a[0] <= b[0] else (b, a))
