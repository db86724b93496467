"""What a drill is: a level with part of the work already done, something to do, and when it ends."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from trainer.layout import Layout
from trainer.level import Level
from trainer.order import Step
from trainer.rules.finding import Finding
from trainer.session import Session
from trainer.site import AnyAction, Site, done
from trainer.terms import Stage


class CannotDrill(Exception):  # noqa: N818 - it is an answer about a level, not a fault of the program
    """Raised where a level has nothing to practise a skill on; says what it would need."""


@dataclass(frozen=True, slots=True)
class Result:
    """How a drill went: whether it is ``finished``, how many of its goals are ``reached``, and what was found."""

    finished: bool
    reached: int
    goals: int
    findings: tuple[Finding, ...]

    @property
    def right(self) -> bool:
        """Whether all of it was done, and nothing wrong with it."""
        return self.finished and self.reached == self.goals and not self.findings


@dataclass(frozen=True)
class Drill:
    """One drill on one house.

    ``level`` asks for the drill's own stages only. ``given`` is what others did before: it is not judged and
    can't be undone. The learner is to do ``steps``; or, where there are ``faults``, to reject a truss that is
    one of them. ``rules`` are the mistakes that it practises to avoid.
    """

    kind: str
    title: str
    task: str
    level: Level
    layout: Layout = field(repr=False)
    seed: int
    given: tuple[AnyAction, ...] = field(repr=False)
    steps: tuple[Step, ...] = ()
    faults: tuple[str, ...] = ()
    minutes: int = 3
    rules: tuple[str, ...] = ()

    def session(self) -> Session:
        """Return a session in practice in which all that is given has been done."""
        return Session(self.level, self.seed, layout=self.layout, given=self.given)

    def finished(self, site: Site) -> bool:
        """Whether it ends here: every step is done, or a truss has been rejected."""
        if self.faults:
            return bool(_rejected(site))
        return all(done(site, step) for step in self.steps)

    def result(self, session: Session) -> Result:
        """Return how a session of this drill went so far."""
        site = session.site
        if self.faults:
            reached, goals = int(bool(_rejected(site) & set(self.faults))), 1
        else:
            reached, goals = sum(done(site, step) for step in self.steps), len(self.steps)
        return Result(self.finished(site), reached, goals, session.findings)


def _rejected(site: Site) -> set[str]:
    return {tag for tag, accepted in site.inspected.items() if not accepted}


Make = Callable[[Level, Layout, int], Drill]
"""Makes a drill from a level that asks for the kind's stages; raises :class:`CannotDrill`."""


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of drill: its ``name``, its ``title`` and its ``skill`` in a few words, and the rules it is about."""

    name: str
    title: str
    skill: str
    stages: tuple[Stage, ...]
    minutes: int
    rules: tuple[str, ...]
    make: Make = field(repr=False)

    def on(self, level: Level, layout: Layout, seed: int) -> Drill:
        """Return this kind's drill on a level: with its own stages, and a site on which nothing else is wrong."""
        lesson = level.lesson.model_copy(update={"stages": self.stages, "hints": True})
        bare = {"walls": (), "delivery": (), "wind": "calm", "dangers": (), "lifting": None, "loading": False}
        site = level.site.model_copy(update=bare)
        return self.make(level.model_copy(update={"lesson": lesson, "site": site}), layout, seed)
