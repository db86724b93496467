"""Where a part goes that is fitted by mouse: beside the end of a ledger, and under a truss that waits."""

from unittest.mock import Mock

import pytest
from attempts import attempt, layout_of

from trainer.board.tools.registry import Toolbox
from trainer.board.widgets import NumberEntry
from trainer.site import Fit, Stand
from trainer.site.load_path import trimmer_at

MM_PER_PX = 20.0
"""About what a whole house is looked at by."""


def fitting(level: str, part: str, *stood: str) -> Toolbox:
    """The tools of a level where some trusses stand in their places, with a part in the hand."""
    members = [layout_of(level).by_tag[tag] for tag in stood]
    tools = Toolbox(attempt(level, [Stand(tag=each.tag, start=each.start, finish=each.finish) for each in members]))
    assert set(tools.hand.site.stood) == set(stood)
    tools.use("fit").part = part
    return tools


def aimed(tools: Toolbox, place: tuple[float, float], mm_per_px: float = MM_PER_PX) -> tuple[str, float | None]:
    """What a part is fitted to by a press on a place, and where along that."""
    tools.point_at(place, 14 * mm_per_px, mm_per_px)
    (action,) = tools["fit"].actions()
    assert isinstance(action, Fit)
    return action.on, action.at


# jacana's ledgers D and C meet at the inside corner (3350, 2890): its drawing


@pytest.mark.parametrize("mm_per_px", (1.0, MM_PER_PX))
def test_by_the_corner_of_two_ledgers_a_bracket_goes_on_the_nearer(mm_per_px: float) -> None:
    tools = fitting("jacana", "hanger")
    assert aimed(tools, (3385.0, 2890.0), mm_per_px)[0] == "ledger C"
    assert aimed(tools, (3350.0, 2925.0), mm_per_px)[0] == "ledger D"


def test_right_on_the_corner_a_bracket_goes_on_the_ledger_that_is_held() -> None:
    tools = fitting("jacana", "hanger")
    for held, beside in (("ledger C", (3500.0, 2890.0)), ("ledger D", (3350.0, 3040.0))):
        assert aimed(tools, beside)[0] == held
        assert aimed(tools, (3350.0, 2890.0))[0] == held


def test_near_its_end_on_a_ledger_a_girder_takes_a_bracket_and_the_ledger_is_still_to_be_had() -> None:
    tools = fitting("jacana", "hanger", "G1")
    assert aimed(tools, (3385.0, 2700.0))[0] == "G1"
    assert aimed(tools, (3385.0, 2700.0), 1.0) == ("G1", 2700.0)
    assert aimed(tools, (5000.0, 2890.0))[0] == "ledger C"
    assert aimed(tools, (3385.0, 2890.0))[0] == "ledger C"
    assert aimed(tools, (3700.0, 2800.0))[0] == "ledger C"


# a trimmer goes from one truss to the next, so its middle is halfway between them: common practice, no source


def stops(tools: Toolbox, tag: str) -> tuple[float, ...]:
    """Where the entry of a place along a waiting truss stops."""
    tools["fit"].on, tools["fit"].by_place = tag, True

    widgets = [widget for control in tools["fit"].controls(Mock()) for widget in control.walk()]
    (entry,) = (w for w in widgets if isinstance(w, NumberEntry))
    return tuple(entry.stops)


def test_a_trimmer_under_a_truss_that_waits_stops_between_the_trusses_that_stand() -> None:
    by_tag = layout_of("quail").by_tag
    tools = fitting("quail", "trimmer", *sorted({tag for saddle in ("S2", "S3") for tag in by_tag[saddle].carried_by}))
    site = tools.hand.site
    for number, part in enumerate(site.layout.parts):
        if part.part == "trimmer":
            assert trimmer_at(site, part.on, number) in stops(tools, part.on)
    assert 260.0 in stops(tools, "S2")


def test_with_nothing_under_it_yet_a_trimmer_has_nowhere_to_stop() -> None:
    assert stops(fitting("quail", "trimmer"), "S2") == ()
