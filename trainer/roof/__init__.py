"""The roof over a plate plan, exactly: planes, ridges, hips, valleys, heights and areas."""

from trainer.roof.distance import distance
from trainer.roof.model import Face, Roof, RoofSpec
from trainer.roof.solve import solve
