"""A film as one display list from far to near: each piece says when it is seen, and when it comes down into place.

What ever stands is divided once, as it stands at the end, so that what lies before what is known for every moment.
Framing and bracing come when they are put on, and go when they are taken off.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

from trainer.film import Film, Shot
from trainer.layout import Layout
from trainer.picture.angled import FINE, Scene3, angled
from trainer.picture.finished import box_of
from trainer.picture.framing import FittedTimber, framing
from trainer.picture.model import Box, Item, Line, Text
from trainer.picture.moments import Pieces
from trainer.picture.ordering import PaintNode, Rod, Thing, from_far_to_near
from trainer.picture.solids import Solid, Stander
from trainer.picture.space import Turn
from trainer.picture.struts import Strut, struts
from trainer.picture.timbers import Timbers
from trainer.site import Fix, Mark, Site
from trainer.site.model import changed

LIFT = 2400.0
"""From how far above its place a truss comes down, mm."""
CONNECTOR = 110.0
"""How high a connector is drawn over the plate, mm; a look only."""
AROUND = 300.0
"""How much of the ground outside the eaves is shown, mm."""
MARK_OUT = 70.0
"""How far a chalk line goes past the plate, mm; a look only."""
TAG_PX = 15.0
ALWAYS = -1
"""Since when that is to be seen which is there before the film begins, ms."""
NONE: Mapping[str, Any] = {"bracing": (), "permanent": (), "strings": (), "fitted": {}}
"""A site's fields of bracing and framing, where there is none of it."""
Spans = tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class Seen:
    """An item with the times, (from, to) ms, at which it is to be seen; ``lift`` is when it comes down, if it does."""

    item: Item
    spans: Spans
    lift: tuple[int, int] | None = None

    def at(self, ms: int) -> bool:
        """Whether it is to be seen at a moment: not yet at the one at which it begins to come."""
        return any(start < ms <= end for start, end in self.spans)

    def moves(self, ms: int) -> bool:
        """Whether it is on its way down at a moment."""
        return self.lift is not None and self.lift[0] < ms < self.lift[1]


def lifted(lift: tuple[int, int], ms: int) -> float:
    """Return how far above its place what comes down is at a moment, mm: slower and slower."""
    left = 1.0 - min(1.0, max(0.0, (ms - lift[0]) / max(1, lift[1] - lift[0])))
    return LIFT * left * left


def turn_of(layout: Layout) -> Turn:
    """Return the usual look at a house."""
    left, bottom, right, top = layout.house.plan.bounds
    return Turn(middle=((left + right) / 2, (bottom + top) / 2))


class Filmed:
    """A film from one side. ``wide_px`` is about how wide it is shown: where that is little, timbers are strokes."""

    def __init__(self, film: Film, wide_px: float) -> None:
        self._film = film
        self._layout = film.sites[0].layout
        self.turn = turn_of(self._layout)
        self.box: Box = box_of(self._layout.house, self._layout.roof, self.turn, AROUND, LIFT)
        self._fine = wide_px / (self.box[2] - self.box[0]) >= FINE
        self._end = film.length_ms + 1
        self._solids: Mapping[str, Solid] = Stander(self._layout).solids(film.sites[-1])
        self._stood = {shot.step.tag: shot for shot in film.shots if shot.step.verb == "stand"}

    def items(self) -> Iterator[Seen]:
        """Yield all that is ever seen, in painting order; of a large house that takes some seconds."""
        yield from self._ground()
        yield from self._marks()
        yield from self._built()
        yield from self._tags()

    def _ground(self) -> Iterator[Seen]:
        bare = Scene3(self._layout, {}, ())
        for item in angled(bare, self.turn, 1.0):
            yield Seen(item, ((ALWAYS, self._end),))

    def _marks(self) -> Iterator[Seen]:
        plan = self._layout.house.plan
        for shot in self._film.shots:
            if isinstance(shot.action, Mark) and shot.action.wall in plan.by_name:
                wall = plan.by_name[shot.action.wall]
                (x, y), (nx, ny) = wall.at(shot.action.at), wall.inward
                ends = [(x + nx * by, y + ny * by, 0.0) for by in (-MARK_OUT, plan.plate_width + MARK_OUT)]
                yield Seen(Line(self.turn.all_flat(ends), "mark", 1.8), ((shot.start_ms, self._end),))

    def _tags(self) -> Iterator[Seen]:
        """Yield the tag of each truss over it, until the next one comes."""
        shots = list(self._stood.values())
        ends = [*(shot.start_ms for shot in shots[1:]), self._end]
        for shot, end in zip(shots, ends, strict=True):
            at = self.turn.flat(self._solids[shot.step.tag].apex)
            tag = Text(at, shot.step.tag, "ink", TAG_PX, "px", bold=True, ground="paper", off=(0.0, 1.0))
            yield Seen(tag, ((shot.end_ms - 1, min(end, shot.end_ms + 4 * shot.ms)),))

    def _built(self) -> Iterator[Seen]:
        """Yield trusses, framing and bracing as they come and go."""
        rods = {thing: tuple(spans) for thing, spans in self._rods().items()}
        site = self._film.sites[-1]
        joined = {tag for tag, parts in site.fitted.items() if any(part.part == "plies joined" for part in parts)}
        timbers = tuple(rod for rod in rods if isinstance(rod, FittedTimber))
        scene = Scene3(self._layout, self._solids, tuple(r for r in rods if isinstance(r, Strut)), timbers)
        draw = Timbers(self.turn, fine=self._fine, joined=frozenset(joined))

        def spans_of(thing: Thing) -> Spans:
            if isinstance(thing, Rod):
                return rods[thing.of]
            return ((self._stood[thing.solid.tag].start_ms, self._end),)

        lifts = {shot.start_ms: (shot.start_ms, shot.end_ms) for shot in self._stood.values()}
        for node in from_far_to_near(scene.tree, self.turn.away):
            for item, moments in _painted(node, draw, spans_of, self._end):
                spans = tuple(zip(moments[::2], moments[1::2], strict=True))
                yield Seen(item, spans, lifts.get(moments[0]))

    def _rods(self) -> dict[Strut | FittedTimber, list[tuple[int, int]]]:
        """Return what is between trusses, with when it is there."""
        found: dict[Strut | FittedTimber, list[tuple[int, int]]] = {}
        there: dict[Hashable, tuple[int, list[Strut | FittedTimber]]] = {}

        def gone(piece: Hashable, at: int) -> None:
            start, made = there.pop(piece)
            for rod in made:
                found.setdefault(rod, []).append((start, at))

        for shot, (before, after) in zip(self._film.shots, pairwise(self._film.sites), strict=True):
            if (before.bracing, before.permanent, before.strings, before.fitted) != (
                after.bracing, after.permanent, after.strings, after.fitted,
            ):  # fmt: skip
                now = dict(_pieces(after))
                for piece in [piece for piece in there if piece not in now]:
                    gone(piece, shot.start_ms)
                for piece in [piece for piece in now if piece not in there]:
                    alone = changed(after, **{**NONE, **now[piece]})
                    made: list[Strut | FittedTimber] = [*struts(alone, self._solids), *framing(alone, self._solids)]
                    there[piece] = (shot.start_ms, made)
            if isinstance(shot.action, Fix) and shot.action.end is not None:
                connector = self._connector(shot)
                found.setdefault(connector, []).append((shot.start_ms, self._end))
        for piece in [*there]:
            gone(piece, self._end)
        return found

    def _connector(self, shot: Shot) -> Strut:
        """Return what fixes an end of a truss."""
        assert isinstance(shot.action, Fix)
        solid = self._solids[shot.action.tag]
        run = 0.0 if shot.action.end == 1 else solid.member.span
        low, high = (solid.at(run, solid.framed.base + up) for up in (0.0, CONNECTOR))
        return Strut("wall tie", low, high, (shot.action.tag,))


def _pieces(site: Site) -> Iterator[tuple[Hashable, Mapping[str, Any]]]:
    """Yield each piece of bracing and framing of a site, with the fields of one that has no other."""
    for piece in site.bracing:
        yield piece, {"bracing": (piece,)}
    for lasting in site.permanent:
        yield lasting, {"permanent": (lasting,)}
    for string in site.strings:
        yield ("string", *string), {"strings": (string,)}
    for tag, parts in site.fitted.items():
        for part in parts:
            yield (tag, part), {"fitted": {tag: (part,)}}


def _painted(
    node: PaintNode, draw: Timbers, spans_of: Callable[[Thing], Spans], end: int
) -> Iterator[tuple[Item, list[int]]]:
    """Yield what lies in one plane, item by item, with the moments from and to which each is there."""
    things = [*node.sheets, *node.crossing]
    moments = sorted({moment for thing in things for span in spans_of(thing) for moment in span} - {end})
    pieces = Pieces()
    for moment in moments:

        def there(thing: Thing, moment: int = moment) -> bool:
            return any(start <= moment < stop for start, stop in spans_of(thing))

        part = replace(
            node, sheets=[sheet for sheet in node.sheets if there(sheet)],
            crossing=[thing for thing in node.crossing if there(thing)],
        )  # fmt: skip
        pieces.show(moment, draw.node(part))
    yield from pieces.spans(end)
