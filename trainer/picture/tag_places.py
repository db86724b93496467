"""Where the tags of timbers stand: each on its own, joined as a range, or at the end of a leader line.

What is shortest has least room and chooses first. A row of neighbours of which some have no room shares texts, as
"ST29–ST37", with a line across those that are meant. What still has no room is led to from a free place nearby.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from trainer.picture.lettering import PAD, SPARE_PAD, text_box
from trainer.picture.model import Box, Item, Line, Named, Polygon, Text
from trainer.picture.taken import Taken
from trainer.plan import Point

SPOTS = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88)
"""Where along the shortest of a row the line of a range may cross it."""
RADII, ANGLES = (0.8, 1.6, 2.6, 4.0, 6.0, 8.5), 14
"""How far a tag may stand from what it names, in ems, and in how many directions."""
OVER_TIMBER = 0.3
"""What a tag costs for each piece of timber that it covers, in ems of a longer leader."""
FEET = (0.5, 0.2, 0.8)
"""Where along its timber a leader may end."""
TICK, DOT = 0.5, 0.17
"""Half a tick at the end of a range, and half a leader's dot, in ems."""
LINE_PX, HALO_PX = 1.4, 4.0
"""Width of a leader, and of the ground under it, px."""
MOST_SINGLES = 1
"""Where more than this of a row have no room, the row is lettered in ranges."""


@dataclass
class Tagged:
    """What was placed: display list, tags that stand by themselves, tags left out."""

    items: list[Item] = field(default_factory=list)
    alone: dict[Named, Text] = field(default_factory=dict)
    left_out: tuple[str, ...] = ()


@dataclass(frozen=True)
class _Shared:
    """One text for neighbours: it, the lines that say which are meant, and the room of the one across them."""

    text: Text
    lines: list[Item]
    bar: Box


def place_tags(tags: Sequence[Text], taken: Taken, scale: float, within: Box | None = None) -> Tagged:
    """Give every tag a place of its own, a share of a range, or a leader ``within`` a box, at ``scale`` px per mm."""
    return _Placer(tags, taken, scale, within).placed()


class _Placer:
    def __init__(self, tags: Sequence[Text], taken: Taken, scale: float, within: Box | None) -> None:
        self._taken = taken
        self._within = within
        self._scale = scale
        self._tags = tags
        self._alone: dict[Named, Text] = {}
        self._under: list[Item] = []
        self._over: list[Text] = []
        self._timber: set[tuple[int, int]] = set()

    def placed(self) -> Tagged:
        rows = sorted(_rows(self._tags), key=lambda row: min(map(_length, row)))
        for row in rows:
            for tag in row:
                self._by_itself(tag)
        for row in rows:
            if len(row) > 1 and len(self._waiting(row)) > MOST_SINGLES and self._in_ranges(row):
                row.clear()
        # What has no neighbours to stand for it, a girder or a hip, is led to before them.
        waiting = self._waiting([tag for row in sorted(rows, key=len) for tag in row])
        left_out = [tag.text for tag in waiting if not self._by_itself(tag) and not self._led_to(tag)]
        alone = [self._alone[_names(tag)] for tag in self._tags if _names(tag) in self._alone]
        return Tagged([*self._under, *self._over, *alone], self._alone, tuple(left_out))

    def _waiting(self, row: Sequence[Text]) -> list[Text]:
        return [tag for tag in row if _names(tag) not in self._alone]

    def _by_itself(self, tag: Text) -> bool:
        """Put a tag on its own timber, at the first of its places that is free."""
        room = _room(tag, self._scale, SPARE_PAD)
        at = next((at for at in (tag.at, *tag.places) if self._taken.free(_moved(room, at))), None)
        if at is not None or not tag.spare:
            self._take(replace(tag, at=at or tag.at, places=()))
            return True
        return False

    def _take(self, tag: Text) -> None:
        self._taken.add(text_box(tag, self._scale, PAD))
        self._alone[_names(tag)] = tag

    def _in_ranges(self, row: list[Text]) -> bool:
        """Letter a row in the shortest ranges that have room; where none have, leave its tags as they are."""
        singles = [self._alone.pop(_names(tag)) for tag in row if _names(tag) in self._alone]
        for tag in singles:
            self._taken.drop(text_box(tag, self._scale, PAD))
        for parts, led in (*((parts, False) for parts in range(len(row) // 2, 0, -1)), (1, True)):
            ranges: list[_Shared] = []
            for neighbours in _shared_out(row, parts):
                found = self._range(neighbours, led=led)
                if found is None:
                    break
                ranges.append(found)
                for box in self._boxes(found):
                    self._taken.add(box)
            if len(ranges) == parts:
                self._over += [shared.text for shared in ranges]
                self._under += [line for shared in ranges for line in shared.lines]
                return True
            for box in (box for shared in ranges for box in self._boxes(shared)):
                self._taken.drop(box)
        for tag in singles:
            self._take(tag)
        return False

    def _boxes(self, shared: _Shared) -> tuple[Box, Box]:
        return (text_box(shared.text, self._scale, PAD), shared.bar)

    def _range(self, row: Sequence[Text], *, led: bool) -> _Shared | None:
        """Return one text for a row, the line across what it means, and the room of both; none where it has no room."""
        first, last = row[0], row[-1]
        text = replace(first, text=f"{first.text}–{last.text}", places=())
        wide, tall = _room(text, self._scale, PAD)
        em = text.size / self._scale
        for a, b in _lines_across(row):
            length = math.dist(a, b) or 1.0
            ux, uy = abs(b[0] - a[0]) / length, abs(b[1] - a[1]) / length
            tick = TICK * em
            bar = (min(a[0], b[0]) - tick * uy, min(a[1], b[1]) - tick * ux,
                   max(a[0], b[0]) + tick * uy, max(a[1], b[1]) + tick * ux)  # fmt: skip
            middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
            if not self._taken.free(bar):
                continue
            if led:
                self._taken.add(bar)
                found = self._leader(text, [middle])
                self._taken.drop(bar)
                if found is not None:
                    moved, lines = found
                    return _Shared(moved, [*self._bar(a, b, tick), *lines], bar)
            elif 2 * (wide * ux + tall * uy) + em <= length:
                moved = replace(text, at=middle)
                if self._taken.free(_moved(_room(text, self._scale, SPARE_PAD), middle)):
                    return _Shared(moved, self._bar(a, b, tick), bar)
        return None

    def _bar(self, a: Point, b: Point, tick: float) -> list[Item]:
        length = math.dist(a, b) or 1.0
        nx, ny = -(b[1] - a[1]) / length * tick, (b[0] - a[0]) / length * tick
        lines = [(a, b), *(((x - nx, y - ny), (x + nx, y + ny)) for x, y in (a, b))]
        halo: list[Item] = [Line(line, "paper", HALO_PX + 1.0) for line in lines]
        return [*halo, *(Line(line, "ink", LINE_PX) for line in lines)]

    # leaders

    def _led_to(self, tag: Text) -> bool:
        """Put a tag in a free place near its timber, with a line to it."""
        found = self._leader(replace(tag, places=()), [_along(_names(tag), share) for share in FEET])
        if found is None:
            return False
        moved, lines = found
        self._take(moved)
        self._under += lines
        return True

    def _leader(self, text: Text, feet: Sequence[Point]) -> tuple[Text, list[Item]] | None:
        """Return a text in a free place near one of ``feet``, with the line to it, whose room is then taken."""
        em, room = text.size / self._scale, _room(text, self._scale, SPARE_PAD)
        tight = _room(text, self._scale, PAD)
        best: tuple[float, Point, Point, Point] | None = None
        for radius in RADII:
            for foot in feet:
                for step in range(ANGLES):
                    if best is not None and radius >= best[0]:
                        break
                    away, turn = radius * em, math.tau * step / ANGLES
                    at = (foot[0] + (away + tight[0]) * math.cos(turn), foot[1] + (away + tight[1]) * math.sin(turn))
                    box = _moved(room, at)
                    if not self._inside(box) or not self._taken.free(box):
                        continue
                    cost = radius + OVER_TIMBER * self._covered(box, em)
                    tip = _nearest(_moved(tight, at), foot)
                    if (best is None or cost < best[0]) and self._taken.clear(foot, tip):
                        best = (cost, at, foot, tip)
        if best is None:
            return None
        _cost, at, foot, tip = best
        self._taken.add_line(foot, tip)
        dot = DOT * em
        turns = [math.tau * i / 8 for i in range(8)]
        round_it = tuple((foot[0] + dot * math.cos(turn), foot[1] + dot * math.sin(turn)) for turn in turns)
        lines: list[Item] = [Line((foot, tip), "paper", HALO_PX), Line((foot, tip), "ink", LINE_PX)]
        return replace(text, at=at), [*lines, Polygon(round_it, "ink")]

    def _inside(self, box: Box) -> bool:
        within = self._within
        return within is None or (
            within[0] <= box[0] and within[1] <= box[1] and box[2] <= within[2] and box[3] <= within[3]
        )

    def _covered(self, box: Box, em: float) -> int:
        """Return how many pieces of timber, an em each, lie under a box."""
        if not self._timber:
            for tag in self._tags:
                names = _names(tag)
                pieces = max(1, math.ceil(2 * _length(tag) / em))
                for piece in range(pieces + 1):
                    x, y = _along(names, piece / pieces)
                    self._timber.add((math.floor(x / em), math.floor(y / em)))
        left, low, right, high = (math.floor(side / em) for side in box)
        return sum((x, y) in self._timber for x in range(left, right + 1) for y in range(low, high + 1))


def _names(tag: Text) -> Named:
    assert tag.names is not None
    return tag.names


def _length(tag: Text) -> float:
    return math.dist(_names(tag).start, _names(tag).finish)


def _along(names: Named, share: float) -> Point:
    (ax, ay), (bx, by) = names.start, names.finish
    return (ax + (bx - ax) * share, ay + (by - ay) * share)


def _room(text: Text, scale: float, pad: float) -> Point:
    """Return half the width and height that a text takes, mm."""
    left, low, right, high = text_box(text, scale, pad)
    return ((right - left) / 2, (high - low) / 2)


def _moved(room: Point, at: Point) -> Box:
    return (at[0] - room[0], at[1] - room[1], at[0] + room[0], at[1] + room[1])


def _nearest(box: Box, place: Point) -> Point:
    return (min(max(place[0], box[0]), box[2]), min(max(place[1], box[1]), box[3]))


def _rows(tags: Sequence[Text]) -> list[list[Text]]:
    """Return the tags in rows of neighbours whose numbers follow each other."""
    rows: dict[str, list[list[Text]]] = {}
    for tag in sorted(tags, key=lambda tag: (_names(tag).row, _names(tag).number)):
        begun = rows.setdefault(_names(tag).row, [])
        onward = next((row for row in begun if _goes_on(row, tag)), None)
        if onward is not None:
            onward.append(tag)
        else:
            begun.append([tag])
    return [row for begun in rows.values() for row in begun]


def _goes_on(row: Sequence[Text], tag: Text) -> bool:
    """Whether a tag is the next of a row, in the direction in which it went so far."""
    step = _step(row[-1], tag)
    return step is not None and (len(row) < 2 or _same_way(_step(row[-2], row[-1]), step))


def _step(one: Text, other: Text) -> Point | None:
    """Return the step across from a timber to its neighbour; none where they are no neighbours."""
    a, b = _names(one), _names(other)
    length = math.dist(a.start, a.finish) or 1.0
    ux, uy = (a.finish[0] - a.start[0]) / length, (a.finish[1] - a.start[1]) / length
    offs = [(x - a.start[0]) * -uy + (y - a.start[1]) * ux for x, y in (b.start, b.finish)]
    if a.row != b.row or b.number != a.number + 1 or abs(offs[0] - offs[1]) > 1.0 or not 0.0 < abs(offs[0]) <= a.reach:
        return None
    runs = sorted((x - a.start[0]) * ux + (y - a.start[1]) * uy for x, y in (b.start, b.finish))
    return (-uy * offs[0], ux * offs[0]) if runs[0] < length and runs[1] > 0 else None


def _same_way(one: Point | None, other: Point) -> bool:
    return one is not None and one[0] * other[0] + one[1] * other[1] > 0


def _shared_out(row: Sequence[Text], parts: int) -> Iterator[Sequence[Text]]:
    for part in range(parts):
        yield row[len(row) * part // parts : len(row) * (part + 1) // parts]


def _lines_across(row: Sequence[Text]) -> Iterator[tuple[Point, Point]]:
    """Yield lines square across all timbers of a row, from the first to the last."""
    shortest = _names(min(row, key=_length))
    for spot in SPOTS:
        x, y = _along(shortest, spot)
        ends = []
        for tag in (row[0], row[-1]):
            names = _names(tag)
            length = _length(tag) or 1.0
            ux, uy = (names.finish[0] - names.start[0]) / length, (names.finish[1] - names.start[1]) / length
            run = (x - names.start[0]) * ux + (y - names.start[1]) * uy
            if 0.0 <= run <= length:
                ends.append((names.start[0] + ux * run, names.start[1] + uy * run))
        if len(ends) == 2:
            yield ends[0], ends[1]
