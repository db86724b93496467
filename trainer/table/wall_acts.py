"""What changes what a wall is, and the walls inside."""

from __future__ import annotations

from dataclasses import dataclass, replace

from trainer.table.drawing import EAVE, CannotDraw, Corner, Drawing, Kind, Stretch, WallKind, within
from trainer.words import _

VERGE = 300
"""How far the small verge of a new dutch gable stands out, mm; common practice, no source."""


@dataclass(frozen=True, slots=True)
class SetKind:
    """Say what a wall is; a new dutch gable has its girder at the setback."""

    wall: str
    kind: Kind

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet with the wall of that kind."""
        index = drawing.index(self.wall)
        old = drawing.walls[index]
        if old.kind == self.kind:
            raise CannotDraw(_("Wall {wall} is that already.").format(wall=self.wall))
        return drawing.with_walls(index, self._kind(drawing, old))

    def _kind(self, drawing: Drawing, old: WallKind) -> WallKind:
        match self.kind:
            case "gable":
                return WallKind(gable=True)
            case "against":
                return WallKind(against=True)
            case "dutch gable":
                setback = drawing.at("trusses", "setback")
                at = setback if type(setback) is int else 1800
                return replace(old, gable=False, against=False, dutch=(at, min(VERGE, max(0, at - 1))))
            case "beam":
                return replace(EAVE, beam=True, stretch=old.stretch, posts=old.posts)
            case _:
                return EAVE


@dataclass(frozen=True, slots=True)
class SetDutch:
    """Say where the girder of a dutch gable stands, and how far its verge stands out, mm."""

    wall: str
    at: int
    verge: int

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet with that dutch gable."""
        index = drawing.index(self.wall)
        if drawing.walls[index].dutch is None:
            raise CannotDraw(_("Wall {wall} is no dutch gable.").format(wall=self.wall))
        return drawing.with_walls(index, replace(drawing.walls[index], dutch=(self.at, self.verge)))


@dataclass(frozen=True, slots=True)
class SetBeam:
    """Say from where to where a wall is a verandah beam; over the whole wall without a ``stretch``.

    ``posts`` are where they stand by the drawing; None: as the rules put them.
    """

    wall: str
    stretch: Stretch | None = None
    posts: tuple[int, ...] | None = None

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet with that beam; what the wall was beside stays, a dutch gable over it."""
        index = drawing.index(self.wall)
        old = drawing.walls[index]
        stretch = (min(self.stretch), max(self.stretch)) if self.stretch else None
        return drawing.with_walls(
            index, replace(old, gable=False, against=False, beam=True, stretch=stretch, posts=self.posts)
        )


@dataclass(frozen=True, slots=True)
class PutInside:
    """Put an internal wall, from corner to corner."""

    corners: tuple[Corner, ...]

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet with that wall."""
        if len(set(self.corners)) < 2:
            raise CannotDraw(_("An internal wall runs from one place to another."))
        within(self.corners)
        return replace(drawing, inside=(*drawing.inside, self.corners))


@dataclass(frozen=True, slots=True)
class TakeInside:
    """Take an internal wall out, by its place in the list."""

    index: int

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet without it."""
        if not 0 <= self.index < len(drawing.inside):
            raise CannotDraw(_("There is no such internal wall."))
        return replace(drawing, inside=(*drawing.inside[: self.index], *drawing.inside[self.index + 1 :]))
