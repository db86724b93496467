"""A site seen from above at an angle: what was built, or what a fall left when it came to rest."""

from __future__ import annotations

from dataclasses import replace

from trainer.picture.angled import angled, box_round, scene_of
from trainer.picture.falling import down
from trainer.picture.ground import LANDSCAPE
from trainer.picture.model import SHEET_SCALE, Group, Picture, Polygon
from trainer.picture.solids import Stander
from trainer.picture.space import Turn
from trainer.site.model import Site


def site_in_space(site: Site, title: str, words: str) -> Picture:
    """Return the site as it stands, what fell with its tags; ``title`` and ``words`` say it unseen.

    The ground is left as white as paper, and the yard out: it would run over the paper's edge.
    """
    x0, y0, x1, y1 = site.layout.house.plan.bounds
    turn = Turn(middle=((x0 + x1) / 2, (y0 + y1) / 2))
    scene = replace(scene_of(site, Stander(site.layout).solids(site)), yard=False)
    items = tuple(
        item
        for item in angled(scene, turn, SHEET_SCALE, down(site))
        if not (isinstance(item, Polygon) and item.fill in LANDSCAPE)
    )
    return Picture(box_round(site.layout, turn), (Group("site", items),), title, words)
