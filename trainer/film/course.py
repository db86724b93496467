"""The course of a film: what is done in which order, on the site before each, and when."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from trainer.layout import Layout, Member
from trainer.order import Order, Step
from trainer.site import AnyAction, Site
from trainer.terms import StepVerb

LEAST_MS, MOST_MS = 60_000, 90_000
"""How long a film moves."""
SECONDS: Mapping[StepVerb, float] = {
    "check": 0.2, "report": 0.3, "plan": 0.3, "load": 0.3, "mark": 0.15, "fit": 0.15, "join": 0.3, "stand": 1.6,
    "tie": 0.6, "fix": 0.1, "prop": 0.3, "string": 0.8, "plumb": 0.2, "restrain": 0.6, "strike": 0.3, "frame": 0.6,
    "inspect": 0.2, "stop": 0.5, "secure": 0.6, "hand_over": 2.0,
}  # fmt: skip
"""How long each takes the first time, before all of it is fitted to the length of a film."""
SECONDS_ELSE = 0.1
FASTER, FASTEST = 0.8, 0.3
"""What has been seen goes faster each time it comes again, down to this part of its first time."""


@dataclass(frozen=True)
class Course:
    """Steps, what does each, and the site before each and after the last; ``starts`` are ms, one more than steps."""

    layout: Layout
    order: Order
    seed: int
    steps: tuple[Step, ...]
    actions: tuple[AnyAction, ...]
    sites: tuple[Site, ...]

    @cached_property
    def starts(self) -> tuple[int, ...]:
        """When each step begins, and when the last is over."""
        met: Counter[tuple[StepVerb, str]] = Counter()
        lengths = []
        for step in self.steps:
            member = self.member(step)
            sort = (step.verb, f"{member.kind} {member.wing}" if member else "")
            lengths.append(SECONDS.get(step.verb, SECONDS_ELSE) * max(FASTEST, FASTER ** met[sort]))
            met[sort] += 1
        whole = sum(lengths)
        factor = min(max(whole * 1000, LEAST_MS), MOST_MS) / whole
        starts, at = [0], 0.0
        for length in lengths:
            at += length * factor
            starts.append(round(at))
        return tuple(starts)

    @cached_property
    def stands(self) -> tuple[int, ...]:
        """The numbers of the steps that stand a truss."""
        return tuple(number for number, step in enumerate(self.steps) if step.verb == "stand")

    @cached_property
    def outermost(self) -> frozenset[str]:
        """The full-height trusses that stand before those between them."""
        edges = (edge for edges in self.order.out_of.values() for edge in edges)
        return frozenset(edge.first.tag for edge in edges if edge.why == "outermost first")

    def member(self, step: Step) -> Member | None:
        """The truss that a step is about, if it is about one."""
        return self.layout.by_tag.get(step.tag)

    def stood_before(self, number: int) -> frozenset[str]:
        """The trusses that stand before a step."""
        return frozenset(self.sites[number].at_place)
