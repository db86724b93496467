"""Where each truss's tag is written, so that no two tags meet and little lies under them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.layout import Layout, Member
from trainer.picture.lettering import meet, text_box
from trainer.picture.model import Box, Group, Named, Text
from trainer.picture.trusses import along, body_runs
from trainer.plan import Point
from trainer.terms import TrussKind

SMALLEST, LARGEST = 70.0, 190.0
"""Lettering of tags, mm on the plan."""
_FIRST_PLACE: dict[TrussKind, float] = {
    "standard": 0.34, "truncated": 0.34, "truncated_girder": 0.34, "girder": 0.5, "gable": 0.34,
    "hip": 0.42, "jack": 0.55, "creeper": 0.5, "saddle": 0.5, "half": 0.4,
}  # fmt: skip
"""Where along its body a tag is tried first, so that the tags of a row line up."""
NEIGHBOURS = 1.5
"""Trusses of a row are neighbours up to so many spacings apart."""
_STEPS = (0, -1, 1, -2, 2, -3, 3, -4, 4, -6, 6, -8, 8)
_ORDER: tuple[TrussKind, ...] = (
    "creeper", "saddle", "hip", "jack", "girder", "truncated_girder", "gable", "truncated", "half", "standard",
)  # fmt: skip
"""The ones with least room choose first."""


def tag_size(layout: Layout) -> float:
    """Return the height of tags, mm: three in ten of the spacing, within limits."""
    longest = max((len(member.tag) for member in layout.members), default=2)
    return min(LARGEST, max(SMALLEST, layout.house.trusses.spacing * 0.3 * min(1.0, 4 / longest)))


def tags(layout: Layout, letters: float | None = None, taken: Sequence[Box] = ()) -> Group:
    """Return the tag of every truss, ``letters`` mm high or as the spacing has room for, level, on its own truss.

    They keep clear of what is ``taken`` already, where they can.
    """
    size = letters or tag_size(layout)
    bodies = {member.tag: _pieces(layout, member) for member in layout.members}
    placed: dict[str, Text] = {}
    boxes = list(taken)
    for member in sorted(layout.members, key=lambda m: (_ORDER.index(m.kind), m.span)):
        candidates = list(_candidates(layout, member, size))
        text = min(candidates, key=lambda c: _cost(c, member.tag, boxes, bodies))[1]
        # Where a screen has to letter larger than this, any other of them will do, or none.
        placed[member.tag] = replace(text, places=tuple(other.at for _rank, other in candidates), spare=True)
        boxes.append(text_box(text, pad=0.1))
    return Group("tags", tuple(Group("tags", (placed[m.tag],), m.tag) for m in layout.members))


def _candidates(layout: Layout, member: Member, size: float) -> Iterator[tuple[int, Text]]:
    """Yield places for the tag, the likeliest first, each with how far down the list it is."""
    begin, finish = body_runs(layout, member)
    inner, outer = max(begin, 0.0), min(finish, member.span)
    first = inner + (outer - inner) * _FIRST_PLACE[member.kind]
    ground = "paper"
    for rank, step in enumerate(_STEPS):
        run = first + step * size * 0.8
        if begin <= run <= max(finish, member.top[-1][0]):
            yield rank, Text(along(member, run), member.tag, "ink", size, bold=True, ground=ground)


def _cost(
    candidate: tuple[int, Text], tag: str, boxes: list[Box], bodies: dict[str, list[Box]]
) -> tuple[int, int, int]:
    """Return tags met, trusses covered, and how far from the first choice."""
    rank, text = candidate
    box = text_box(text, pad=0.1)
    met = sum(meet(box, other) for other in boxes)
    covered = sum(any(meet(box, piece) for piece in pieces) for other, pieces in bodies.items() if other != tag)
    return met, covered, rank


def _pieces(layout: Layout, member: Member) -> list[Box]:
    """Return level boxes that cover the truss's whole length; a slanting one is cut into short pieces."""
    begin, finish = body_runs(layout, member)
    finish = max(finish, member.top[-1][0])
    dx, dy = member.direction
    count = 1 if min(abs(dx), abs(dy)) < 1e-6 else max(1, round((finish - begin) / 100))
    half = member.width / 2
    stops = [along(member, begin + (finish - begin) * i / count) for i in range(count + 1)]
    return [_box_of(a, b, half) for a, b in pairwise(stops)]


def _box_of(a: Point, b: Point, pad: float) -> Box:
    return (min(a[0], b[0]) - pad, min(a[1], b[1]) - pad, max(a[0], b[0]) + pad, max(a[1], b[1]) + pad)


def naming(layout: Layout, tag: str, start: Point, finish: Point) -> Named:
    """Return what the tag of a truss that stands there names, with the row in which it may share a text."""
    member = layout.by_tag[tag]
    row = f"{tag.rstrip('0123456789')} {member.wing}"
    return Named(start, finish, row, number_of(tag), NEIGHBOURS * layout.house.trusses.spacing)


def number_of(tag: str) -> int:
    """Return the number in a tag."""
    digits = "".join(char for char in tag if char.isdigit())
    return int(digits) if digits else 0
