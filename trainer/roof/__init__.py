"""The roof over a plate plan, exactly: planes, ridges, hips, valleys, heights and areas."""

from trainer.roof.model import Face, Roof, RoofSpec

__all__ = ["Face", "Roof", "RoofSpec"]
