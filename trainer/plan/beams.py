"""Verandah beams: stretches of the outline where trusses bear on a beam on posts in place of a wall.

A beam lies in line with the plates, its top at their height. Where it stops short of a corner the wall goes on, and
the wall's end carries it; at a corner of the outline stands a post. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from trainer.plan.model import Beam, PlatePlan, wall_name
from trainer.words import _

Stretch = tuple[int, int]
"""From where to where along a wall, mm from its first corner."""
Where = tuple[str | int, ...]


def beams_of(
    plan: PlatePlan, named: Mapping[str, Stretch | None], posts: Mapping[str, Sequence[int]]
) -> tuple[Beam, ...]:
    """Return the beams of a plan that :func:`beam_faults` finds nothing wrong with; None stands for a whole wall."""
    found = []
    for name, stretch in named.items():
        low, high = stretch or (0, int(plan.by_name[name].length))
        own = tuple(map(float, sorted(posts[name]))) if name in posts else None
        found.append(Beam(name, float(low), float(high), own))
    return tuple(found)


def beam_faults(
    outline: Sequence[Sequence[int]],
    gables: Sequence[str],
    beams: Mapping[str, Stretch | None],
    posts: Mapping[str, Sequence[int]],
) -> Iterator[tuple[Where, str]]:
    """Yield (path in a level, what is wrong) for beams and posts on a sound outline, corners in whole mm."""
    lengths = _lengths(outline)
    on: dict[str, Stretch] = {}
    for name, stretch in beams.items():
        where: Where = ("beams", name)
        if (wrong := _no_wall(name, lengths)) is not None:
            yield where, wrong
        elif name in gables:
            yield (
                where,
                _("wall {wall} is a gable, and no truss bears on it; name the walls beside it").format(wall=name),
            )
        else:
            on[name] = stretch or (0, lengths[name])
            if stretch is not None:
                yield from ((where, what) for what in _bad_stretch(name, stretch, lengths[name]))
    for name, places in posts.items():
        if name in on:
            yield from _bad_posts(name, places, on[name])
        elif name not in beams:
            what = _no_wall(name, lengths) or _("wall {wall} has no beam, so it has no posts; name it in beams:")
            yield ("posts", name), what.format(wall=name)


def _lengths(outline: Sequence[Sequence[int]]) -> dict[str, int]:
    return {
        wall_name(i): abs(b[0] - a[0]) + abs(b[1] - a[1])
        for i, (a, b) in enumerate(zip(outline, [*outline[1:], outline[0]], strict=True))
    }


def _no_wall(name: str, lengths: Mapping[str, int]) -> str | None:
    if name in lengths:
        return None
    if name.upper() in lengths:
        return _("did you mean '{name}'? Walls have capital letters").format(name=name.upper())
    return _("is no wall of this house; its walls are A to {last}").format(last=list(lengths)[-1])


def _bad_stretch(name: str, stretch: Stretch, length: int) -> Iterator[str]:
    low, high = stretch
    if low >= high:
        text = _("runs from {low} to {high}; give where it begins first, mm from the wall's first corner")
        yield text.format(low=low, high=high)
    if low < 0 or high > length:
        text = _("runs from {low} to {high}, past the ends of wall {wall}; that is {length} long")
        yield text.format(low=low, high=high, wall=name, length=length)


def _bad_posts(name: str, places: Sequence[int], on: Stretch) -> Iterator[tuple[Where, str]]:
    low, high = on
    for i, place in enumerate(places):
        if place in places[:i]:
            yield ("posts", name, i), _("is given twice; leave it out")
        elif not low <= place <= high:
            text = _("stands at {place}, outside the beam on wall {wall}; that runs from {low} to {high}")
            yield ("posts", name, i), text.format(place=place, wall=name, low=low, high=high)
