"""A display list as an SVG file, in millimetres: its coordinates are the plan's, and it prints at 1 to 50."""

from __future__ import annotations

from collections.abc import Mapping
from xml.etree import ElementTree as ET

from trainer.picture.lettering import CAP_HEIGHT, RING, text_width
from trainer.picture.model import SHEET_SCALE, Group, Item, Line, Picture, Polygon, Text, Unit, View

FONTS = "'Source Sans Pro', 'Source Sans 3', 'Segoe UI', Arial, sans-serif"

PRINTED_SCALE = 50
"""Millimetres on the plan for each on paper."""


class _Plan(View):
    """Plan millimetres as they are, y downwards."""

    def px(self, size: float, unit: Unit) -> float:
        return size if unit == "mm" else size / SHEET_SCALE


def to_svg(picture: Picture, palette: Mapping[str, str]) -> str:
    """Return the picture as SVG text; every role must be in ``palette``."""
    left, bottom, right, top = picture.box
    wide, high = right - left, top - bottom
    view = _Plan(1.0, 0.0, 0.0)
    root = ET.Element(
        "svg",
        {
            "xmlns": "http://www.w3.org/2000/svg",
            "width": f"{_number(wide / PRINTED_SCALE)}mm",
            "height": f"{_number(high / PRINTED_SCALE)}mm",
            "viewBox": " ".join(map(_number, (left, -top, wide, high))),
            "role": "img",
            "font-family": FONTS,
        },
    )
    ET.SubElement(root, "title").text = picture.title
    ET.SubElement(root, "desc").text = picture.words
    ET.SubElement(root, "rect", _box(left, -top, wide, high) | {"fill": palette["paper"]})
    for layer in picture.layers:
        _group(root, layer, view, palette)
    ET.indent(root, " ")
    return ET.tostring(root, encoding="unicode") + "\n"


def _group(parent: ET.Element, group: Group, view: View, palette: Mapping[str, str]) -> None:
    names = {"class": group.layer} | ({"data-of": group.of} if group.of else {})
    element = ET.SubElement(parent, "g", names)
    for item in group.items:
        if isinstance(item, Group):
            _group(element, item, view, palette)
        else:
            _item(element, item, view, palette)


def _item(parent: ET.Element, item: Item, view: View, palette: Mapping[str, str]) -> None:
    if isinstance(item, Text):
        _text(parent, item, view, palette)
        return
    points = " ".join(f"{_number(x)},{_number(y)}" for x, y in map(view.to_px, item.points))
    if isinstance(item, Polygon):
        fill = palette[item.fill] if item.fill else "none"
        element = ET.SubElement(parent, "polygon", {"points": points, "fill": fill})
        if item.edge:
            element.set("stroke", palette[item.edge])
            element.set("stroke-width", _number(view.px(item.width, item.unit)))
            element.set("stroke-linejoin", "round")
    else:
        _line(parent, item, points, view, palette)


def _line(parent: ET.Element, line: Line, points: str, view: View, palette: Mapping[str, str]) -> None:
    stroke = {
        "points": points,
        "fill": "none",
        "stroke": palette[line.role],
        "stroke-width": _number(view.px(line.width, line.unit)),
    }
    if line.dash:
        stroke["stroke-dasharray"] = " ".join(_number(view.px(length, line.unit)) for length in line.dash)
    ET.SubElement(parent, "polyline", stroke)


def _text(parent: ET.Element, text: Text, view: View, palette: Mapping[str, str]) -> None:
    x, y = view.to_px(text.at)
    size = view.px(text.size, text.unit)
    width = text_width(text.text, size)
    if text.turn:
        parent = ET.SubElement(parent, "g", {"transform": f"rotate({_number(-text.turn)} {_number(x)} {_number(y)})"})
    if text.ring:
        circle = {"cx": _number(x), "cy": _number(y), "r": _number(size * RING), "stroke-width": _number(size * 0.12)}
        ET.SubElement(
            parent, "circle", circle | {"fill": palette[text.ground or "paper"], "stroke": palette[text.role]}
        )
    elif text.ground:
        left = x - {"start": 0.0, "middle": width / 2, "end": width}[text.anchor]
        pad = size * 0.12
        box = _box(left - pad, y - size * CAP_HEIGHT / 2 - pad, width + 2 * pad, size * CAP_HEIGHT + 2 * pad)
        ET.SubElement(parent, "rect", box | {"rx": _number(pad), "fill": palette[text.ground]})
    attributes = {
        "x": _number(x),
        "y": _number(y + size * CAP_HEIGHT / 2),
        "font-size": _number(size),
        "text-anchor": text.anchor,
        "fill": palette[text.role],
    }
    if text.bold:
        attributes["font-weight"] = "600"
    ET.SubElement(parent, "text", attributes).text = text.text


def _box(left: float, top: float, wide: float, high: float) -> dict[str, str]:
    return dict(zip(("x", "y", "width", "height"), map(_number, (left, top, wide, high)), strict=True))


def _number(value: float) -> str:
    """Two decimals at most, without trailing zeros."""
    return f"{value:.2f}".rstrip("0").rstrip(".") or "0"
