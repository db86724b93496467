"""What the rules of the load path ask: when a carrier first carries, and what is left to the hand-over."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.rules.rule import truss_of
from trainer.site import Event, HandOver, Site


def first_on(before: Site, carrier: str) -> bool:
    """Whether nothing that the place ``carrier`` carries stood yet."""
    return not any(tag in before.at_place for tag in before.layout.carries[carrier])


def saddles_in(event: Event, after: Site) -> Iterator[str]:
    """The places of saddles to be looked at: the one just set down; at hand-over all that stand."""
    if "fix" not in after.job.stages:
        return
    if not isinstance(event.action, HandOver):
        place = after.stood[truss_of(event)].place
        places = [place] if place else []
    else:
        places = list(after.at_place)
    yield from (place for place in places if after.layout.by_tag[place].kind == "saddle")


def cause_of_slot(wall: int, spot: float) -> str:
    """Name a slotted bracket left out, by the number of the internal wall and the place along it, mm."""
    return f"slot {wall}.{spot:g}"
