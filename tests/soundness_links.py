"""The load path from roof to wall: read from the trade brief a second time, beside ``soundness.py``.

Knows the layout, the level's own schedule and what was done, and neither the rules, the precedence graph nor the
site's own state. Common practice, no source, unless one is named.
"""

import math
from collections import defaultdict
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise

from soundness_beams import under

from trainer.layout import Layout
from trainer.layout.shares import loads
from trainer.level import Level

NEAR = 150.0
"""How near to its place a part or a fixing must be, mm."""
TOLERANCE = 10.0
STEP = 100
ENOUGH = {"framing anchor": ("framing anchor", "tie-down strap"), "tie-down strap": ("tie-down strap",)}
CROSSED_BY = ("standard", "girder", "truncated_girder", "truncated", "jack", "creeper", "gable", "half")


@dataclass
class Links:
    """The links of one roof as it goes up. ``in_place``: place to the truss in it."""

    layout: Layout
    in_place: dict[str, str]
    level: Level | None = None
    parts: dict[str, list] = field(default_factory=lambda: defaultdict(list))
    braced: list = field(default_factory=list)
    joints: dict = field(default_factory=lambda: defaultdict(list))
    ends: dict = field(default_factory=lambda: defaultdict(list))
    slots: list = field(default_factory=list)

    @cached_property
    def loads(self):
        """How much roof comes down on each truss: the same whenever it is asked."""
        return loads(self.layout)

    def fit(self, action):
        self.parts[action.on].append((action.part, action.at))

    def fix(self, action):
        """Yield what is wrong with a fixing: hard to a wall that must not carry."""
        if action.end:
            self.ends[action.tag, action.end].append((action.with_, action.count))
        elif action.with_ == "slotted bracket":
            self.slots.append(action.at)
        elif crossing := self.crossing_at(action):
            self.joints[crossing.over, crossing.under].append((action.with_, action.count))
        else:
            yield f"{action.tag} fixed hard to a wall with {action.with_}"

    def crossing_at(self, action):
        """A truss on both sides of several crossings at one spot is fixed to what has none yet."""
        near = [c for c in self.extensions() if math.dist(c.at, action.at) <= NEAR]
        ours = [c for c in near if self.in_place.get(c.over) == action.tag]
        ours += [c for c in near if self.in_place.get(c.under) == action.tag and c.over in self.in_place]
        ours.sort(key=lambda c: round(math.dist(c.at, action.at)))
        nearest = [c for c in ours if round(math.dist(c.at, action.at)) == round(math.dist(ours[0].at, action.at))]
        there = set(self.in_place)
        nearest.sort(
            key=lambda c: (
                not {c.over, c.under} <= there,
                bool(self.joints[c.over, c.under]),
                self.in_place.get(c.over) != action.tag,
                c.over,
            )
        )
        return next(iter(nearest), None)

    def extensions(self):
        return [c for c in self.layout.crossings if c.what == "extension"]

    def set_down(self, place):
        """ "Multi-ply girders joined before they carry", and what must lie under a saddle."""
        for carrier in place.carried_by:
            yield from self.unjoined(carrier)
        if place.kind == "saddle":
            kinds = [part for part, _ in self.parts[place.tag]]
            if "batten" not in kinds:
                yield f"{place.tag} without its batten"
            names = {end.bears_on for end in place.ends}
            for part in self.layout.parts:
                if part.part == "trimmer" and part.name in names and not self.trimmer(place, part):
                    yield f"{place.tag} without {part.name}"

    def unjoined(self, tag):
        if self.layout.by_tag[tag].plies > 1 and ("plies joined", None) not in self.parts[self.in_place.get(tag, tag)]:
            yield f"{tag} not joined"

    def trimmer(self, saddle, part):
        """Where the middle of the trimmer comes, no further than the saddle's own ends."""
        (x, y), (ux, uy) = saddle.start, saddle.direction
        mx, my = ((a + b) / 2 for a, b in zip(part.start, part.finish, strict=True))
        run = min(max((mx - x) * ux + (my - y) * uy, 0), saddle.span)
        return any(p == "trimmer" and abs(at - run) <= NEAR + 1 for p, at in self.parts[saddle.tag] if at is not None)

    def free_extension(self, place, bracing):
        """ "Until the truncated trusses under it stand, it is propped or tied"."""
        over = [c for c in self.extensions() if c.over == place.tag and self.layout.by_tag[c.under].flat_topped]
        truss = self.in_place[place.tag]
        tied = any(truss in tags for _kind, tags in bracing) or any(self.joints[c.over, c.under] for c in over)
        if not tied and not all(c.under in self.in_place for c in over):
            yield f"{truss} with its extension hanging free"

    def hand_over(self):
        for crossing in self.extensions():
            if {crossing.over, crossing.under} <= set(self.in_place):
                yield from self.loose_crossing(crossing)
        for tag in self.in_place:
            yield from self.unjoined(tag)
        yield from self.loose_walls()

    def light(self, place, end, own_end):
        """ "Uplift on a bearing = net pressure × tributary area" [S: AS 1684 guides] against the level's capacities."""
        wanted = place.ends[end - 1].fixing
        if wanted not in ENOUGH:
            return
        load = self.loads[place.tag]
        area = load.direct_m2 / 2 if place.kind == "saddle" else load.ends_m2[end - 1]
        open_below = under(self.level, place.ends[end - 1]) is not None
        if self.short(self.ends[self.in_place[place.tag], own_end], wanted, area, open_below):
            yield f"{place.tag} held too lightly at end {end}"

    def loose_crossing(self, crossing):
        """An extension is fixed at every crossing, against the lift of the roof that comes down there."""
        wanted = self.layout.house.fixings.crossing
        fixed = self.joints[crossing.over, crossing.under]
        if not any(name in ENOUGH[wanted] for name, _ in fixed):
            yield f"{crossing.over} not fixed where it crosses {crossing.under}"
        elif self.short(fixed, wanted, self.loads[crossing.over].crossings_m2.get(crossing.under, 0.0)):
            yield f"{crossing.over} held too lightly where it crosses {crossing.under}"

    def short(self, fixed, wanted, area, open_below=False):
        """Whether what is fixed holds less than the wind lifts that much roof; "open underneath" it lifts harder."""
        if self.level is None:
            return False
        capacity = self.level.tie_down.capacity.model_dump(by_alias=True)
        holds = sum(capacity[name] * count for name, count in fixed if name in ENOUGH[wanted])
        tie_down = self.level.tie_down
        over_beams = tie_down.open_net_pressure or 1.5 * tie_down.net_pressure
        return holds < (over_beams if open_below else tie_down.net_pressure) * area - 0.01

    def loose_walls(self):
        """Where an internal wall runs under trusses, its top is held no further apart than the house's own value."""
        widest = self.layout.house.fixings.wall_brackets + TOLERANCE
        for wall in self.layout.house.plan.internal_walls:
            for a, b in pairwise(wall):
                along = 0 if a[1] == b[1] else 1
                low, high = sorted((a[along], b[along]))
                held = sorted(
                    s[along] for s in self.slots if abs(s[1 - along] - a[1 - along]) < 1 and low <= s[along] <= high
                )
                for one, other in pairwise([low, *held, high]):
                    if other - one > widest and any(
                        one < at < other and other - one > widest for at in self.could(along, a[1 - along], low, high)
                    ):
                        yield f"internal wall loose from {one} to {other}"

    def could(self, along, line, low, high):
        """Where a bracket could go: under a truss that crosses, under one that lies along, or between two that do."""
        for member in self.layout.members:
            if member.kind in CROSSED_BY and member.start[along] == member.finish[along]:
                near, far = sorted((member.start[1 - along], member.finish[1 - along]))
                inside = low + NEAR <= member.start[along] <= high - NEAR
                if inside and near + NEAR <= line <= far - NEAR:
                    yield member.start[along]
        for at in range(int(low) + STEP, int(high), STEP):
            alongside = [
                m for m in self.layout.members if m.kind in CROSSED_BY and m.start[1 - along] == m.finish[1 - along]
            ]
            offs = [
                m.start[1 - along] - line
                for m in alongside
                if min(m.start[along], m.finish[along]) + NEAR <= at <= max(m.start[along], m.finish[along]) - NEAR
            ]
            reach = 1.5 * self.layout.house.trusses.spacing
            if any(abs(off) <= 60 for off in offs) or (
                any(0 < off <= reach for off in offs) and any(-reach <= off < 0 for off in offs)
            ):
                yield at
