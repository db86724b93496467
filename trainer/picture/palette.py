"""Colour roles resolved for a theme, and how far apart two colours read."""

from __future__ import annotations

import re
from collections.abc import Mapping

from trainer.read import Faulty, read_yaml

Palette = Mapping[str, str]
"""Colours as ``#rrggbb`` by role."""
PALETTE_FILE = "palette.yaml"
LIT = ("timber", "hip_timber", "girder", "saddle", "wall", "cover", "slab")
"""Roles that have four shades, by how far a face is turned from the sun: ``timber 1`` faces it, ``timber 4`` away."""
DIMMED = (0.0, 0.08, 0.18, 0.27)
"""How much of the colour ``dim`` is in each shade of timber."""
BROAD = ("wall", "cover")
"""What is broad enough to be shaded twice as much: no fine edges have to be seen against it."""
EDGES = ("timber_line", "paper", "brace", "fastener", "string")
"""What else is faded."""
PALE = 0.74
"""How much of the colour of the ground is in what is faded, so that something else stands out: ``timber 1 pale``."""
_HEX = re.compile(r"#[0-9a-fA-F]{6}")


def parse_palettes(text: str, file: str = PALETTE_FILE) -> dict[str, Palette]:
    """Return the palettes of a palette file by theme; raise Faulty where a colour is not ``#rrggbb``."""
    document = read_yaml(text, file)
    themes = document.data.get("themes") if isinstance(document.data, dict) else None
    if not isinstance(themes, dict) or not all(isinstance(roles, dict) for roles in themes.values()):
        raise Faulty([document.fault(("themes",), "must list the roles of each theme")])
    faults = [
        document.fault(("themes", theme, role), "must be a colour like '#1d5f9e'")
        for theme, roles in themes.items()
        for role, colour in roles.items()
        if not (isinstance(colour, str) and _HEX.fullmatch(colour))
    ]
    if faults:
        raise Faulty(faults)
    return {str(theme): _with_shades(roles) for theme, roles in themes.items()}


def _with_shades(roles: Palette) -> Palette:
    """Add the shades of what the sun falls on, and of the timbers the same faded."""
    shades = {
        f"{role} {number}": mixed(roles[role], roles["dim"], part * (2 if role in BROAD else 1))
        for role in LIT
        if role in roles
        for number, part in enumerate(DIMMED, 1)
    }
    pale = {
        f"{role} pale": mixed(colour, roles["ground"], PALE)
        for role, colour in {**shades, **{edge: roles[edge] for edge in EDGES if edge in roles}}.items()
    }
    return {**roles, **shades, **pale}


def mixed(one: str, other: str, part: float) -> str:
    """Return a colour with so much of another in it, from 0 to 1."""
    return "#" + "".join(f"{round(a + (b - a) * part):02x}" for a, b in zip(rgb(one), rgb(other), strict=True))


def rgb(colour: str) -> tuple[int, int, int]:
    """``#rrggbb`` as three numbers from 0 to 255."""
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours, 1 to 21, by WCAG 2.2's definition."""
    darker, lighter = sorted((_luminance(one), _luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def _luminance(colour: str) -> float:
    """Relative luminance of an sRGB colour, WCAG 2.2."""
    red, green, blue = (
        value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4
        for value in (part / 255 for part in rgb(colour))
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
