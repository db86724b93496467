"""What was found, on the views of a site: the trusses that it is about, each ringed and named with its severity."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from trainer.picture.as_built import TAG_PX, LyingPiece, lying, tag_of
from trainer.picture.cut import SectionLine
from trainer.picture.model import Item, Line, Polygon, Ring, Text
from trainer.picture.solids import Solid
from trainer.picture.space import Turn
from trainer.picture.tags import naming
from trainer.site.model import Site
from trainer.words import _

INKS = {"stop-work": "stop", "rework": "rework", "tolerance": "tolerance", "habit": "habit"}
DASHES: Mapping[str, tuple[float, ...]] = {
    "stop-work": (), "rework": (18.0, 6.0), "tolerance": (7.0, 5.0), "habit": (2.5, 5.0),
}  # fmt: skip
"""How the ring of each severity is broken, px, so that it is told apart without its colour: the worst is whole."""

RING_WIDE = 190.0
"""How much wider than its truss a ring on the plan is, mm."""


@dataclass(frozen=True, slots=True)
class FoundMark:
    """One finding to be shown: the truss that it is about, its severity, and a word or two to stand beside it."""

    tag: str
    severity: str
    words: str = ""
    strong: bool = True


def on_plan(site: Site, found: Iterable[FoundMark]) -> list[Item]:
    """Return a ring round each truss of a finding, at hand-over also where one is missing, and its words beside it."""
    items: list[Item] = []
    words: list[Text] = []
    for one in found:
        named = named_on_plan(site, one.tag)
        if named is None:
            continue
        role, member = INKS[one.severity], site.layout.by_tag[one.tag]
        wide, stood = member.width, site.stood.get(one.tag)
        lies = lying(stood) if stood else LyingPiece(member.start, member.finish)
        ring = Ring(role, wide + RING_WIDE, 3.0, DASHES[one.severity])
        items.append(replace(named, text="" if stood else named.text, ringed=ring))
        aside = wide / 2 + 280
        at, *places = (lies.at(lies.length * part, side) for part in (0.75, 0.25, 0.5) for side in (-aside, aside))
        words.append(Text(at, one.words, role, 15.0, "px", bold=True, ground="paper", places=tuple(places), rows=6))
    return [*items, *words]


def named_on_plan(site: Site, tag: str) -> Text | None:
    """Return the tag of a standing truss, or at hand-over that of one that is missing, at its place; else None."""
    if tag in site.stood:
        return tag_of(site, tag)
    if not site.handed_over or tag not in site.layout.by_tag:
        return None
    member, words = site.layout.by_tag[tag], _("{tag} missing").format(tag=tag)
    lies = LyingPiece(member.start, member.finish)
    names = replace(naming(site.layout, tag, lies.start, lies.finish), row=words)  # it shares no text
    at, *places = (lies.at(lies.length * part) for part in (0.5, 0.38, 0.62, 0.26))
    return Text(at, words, "ink", TAG_PX, "px", bold=True, ground="paper", places=tuple(places), names=names)


def on_angled(
    found: Iterable[FoundMark], solids: Mapping[str, Solid], turn: Turn, scale: float, chosen: str = ""
) -> list[Item]:
    """Return rings round the trusses of findings, and round the chosen one, in the angled view.

    ``scale`` is in px per mm.
    """
    items: list[Item] = []
    words: list[Text] = []
    if chosen in solids:
        rim = turn.all_flat(solids[chosen].rim)
        # On a ground of its own, so that it stands out from whatever lies behind it.
        items += [Line(rim, "paper", 10.0), Line(rim, "mark", 3.0)]
    for one in found:
        if one.tag not in solids:
            continue
        role = INKS[one.severity]
        rim = turn.all_flat(solids[one.tag].rim)
        items.append(Line(rim, role, 4.0 if one.strong else 2.0, "px", DASHES[one.severity]))
        if one.words and one.strong:
            x, y = turn.flat(solids[one.tag].apex)
            high = (x, y + 24 / scale)
            lower = tuple((x, y - px / scale) for px in (20, 64))  # where others stand above it already
            at_apex = Text(high, one.words, role, 15.0, "px", bold=True, ground="paper", off=(0.0, 0.4), rows=5)
            words.append(replace(at_apex, places=lower, spare=True))
            items.append(Line(((x, y), high), role, 2.0))
    worst = list(INKS.values())  # they have their words first, where there is no room for all
    return [*items, *sorted(words, key=lambda text: worst.index(text.role))]


def on_section(found: Iterable[FoundMark], solids: Mapping[str, Solid], cut: SectionLine) -> list[Item]:
    """Return a stroke over the top of each truss of a finding that the section shows from the side."""
    items: list[Item] = []
    for one in found:
        solid = solids.get(one.tag)
        if solid is None or max(abs(cut.place(end)[1]) for end in (solid.start, solid.finish)) > solid.member.width:
            continue
        rim = tuple(cut.paper(place) for place in solid.rim)
        items.append(Line(rim, INKS[one.severity], 4.0, "px", DASHES[one.severity]))
    return items


def loose(tags: Iterable[str], solids: Mapping[str, Solid], turn: Turn, scale: float) -> list[Item]:
    """Return an open ring over each truss that nothing holds yet, at ``scale`` px per mm."""
    items: list[Item] = []
    for tag in tags:
        x, y = turn.flat(solids[tag].apex)
        middle, radius = y + 16 / scale, 6 / scale
        items.append(Line(((x, y), (x, middle - radius)), "brace", 1.5))
        ring = tuple(
            (x + radius * math.cos(math.tau * i / 12), middle + radius * math.sin(math.tau * i / 12)) for i in range(12)
        )
        items.append(Polygon(ring, "paper", "brace", 2.0))
    return items
