"""What changes the rest of the level: sizes, habits, the lesson, the site, and trusses moved by hand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, Literal

from trainer.level.dangers import LATE, LIES, DangerKind
from trainer.table.drawing import CannotDraw, Corner, Drawing
from trainer.words import _

Way = tuple[str, ...]
"""Keys of a level file, from the outermost in."""
NEEDED: Mapping[str, int] = {"spacing": 600, "setback": 1800}
"""What every level says of its trusses, unless a style says it, and what is usual; mm."""
OF_THE_PLAN = frozenset({"outline", "gables", "against", "dutch_gables", "beams", "posts", "internal_walls"})


@dataclass(frozen=True, slots=True)
class SetValue:
    """Write a value under its keys; None takes the key out, so that its default holds."""

    way: Way
    value: Any

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet with that value. Whether it may be so large, say, is for the faults."""
        if not self.way or OF_THE_PLAN & {self.way[0], self.way[-1]}:
            raise CannotDraw(_("The plan is drawn, not written."))
        if drawing.at(*self.way) == self.value and type(drawing.at(*self.way)) is type(self.value):
            raise CannotDraw(_("It is that already."))
        return replace(drawing, values=_put(drawing.values, self.way, self.value))


def _put(values: Mapping[str, Any], way: Way, value: Any) -> dict[str, Any]:
    key, rest = way[0], way[1:]
    changed = dict(values)
    if rest:
        under = values.get(key)
        value = _put(under if isinstance(under, Mapping) else {}, rest, value) or None
    if value is None:
        changed.pop(key, None)
    else:
        changed[key] = value
    return changed


@dataclass(frozen=True, slots=True)
class UseStyle:
    """Take a house style, or none. ``habits`` are the truss settings that it gives: the level leaves them to it."""

    style: str | None
    habits: frozenset[str] = frozenset()

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet in that style; without one, what every level must say is said again."""
        given = drawing.at("trusses")
        kept = {key: value for key, value in given.items() if key not in self.habits} if given else {}
        need = {key: usual for key, usual in NEEDED.items() if key not in self.habits}
        drawing = replace(drawing, values={**drawing.values, "trusses": {**need, **kept}})
        return SetValue(("style",), self.style).on(drawing)


@dataclass(frozen=True, slots=True)
class PutDanger:
    """Put a danger of the day: at a place, on a wall, on a truss's slings, or nowhere, as its kind lies.

    ``after`` is the number of lifts after which it comes, for what comes up on the day.
    """

    what: DangerKind
    at: Corner | None = None
    wall: str = ""
    tag: str = ""
    after: int | None = None

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet with that danger; one that lies there already goes."""
        lies = LIES[self.what]
        given: dict[str, Any] = {"at": list(self.at) if self.at else None, "wall": self.wall, "tag": self.tag}
        if lies and not given[lies]:
            raise CannotDraw(_("Say where it lies: {what}.").format(what=self.what))
        one = {"what": self.what} | ({lies: given[lies]} if lies else {})
        if self.what in LATE:
            one["after"] = self.after or 1
        found = drawing.at("site", "dangers")
        old = list(found) if isinstance(found, list | tuple) else []
        rest = [each for each in old if each != one]
        return SetValue(("site", "dangers"), [*rest, one] if len(rest) == len(old) else rest or None).on(drawing)


@dataclass(frozen=True, slots=True)
class MoveTruss:
    """Let a truss stand at another station than the rules give, as a fabricator's drawing may; None: as they do."""

    truss: str
    station: float | None

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet with that written in the level's layout block."""
        station = None
        if self.station is not None:
            whole = round(self.station * 2) / 2
            station = int(whole) if whole == int(whole) else whole
        return _by_hand(drawing, self.truss, "station", station)


@dataclass(frozen=True, slots=True)
class FastenTruss:
    """Let one end of a truss be held by another fastener than the job says; None: by what it says."""

    truss: str
    end: Literal["from", "to"]
    fastener: str | None

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet with that written in the level's layout block."""
        return _by_hand(drawing, self.truss, self.end, self.fastener)


def _by_hand(drawing: Drawing, truss: str, key: str, value: float | str | None) -> Drawing:
    """Return the sheet with a value of one truss in its layout block; an entry that changes nothing goes."""
    found = drawing.at("layout")
    old = [dict(one) for one in found if isinstance(one, Mapping)] if isinstance(found, list | tuple) else []
    entry = next((one for one in old if one.get("truss") == truss), {"truss": truss})
    rest = [one for one in old if one is not entry]
    changed = {each: said for each, said in entry.items() if each != key}
    if value is not None:
        changed[key] = value
    if len(changed) > 1:
        rest.append(changed)
    return SetValue(("layout",), rest or None).on(drawing)
