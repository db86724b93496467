"""Gable and verge framing: read from the trade brief a second time, beside ``soundness.py``.

"Outriggers run in over the gable truss at least as far as they stand out, both measured from the gable truss's
centre, and to a full truss centre: never ended between trusses"; "set back from the wall line it is packed out or
studded for cladding or brick ties"; "verge and gable framing after the rows are straight". Common practice, no source.
"""

from trainer.layout import Layout
from trainer.level import Level

NEAR = 10.0
LAPPED = 100.0
"""Past the truss that holds an end by no more than this."""
TIPS_OVER = ("standard", "girder", "truncated_girder", "truncated", "gable", "half")


class Verge:
    """The framing of the gables of one attempt."""

    def __init__(self, level: Level, layout: Layout):
        self.layout, self.level = layout, level
        self.sets = {}
        self.fixes = "fix" in level.lesson.stages
        self.asked = level.gable_framing and "fix" in level.lesson.stages

    def fit(self, action, build):
        begun = [s.part for s in self.sets.get(action.on, ())]
        first = action.part in ("outrigger", "verge ladder") and action.part not in begun
        self.sets.setdefault(action.on, []).append(action)
        if first and self.asked:
            yield from self.too_soon(action.on, build)

    def too_soon(self, tag, build):
        place = build.place_of[tag][0] if tag in build.place_of else self.layout.by_tag[tag]
        row, held = [m for m in self.layout.members if m.row == place.row and m.kind in TIPS_OVER], build.held()
        stages = self.level.lesson.stages
        tags = [build.in_place.get(m.tag) for m in row]
        up = "stand" not in stages or all(tags)
        tied = "brace" not in stages or all(t in held for t in tags)
        straight = "stand" not in stages or all(t and build.straight(t) for t in tags)
        braced = build.permanent is None or build.permanent.whole(place.row, build)
        if not (up and tied and straight and braced):
            yield f"verge at {tag} framed before its row is done"

    def hand_over(self, build):
        spacing, house = self.level.trusses.spacing, self.layout.house
        yield from self.dutch_gables(build)
        for gable in self.layout.members:
            tag = build.in_place.get(gable.tag)
            if gable.kind != "gable" or tag is None or not self.asked:
                continue
            fitted = self.sets.get(tag, [])
            if house.roof.overhang:
                yield from self.outriggers(gable, [s for s in fitted if s.part == "outrigger"], spacing)
                if not any(s.part == "verge rafter" for s in fitted):
                    yield f"{tag} without verge rafters"
            studs = [s for s in fitted if s.part == "gable stud" and s.every and s.every <= spacing + NEAR]
            packed = any(s.part == "packer" for s in fitted)
            if house.trusses.gable_stands == "inside plate" and not studs and not packed and gable.span > spacing:
                yield f"{tag} without studs or packing"

    def dutch_gables(self, build):
        """ "Their own top chords land on the waling plate"; "the small verge is a ladder fixed to the face"."""
        for part, on in {(part.part, part.on) for part in self.layout.parts}:
            tag = build.in_place.get(on)
            wanted = self.asked if part == "verge ladder" else part == "waling plate" and self.fixes
            if tag and wanted and not any(s.part == part for s in self.sets.get(tag, ())):
                yield f"{tag} without {part}"

    def outriggers(self, gable, sets, spacing):
        along = 0 if gable.start[0] == gable.finish[0] else 1
        others = [m for m in self.layout.members if m.row == gable.row and m.kind in TIPS_OVER and m is not gable]
        far_in = sorted(abs(m.start[along] - gable.start[along]) for m in others)
        out = self.out_past(gable, along, others)
        reach = next((far for far in far_in if far >= out), far_in[-1] if far_in else 0.0)
        if not any(s.every and s.every <= spacing + NEAR for s in sets):
            yield f"{gable.tag} without outriggers at the spacing"
        if any(s.back is not None and s.back < reach - NEAR for s in sets):
            yield f"outriggers on {gable.tag} not in as far as out, and to a truss"
        for one in sets:
            if one.back is not None and min((abs(far - one.back) for far in far_in), default=0.0) > LAPPED:
                yield f"outriggers on {gable.tag} end between trusses"

    def out_past(self, gable, along, others):
        """How far past the gable truss's centre the verge is: to the outside of its wall, and the overhang."""
        outward = 1 if all(m.start[along] < gable.start[along] for m in others) else -1
        walls = [
            wall.a[along] for wall in self.layout.house.plan.walls if wall.gable and wall.inward[along] == -outward
        ]
        line = min(walls, key=lambda at: abs(at - gable.start[along]))
        return abs(line - gable.start[along]) + self.layout.house.roof.overhang
