"""How long a layout takes. By hand only: ``pytest tests/bench --benchmark-only``; nothing here asserts a time."""

import pytest

from trainer.layout import House, TrussSpec, lay_out, loads
from trainer.plan import PlatePlan
from trainer.roof import RoofSpec

PLUS = (
    (5100, 0), (11100, 0), (11100, 4500), (16200, 4500), (16200, 11700), (11100, 11700),
    (11100, 16200), (5100, 16200), (5100, 11700), (0, 11700), (0, 4500), (5100, 4500),
)  # fmt: skip


def house(outline=PLUS) -> House:
    return House(PlatePlan(outline, 90), RoofSpec(22.5, 600, 90), TrussSpec())


@pytest.mark.benchmark(group="layout of a 12-corner house")
def test_layout_with_roof(benchmark):
    def both():
        layout = lay_out(house())
        return layout, layout.roof

    layout, roof = benchmark(both)
    assert len(roof.valleys) == 4
    assert layout.counts["girder"] == 2


@pytest.mark.benchmark(group="layout of a 12-corner house")
def test_loads(benchmark):
    layout = lay_out(house())
    borne = benchmark(loads, layout)
    assert sum(load.direct_m2 for load in borne.values()) == pytest.approx(layout.roof.plan_area_m2)
