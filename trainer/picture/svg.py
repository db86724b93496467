"""A display list as an SVG file."""

from __future__ import annotations

from collections.abc import Mapping
from xml.etree import ElementTree as ET

from trainer.picture.lettering import CAP_HEIGHT, text_width
from trainer.picture.model import SHEET_SCALE, Group, Item, Line, Picture, Polygon, Text, View, fit

FONTS = "'Source Sans Pro', 'Source Sans 3', 'Segoe UI', Arial, sans-serif"


def to_svg(picture: Picture, palette: Mapping[str, str]) -> str:
    """Return the picture as SVG text; every role must be in ``palette``."""
    left, bottom, right, top = picture.box
    width_px = (right - left) * SHEET_SCALE
    height_px = width_px * (top - bottom) / (right - left)
    view = fit(picture.box, width_px, height_px)
    root = ET.Element(
        "svg",
        {
            "xmlns": "http://www.w3.org/2000/svg",
            "width": _number(width_px),
            "height": _number(height_px),
            "viewBox": f"0 0 {_number(width_px)} {_number(height_px)}",
            "role": "img",
            "font-family": FONTS,
        },
    )
    ET.SubElement(root, "title").text = picture.title
    ET.SubElement(root, "desc").text = picture.words
    ET.SubElement(root, "rect", {"width": "100%", "height": "100%", "fill": palette["paper"]})
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
    if text.ground:
        left = x - {"start": 0.0, "middle": width / 2, "end": width}[text.anchor]
        pad = size * 0.12
        box = {
            "x": _number(left - pad),
            "y": _number(y - size * CAP_HEIGHT / 2 - pad),
            "width": _number(width + 2 * pad),
            "height": _number(size * CAP_HEIGHT + 2 * pad),
            "rx": _number(pad),
        }
        ET.SubElement(parent, "rect", box | {"fill": palette[text.ground]})
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


def _number(value: float) -> str:
    """Two decimals at most, without trailing zeros."""
    return f"{value:.2f}".rstrip("0").rstrip(".") or "0"
