"""The drawing beside a question: what of the plan it needs, and its places, numbered."""

from __future__ import annotations

from dataclasses import replace

from trainer.layout import Layout
from trainer.picture import Group, Item, Picture, Text
from trainer.picture.measures import wall_letters
from trainer.picture.sheet import plan_picture
from trainer.picture.side_by_side import side_by_side
from trainer.picture.tags import tag_size
from trainer.quiz.question import Asked, LabelledPlace, PointAt, SpotFault
from trainer.words import _

TITLE = _("Plan beside the question")
BOTH = _("Plans of both roofs so far")
SO_FAR = _("Plan of the roof so far")
PLACE_PX = 15.0
"""Size of a place's number, px."""


def house_picture(layout: Layout, title: str) -> Picture:
    """Return the whole plan of a house that questions ask about."""
    return replace(plan_picture(layout), title=title)


def question_picture(asked: Asked) -> Picture | None:
    """Return what is to be drawn beside a question; none where its house's plan is enough.

    Of trusses, tags and measures it has those that are asked about; every wall has its letter.
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
    layers.append(wall_letters(layout, size * 1.4))
    if asked.drawing.tags:
        tags = next(group for group in plan.layers if group.layer == "tags")
        shown = tuple(item for item in tags.items if not named or (isinstance(item, Group) and item.of in named))
        layers.append(Group("tags", shown))
    if isinstance(asked.task, PointAt):
        layers.append(Group("places", tuple(_number(place) for place in asked.task.places)))
    words = "; ".join(f"{place.label}: {place.words}" for place in _places(asked))
    return Picture(plan.box, tuple(layers), TITLE, words)


def _number(place: LabelledPlace) -> Item:
    return Text(place.at, place.label, "mark", PLACE_PX, "px", bold=True, ground="paper", ring=True)


def _places(asked: Asked) -> tuple[LabelledPlace, ...]:
    return asked.task.places if isinstance(asked.task, PointAt | SpotFault) else ()
