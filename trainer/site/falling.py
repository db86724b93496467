"""A fall: what comes down with a row that goes over, what it strikes, and work that goes on regardless.

A row lies where it fell until somebody reports the fall and clears it. Trade brief, "A fall": common practice; that the
place is left undisturbed until it is released is recalled from the model Work Health and Safety Act, not seen.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from trainer.chance import chance
from trainer.order import TIED
from trainer.plan import Point
from trainer.site.actions import (
    AnyAction,
    Cut,
    Fit,
    Fix,
    HandOver,
    Inspect,
    Load,
    Plumb,
    Remove,
    Restrain,
    Stand,
    String,
)
from trainer.site.holding import ASKEW
from trainer.site.model import Fall, Lying, Site, Stood, changed
from trainer.site.shape import height


def with_all_on(site: Site, tags: Iterable[str]) -> tuple[str, ...]:
    """Return the standing trusses ``tags``, and all that hang or sit on them."""
    found: dict[str, None] = {}
    waiting = list(tags)[::-1]
    while waiting:
        tag = waiting.pop()
        if tag not in found:
            found[tag] = None
            place = site.stood[tag].place
            waiting += [site.at_place[on] for on in site.layout.carries[place] if on in site.at_place] if place else []
    return tuple(found)


def fallen(site: Site, tags: tuple[str, ...], cause: str) -> Site:
    """Return the site with ``tags`` lying where they fell, the first of them the one that began it."""
    towards = _towards(site, tags)
    struck = with_all_on(site, _struck(site, tags, towards))
    lying = dict(site.fall.lying) if site.fall else {}
    for tag in (*tags, *struck):
        stood = site.stood[tag]
        lying.setdefault(tag, Lying(tag, stood.start, stood.finish, towards, tag not in tags))
    fall = Fall(site.fall.cause if site.fall else cause, lying)
    return changed(site, fall=fall, fell={**site.fell, **dict.fromkeys(lying, fall)})


def gone_on_around(site: Site) -> dict[str, Fall]:
    """Return what fell or was struck that work went on around, by tag: it is read as standing; nobody cleared it."""
    lying = site.fall.lying if site.fall else {}
    return {tag: fall for tag, fall in site.fell.items() if tag in site.stood and tag not in lying}


def to_clear(site: Site) -> Fall | None:
    """Return all that is still to be reported and cleared as one fall: what lies, and what work went on around."""
    late = gone_on_around(site)
    falls = [*([site.fall] if site.fall else []), *late.values()]
    if not falls:
        return None
    lying = {**{tag: fall.lying[tag] for tag, fall in late.items()}, **(site.fall.lying if site.fall else {})}
    return replace(falls[0], lying=lying, reported=all(fall.reported for fall in falls))


def as_left(site: Site) -> Site:
    """Return the site as anybody would find it: what fell lies there, also where work went on around it."""
    fall = to_clear(site)
    return site if fall == site.fall else changed(site, fall=fall)


def read_as_cleared(site: Site, action: AnyAction) -> Site | None:
    """Return the site as it is read once ``action`` goes on in spite of a fall; none where it does not."""
    if site.fall is None or not (isinstance(action, ANY_WORK) or any(t in site.fall.lying for t in _named(action))):
        return None
    return changed(site, fall=None)


ANY_WORK = (Stand, Load, Restrain, HandOver)
"""What goes on whatever truss it is of: lifting, loading, bracing for good, handing over."""


def _named(action: AnyAction) -> Iterator[str]:
    """The trusses that hands are laid on."""
    if isinstance(action, Fix | Plumb | Cut | Remove | Inspect):
        yield action.tag
    elif isinstance(action, Fit):
        yield action.on
    elif isinstance(action, String):
        yield from (action.start, action.finish)
    else:
        yield from getattr(action, "tags", ())  # bracing put on or taken off


def _towards(site: Site, tags: tuple[str, ...]) -> Point:
    """Which way a row went over: from the truss that began it through the others; one alone, by chance."""
    nx, ny = _square_to(site.stood[tags[0]])
    here = _across(site.stood[tags[0]], (nx, ny))
    others = sum(_across(site.stood[tag], (nx, ny)) - here for tag in tags[1:] if site.layout.by_tag[tag].kind in TIED)
    way = others or chance(site.job.seed, tags[0], "fell") - 0.5
    return (nx, ny) if way >= 0 else (-nx, -ny)


def _struck(site: Site, tags: tuple[str, ...], towards: Point) -> tuple[str, ...]:
    """The nearest truss still standing that a row falls on, if it is no further off than the fallen are high."""
    nearest: Mapping[float, str] = {}
    for tag in tags:
        stood = site.stood[tag]
        at, reach = _across(stood, towards), height(site.layout.by_tag[tag])
        off = {
            _across(other, towards) - at: other.tag
            for other in site.stood.values()
            if other.tag not in tags and site.layout.by_tag[other.tag].kind in TIED and _faces(stood, other, towards)
        }
        nearest = {**nearest, **{gap: other for gap, other in off.items() if 0.0 < gap <= reach}}
    return (nearest[min(nearest)],) if nearest else ()


def _faces(one: Stood, other: Stood, towards: Point) -> bool:
    """Whether a truss stands side by side with another, square to ``towards`` or a little askew."""
    ux, uy = towards[1], -towards[0]
    out = abs(_across(other, towards) - other.finish[0] * towards[0] - other.finish[1] * towards[1])
    if out > ASKEW * math.dist(other.start, other.finish):
        return False
    ours, theirs = (sorted(x * ux + y * uy for x, y in (stood.start, stood.finish)) for stood in (one, other))
    return min(ours[1], theirs[1]) > max(ours[0], theirs[0])


def _across(stood: Stood, towards: Point) -> float:
    return stood.start[0] * towards[0] + stood.start[1] * towards[1]


def _square_to(stood: Stood) -> Point:
    (ax, ay), (bx, by) = stood.start, stood.finish
    length = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
    return -(by - ay) / length, (bx - ax) / length
