"""The state of the site: what has been marked, fitted, stood, braced and fixed so far.

A :class:`Site` is never changed; :func:`trainer.site.fold.act` returns the next one. Undo is going back
to an earlier one.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from trainer.layout import Layout
from trainer.plan import Point


@dataclass(frozen=True)
class Job:
    """What does not change while a house is built: the reference layout, and the level's own limits.

    ``station_tolerance`` in mm; ``stages`` are those that the learner does (the others count as done);
    ``undo_allowed`` is false in assessment; ``seed`` feeds whatever is imperfect on this site.
    """

    layout: Layout
    station_tolerance: float = 10.0
    stages: frozenset[str] = frozenset()
    undo_allowed: bool = True
    seed: int = 0


@dataclass(frozen=True, slots=True)
class Stood:
    """A truss as it stands. ``place`` is the tag of the layout member whose place it takes, if any."""

    tag: str
    place: str | None
    start: Point
    finish: Point
    turned: bool


@dataclass(frozen=True, slots=True)
class Bracing:
    """One piece of temporary bracing."""

    kind: str
    tags: tuple[str, ...]


@dataclass(frozen=True)
class Site:
    """The state after ``count`` actions that could be done."""

    job: Job
    marks: tuple[tuple[str, float], ...] = ()
    fitted: Mapping[tuple[str, str, float | None], int] = field(default_factory=dict)
    stood: Mapping[str, Stood] = field(default_factory=dict)
    at_place: Mapping[str, str] = field(default_factory=dict)
    bracing: tuple[Bracing, ...] = ()
    fixed: Mapping[tuple[str, int], tuple[str, int]] = field(default_factory=dict)
    last_in_row: Mapping[str, str] = field(default_factory=dict)
    handed_over: bool = False


@dataclass(frozen=True, slots=True)
class Refused:
    """An action that nobody could do there, why, and what to do instead; it changes nothing."""

    why: str


@dataclass(frozen=True, slots=True)
class Event:
    """One accepted action and what came of it. ``index`` counts the diary's actions from 0.

    ``let_go`` is the truss that this action lets go of; ``fell`` the tags of the row that went over,
    which stand braced again in the state after it.
    """

    index: int
    action: object
    let_go: tuple[str, ...] = ()
    fell: tuple[str, ...] = ()
