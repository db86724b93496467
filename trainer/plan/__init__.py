"""A house's plate plan: the outline of the top plates, its walls, and what can be wrong with it."""

from trainer.plan.dutch import dutch_faults
from trainer.plan.faults import PlanFault, plan_faults
from trainer.plan.model import DutchGable, Plan, Point, Wall, wall_name
from trainer.plan.points import half, middle, to_half
from trainer.plan.straight import Plate, Straightened, straightened

__all__ = [
    "DutchGable",
    "Plan",
    "PlanFault",
    "Plate",
    "Point",
    "Straightened",
    "Wall",
    "dutch_faults",
    "half",
    "middle",
    "plan_faults",
    "straightened",
    "to_half",
    "wall_name",
]
