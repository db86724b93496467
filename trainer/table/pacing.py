"""Walls as one paces them, typed: ``12000 right, 7200 up``."""

from __future__ import annotations

import re

from trainer.read import did_you_mean
from trainer.table.drawing import CannotDraw
from trainer.table.outline_acts import Pace, Step, Way
from trainer.words import _

_PIECE = re.compile(r"(?P<number>\d+(?:[.,]\d+)?)|(?P<word>[^\W\d]+)|(?P<between>[\s,;]+)|(?P<other>.)")
_METRES = {"m": 1000, "mm": 1}
SHORTEST = 100
"""A wall shorter than this is more likely one whose length was given in metres, mm; common practice, no source."""
NEAREST = 30
"""The same of a place along a wall or how far it moves, which may be shorter, mm; common practice, no source."""


def whole_mm(length: float, shortest: int = SHORTEST) -> int:
    """Return a measure from a form in whole mm; one shorter than ``shortest``, either way, and not 0 is asked back.

    So is one of a few mm and a fraction, such as 0.45: no form asks for parts of a mm.

    :raises CannotDraw: with what was meant, by the look of it.
    """
    if 0 < abs(length) < shortest or (abs(length) < NEAREST and length != round(length)):
        asked = _("{length:g} mm is very short. Did you mean {metres:g}? Lengths here are in whole mm.")
        raise CannotDraw(asked.format(length=length, metres=length * 1000))
    return round(length)


def words() -> dict[str, Way]:
    """Return the words for each way, in the language that is spoken and in English, whole and by their first letters.

    Where two begin alike, the first letter means neither.
    """
    spoken: dict[str, Way] = {_("right"): "right", _("up"): "up", _("left"): "left", _("down"): "down"}
    known: dict[str, Way] = {**{way: way for way in spoken.values()}, **spoken}
    firsts = [word[:1] for word in spoken]
    return {**{w[:1]: way for w, way in spoken.items() if firsts.count(w[:1]) == 1 and w[:1] not in _METRES}, **known}


def read_pace(text: str) -> Pace:
    """Return the walls that a line of typing means; ``close`` at its end closes the outline.

    :raises CannotDraw: with what of it can't be read, and how it is written.
    """
    known, close_words = words(), {"close", "c", _("close")}
    steps: list[Step] = []
    length: float | None = None
    close = measured = False
    for piece in _PIECE.finditer(text.lower()):
        said = piece.group()
        if piece["between"]:
            continue
        if close or piece["other"]:
            raise CannotDraw(_("I can't read '{said}'. {how}").format(said=said, how=_how()))
        if piece["number"]:
            if length is not None:
                raise CannotDraw(_("Which way are the {length:g}? {how}").format(length=length, how=_how()))
            length, measured = float(said.replace(",", ".")), False
        elif length is not None and said in _METRES:
            length, measured = length * _METRES[said], True
        elif said in close_words and length is None:
            close = True
        elif said not in known:
            guess = did_you_mean(said, known) or _how()
            raise CannotDraw(_("I can't read '{said}'; {guess}").format(said=said, guess=guess))
        elif length is None:
            raise CannotDraw(_("How far {way}? {how}").format(way=said, how=_how()))
        else:
            steps.append(_step(length, known[said], said, measured=measured))
            length = None
    if length is not None:
        raise CannotDraw(_("Which way are the {length:g}? {how}").format(length=length, how=_how()))
    if not steps and not close:
        raise CannotDraw(_how())
    return Pace(tuple(steps), close)


def _step(length: float, way: Way, said: str, *, measured: bool) -> Step:
    """Return a wall, its way as it was ``said``; ``measured``: its length has its unit."""
    if 0 < length < SHORTEST and not measured:
        raise CannotDraw(_in_metres(length, said))
    whole = round(length)
    if not 0 < whole <= 400_000 or abs(whole - length) > 1e-6:
        raise CannotDraw(_("{length:g} is no length of a wall; give whole millimetres.").format(length=length))
    return Step(whole, way)


def _in_metres(length: float, way: str) -> str:
    """Ask whether a very short wall was meant in metres."""
    asked = _(
        "{length:g} {way} would be a wall of {length:g} mm, shorter than any wall here. Did you mean {metres:g}? "
        "Write {metres:g} {way}, or {length:g} m {way}."
    )
    return asked.format(length=length, way=way, metres=length * 1000)


def _how() -> str:
    return _("Write lengths and ways, such as: 12000 right, 7200 up.")
