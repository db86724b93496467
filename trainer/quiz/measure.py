"""Numbers with units: read as people type them, and written without noise.

Space, comma and apostrophe may part thousands, and the point is the decimal sign, as in Australia:
``1 800``, ``1,800``, ``1.8 m``, ``1800mm``. A comma that parts no three figures, or that follows thousands
parted otherwise, can only be a decimal sign and is taken as one: ``1 800,5`` is 1800.5. What was
understood is always said, so that nobody is marked on a number they did not mean.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from typing import Literal

from trainer.words import _

Unit = Literal["mm", "m2", "degrees", "kN", "kPa", "pieces", "times"]
SIGNS: dict[Unit, str] = {
    "mm": " mm", "m2": " m²", "degrees": "°", "kN": " kN", "kPa": " kPa", "pieces": "", "times": " times",
}  # fmt: skip
"""What is written after a number."""
ASKED_IN: dict[Unit, str] = {
    "mm": _("millimetres"), "m2": _("square metres"), "degrees": _("degrees"), "kN": _("kilonewtons (kN)"),
    "kPa": _("kilopascals (kPa)"), "pieces": _("whole numbers"), "times": _("times, such as 1.5 times"),
}  # fmt: skip
LONGEST = 40
"""Characters of a typed number, at most."""

UNIT_NAMES: dict[Unit, dict[str, float]] = {
    "mm": {
        **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters", "mil", "mils"), 1.0),
        **dict.fromkeys(("cm", "centimetre", "centimetres"), 10.0),
        **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), 1000.0),
    },
    "m2": {
        **dict.fromkeys(("m2", "m^2", "sqm", "sq m", "square metre", "square metres", "square meters"), 1.0),
        **dict.fromkeys(("mm2", "mm^2"), 1e-6),
    },
    "degrees": dict.fromkeys(("°", "deg", "degs", "degree", "degrees"), 1.0),
    "kN": {**dict.fromkeys(("kn", "kilonewton", "kilonewtons"), 1.0), **dict.fromkeys(("n", "newtons"), 1e-3)},
    "kPa": {**dict.fromkeys(("kpa", "kilopascal", "kilopascals"), 1.0), **dict.fromkeys(("pa", "pascals"), 1e-3)},
    "pieces": dict.fromkeys(("piece", "pieces", "pcs", "truss", "trusses", "saddles", "bays", "outriggers"), 1.0),
    "times": dict.fromkeys(("times", "x", "×"), 1.0),
}
_TYPED = re.compile(r"(?P<sign>[-+\u2212\u2013]?) ?(?P<number>[0-9][0-9 .,']*?|[.,][0-9]+) ?(?P<unit>[^0-9 .,'].*)?")
_PARTED = re.compile(r"[1-9][0-9]{0,2}(?:(?P<by>[ '])[0-9]{3}(?:(?P=by)[0-9]{3})*(?:[.,][0-9]+)?)")
_COMMAS = re.compile(r"[1-9][0-9]{0,2}(?:,[0-9]{3})+(?:\.[0-9]+)?")
_POINTS = re.compile(r"[1-9][0-9]{0,2}(?:\.[0-9]{3})+,[0-9]+")
_PLAIN = re.compile(r"[0-9]*(?:[.,][0-9]+)?")


@dataclass(frozen=True, slots=True)
class TypedNumber:
    """A typed number understood: ``value`` in the unit asked for, given back in ``said``; whether a unit was typed."""

    value: float
    said: str
    with_unit: bool


@dataclass(frozen=True, slots=True)
class Unclear:
    """An answer that can't be read: why, and what to type instead. It is no wrong answer; it is asked for again."""

    why: str


def read_measure(text: str, unit: Unit) -> TypedNumber | Unclear:
    """Read a number as typed, in ``unit`` where it names none of its own."""
    plain = " ".join(unicodedata.normalize("NFKC", text[: LONGEST + 1]).replace("’", "'").split())
    if len(text.strip()) > LONGEST:
        return Unclear(_("That is too long for a number. Type the number and its unit, such as 1800 mm."))
    found = _TYPED.fullmatch(plain.rstrip(".")) if plain else None
    if found is None:
        return Unclear(_("Type a number, such as {example}.").format(example=_example(unit)))
    number = _number(found["number"].strip())
    if number is None:
        text = _("'{seen}' is no clear number. Type it like 1800, 1 800 or 1800.5.")
        return Unclear(text.format(seen=found["number"].strip()))
    named = (found["unit"] or "").strip()
    factor = UNIT_NAMES[unit].get(named.casefold(), 1.0 if not named else None)
    if factor is None:
        text = _("'{seen}' is no unit that fits. The answer is asked for in {unit}.")
        return Unclear(text.format(seen=named, unit=ASKED_IN[unit]))
    value = number * factor * (-1 if found["sign"] in ("-", "\u2212", "\u2013") else 1)
    return TypedNumber(value, amount(value, unit, 6), bool(named))


def amount(value: float, unit: Unit, decimals: int = 0) -> str:
    """Write a number with its unit, rounded to ``decimals`` places, without zeros at its end."""
    text = f"{value:.{decimals}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return f"{'0' if text == '-0' else text}{SIGNS[unit]}"


def _example(unit: Unit) -> str:
    return {"mm": "1800, 1 800 or 1.8 m", "m2": "24.5", "degrees": "22.5"}.get(unit, "12")


def _number(text: str) -> float | None:
    """The number that figures and signs can only mean; none where there is no such."""
    if _COMMAS.fullmatch(text):
        return float(text.replace(",", ""))
    if _POINTS.fullmatch(text):
        return float(text.replace(".", "").replace(",", "."))
    if _PARTED.fullmatch(text) or (_PLAIN.fullmatch(text) and text.strip(".,")):
        return float(text.replace(" ", "").replace("'", "").replace(",", "."))
    return None
