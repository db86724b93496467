"""A layout as a DXF file, in millimetres, for any drafting program: one layer for each kind of thing."""

from __future__ import annotations

import io
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from trainer.layout import Layout
from trainer.picture.lettering import CAP_HEIGHT
from trainer.picture.model import SHEET_SCALE, Item, Text, flat
from trainer.picture.sheet import layout_sheet
from trainer.plan import Point

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

LAYERS = {
    "eave": "EAVES", "plates": "WALLS", "beams": "BEAMS", "posts": "POSTS", "parts": "FRAMING", "measures": "MARKS",
    "tags": "TAGS", "title": "TITLE",
}  # fmt: skip
"""Layers of groups that are not called after them; trusses have one for each kind, and so have the roof's lines."""
ROOF_LINES = {"ridges": ("RIDGES", "CENTER"), "hips": ("HIPS", "DASHED"), "valleys": ("VALLEYS", "DOT")}
"""The layer and the line type of each kind of roof line."""
TRUSSES = "TRUSSES_"
COLOURS = {
    "WALLS": 8, "EAVES": 9, "RIDGES": 1, "HIPS": 1, "VALLEYS": 5, "FRAMING": 9, "MARKS": 3, "TAGS": 7, "TITLE": 7,
    "BEAMS": 30, "POSTS": 7,
}  # fmt: skip
"""By the colour index of the format; 7 is black on white and white on black."""
TRUSS_COLOUR = 32
COVERING = {"start": 4, "middle": 5, "end": 6}
"""By the format's numbers: the middle of the left side, the middle, the middle of the right side."""
ONE_DASH = 2
"""How many lengths a dash by itself has: what is drawn, and what is left out."""
DASHES_AT = 100
"""The scale at which broken lines look as their types mean: the library's patterns are in mm on paper."""


def to_dxf(layout: Layout, title: str) -> str:
    """Return the layout drawing of a house called ``title`` as DXF text; x and y are plan millimetres, to scale."""
    from ezdxf.filemanagement import new  # noqa: PLC0415 - no other report asks for the library
    from ezdxf.units import MM  # noqa: PLC0415 - with it

    document = new("R2010", setup=["linetypes"])
    document.units = MM
    document.header["$MEASUREMENT"] = 1
    document.header["$LTSCALE"] = DASHES_AT
    space = document.modelspace()
    sheet = layout_sheet(layout, title)
    for group in sheet.layers:
        if group.layer == "trusses":
            for truss in (item for item in group.items if not isinstance(item, Item)):
                _draw(space, _layer(document, TRUSSES + layout.by_tag[truss.of].kind.upper()), flat(truss))
        elif group.layer != "roof":
            _draw(space, _layer(document, LAYERS.get(group.layer, group.layer.upper())), flat(group))
    for name, (layer, line_type) in ROOF_LINES.items():
        _layer(document, layer, line_type)
        for start, finish in getattr(layout.roof, name):
            space.add_line(start[:2], finish[:2], {"layer": layer})
    for ring in layout.roof.steps:
        ends = sorted(place[:2] for place in ring)
        space.add_line(ends[0], ends[-1], {"layer": _layer(document, "GABLE_FACES")})
    left, bottom, right, top = sheet.box
    space.reset_extents((left, bottom, 0), (right, top, 0))
    document.set_modelspace_vport(height=top - bottom, center=((left + right) / 2, (bottom + top) / 2))
    text = io.StringIO()
    document.write(text)
    return text.getvalue()


def _layer(document: Drawing, name: str, line_type: str = "CONTINUOUS") -> str:
    if name not in document.layers:
        document.layers.add(name, color=COLOURS.get(name, TRUSS_COLOUR), linetype=line_type)
    return name


def _draw(space: Modelspace, layer: str, items: Iterable[Item]) -> None:
    for item in items:
        if isinstance(item, Text):
            _letter(space, layer, item)
        else:
            attributes = {"layer": layer} | (
                {"linetype": _line_type(dash)} if (dash := getattr(item, "dash", ())) else {}
            )
            closed = hasattr(item, "fill")
            space.add_lwpolyline([_place(p) for p in item.points], close=closed, dxfattribs=attributes)


def _line_type(dash: Sequence[float]) -> str:
    """Return the line type of the library that is nearest to what is drawn and left out by turns."""
    if len(dash) > ONE_DASH:
        return ROOF_LINES["ridges"][1]
    return ROOF_LINES["hips" if dash[0] > dash[1] else "valleys"][1]


def _letter(space: Modelspace, layer: str, text: Text) -> None:
    from ezdxf.enums import TextEntityAlignment as Align  # noqa: PLC0415 - with the library

    size = text.size if text.unit == "mm" else text.size / SHEET_SCALE
    if text.ground:  # what lies under it does not strike it through
        attributes = {"layer": layer, "rotation": text.turn, "char_height": size * CAP_HEIGHT}
        covering = space.add_mtext(text.text, dxfattribs=attributes)
        covering.set_location(_place(text.at), attachment_point=COVERING[text.anchor])
        covering.set_bg_color("canvas", scale=1.2)
        return
    entity = space.add_text(text.text, height=size * CAP_HEIGHT, rotation=text.turn, dxfattribs={"layer": layer})
    align = {"start": Align.MIDDLE_LEFT, "middle": Align.MIDDLE_CENTER, "end": Align.MIDDLE_RIGHT}
    entity.set_placement(_place(text.at), align=align[text.anchor])


def _place(at: Point) -> tuple[float, float]:
    return float(at[0]), float(at[1])
