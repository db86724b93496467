"""Dutch gables put on the hip ends of generated plans; which ends are hip ends is found apart from the product."""

import random

from plans import may_be_gable
from shapely.geometry import Polygon, box

from trainer.plan import DutchGable, PlatePlan


def hip_ends(plan: PlatePlan) -> list[str]:
    """The walls, between outside corners and beside no gable, on which a whole square stands inside the plan."""
    house, found = Polygon(plan.outline), []
    for wall in plan.walls:
        beside = {plan.walls[wall.index - 1].name, plan.walls[(wall.index + 1) % len(plan.walls)].name}
        if wall.gable or beside & plan.gables or not may_be_gable(list(plan.outline), wall.index):
            continue
        (nx, ny), deep = wall.inward, wall.length
        xs, ys = (wall.a[0], wall.b[0] + nx * deep), (wall.a[1], wall.b[1] + ny * deep)
        if house.covers(box(min(xs), min(ys), max(xs), max(ys))):
            found.append(wall.name)
    return found


def with_dutch(plan: PlatePlan, setback: int, seed: int) -> PlatePlan | None:
    """The plan with a dutch gable on some of its hip ends, in turn at the setback and further in; None: none fits."""
    draw, found = random.Random(f"dutch {seed}"), []
    for name in hip_ends(plan):
        wall = plan.by_name[name]
        if (found and found[-1].wall == plan.walls[wall.index - 1].name) or wall.index == len(plan.walls) - 1:
            continue  # in a square, the ridge runs to one of two neighbours
        half = plan.by_name[name].length / 2
        if half > setback + 1:
            most = int(-(-half // 1)) - 1
            at = setback if seed % 2 else draw.randint(setback, most)
            found.append(DutchGable(name, at, draw.choice([0, 150, 300, 450])))
    if not found:
        return None
    chosen = found if seed % 3 else found[:1]
    return PlatePlan(plan.outline, plan.plate_width, plan.gables, dutch_gables=tuple(chosen))
