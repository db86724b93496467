"""What a film is: shots along a line of time, and what it is held for. It says nothing of how it is drawn.

Times are ms of movement from its beginning. While a caption is read or a stop waits for its answer, that clock stands.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from trainer.order import Step
from trainer.site import AnyAction, Site

WORDS_A_MINUTE = 120
"""How fast a caption is taken to be read."""


@dataclass(frozen=True, slots=True)
class Shot:
    """One thing done, from ``start_ms`` for ``ms``."""

    step: Step
    action: AnyAction
    start_ms: int
    ms: int

    @property
    def end_ms(self) -> int:
        """When it is over."""
        return self.start_ms + self.ms


@dataclass(frozen=True, slots=True)
class Caption:
    """What is said of a new idea when it first comes; ``name`` is what the idea is called."""

    at_ms: int
    idea: str
    name: str
    text: str

    @property
    def hold_ms(self) -> int:
        """How long the film stands still for it, ms, at :data:`WORDS_A_MINUTE`."""
        return len(self.text.split()) * 60_000 // WORDS_A_MINUTE


@dataclass(frozen=True, slots=True)
class Option:
    """One answer to a stop; ``why`` says what is right or wrong in it."""

    text: str
    right: bool
    why: str


@dataclass(frozen=True, slots=True)
class Stop:
    """A question before what it asks for is shown; one of its options is right. ``waits`` is what comes after that."""

    at_ms: int
    text: str
    options: tuple[Option, ...]
    waits: Step | None = None


@dataclass(frozen=True, slots=True)
class Part:
    """Some of a film: one stage, or one idea. ``ranges`` are (from, to) ms, in order; the rest is there at once."""

    key: str
    name: str
    ranges: tuple[tuple[int, int], ...]


Cue = Caption | Stop
"""What the film is held for."""


@dataclass(frozen=True)
class Film:
    """A whole film. ``sites`` are the site before the first shot, and after each of them."""

    level: str
    title: str
    seed: int
    shots: tuple[Shot, ...]
    sites: tuple[Site, ...]
    captions: tuple[Caption, ...]
    stops: tuple[Stop, ...]
    parts: tuple[Part, ...]

    @property
    def length_ms(self) -> int:
        """How long it moves, ms."""
        return self.shots[-1].end_ms

    @cached_property
    def cues(self) -> tuple[Cue, ...]:
        """Captions and stops as they come; of two at one time the stop, which asks what the caption would say."""
        return tuple(sorted((*self.stops, *self.captions), key=lambda cue: (cue.at_ms, isinstance(cue, Caption))))

    @cached_property
    def steps(self) -> tuple[int, ...]:
        """Times at which there is something new to look at: where a truss stands, and the end."""
        stood = {shot.end_ms for shot in self.shots if shot.step.verb == "stand"}
        return tuple(sorted({*stood, *(cue.at_ms for cue in self.cues), self.length_ms}))
