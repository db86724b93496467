"""A ledger in the hands of a tool: chosen in the panel, pointed at on the face of its wall, measured along that."""

from __future__ import annotations

from trainer.board.aim import from_wall, on_wall
from trainer.board.overlay import tape_along_wall
from trainer.board.snap import Caught, mark_places
from trainer.board.tools.hand import Hand
from trainer.picture.model import Item
from trainer.plan import Point, Wall
from trainer.site.model import Site

NEAR = 250.0
"""Within this of the face of a wall it is the ledger there that is meant, mm."""


def ledgers(site: Site) -> list[str]:
    """Return the names of the ledgers of a house."""
    return list(site.layout.ledgers)


def wall_of(site: Site, where: str) -> Wall | None:
    """Return the wall that a ledger lies along; None for what is no ledger."""
    name = site.layout.ledgers.get(where)
    return site.layout.house.plan.by_name[name] if name else None


def meant(site: Site, place: Point, held: str = "") -> tuple[str, float] | None:
    """Return the ledger that a place of the plan is on, and how far along its wall, mm; None where it is on none.

    Where two meet it is the nearer one, and the ``held`` one where they are as near.
    """
    walls = {ledger: wall for ledger in ledgers(site) if (wall := wall_of(site, ledger))}
    far = {ledger: from_wall(wall, place) - (ledger == held) for ledger, wall in walls.items()}
    nearest = min(far, key=far.__getitem__, default="")
    return (nearest, on_wall(walls[nearest], place)[0]) if nearest and far[nearest] <= NEAR else None


def places_along(hand: Hand, where: str) -> list[Caught]:
    """Return what catches along a ledger: the marks on its wall, and those across the house."""
    wall = wall_of(hand.site, where)
    return list(mark_places(hand.site, wall)) if wall else []


def tape_along(site: Site, where: str, at: float, note: str) -> list[Item]:
    """Return the tape along the wall of a ledger."""
    wall = wall_of(site, where)
    return tape_along_wall(site, wall, at, 0.0, note) if wall else []
