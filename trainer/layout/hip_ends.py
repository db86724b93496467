"""The hip ends of a layout: the girder of each, what runs from it down to the plates, and what that crosses."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from trainer.layout.model import Crossing, Layout

HANGS_OUT = ("hip", "jack", "creeper")


@dataclass(frozen=True, slots=True)
class HipEndTags:
    """A hip end, by places: the ``girder`` that it hangs on, its hips, jacks and creepers, and where these cross
    truncated trusses or land on a waling plate, by the truss that is crossed or landed on.
    """

    girder: str
    members: frozenset[str]
    over: Mapping[str, tuple[Crossing, ...]]


def hip_ends(layout: Layout) -> tuple[HipEndTags, ...]:
    """Return the hip ends of a layout that hang on a truncated girder, or on a dutch gable's in its place."""
    return tuple(_hip_ends(layout))


def _hip_ends(layout: Layout) -> Iterator[HipEndTags]:
    by_tag = layout.by_tag
    for girder in (member.tag for member in layout.members if member.kind == "truncated_girder" or member.is_dutch):
        rows = {by_tag[tag].row for tag in layout.carries[girder] if by_tag[tag].kind == "hip"}
        members = frozenset(m.tag for m in layout.members if m.kind in HANGS_OUT and m.row in rows)
        over: dict[str, list[Crossing]] = {}
        for crossing in layout.crossings:
            under = by_tag[crossing.under]
            if crossing.what == "extension" and crossing.over in members and (under.flat_topped or under.is_dutch):
                over.setdefault(under.tag, []).append(crossing)
        if members:
            yield HipEndTags(girder, members, MappingProxyType({tag: tuple(found) for tag, found in over.items()}))
