"""The yard on the screen shows what was really delivered: the packs, and what a look at a truss tells."""

import pytest
from attempts import level_of

from trainer.picture.elevation import elevation
from trainer.picture.model import Box, Polygon, Text
from trainer.picture.solids import Stander
from trainer.picture.yard import FAULTS, faults, stacks
from trainer.session import Session
from trainer.site import Stand, packs, shows
from trainer.site.standing import piece_of

BOX: Box = (0.0, 0.0, 9000.0, 4000.0)
MUDDLED = "frogmouth"


def test_every_truss_in_a_pack_is_a_bar_and_one_that_stands_is_gone() -> None:
    session = Session(level_of("wren"), 1)
    edges = {"timber_edge", "mark"}

    def bars() -> int:
        drawn = stacks(packs(session.site), session.site.layout, "ST3", BOX, 10.0)
        return sum(isinstance(item, Polygon) and item.edge in edges for item in drawn)

    assert bars() == len(session.site.layout.members)
    member = session.site.layout.by_tag["G1"]
    session.do(Stand(tag="G1", start=member.start, finish=member.finish))
    assert bars() == len(session.site.layout.members) - 1


def test_packs_lie_beside_each_other_within_their_room() -> None:
    site = Session(level_of("wren"), 1).site
    drawn = [item for item in stacks(packs(site), site.layout, "", BOX, 10.0) if isinstance(item, Polygon)]
    assert len(drawn) >= len(packs(site))
    for item in drawn:
        assert all(BOX[0] <= x <= BOX[2] and BOX[1] <= z for x, z in item.points)


def test_what_is_wrong_with_a_delivered_truss_is_drawn_and_said() -> None:
    site = Session(level_of(MUDDLED), 1).site
    stander = Stander(site.layout)
    told = set()
    for member in site.layout.members:
        flaws = [flaw for flaw in shows(site, member.tag) if flaw in FAULTS]
        framed = stander.framed(piece_of(site, member.tag))
        drawn = list(faults(framed, flaws, 10.0, named=True))
        assert [item.text for item in drawn if isinstance(item, Text)] == [FAULTS[flaw] for flaw in flaws]
        signs = list(faults(framed, flaws, 10.0, named=False))
        assert bool(signs) == bool(flaws) and not any(isinstance(item, Text) for item in signs)
        told |= set(flaws)
    assert told, "this house has faults that can be seen"


@pytest.mark.parametrize("tag", ["ST4", "TG1", "H1", "J3", "S2"])
def test_a_measured_elevation_gives_the_layouts_own_span(tag: str) -> None:
    layout = Session(level_of("wren"), 1).site.layout
    member = layout.by_tag[tag]
    items, _box = elevation(Stander(layout).framed(member), mirrored=False, letters=15.0)
    figures = {item.text for item in items if isinstance(item, Text)}
    assert f"{round(member.span)}" in figures
