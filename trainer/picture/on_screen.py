"""The layout drawing on a screen: as large as there is room for, where a sheet has a scale that it was made for."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from trainer.layout import Layout, Member
from trainer.picture.model import Group, Item, Picture, Ring, Text, flat
from trainer.picture.tags import naming
from trainer.picture.trusses import along, in_strokes, thin_in_strokes

RING_WIDE, TAG_PX = 220.0, 16.0
"""How much wider than a truss the ring round its place is, mm, and the size of its tag there."""
SPOTS = (0.5, 0.4, 0.6, 0.3, 0.7)
"""Where along a ringed truss its tag may stand."""


def on_screen(layout: Layout, picture: Picture) -> Callable[[float], list[Item]]:
    """Return what gives a drawing of a layout for a scale in px per mm.

    Trusses that would be too thin are drawn in strokes, and tags without room share theirs or are led away.
    """

    def items(group: Group, scale: float) -> Iterator[Item]:
        member = layout.by_tag.get(group.of)
        if member is not None and group.layer == "trusses":
            yield from in_strokes(list(flat(group)), member, scale)
            return
        for item in group.items:
            if isinstance(item, Group):
                yield from items(item, scale)
            elif member is not None and group.layer == "tags" and isinstance(item, Text):
                yield replace(item, names=naming(layout, member.tag, member.start, member.finish))
            else:
                yield from thin_in_strokes(item, scale)

    def layer(group: Group, scale: float) -> list[Item]:
        drawn = list(items(group, scale))
        if group.layer != "measures":
            return drawn
        # No mark or tape strikes through a figure: at an inside corner one wall's figures stand by another's marks.
        figures = [replace(item, ground=item.ground or "paper") for item in drawn if isinstance(item, Text)]
        return [*(item for item in drawn if not isinstance(item, Text)), *figures]

    return lambda scale: [item for group in picture.layers for item in layer(group, scale)]


def ring_round(layout: Layout, member: Member, *, strong: bool = False) -> Text:
    """Return the ring round a truss where it belongs, and round its tag."""
    at, *places = [along(member, member.span * part) for part in SPOTS]
    ring = Ring("mark", member.width + RING_WIDE, 5.0 if strong else 3.0)
    names = naming(layout, member.tag, member.start, member.finish)
    return Text(
        at, member.tag, "ink", TAG_PX, "px", bold=True, ground="select", places=tuple(places), names=names, ringed=ring
    )
