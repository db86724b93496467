"""The yard: the packs as they lie, and what a look at a delivered truss shows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from trainer.layout import Layout
from trainer.picture.frame import Framed
from trainer.picture.model import Box, Item, Line, Polygon, Text
from trainer.picture.trusses import FILLS
from trainer.plan import Point
from trainer.site.delivery import Pack
from trainer.words import _

BAR, GAP = 60.0, 16.0
"""Height of one truss lying in a pack, and the air over it, mm; a look only."""
BEARER = 90.0
"""Height of the bearers under a pack, mm."""
FAULTS = {
    "broken web": _("A web is broken."),
    "loose nailplate": _("A nailplate is loose."),
    "unwanted tail": _("It has a tail where none belongs."),
}
"""What is seen on a truss, in words. Swapped tags are seen by the measures alone."""


def stacks(packs: Iterable[Pack], layout: Layout, chosen: str, box: Box) -> Iterator[Item]:
    """Yield the packs beside each other along the foot of ``box``, each truss as long as it is to the others."""
    lying = [pack for pack in packs if pack.tags]
    if not lying:
        return
    left, foot, right, _top = box
    room = (right - left) / len(lying)
    longest = max(layout.by_tag[tag].span for pack in lying for tag in pack.tags)
    for number, pack in enumerate(lying):
        yield from _stack(pack, layout, chosen, (left + room * number, foot + 700), room * 0.86 / longest)


def _stack(pack: Pack, layout: Layout, chosen: str, at: Point, scale: float) -> Iterator[Item]:
    x, z = at
    widest = max(layout.by_tag[tag].span for tag in pack.tags) * scale
    for bearer in (x + widest * 0.15, x + widest * 0.75):
        yield Polygon(
            ((bearer, z - BEARER), (bearer + 120, z - BEARER), (bearer + 120, z), (bearer, z)), "plate", "plate_edge"
        )
    for level, tag in enumerate(reversed(pack.tags)):
        member = layout.by_tag[tag]
        low, inset = z + level * (BAR + GAP), (widest - member.span * scale) / 2
        a, b = x + inset, x + widest - inset
        corners = ((a, low), (b, low), (b, low + BAR), (a, low + BAR))
        edge, wide = ("mark", 2.4) if tag == chosen else ("timber_edge", 0.8)
        yield Polygon(corners, "select" if tag == chosen else FILLS.get(member.kind, "timber"), edge, wide)
    kinds = dict.fromkeys(tag.rstrip("0123456789") for tag in pack.tags)
    counts = ", ".join(f"{sum(t.rstrip('0123456789') == kind for t in pack.tags)} {kind}" for kind in kinds)
    yield Text((x, z - 230), _("Pack {n}").format(n=pack.number), "ink", 14.0, "px", "start", bold=True)
    yield Text((x, z - 430), counts, "faint", 13.0, "px", "start")
    if pack.on_wall:
        yield Text((x, z - 630), _("on wall {wall}").format(wall=pack.on_wall), "accent", 13.0, "px", "start")


def faults(framed: Framed, shown: Iterable[str], box: Box, *, told: bool) -> Iterator[Item]:
    """Yield what is wrong with a delivered truss as one sees it; where it may be ``told``, in words as well."""
    for number, fault in enumerate(what for what in shown if what in FAULTS):
        at = _place(framed, fault)
        yield from _sign(fault, at)
        if not told:
            continue
        yield Line((at, (at[0], at[1] + 420)), "ink", 1.2)
        place = ((box[0] + box[2]) / 2, box[3] + 150 + number * 260)
        yield Text(place, FAULTS[fault], "ink", 15.0, "px", bold=True)


def _place(framed: Framed, fault: str) -> Point:
    webs = framed.frame.webs
    if fault == "broken web" and webs:
        return webs[len(webs) // 2].middle
    if fault == "unwanted tail":
        bare = next((i for i, end in enumerate(framed.member.ends) if not end.tail), 1)
        run = framed.member.span * bare
        return run, framed.roof(run)
    high = framed.peaks[0]
    return high, framed.roof(high) - 60


def _sign(fault: str, at: Point) -> Iterator[Item]:
    x, z = at
    if fault == "broken web":
        yield Line(((x - 90, z + 30), (x - 20, z - 40), (x + 20, z + 40), (x + 90, z - 30)), "ink", 2.5)
        yield Line(((x - 90, z - 10), (x - 20, z - 80), (x + 20, z), (x + 90, z - 70)), "paper", 2.0)
    elif fault == "loose nailplate":
        yield Polygon(((x - 80, z + 50), (x + 70, z + 95), (x + 95, z + 10), (x - 55, z - 35)), "fastener", "ink", 1.0)
    else:
        yield Line(((x, z), (x + 620, z - 260)), "ink", 3.0, "px", (7.0, 4.0))
