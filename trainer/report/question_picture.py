"""The drawing beside a question: what of the plan it needs, and its places, numbered."""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import replace

from trainer.layout import Layout
from trainer.picture import Group, Item, Picture, Text
from trainer.picture.measures import wall_letters
from trainer.picture.model import Box
from trainer.picture.sheet import plan_picture
from trainer.picture.side_by_side import side_by_side
from trainer.picture.tags import tag_size
from trainer.plan import Point
from trainer.quiz.judge import options
from trainer.quiz.question import Asked, LabelledPlace, PointAt, SpotFault
from trainer.words import _

TITLE = _("Plan beside the question")
BOTH = _("Plans of both roofs so far")
SO_FAR = _("Plan of the roof so far")
ROUND = 900.0
"""What is drawn round the part of a plan that a question needs, mm."""
TAG = re.compile(r"\b[A-Z]{1,2}[0-9]+\b")
"""What a truss is called in a question."""
PLACE_PX = 15.0
"""Size of a place's number and of a wall's letter, px."""


def question_picture(asked: Asked) -> Picture | None:
    """Return what is to be drawn beside a question; none where its house's plan is enough.

    Of trusses, tags and measures it has those that are asked about; every wall has its letter. Of a large house it is
    the part where the trusses are that are asked about, as far as the walls that they bear on are named.
    """
    if asked.drawing is None:
        return None
    if asked.drawing.sites:
        return side_by_side(asked.drawing.sites, BOTH if len(asked.drawing.sites) > 1 else SO_FAR, asked.text)
    layout = asked.drawing.layout
    plan, size = plan_picture(layout), tag_size(layout)
    named = {place.label for place in _places(asked)}
    left_out = {"tags", "measures"}
    if isinstance(asked.task, PointAt) and not asked.about:  # of a line of the roof: no truss lies over it
        left_out |= {"trusses", "parts"}
    layers = [group for group in plan.layers if group.layer not in left_out]
    walls = wall_letters(layout, size * 1.4)
    if asked.drawing.tags:
        tags = next(group for group in plan.layers if group.layer == "tags")
        shown = tuple(item for item in tags.items if not named or (isinstance(item, Group) and item.of in named))
        layers.append(Group("tags", shown))
    if isinstance(asked.task, PointAt):
        layers.append(Group("places", tuple(_number(place) for place in asked.task.places)))
    box = plan.box
    if named and isinstance(asked.task, SpotFault):
        box = _part(layout, named, walls, box)
    layers.append(
        Group(
            walls.layer, tuple(_readable(text) for text in walls.items if isinstance(text, Text) and _in(text.at, box))
        )
    )
    words = "; ".join(f"{place.label}: {place.words}" for place in _places(asked))
    return Picture(box, tuple(layers), TITLE, words)


def printed_picture(asked: Asked) -> Picture | None:
    """Return the same for paper and for a phone: of a roof so far only the tags that the question names."""
    picture = question_picture(asked)
    if picture is None or asked.drawing is None or not asked.drawing.sites:
        return picture
    named = {*asked.about, *TAG.findall(" ".join((asked.text, *options(asked))))}
    return replace(picture, layers=tuple(_naming(group, named) for group in picture.layers))


def _naming(group: Group, tags: Collection[str]) -> Group:
    """Return a group without the names of other timbers than these."""
    items = (_naming(item, tags) if isinstance(item, Group) else item for item in group.items)
    return replace(
        group,
        items=tuple(each for each in items if not isinstance(each, Text) or not each.names or each.text in tags),
    )


def _part(layout: Layout, tags: set[str], walls: Group, whole: Box) -> Box:
    """Return the part of a plan with these trusses whole and the letters of their walls, with a margin round it."""
    members = [layout.by_tag[tag] for tag in tags if tag in layout.by_tag]
    letters = {text.text: text.at for text in walls.items if isinstance(text, Text)}
    points = [end for member in members for end in (member.start, member.finish)]
    points += [letters[end.wall] for member in members for end in member.ends if end.wall in letters]
    if not points:
        return whole
    xs, ys = zip(*points, strict=True)
    x0, y0, x1, y1 = whole
    return (
        max(x0, min(xs) - ROUND), max(y0, min(ys) - ROUND), min(x1, max(xs) + ROUND), min(y1, max(ys) + ROUND)
    )  # fmt: skip


def _readable(letter: Text) -> Text:
    """Return a wall's letter as high as the numbers of places, however small the plan is drawn."""
    return replace(letter, size=PLACE_PX, unit="px")


def _in(at: Point, box: Box) -> bool:
    return box[0] <= at[0] <= box[2] and box[1] <= at[1] <= box[3]


def _number(place: LabelledPlace) -> Item:
    return Text(place.at, place.label, "mark", PLACE_PX, "px", bold=True, ground="paper", ring=True, rows=4)


def _places(asked: Asked) -> tuple[LabelledPlace, ...]:
    return asked.task.places if isinstance(asked.task, PointAt | SpotFault) else ()
