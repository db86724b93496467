"""Every act moves: what it changes on the site comes to its place in a fifth of a second, and not where nothing may."""

import math

import pygame
import pytest
from attempts import level_of
from board_person import Person

from trainer.board.library import read_entry
from trainer.board.scenes.moving import ACT_MS, FALL_MS
from trainer.picture.acts import in_plan, items, movement
from trainer.picture.model import Item, Line
from trainer.picture.solids import Stander
from trainer.picture.space import Turn
from trainer.session import Session
from trainer.shipped import find_level
from trainer.site import AnyAction, Brace, Fix, Stand
from trainer.site.actions import Mark, Plumb, Remove, String, Unbrace

LEVEL = "wren"


def acts() -> list[AnyAction]:
    layout = Session(level_of(LEVEL), 4).site.layout
    one, two = (layout.by_tag[tag] for tag in ("ST13", "ST14"))
    return [
        Mark(wall="A", at=1800),
        Stand(tag=one.tag, start=one.start, finish=one.finish),
        Brace(kind="solid", tags=(one.tag,)),
        Fix(tag=one.tag, end=1, with_="framing anchor"),
        Stand(tag=two.tag, start=two.start, finish=two.finish),
        Brace(kind="solid", tags=(two.tag,)),
        String(start=one.tag, finish=two.tag),
        Plumb(tag=two.tag),
        Unbrace(kind="solid", tags=(two.tag,)),
        Remove(tag=two.tag),
    ]


@pytest.mark.parametrize("number", range(10))
def test_what_an_act_changes_moves_and_ends_where_it_is(number: int) -> None:
    session = Session(level_of(LEVEL), 4)
    for action in acts()[:number]:
        session.do(action)
    before = session.site
    assert session.do(acts()[number]).refused is None
    stander = Stander(before.layout)
    moves = movement(before, session.site, stander)
    assert moves, acts()[number]
    for flat in (in_plan, Turn().all_flat):
        frames = [items(moves, share, flat) for share in (0.0, 0.5, 1.0)]
        assert frames[0] != frames[1] != frames[2]
    assert not movement(session.site, session.site, stander)
    if isinstance(acts()[number], Stand):
        solid = stander.solid(session.site, acts()[number].tag)
        assert _off(items(moves, 1.0, in_plan)[0], in_plan(solid.rim)) < 1
        assert _off(items(moves, 0.0, in_plan)[0], in_plan(solid.rim)) > 3000
        back = items(movement(session.site, before, stander), 1.0, in_plan)[0]
        assert _off(back, in_plan(solid.rim)) > 3000, "taken back, it goes the way it came"


def _off(item: Item, places: tuple[tuple[float, float], ...]) -> float:
    assert isinstance(item, Line)
    return max(math.dist(a, b) for a, b in zip(item.points, places, strict=True))


@pytest.mark.parametrize("still", [False, True])
def test_on_the_board_it_is_over_in_a_fifth_of_a_second_and_the_next_act_waits_for_none(still: bool) -> None:
    assert 150 <= ACT_MS <= 250 < FALL_MS
    person = Person((1280, 800))
    person.app.services.go_work(read_entry(find_level(LEVEL)), "practice")
    person.app.ui.look.still = still
    person.wait(4)
    for action in acts()[:3]:  # one after the other, with no time between them
        person.work.do([action])
        person.work.close_note() if person.work.noted else None
    assert {"ST13"} == set(person.work.site.stood)
    moving = person.work.views.moving
    person.wait(1, ms=50)
    person.wait(1, ms=50)
    assert bool(moving.items()) != still
    person.wait(1, ms=ACT_MS)
    assert not moving.items()
    pygame.event.clear()
