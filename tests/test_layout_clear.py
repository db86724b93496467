"""Room to work at the end of a row, whatever the length of the house.

The trade brief, "Stations" (common practice, no source): "A standard truss that would stand within a thickness of a
girder or gable truss is left out."
"""

from __future__ import annotations

import pytest

from trainer.layout import House, Layout, Member, TrussSpec, lay_out
from trainer.plan import PlatePlan, Point
from trainer.roof import RoofSpec

SWEEP = range(0, 600, 5)
"""Lengths over one whole bay, mm: somewhere among them a truss comes as near to the end as it can."""


def laid_out(outline: tuple[Point, ...], gables: str, spacing: int = 600, width: int = 90) -> Layout:
    return lay_out(
        House(PlatePlan(outline, width, frozenset(gables)), RoofSpec(22.5, 600, 90), TrussSpec(spacing=spacing))
    )


def clear_air(one: Member, other: Member) -> float:
    """How much air is between two trusses that stand side by side along x, mm."""
    apart = abs(one.start[0] - other.start[0])
    return apart - (one.width + other.width) / 2


def least_air(layout: Layout, kind: str) -> float:
    """The least air between a standard truss and one of a kind beside it, in thicknesses."""
    ends = [m for m in layout.members if m.kind == kind and m.start[0] == m.finish[0]]
    standards = [m for m in layout.members if m.kind == "standard" and m.start[0] == m.finish[0]]
    assert ends and standards
    return min(clear_air(a, b) for a in standards for b in ends) / layout.house.trusses.thickness


@pytest.mark.parametrize(("spacing", "width"), [(600, 90), (450, 90), (300, 245)])
def test_no_standard_truss_stands_within_a_thickness_of_a_gable_truss(spacing: int, width: int) -> None:
    """With wide plates the first gable truss reaches to the first station; at the other end the length decides."""
    for more in SWEEP:
        long = 6000 + more
        layout = laid_out(((0, 0), (long, 0), (long, 5000), (0, 5000)), "BD", spacing, width)
        assert least_air(layout, "gable") >= 1 - 1e-6, long


def test_no_standard_truss_stands_within_a_thickness_of_a_girder() -> None:
    """A wing that frames in from the left, at the opening of the wider one."""
    for more in SWEEP:
        long = 4800 + more
        outline = ((0, 0), (long + 6000, 0), (long + 6000, 12000), (long, 12000), (long, 4800), (0, 4800))
        layout = laid_out(outline, "F")
        assert least_air(layout, "girder") >= 1 - 1e-6, long
