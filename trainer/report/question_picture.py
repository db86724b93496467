"""The drawing beside a question: a plan with or without tags, and its labelled places."""

from __future__ import annotations

from dataclasses import replace

from trainer.layout import Layout
from trainer.picture import Group, Item, Picture, Text
from trainer.picture.sheet import plan_picture
from trainer.picture.tags import tag_size
from trainer.quiz.question import Asked, LabelledPlace, PointAt, SpotFault
from trainer.words import _

TITLE = _("Plan beside the question")


def house_picture(layout: Layout, title: str) -> Picture:
    """Return the whole plan of a house that questions ask about."""
    return replace(plan_picture(layout), title=title)


def question_picture(asked: Asked) -> Picture | None:
    """Return what is to be drawn beside a question; none where its house's plan is enough."""
    if asked.drawing is None:
        return None
    layout = asked.drawing.layout
    plan = plan_picture(layout)
    layers = plan.layers if asked.drawing.tags else tuple(g for g in plan.layers if g.layer != "tags")
    if isinstance(asked.task, PointAt):
        labels: tuple[Item, ...] = tuple(_label(place, tag_size(layout) * 1.5) for place in asked.task.places)
        layers = (*layers, Group("places", labels))
    words = "; ".join(f"{place.label}: {place.words}" for place in _places(asked))
    return Picture(plan.box, layers, TITLE, words)


def _label(place: LabelledPlace, size: float) -> Text:
    return Text(place.at, place.label, "mark", size, bold=True, ground="paper")


def _places(asked: Asked) -> tuple[LabelledPlace, ...]:
    return asked.task.places if isinstance(asked.task, PointAt | SpotFault) else ()
