"""The timbers inside a truss: chords and webs in the usual patterns, for drawings and for what is tied to webs.

A truss is seen from the side, in its own terms: ``run`` from its ``from`` end along it, ``z`` above the plate,
mm, as in :attr:`Member.top`. Patterns and timber sizes are common practice, no source: a job's own truss
drawings say what its trusses are really made of.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from trainer.layout.model import House, Member
from trainer.terms import TrussKind

FLAT_TOPPED: frozenset[TrussKind] = frozenset({"truncated", "truncated_girder", "girder"})
"""Trusses whose flat tops lie lower than the roof, for the extensions that pass over; they may be stepped."""
RunZ = tuple[float, float]
"""A place on a truss seen from the side: (run, z), mm."""
Outline = tuple[RunZ, ...]
Pattern = Literal[
    "no webs", "one post", "post and struts", "W", "double W", "triple W", "flat top", "stepped top", "half", "uprights"
]

TOP_CHORD, BOTTOM_CHORD, GIRDER_CHORD, WEB = 90.0, 90.0, 190.0, 70.0
"""Depths of the timbers, mm; a girder's bottom chord is deeper."""
ONE_POST, STRUTS, SINGLE_W, EACH_MORE = 4200.0, 6000.0, 10_000.0, 3500.0
"""Spans up to which a pattern serves, and how much more each further W does, mm."""
PANEL = 2000.0
"""Longest panel of a half truss or under a flat top, mm."""
ROOM = 150.0
"""Least clear height between the chords for a web to stand in, mm."""
LEAST_ROOM = 40.0
"""The same at a joint where the top chord bends; where there is less, the two chords are plated to each other, mm."""
TINY = 0.01
"""Corners of a top chord nearer to each other than this are one, mm."""
ONE_JOINT = 2 * WEB
"""Bends of a top chord nearer to each other than this share one joint, mm."""


@dataclass(frozen=True, slots=True)
class Web:
    """One web by its centre line: ``low`` on the bottom chord's centre line, ``high`` on the top chord's."""

    low: RunZ
    high: RunZ

    @property
    def length(self) -> float:
        """Length between the centre lines of the chords, mm."""
        return math.dist(self.low, self.high)

    @property
    def middle(self) -> RunZ:
        """Half way up it."""
        return (self.low[0] + self.high[0]) / 2, (self.low[1] + self.high[1]) / 2


@dataclass(frozen=True)
class Frame:
    """The timbers of one truss. ``top`` is the upper edge of its top chord, tails and extensions included.

    The underside of the bottom chord is level, at ``bottom``, from ``first`` to ``last`` (mm of run). Under
    a flat top the timber lies below the roof line, by the extensions that pass over it.
    """

    pattern: Pattern
    top: Outline
    bottom: float
    first: float
    last: float
    bottom_depth: float
    webs: tuple[Web, ...]

    def roof(self, run: float) -> float:
        """Height of the top chord's upper edge at ``run``, mm."""
        return _height(self.top, run)


def webs(member: Member, house: House) -> Frame:
    """Return the timbers of ``member``, a truss of ``house``."""
    girder = member.kind in ("girder", "truncated_girder")
    bottom = min(member.top[0][1], member.top[-1][1]) if member.kind == "saddle" else 0.0
    depth = GIRDER_CHORD if girder else BOTTOM_CHORD
    line = _timber(member, house)
    bare = Frame("no webs", line, bottom, 0.0, member.span, depth, ())
    pattern, axes = _pattern(member, house, bare)
    if pattern != "stepped top":
        axes = [(low, high) for low, high in axes if _room(bare, (low + high) / 2) >= ROOM]
    axes += _over_set_back(member, house, bare, axes)
    found = tuple(_web(bare, low, high) for low, high in axes)
    return Frame(pattern if found else "no webs", line, bottom, 0.0, member.span, depth, found)


_Axes = list[tuple[float, float]]
"""(run on the bottom chord, run on the top chord) of each web."""


def _pattern(member: Member, house: House, frame: Frame) -> tuple[Pattern, _Axes]:
    span = member.span
    if member.kind == "gable":
        spacing = float(house.trusses.spacing)
        return "uprights", [(k * spacing,) * 2 for k in range(1, math.ceil(span / spacing))]
    if member.kind in ("hip", "jack", "creeper"):
        return "half", _half(0.0, span - WEB / 2)
    inside = [run for run, _ in frame.top if 0 < run < span]
    ends_high = member.kind == "saddle" and len(inside) < 2 and abs(member.top[-1][1] - member.top[0][1]) > ROOM
    if member.ends[1].on_ledger or ends_high:
        return "half", _high_at_one_end(inside, span, at_start=member.top[0][1] > member.top[-1][1])
    if len(inside) > 2:
        return "stepped top", _stepped(member, frame, inside)
    if len(inside) == 2:
        return "flat top", _flat(inside[0], inside[-1], span)
    return _triangle(max(inside, key=frame.roof, default=span / 2), span)


def _to_post(bends: list[float], post: float) -> _Axes:
    """Half of a truss, from its low end to a ``post`` at its high one; from a bend its top may run level to it."""
    rise = bends[0] if bends and bends[0] < post - WEB else post
    axes = _half(0.0, rise)
    if rise < post:
        panels = max(1, math.ceil((post - rise) / PANEL))
        runs = [rise + (post - rise) * i / panels for i in range(panels + 1)]
        axes += [(run, run) for run in runs[1:]] + [(b, a) for a, b in pairwise(runs)]
    return axes


def _high_at_one_end(bends: list[float], span: float, *, at_start: bool) -> _Axes:
    """Half a truss, and a saddle that ends high where it meets a girder or a higher wall: a post stands there."""
    if not at_start:
        return _to_post(bends, span - WEB / 2)
    axes = _to_post([span - bend for bend in bends], span - WEB / 2)
    return [(span - low, span - high) for low, high in axes]


def _over_set_back(member: Member, house: House, frame: Frame, axes: _Axes) -> _Axes:
    """A web over each plate that stands back under a straight fascia, and a slope from its foot to the next joint.

    The chords don't meet there; on a plate at the fascia's own line, or where a step is very shallow, they do.
    """
    found: _Axes = []
    if member.kind == "gable" or not axes:
        return found
    for end, run, over in zip(member.ends, (0.0, member.span), (WEB / 2, member.span - WEB / 2), strict=True):
        if end.on_plate and _height(member.top, run) - house.roof.heel > 1.0 and _room(frame, over) > 0:
            joint = min((high for _low, high in axes), key=lambda high: abs(high - run))
            found += [(over, over), (over, joint)]
    return found


def _triangle(apex: float, span: float) -> tuple[Pattern, _Axes]:
    """A full-height truss with its apex at ``apex``."""
    post = (apex, apex)
    if span <= ONE_POST:
        return "one post", [post]
    if span <= STRUTS:
        return "post and struts", [(apex, apex / 2), post, (apex, (apex + span) / 2)]
    more = 0 if span <= SINGLE_W else min(2, math.ceil((span - SINGLE_W) / EACH_MORE))
    count = more + 1
    low = [span * i / (2 * count + 1) for i in range(1, 2 * count + 1)]
    left = [apex * j / (count + 1) for j in range(1, count + 1)]
    right = [span - (span - apex) * j / (count + 1) for j in range(count, 0, -1)]
    names: tuple[Pattern, ...] = ("W", "double W", "triple W")
    up = [*left, apex]
    down = [apex, *right]
    axes = [(low[i], up[i + k]) for i in range(count) for k in (0, 1)]
    axes += [(low[count + i], down[i + k]) for i in range(count) for k in (0, 1)]
    return names[more], axes


def _half(start: float, end: float) -> _Axes:
    """A truss that rises from ``start`` to ``end``: an upright at each panel, and a slope in each but the first."""
    panels = max(1, math.ceil(abs(end - start) / PANEL))
    runs = [start + (end - start) * i / panels for i in range(1, panels + 1)]
    return [(run, run) for run in runs] + list(pairwise(runs))


def _flat(rise: float, fall: float, span: float) -> _Axes:
    """A flat top from ``rise`` to ``fall``: uprights, and slopes that run down to the middle."""
    panels = 2 * max(1, math.ceil((fall - rise) / (2 * PANEL)))
    runs = [rise + (fall - rise) * i / panels for i in range(panels + 1)]
    axes = [*_half(0.0, rise), *_half(span, fall)]
    axes += [(run, run) for run in runs[1:-1]]
    for i, (a, b) in enumerate(pairwise(runs)):
        axes.append((b, a) if i < panels / 2 else (a, b))
    return axes


def _stepped(member: Member, frame: Frame, bends: list[float]) -> _Axes:
    """A top that bends more than twice: an upright at each bend and panel, and a slope between each two.

    The foot of a slope is where the truss is lower, and under a flat on the side of the middle. An end that hangs
    where the truss is high has an upright of its own.
    """
    span = member.span
    runs = [0.0]
    for a, b in pairwise([0.0, *_joints(bends), span]):
        panels = max(1, math.ceil((b - a) / PANEL))
        runs += [a + (b - a) * i / panels for i in range(1, panels + 1)]
    ends = [run for end, run in zip(member.ends, (WEB / 2, span - WEB / 2), strict=True) if not end.on_plate]
    high = [run for run in ends if all(abs(run - other) > ONE_JOINT for other in runs[1:-1])]
    runs = [run for run in sorted([*runs[1:-1], *high]) if _room(frame, run) >= LEAST_ROOM]
    axes = [(run, run) for run in runs]
    for a, b in pairwise(runs):
        rise = frame.roof(b) - frame.roof(a)
        rising = rise > 0 if abs(rise) > 1.0 else a + b > span
        axes.append((a, b) if rising else (b, a))
    return axes


def _joints(bends: list[float]) -> list[float]:
    """Where the joints of a top chord are that bends there: midway between bends that are very near each other."""
    groups: list[list[float]] = []
    for bend in bends:
        if groups and bend - groups[-1][0] < ONE_JOINT:
            groups[-1].append(bend)
        else:
            groups.append([bend])
    return [(group[0] + group[-1]) / 2 for group in groups]


def _timber(member: Member, house: House) -> Outline:
    """The upper edge of the top chord: the roof line, but under a flat as low as the extensions over it ask."""
    top = member.top
    if not (member.kind in FLAT_TOPPED or member.flat_topped):
        return top
    lower = TOP_CHORD / math.cos(math.radians(house.roof.pitch))
    line = [top[0]]
    for before, here, after in zip(top, top[1:], top[2:], strict=False):
        if here[1] == after[1] != before[1]:
            line.append(_at_height(here, before, here[1] - lower))
        elif before[1] == here[1] != after[1]:
            line.append(_at_height(here, after, here[1] - lower))
        else:
            line.append(here)
    last = top[-1]
    line.append((last[0], last[1] - lower) if last[1] == top[-2][1] else last)
    # Where the roof rises by less than that before a flat, the flat begins at the end itself.
    return tuple(spot for i, spot in enumerate(line) if not i or spot[0] - line[i - 1][0] > TINY)


def _at_height(near: RunZ, far: RunZ, level: float) -> RunZ:
    """Where the line from ``near`` to ``far`` is at ``level``: at its foot at the furthest, or on past ``near``."""
    share = min(1.0, (near[1] - level) / (near[1] - far[1]))
    return near[0] + (far[0] - near[0]) * share, near[1] + (far[1] - near[1]) * share


def _web(frame: Frame, low: float, high: float) -> Web:
    middle = frame.bottom + frame.bottom_depth / 2
    return Web((low, middle), (high, frame.roof(high) - _plumb(frame.top, high) / 2))


def _room(frame: Frame, run: float) -> float:
    """Clear height between the chords at ``run``, mm."""
    return frame.roof(run) - _plumb(frame.top, run) - frame.bottom - frame.bottom_depth


def _height(line: Outline, run: float) -> float:
    for (a, za), (b, zb) in pairwise(line):
        if run <= b or b == line[-1][0]:
            return za + (zb - za) * (run - a) / (b - a) if b > a else max(za, zb)
    return line[-1][1]


def _plumb(line: Outline, run: float) -> float:
    """Depth of the top chord measured plumb at ``run``, mm."""
    for a, b in pairwise(line):
        if run <= b[0]:
            return drop(a, b)
    return drop(line[-2], line[-1])


def drop(a: RunZ, b: RunZ) -> float:
    """Depth of the top chord from ``a`` to ``b`` measured plumb, mm."""
    return TOP_CHORD * math.dist(a, b) / abs(b[0] - a[0])
