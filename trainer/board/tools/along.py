"""Aiming along a wall or a standing truss: what catches there, and the next of it."""

from __future__ import annotations

from collections.abc import Iterable

from trainer.board.snap import REACH, Caught, along_truss, carrier_places, catch, whole_step
from trainer.board.tools.hand import Hand
from trainer.plan import Point
from trainer.site.marking import ROUND_THE_CORNER
from trainer.site.model import Stood


def within(hand: Hand, where: str, at: float) -> float:
    """Return a measure held to its truss, or to its wall and a little round its corners, mm."""
    beyond = ROUND_THE_CORNER if where in hand.plan.by_name else 0.0
    return min(max(at, -beyond), hand.length_of(where) + beyond)


def caught_on(hand: Hand, where: str, at: float, places: Iterable[Caught], mm_per_px: float) -> float:
    """Return the measure that catches, or else a whole one; the hand notes what caught it."""
    caught = catch(within(hand, where, at), places, REACH * mm_per_px, whole_step(mm_per_px))
    hand.caught = caught.by
    return caught.value


def caught_on_truss(hand: Hand, truss: Stood, place: Point, mm_per_px: float) -> float:
    """Return the measure along a standing truss that catches at a place, mm."""
    run, _aside = along_truss(truss, place)
    return caught_on(hand, truss.tag, run, carrier_places(hand.site, truss), mm_per_px)


def following(hand: Hand, places: Iterable[Caught], now: float) -> float:
    """Return the next place that catches, round and round; the hand notes what it is."""
    ordered = sorted(places, key=lambda place: place.value)
    later = next((place for place in ordered if place.value > now + 0.25), ordered[0])
    hand.caught = later.by
    return later.value


def places_on(hand: Hand, tag: str) -> list[Caught]:
    """Return what catches along a truss; nothing on one that does not stand."""
    return list(carrier_places(hand.site, hand.site.stood[tag])) if tag in hand.site.stood else []
