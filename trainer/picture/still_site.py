"""The still part of the plan of a site, put together from pieces that are kept until what they show changes."""

from __future__ import annotations

from trainer.layout import Layout
from trainer.picture import as_built, as_framed, dangers, fall_zone
from trainer.picture.falling import down
from trainer.picture.model import Item
from trainer.picture.solids import Stander
from trainer.picture.struts import struts
from trainer.picture.trusses import in_strokes
from trainer.site.model import Site, Stood


class StillSite:
    """Gives the display list of a site; trusses that have not moved are not worked out again."""

    def __init__(self, layout: Layout) -> None:
        self._ground = as_built.ground(layout)
        self._names = as_built.wall_names(layout)
        self._stander = Stander(layout)
        self._pieces: dict[str, tuple[Stood, frozenset[str], list[Item]]] = {}

    def items(self, site: Site, scale: float, share: float = 1.0) -> list[Item]:
        """Everything of the site that keeps still, in painting order, for a view of ``scale`` px per mm.

        A row that went over lies where it fell; while it is falling, ``share`` of the fall is over.
        """
        solids, fell = self._stander.solids(site, share=share), down(site)
        items = [
            *self._ground,
            *self._names,
            *fall_zone.on_plan(site),
            *dangers.on_plan(site, above=False),
            *as_built.marks(site),
        ]
        order = as_built.painting_order(site)
        for tag in order:
            if tag not in fell:
                items += in_strokes(self._truss(site, tag), site.layout.by_tag[tag], scale)
                items += as_framed.out_of_true(solids[tag], scale)
        items += as_framed.framing(site)
        items += as_built.fittings(site)
        braces = struts(site, solids)
        items += as_framed.bracing(braces)
        items += as_framed.fallen(site, solids)
        items += fall_zone.words_on_plan(site)
        items += [as_built.tag_of(site, tag) for tag in order]
        items += [*dangers.on_plan(site, above=True), *dangers.words_on_plan(site)]
        items += as_framed.fixed_to(site, braces)
        return items

    def outlying(self, _scale: float) -> list[Item]:
        """What is lettered outside the eaves: the walls' names."""
        return self._names

    def _truss(self, site: Site, tag: str) -> list[Item]:
        stood = site.stood[tag]
        carriers = frozenset(c for c in site.layout.by_tag[tag].carried_by if c in site.stood)
        kept = self._pieces.get(tag)
        if kept is None or kept[0] != stood or kept[1] != carriers:
            kept = self._pieces[tag] = (stood, carriers, as_built.standing(site, tag))
        return kept[2]
