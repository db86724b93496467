"""Going through an attempt from its first action to its last: the moment shown, playing, and the strip for both."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from trainer.board import diary_words
from trainer.board.widgets import Button, Choice, Column, Flow, Label, Pad, Widget
from trainer.board.widgets.boxes import Beside
from trainer.board.widgets.scrubber import Scrubber
from trainer.site import as_left
from trainer.terms import SEVERITIES
from trainer.words import _

if TYPE_CHECKING:
    from trainer.rules.finding import Finding
    from trainer.session import Session
    from trainer.site import Site

SPEEDS = (2, 5, 20)
"""Actions a second."""
SPEED_NAMES = (_("slow"), _("middle"), _("fast"))


class LookingBack:
    """The moment of an attempt that is shown: 0 is before the first action. ``moved`` is called when it is another."""

    def __init__(self, session: Session, findings: Sequence[Finding], moved: Callable[[], None]) -> None:
        self._moments = session.moments
        self.last = len(self._moments)
        self._sites = (session.first_site, *(as_left(site) for _outcome, site in self._moments))
        self.at = self.last
        self.playing = False
        self.speed = 1
        self._moved = moved
        self._next_at = 0
        numbers = {outcome.index: number for number, (outcome, _site) in enumerate(self._moments, 1)}
        self.of_finding = {id(finding): numbers[finding.event] for finding in findings if finding.event in numbers}
        self._findings = tuple(findings)

    @property
    def site(self) -> Site:
        """The site at the moment that is shown; what fell lies there until it is cleared."""
        return self._sites[self.at]

    @property
    def found(self) -> tuple[Finding, ...]:
        """What was found just then."""
        return tuple(f for f in self._findings if self.of_finding.get(id(f)) == self.at)

    @property
    def words(self) -> str:
        """What was done just then."""
        if not self.at:
            return _("Before the first action.")
        outcome, site = self._moments[self.at - 1]
        what = ", ".join(filter(None, diary_words.done(outcome.action, site)))
        return _("{n} of {last}: {what}").format(n=self.at, last=self.last, what=what)

    def go(self, moment: int) -> None:
        """Show another moment."""
        self.at = max(0, min(self.last, moment))
        self._moved()

    def go_to(self, finding: Finding) -> None:
        """Show the moment at which something was found."""
        self.go(self.of_finding.get(id(finding), self.at))

    def play(self) -> None:
        """Play on from here, or from the first action if this is the last; again to stop."""
        self.playing = not self.playing
        if self.playing and self.at == self.last:
            self.at = 0
        self._moved()

    def next_finding(self) -> None:
        """Go on to the next moment at which something was found, round to the first."""
        moments = sorted(set(self.of_finding.values()))
        if moments:
            self.playing = False
            self.go(next((moment for moment in moments if moment > self.at), moments[0]))

    def tick(self, now_ms: int) -> None:
        """Let time pass: while it plays, go on when the next action is due."""
        if not self.playing:
            self._next_at = now_ms
            return
        if now_ms < self._next_at:
            return
        self._next_at = now_ms + 1000 // SPEEDS[self.speed]
        if self.at >= self.last:
            self.playing = False
            self._moved()
            return
        self.go(self.at + 1)

    def _set_speed(self, index: int) -> None:
        self.speed = index
        self._moved()

    def strip(self, *, roomy: bool) -> Widget:
        """Return the line through the attempt, with what was found as marks on it, and the buttons to play it.

        Without much room for it, only the line and what plays it; the rest is :meth:`aside`.
        """
        worst: dict[int, str] = {}
        for finding in self._findings:
            moment = self.of_finding.get(id(finding))
            if moment is not None:
                now = worst.get(moment, finding.severity)
                worst[moment] = min(now, finding.severity, key=SEVERITIES.index)
        line = Scrubber(_("Moment"), self.at, self.last, self.go, sorted(worst.items()), key="back/line")
        play = Button(_("Stop") if self.playing else _("Play"), self.play, key="back/play", ground="paper")
        words = Label(self.words, "body" if roomy else "small", "ink", ground="paper", role="status", key="back/words")
        words.least_lines = 2
        under: list[Widget] = [line, Flow([play, *self._more("paper")], gap=8, key="back/buttons")]
        column = Column([words, *(under if roomy else [Beside(line, play)])], gap=2)
        return Pad(column, pad=6, ground="paper", name=_("Looking back"), key="back")

    def aside(self) -> Widget:
        """Return what the strip leaves out where there is little room for it."""
        return Flow(self._more("panel"), gap=8, key="back/buttons")

    def _more(self, ground: str) -> list[Widget]:
        found = bool(self.of_finding)
        return [
            Button(_("Next finding"), self.next_finding, key="back/next", ground=ground, enabled=found),
            Choice(_("Speed"), SPEED_NAMES, self.speed, self._set_speed, key="back/speed"),
        ]
