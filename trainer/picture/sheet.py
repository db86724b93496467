"""The layout drawing: the plan with its tags and measures, and a title block that says what it is."""

from __future__ import annotations

from collections.abc import Collection

from trainer.layout import Layout
from trainer.layout.model import TAG_LETTERS
from trainer.picture.higher_walls import ledgers
from trainer.picture.house import eave, plates, roof_lines
from trainer.picture.legend import legend
from trainer.picture.lettering import text_box, wrapped
from trainer.picture.measures import figure, measures
from trainer.picture.model import MEDIUM, THIN, Box, Group, Item, Line, Picture, Polygon, Text
from trainer.picture.tags import tag_size, tags
from trainer.picture.trusses import parts, trusses
from trainer.picture.verandah import verandah
from trainer.plan import Point
from trainer.terms import KIND_NAMES, counted
from trainer.words import CAUTION, INVENTED, _, ngettext

SMALLEST_SHEET = 12_000.0
"""A sheet is at least this wide, mm on the plan, so that its title block has room."""
LARGEST_UNIT = 180.0
"""Lettering of the title block is sized by the sheet's width, but by no more than this, mm."""


def plan_picture(layout: Layout, letters: float | None = None, back: Collection[str] | None = None) -> Picture:
    """Return the plan of a layout: plates, trusses, tags, roof lines and running measures, without a sheet round it.

    Its tags are ``letters`` mm high on the plan, or as high as the spacing leaves room for; measures a tenth less,
    from the first corner of each wall, or from the other one of those that are named as run ``back``; None: from where
    a tape is hooked to begin with.
    """
    size = letters or tag_size(layout)
    layers = (
        eave(layout.house.roof_plan, layout.house.roof.overhang),
        plates(layout.house.plan, ledgers(layout)),
        *verandah(layout),
        roof_lines(layout.roof),
        trusses(layout),
        parts(layout),
        measures(layout, size * 0.9, back),
        tags(layout, size),
    )
    return Picture(_bounds(layers, size), layers, words=counts_in_words(layout))


def counts_in_words(layout: Layout) -> str:
    """Return how many trusses of each kind there are, with the letters of their tags."""
    counts = ((kind, layout.counts.get(kind)) for kind in KIND_NAMES)
    return ", ".join(f"{counted(kind, n)} {TAG_LETTERS[kind]}" for kind, n in counts if n)


def layout_sheet(layout: Layout, title: str) -> Picture:
    """Return the whole layout drawing of a house called ``title``."""
    plan = plan_picture(layout)
    left, bottom, right, top = plan.box
    spare = max(0.0, SMALLEST_SHEET - (right - left)) / 2
    left, right = left - spare, right + spare
    unit = min(LARGEST_UNIT, (right - left) / 104)
    block, foot = _title_block(layout, title, (left + 2 * unit, right - 2 * unit), bottom, unit)
    return Picture((left, foot, right, top), (*plan.layers, block), title, f"{INVENTED} {plan.words}. {CAUTION}")


def settings_in_words(layout: Layout) -> str:
    """Return the level's roof and truss settings on one line."""
    roof, habits = layout.house.roof, layout.house.trusses
    to = _("to centre lines") if habits.stations_to == "centre line" else _("to the near face")
    parts = (
        _("pitch {pitch}°").format(pitch=figure(roof.pitch)),
        _("overhang {mm}").format(mm=roof.overhang),
        _("heel {mm}").format(mm=roof.heel),
        _("spacing {mm}").format(mm=habits.spacing),
        _("setback {mm} {to}").format(mm=habits.setback, to=to),
        _("thickness {mm}").format(mm=habits.thickness),
        ngettext("girders of {n} ply", "girders of {n} plies", habits.girder_plies).format(n=habits.girder_plies),
    )
    return " · ".join(parts)


def _title_block(
    layout: Layout, title: str, sides: tuple[float, float], top: float, unit: float
) -> tuple[Group, float]:
    """Return the title block under ``top``, its lettering a little over a ``unit`` high, and where it ends."""
    left, right = sides
    column = min(left + 70 * unit, right - 32 * unit)
    items: list[Item] = [Line(((left, top), (right, top)), "ink", MEDIUM)]
    y = _lettering(items, [title], left, top - 3 * unit, 2.4 * unit, "ink", bold=True)
    y = _lettering(items, [INVENTED], left, y - 0.6 * unit, 1.35 * unit, "accent", bold=True)
    for text in (settings_in_words(layout), counts_in_words(layout), MEASURES):
        lines = wrapped(text, 1.3 * unit, column - left - 2 * unit)
        y = _lettering(items, lines, left, y - 0.5 * unit, 1.3 * unit, "ink")
    legend_foot = _legend(items, layout, (column, top - 2.6 * unit), unit)
    y = min(y, legend_foot) - 1.0 * unit
    y = _lettering(items, wrapped(CAUTION, 1.2 * unit, right - left), left, y, 1.2 * unit, "faint")
    return Group("title", tuple(items)), y - 1.2 * unit


MEASURES = _(
    "Measures are in millimetres and run along each wall from the thick bar to the arrow. The wall's "
    "letter stands with its whole length. At an inside corner the last measures are led aside. Plates and timbers are "
    "true to scale."
)


def _lettering(
    items: list[Item], lines: list[str], left: float, y: float, size: float, role: str, *, bold: bool = False
) -> float:
    """Add lines of text from ``y`` down; return where the next would stand."""
    for line in lines:
        items.append(Text((left, y), line, role, size, anchor="start", bold=bold))
        y -= size * 1.35
    return y


def _legend(items: list[Item], layout: Layout, at: Point, unit: float) -> float:
    """Add the scale bar and what the lines mean, downwards from ``at``; return where it ends."""
    left, y = at
    items += scale_bar(left, y, 34 * unit, unit)
    y -= 4.6 * unit
    for words, sample in legend(layout):
        items += sample((left, y), 5 * unit)
        items.append(Text((left + 6 * unit, y), words, "ink", 1.2 * unit, anchor="start"))
        y -= 1.8 * unit
    return y


def scale_bar(left: float, y: float, width: float, unit: float) -> list[Item]:
    """Return a bar of whole metres, as long as fits."""
    metres = next((m for m in (50, 20, 10, 5, 4, 3, 2) if m * 1000 <= width * 0.8), 1)
    high = 0.7 * unit
    items: list[Item] = []
    step = metres * 1000 / 4
    for i in range(4):
        a, b = left + i * step, left + (i + 1) * step
        items.append(Polygon(((a, y), (b, y), (b, y + high), (a, y + high)), ("ink", "paper")[i % 2], "ink", THIN))
    for i in (0, 2, 4):
        label = f"{metres * i / 4:g}" + (" m" if i == 4 else "")
        items.append(Text((left + i * step, y - 1.1 * unit), label, "ink", 1.2 * unit))
    return items


def _bounds(layers: tuple[Group, ...], size: float) -> Box:
    """Return the box round everything drawn, with a margin of one and a half tags."""
    boxes: list[Box] = []
    for item in Picture((0, 0, 0, 0), layers).items():
        if isinstance(item, Text):
            boxes.append(text_box(item, pad=0.1))
        else:
            xs, ys = zip(*item.points, strict=True)
            boxes.append((min(xs), min(ys), max(xs), max(ys)))
    lows, highs = [b[:2] for b in boxes], [b[2:] for b in boxes]
    margin = size * 1.5
    return (
        min(x for x, _y in lows) - margin, min(y for _x, y in lows) - margin,
        max(x for x, _y in highs) + margin, max(y for _x, y in highs) + margin,
    )  # fmt: skip
