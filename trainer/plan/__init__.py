"""A house's plate plan: the outline of the top plates, its walls, and what can be wrong with it."""

from trainer.plan.faults import PlanFault, plan_faults
from trainer.plan.model import Plan, Point, Wall, wall_name

__all__ = ["Plan", "PlanFault", "Point", "Wall", "plan_faults", "wall_name"]
