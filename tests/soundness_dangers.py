"""Dangers of the day and lifts, read from the trade brief a second time, beside ``soundness.py``.

Knows a level's site block and what was done, and neither the rules nor the site's own state. Common practice, no
source.
"""

import math
from dataclasses import dataclass, field

from soundness_beams import of_post, under

from trainer.layout import Layout
from trainer.layout.webs import webs
from trainer.level import Level

LATER = ("gust at noon", "pack on a half-braced row", "post brace taken off")
OF_BEAMS, OF_POSTS = ("beam not bolted down", "beam propped"), ("post not braced", "post not tied down")
NEAR = 1500


@dataclass
class Dangers:
    """What can hurt somebody on one level, and what is decided about lifting and loading."""

    level: Level
    layout: Layout
    lifts: int = 0
    planned: dict[str, object] = field(default_factory=dict)
    lifted: set[str] = field(default_factory=set)
    pattern: str = ""

    def __post_init__(self):
        site = self.level.site
        self.left = [d for d in site.dangers if d.what != "service line" or d.clear < site.clear_of_lines]
        self.asked = "pre-start" in self.level.lesson.stages

    def report(self, action):
        """Whether what is reported is a danger that is there; it is then put right."""
        names = {"wall not braced": "unbraced wall"}
        right = [
            d
            for d in self.left
            if d.what == names.get(action.fault, action.fault)
            and (d.after or 0) <= self.lifts
            and (d.at is None or (action.at is not None and math.dist(d.at, action.at) <= NEAR))
            and (d.wall, d.tag) == (action.wall, action.tag)
        ]
        self.left = [d for d in self.left if d not in right]
        return bool(right)

    def stop(self):
        gust = [d for d in self.left if d.what == "gust at noon" and d.after == self.lifts]
        self.left = [d for d in self.left if d not in gust]

    def stand(self, tag, place):
        there = place or self.layout.by_tag[tag]
        walls = {end.bears_on.split()[-1] for end in there.ends} | {self.layout.at_wall.get(there.tag)}
        beams = {under(self.level, end) for end in there.ends} - {None}
        for d in self.left:
            if d.what in (*OF_BEAMS, *OF_POSTS):
                if self.asked and beams & ({d.wall} if d.what in OF_BEAMS else of_post(self.level, d.at)):
                    yield f"{tag} on a beam: {d.what}"
            elif d.what in LATER:
                if d.after == self.lifts:
                    yield f"{tag} lifted in spite of a {d.what}"
            elif self.asked and d.what == "unbraced wall":
                if d.wall in walls:
                    yield f"{tag} on wall {d.wall}: not braced"
            elif self.asked and d.what == "sling at the apex":
                if d.tag == tag:
                    yield f"{tag} slung by its apex"
            elif self.asked and not self.lifts:
                yield f"lifted with a {d.what}"
        kind = (place or self.layout.by_tag[tag]).kind
        if self.asked and self.level.site.lifting and kind not in self.lifted:
            yield from self.wrong_plan(kind)
        self.lifted.add(kind)
        self.lifts += 1

    def wrong_plan(self, kind):
        """ "Two people on short spans by hand within the level's limit of mass, crane beyond"; how it is slung."""
        plan, limits = self.planned.get(kind), self.level.site.lifting
        if plan is None:
            yield f"{kind} lifted without a plan"
            return
        of_kind = [m for m in self.layout.members if m.kind == kind]
        long, heavy = max(m.span for m in of_kind), max(self.mass(m) for m in of_kind)
        if plan.people < 2:
            yield f"{kind} lifted by one"
        if plan.by == "hand" and (heavy > limits.by_hand or long > limits.by_hand_span):
            yield f"{kind} lifted by hand"
        if plan.slung == "apex" or (plan.slung == "panel points" and long > limits.spread_over):
            yield f"{kind} slung by {plan.slung}"

    def mass(self, member):
        frame, timber = webs(member, self.layout.house), self.layout.house.trusses.thickness * member.plies
        top = sum(math.dist(a, b) for a, b in zip(frame.top, frame.top[1:], strict=False))
        area = 90 * top + frame.bottom_depth * member.span + 70 * sum(web.length for web in frame.webs)
        return area * timber * self.level.site.lifting.density / 1e9

    def hand_over(self):
        if self.pattern not in ("", "both slopes"):
            yield f"first packs {self.pattern}"
        if self.level.site.loading and not self.pattern and "hand-over" in self.level.lesson.stages:
            yield "not a word on the first packs"
