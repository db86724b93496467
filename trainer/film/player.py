"""Goes through a film: the moment shown, what it is held for, and the part that is wanted. Time is given to it."""

from __future__ import annotations

from dataclasses import dataclass, field

from trainer.film.model import Caption, Cue, Film, Part, Stop
from trainer.words import _

SPEEDS = (0.25, 0.5, 1.0, 2.0)
SPEED_NAMES = (_("quarter speed"), _("half speed"), _("usual speed"), _("double speed"))
USUAL = SPEEDS.index(1.0)


@dataclass
class Player:
    """One showing of a film. ``still``: nothing moves by itself, and one goes from picture to picture."""

    film: Film
    still: bool = False
    part: Part | None = None
    at_ms: int = 0
    playing: bool = False
    speed: int = USUAL
    held: Cue | None = None
    """What it is held for at present."""
    answer: int | None = None
    """Which option of the stop that holds it was chosen."""
    said: Caption | None = None
    """The caption that was last come to; it stays in sight while the film goes on."""
    _waited: float = 0.0
    _over: float = 0.0
    _passed: set[int] = field(default_factory=set)
    """Numbers of the cues that were come to since the moment shown was last chosen."""

    @property
    def ranges(self) -> tuple[tuple[int, int], ...]:
        """What is to be shown: (from, to) ms."""
        return self.part.ranges if self.part else ((0, self.film.length_ms),)

    @property
    def ended(self) -> bool:
        """Whether all that is wanted was shown."""
        return self.held is None and self.at_ms >= self.ranges[-1][1]

    @property
    def asking(self) -> Stop | None:
        """The stop that waits for an answer, or for being passed."""
        return self.held if isinstance(self.held, Stop) else None

    def choose(self, part: Part | None) -> None:
        """Show only a part, from its beginning; or the whole film."""
        self.part = part
        self.go(self.ranges[0][0])

    def go(self, at_ms: int) -> None:
        """Show another moment; what is said there is what was said last before it."""
        self.at_ms = max(0, min(self.film.length_ms, at_ms))
        self.held, self.answer, self._waited, self._over = None, None, 0.0, 0.0
        cues = self.film.cues
        self._passed = {number for number, cue in enumerate(cues) if cue.at_ms < self.at_ms}
        told = [cue for cue in cues if isinstance(cue, Caption) and cue.at_ms < self.at_ms]
        self.said = told[-1] if told else None
        self._hold()

    def play(self) -> None:
        """Go on or stop; at the end, begin again."""
        if self.ended:
            self.go(self.ranges[0][0])
        self.playing = not self.playing

    def take(self, option: int) -> None:
        """Answer the stop that waits; its reasons are shown until it is passed."""
        if self.asking is not None:
            self.answer = option

    def go_on(self) -> None:
        """Pass what it is held for; where it is held for nothing, go on by one step, and play on if it plays."""
        if self.held is not None:
            self._release()
            return
        later = [at for at in self.film.steps if at > self.at_ms and any(a < at <= b for a, b in self.ranges)]
        stop = next(iter(later), self.ranges[-1][1])
        self._run_to(stop)

    def back(self) -> None:
        """Go back to the step before."""
        self.playing = False
        earlier = [at for at in self.film.steps if at < self.at_ms and any(a <= at <= b for a, b in self.ranges)]
        self.go(earlier[-1] if earlier else self.ranges[0][0])

    def tick(self, ms: int) -> bool:
        """Let so many ms pass; return whether anything is to be seen of it."""
        if not self.playing or self.still:
            return False
        if self.held is not None:
            self._waited += ms
            if isinstance(self.held, Caption) and self._waited >= self.held.hold_ms:
                self._release()
                return True
            return False
        if self.ended:
            self.playing = False
            return True
        self._over += ms * SPEEDS[self.speed]
        whole = int(self._over)
        self._over -= whole
        self._run_to(self._along(whole))
        return True

    def _along(self, ms: int) -> int:
        """Return the moment so many ms of what is wanted after the present one."""
        at = self.at_ms
        for start, end in self.ranges:
            if at < end:
                at = max(at, start)
                if at + ms < end:
                    return at + ms
                ms -= end - at
                at = end
        return at

    def _run_to(self, at_ms: int) -> None:
        """Go on to a moment, or to the first cue before it."""
        for number, cue in enumerate(self.film.cues):
            shown = any(start <= cue.at_ms < end for start, end in self.ranges)
            if number not in self._passed and shown and self.at_ms <= cue.at_ms <= at_ms:
                self.at_ms = cue.at_ms
                self._hold()
                return
        self.at_ms = at_ms

    def _hold(self) -> None:
        for number, cue in enumerate(self.film.cues):
            shown = any(start <= cue.at_ms < end for start, end in self.ranges)
            if number not in self._passed and shown and cue.at_ms == self.at_ms:
                self._passed.add(number)
                self.held, self.answer, self._waited = cue, None, 0.0
                if isinstance(cue, Caption):
                    self.said = cue
                return

    def _release(self) -> None:
        self.held, self.answer, self._waited = None, None, 0.0
        self._hold()
