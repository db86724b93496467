"""A house's plate plan: the outline of the top plates, its walls, and what can be wrong with it."""

from trainer.plan.against import beams_against
from trainer.plan.beams import beam_faults, beams_of
from trainer.plan.dutch import dutch_faults
from trainer.plan.faults import inside, plan_faults
from trainer.plan.model import Beam, DutchGable, PlatePlan, Point, Wall, wall_name
from trainer.plan.points import half, to_half
from trainer.plan.roof_parts import RoundCorner, gable_of, roof_parts, round_corners
from trainer.plan.straight import Plate, Straightened, straightened
from trainer.plan.tape import corners, hooked_at, read_back, taped
